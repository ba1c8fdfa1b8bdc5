/**
 * The worker's comparison of two axles: what is quick first, and the thread let go of between pieces of work, so that
 * it goes on beside the study of the axle that is shown. What a side has come to is kept while it is one of the last few.
 */
import {
  type AxlePair,
  axlePairsOf,
  comparisonOf,
  type Side,
} from '../../geometry/compare/compare.ts';
import { shopOf } from '../../geometry/compare/names.ts';
import type { Sentence } from '../../geometry/compare/paragraph.ts';
import type { PairWorth } from '../../geometry/compare/worth.ts';
import { candidateRows } from './candidateRows.ts';
import { measureColumns, measureMap } from './columns.ts';
import type {
  Both,
  CandidateRequest,
  CandidateTold,
  CompareDesk,
  CompareEvent,
  CompareRequest,
  SideRequest,
  Stage,
} from './compareProtocol.ts';
import { FINE } from './gapStudy.ts';
import { meshesFrom } from './meshes.ts';
import { inPieces, light, PIECE_ms, quietly, turn } from './pieces.ts';
import { type Draw, drawFor, Walked } from './walked.ts';
import { wideGrid } from './wideGrid.ts';

/** Sides that are kept: of two that are exchanged, and of one that was looked at in between. */
const KEPT = 3;
/** Between two tellings of how far the work is, ms. */
const TELL_ms = 120;

/** The questions in between; of each the newest alone is worked on. */
type Question = 'maps' | 'columns';

export class CompareWork implements CompareDesk {
  #newest = 0;
  #newestCandidates = 0;
  #sides: Both<Walked> | null = null;
  #kept: Walked[] = [];
  readonly #asked: Record<Question, number> = { maps: 0, columns: 0 };

  stop(): void {
    this.#newest++;
    this.#newestCandidates++;
    this.#sides = null;
    this.#kept = [];
  }

  async compare(request: CompareRequest, tell: (event: CompareEvent) => void): Promise<void> {
    const { generation, a, b } = request;
    this.#newest = generation;
    this.#sides = null;
    const goesOn = (): boolean => generation === this.#newest;
    const say = (event: Told): void => tell(light({ generation, ...event } as CompareEvent));
    try {
      const draw = await drawFor([a, b]);
      await inPieces(this.#pieces(request, draw), goesOn, say);
      if (goesOn()) await this.#worth(request, draw, say);
      if (goesOn()) say({ kind: 'done' });
    } catch (error) {
      console.error(error);
      if (goesOn()) say({ kind: 'failed', message: String(error) });
    }
  }

  async candidates(
    { generation, base, part, options }: CandidateRequest,
    tell: (row: CandidateTold) => void,
  ): Promise<void> {
    this.#newestCandidates = generation;
    const draw = await drawFor([base, ...options.map(({ side }) => side)]);
    const rows = candidateRows(base, part, options, draw, asked => this.#walked(asked));
    await inPieces(rows, () => generation === this.#newestCandidates, tell);
  }

  /** All but what the differences are worth; what is yielded is told. */
  *#pieces(request: CompareRequest, draw: Draw): Generator<Told | null> {
    const a = yield* this.#walked(request.a);
    const b = yield* this.#walked(request.b);
    this.#sides = { a, b };
    yield { kind: 'ranges', ranges: { a: a.range(), b: b.range() } };
    const pairs = axlePairsOf([a.walk], [b.walk]);
    if (!a.isSearched || !b.isSearched) yield this.#report('measures', pairs);
    yield* this.#search(draw, [a, request.a], [b, request.b]);
    yield this.#report('gaps', pairs);
    yield { kind: 'progress', what: 'maps', share: 0 };
    yield* this.#grids(a, b);
    if (a.gaps && b.gaps) {
      const maps = {
        a: yield* quietly(a.gaps.fineMap()),
        b: yield* quietly(b.gaps.fineMap()),
      };
      yield { kind: 'maps', maps };
    }
  }

  *#walked(asked: SideRequest): Generator<null, Walked> {
    const side = this.#kept.find(({ key }) => key === asked.key) ?? (yield* Walked.steps(asked));
    this.#kept = [side, ...this.#kept.filter(each => each !== side)].slice(0, KEPT);
    return side;
  }

  /** @param worth of the pair's differences; null: not known yet */
  #report(
    stage: Stage,
    pairs: readonly AxlePair[],
    worth: readonly PairWorth[] | null = null,
  ): Told {
    const { a, b } = this.#sides as Both<Walked>;
    const [one, other] = [a.side(), b.side()];
    const report = comparisonOf(one, other, pairs, worth);
    const inUnit = (unit: 'in' | 'mm'): Sentence[] => {
      if (unit === shopOf(one.build, other.build).unit) return report.sentences;
      const shown = ({ build, ...rest }: Side): Side => ({ ...rest, build: { ...build, unit } });
      return comparisonOf(shown(one), shown(other), pairs, worth).sentences;
    };
    return { kind: 'report', stage, report, sentences: { in: inUnit('in'), mm: inUnit('mm') } };
  }

  *#search(
    draw: Draw,
    ...sides: readonly (readonly [Walked, SideRequest])[]
  ): Generator<Told | null> {
    const open = sides.filter(([{ isSearched }]) => !isSearched);
    let told = performance.now();
    for (const [i, [side, asked]] of open.entries()) {
      for (const share of side.search(asked, draw)) {
        if (performance.now() - told > TELL_ms) {
          yield { kind: 'progress', what: 'gaps', share: (i + share) / open.length };
          told = performance.now();
        } else yield null;
      }
    }
  }

  /** One grid for both, over all that either reaches. */
  *#grids(a: Walked, b: Walked): Generator<null> {
    const over = [...a.walk.range.edge, ...b.walk.range.edge];
    for (const [side, twin] of [
      [a, b],
      [b, a],
    ] as const) {
      if (!side.gaps || side.gridWith === twin.key) continue;
      const { range, reach } = side.walk;
      side.gaps.wide = yield* quietly(wideGrid(range, reach, FINE.size, FINE.turns, over));
      side.gridWith = twin.key;
    }
  }

  /** What the differences are worth: each taped value of both is shifted and all is measured again. */
  async #worth(
    { generation, a: askedA, b: askedB }: CompareRequest,
    draw: Draw,
    tell: (event: Told) => void,
  ): Promise<void> {
    // reads builds: large, and wanted last
    const { tolerancesOf } = await import('../../geometry/compare/shifted.ts');
    if (generation !== this.#newest || !this.#sides) return;
    const { a, b } = this.#sides;
    const pairs = axlePairsOf([a.walk], [b.walk]);
    const [one, other] = [
      { build: a.walk.build, file: askedA.file },
      { build: b.walk.build, file: askedB.file },
    ];
    const steps = tolerancesOf(one, other, pairs, {
      a: { gaps: a.side().gaps, readMesh: meshesFrom(askedA.meshes, draw) },
      b: { gaps: b.side().gaps, readMesh: meshesFrom(askedB.meshes, draw) },
    });
    let told = performance.now();
    for (;;) {
      const { done, value } = steps.next();
      if (done) {
        tell(this.#report('worth', pairs, value));
        return;
      }
      if (performance.now() - told > TELL_ms) {
        tell({ kind: 'progress', what: 'worth', share: value });
        told = performance.now();
      }
      await turn();
      if (generation !== this.#newest) return;
    }
  }

  pairMaps(a: string, b: string): ReturnType<CompareDesk['pairMaps']> {
    return this.#answer('maps', function* (side) {
      return (yield* side.gaps?.pairMap(a, b) ?? []) ?? null;
    });
  }

  measureMaps(
    ...asked: Parameters<CompareDesk['measureMaps']>
  ): ReturnType<CompareDesk['measureMaps']> {
    return this.#answer('maps', side =>
      measureMap(side.walk, side.gridWith === null ? null : (side.gaps?.wide ?? null), ...asked),
    );
  }

  columns(...asked: Parameters<CompareDesk['columns']>): ReturnType<CompareDesk['columns']> {
    return this.#answer('columns', side => measureColumns(side.walk, ...asked));
  }

  /** The same question to both, in pieces; null where a newer one of its kind, or a newer pair, comes between. */
  async #answer<Answer>(
    question: Question,
    begin: (side: Walked) => Generator<unknown, Answer | null>,
  ): Promise<Both<Answer> | null> {
    const sides = this.#sides;
    const mine = ++this.#asked[question];
    if (!sides) return null;
    const out: Partial<Both<Answer>> = {};
    let since = performance.now();
    for (const of of ['a', 'b'] as const) {
      const steps = begin(sides[of]);
      for (;;) {
        const { done, value } = steps.next();
        if (done) {
          if (value === null) return null;
          out[of] = value as Answer;
          break;
        }
        if (performance.now() - since < PIECE_ms) continue;
        await turn();
        if (sides !== this.#sides || mine !== this.#asked[question]) return null;
        since = performance.now();
      }
    }
    return light(out as Both<Answer>);
  }
}

type Told = CompareEvent extends infer Each
  ? Each extends { generation: number }
    ? Omit<Each, 'generation'>
    : never
  : never;
