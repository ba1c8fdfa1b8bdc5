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
import { Finder } from '../../geometry/cycle/extremes.ts';
import { gridSteps } from '../../geometry/cycle/grid.ts';
import { findRange } from '../../geometry/cycle/range.ts';
import type { AxleWalk } from '../../geometry/cycle/walkReport.ts';
import { findFindings } from '../../geometry/finding/finding.ts';
import type { drawnMesh } from '../../geometry/gap/drawnMesh.ts';
import { settle } from '../../geometry/pose/model.ts';
import { measureColumns, measureMap } from './columns.ts';
import type {
  Both,
  CompareDesk,
  CompareEvent,
  CompareRequest,
  SideRequest,
  Stage,
} from './compareProtocol.ts';
import { FINE, GapStudy } from './gapStudy.ts';
import { meshesFrom } from './meshes.ts';
import { light, PIECE_ms, quietly, turn } from './pieces.ts';
import type { RangeTold } from './protocol.ts';
import { wideGrid } from './wideGrid.ts';

/** Sides that are kept: of two that are exchanged, and of one that was looked at in between. */
const KEPT = 3;
/** Between two tellings of how far the work is, ms. */
const TELL_ms = 120;

type Draw = typeof drawnMesh | null;

/** One of the two, as far as it has come. */
class Walked {
  readonly key: number;
  readonly walk: AxleWalk;
  gaps: GapStudy | null = null;
  isSearched = false;
  /** Key of the side that its grid is shared with. */
  gridWith: number | null = null;
  #side: Side | null = null;

  private constructor(key: number, walk: AxleWalk) {
    this.key = key;
    this.walk = walk;
  }

  static *steps({ key, build, axle: name, mechanism }: SideRequest): Generator<null, Walked> {
    const axle = build.axles.find(each => each.name === name);
    const settled = settle(mechanism);
    if (!axle || !settled.ok) throw new Error(`no ${name} axle that settles`);
    const { model } = settled;
    const { range, reach } = findRange(build, axle, model);
    yield null;
    const grid = yield* quietly(gridSteps(range, reach));
    const finder = range.holdsRide ? new Finder(range, reach, grid) : null;
    const walk = { build, axle, model, range, reach, grid, finder, extremes: [], walks: [] };
    return new Walked(key, walk);
  }

  range(): RangeTold {
    const { edge, ends, unstopped, holdsRide } = this.walk.range;
    return { edge, ends, unstopped, holdsRide, box: this.walk.reach.box };
  }

  /** What is known of it: gaps and findings once all pairs are searched. */
  side(): Side {
    if (this.#side) return this.#side;
    const { walk } = this;
    const found = this.isSearched ? this.gaps?.report().found : undefined;
    const gaps = found ? [found] : [];
    const findings = found ? findFindings(walk.build, [walk], gaps) : [];
    const side: Side = { build: walk.build, walks: [walk], gaps, findings };
    if (found) this.#side = side;
    return side;
  }
}

/** The questions in between; of each the newest alone is worked on. */
type Question = 'maps' | 'columns';

export class CompareWork implements CompareDesk {
  #newest = 0;
  #sides: Both<Walked> | null = null;
  #kept: Walked[] = [];
  readonly #asked: Record<Question, number> = { maps: 0, columns: 0 };

  stop(): void {
    this.#newest++;
    this.#sides = null;
    this.#kept = [];
  }

  async compare(request: CompareRequest, tell: (event: CompareEvent) => void): Promise<void> {
    const { generation, a, b } = request;
    this.#newest = generation;
    this.#sides = null;
    try {
      const draw =
        a.meshes.size + b.meshes.size > 0
          ? (await import('../../geometry/gap/drawnMesh.ts')).drawnMesh
          : null;
      const steps = this.#pieces(request, draw);
      let since = performance.now();
      for (;;) {
        const { done, value } = steps.next();
        if (done) break;
        if (value) tell(light({ generation, ...value } as CompareEvent));
        else if (performance.now() - since < PIECE_ms) continue;
        await turn();
        if (generation !== this.#newest) return;
        since = performance.now();
      }
      await this.#worth(request, event => tell({ generation, ...event } as CompareEvent));
      if (generation === this.#newest) tell({ generation, kind: 'done' });
    } catch (error) {
      console.error(error);
      if (generation === this.#newest) tell({ generation, kind: 'failed', message: String(error) });
    }
  }

  /** All but what the differences are worth; what is yielded is told. */
  *#pieces(request: CompareRequest, draw: Draw): Generator<Told | null> {
    const a = yield* this.#walked(request.a);
    const b = yield* this.#walked(request.b);
    this.#sides = { a, b };
    yield { kind: 'ranges', ranges: { a: a.range(), b: b.range() } };
    const pairs = axlePairsOf([a.walk], [b.walk]);
    if (!a.isSearched || !b.isSearched) yield this.#report('measures', pairs);
    for (const [side, asked] of [
      [a, request.a],
      [b, request.b],
    ] as const) {
      side.gaps ??= yield* quietly(GapStudy.begin(side.walk, meshesFrom(asked.meshes, draw)));
    }
    yield* this.#search(a, b);
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

  /** @param worth tolerances of the pair's table; null: not known yet */
  #report(
    stage: Stage,
    pairs: readonly AxlePair[],
    worth: readonly (readonly (number | null)[])[] | null = null,
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

  *#search(...sides: readonly Walked[]): Generator<Told | null> {
    const open = sides.filter(
      ({ isSearched }, i) => !isSearched && sides.indexOf(sides[i] as Walked) === i,
    );
    let told = performance.now();
    for (const [i, side] of open.entries()) {
      const of = side.gaps?.pairs.length ?? 0;
      for (const done of side.gaps?.search() ?? []) {
        if (performance.now() - told > TELL_ms) {
          yield { kind: 'progress', what: 'gaps', share: (i + done / of) / open.length };
          told = performance.now();
        } else yield null;
      }
      side.isSearched = true;
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
    const steps = tolerancesOf(one, other, pairs);
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
