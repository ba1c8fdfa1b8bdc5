/**
 * The worker: range, map, strip, gaps, findings and extremes of one axle, the quick ones first. It lets go of the
 * thread between pieces of work, so that a newer change ends an older study and side questions are answered.
 */
import { expose, proxy } from 'comlink';
import { keepAlike } from '../../geometry/alike.ts';
import { COARSE, GLANCE, type GridSize, gridSteps } from '../../geometry/cycle/grid.ts';
import { findRange, glanceAtRange } from '../../geometry/cycle/range.ts';
import { type AxleWalk, type Cycled, walkReport } from '../../geometry/cycle/walkReport.ts';
import { findFindings } from '../../geometry/finding/finding.ts';
import type { MeshReader } from '../../geometry/gap/parts.ts';
import { measures } from '../../geometry/measure/list.ts';
import { settle } from '../../geometry/pose/model.ts';
import { measureColumns, measureMap } from './columns.ts';
import { GapStudy } from './gapStudy.ts';
import { meshesFrom } from './meshes.ts';
import { light, PIECE_ms, quietly, turn, walkSteps } from './pieces.ts';
import type { GapMap, RangeTold, StudyEvent, StudyRequest, Workshop } from './protocol.ts';

/** Kinds of side questions: of each, the newest alone is worked on. */
type Question = 'strip' | 'map' | 'columns' | 'tape';

class Bench implements Workshop {
  #newest = 0;
  #gaps: GapStudy | null = null;
  /** The last study: the next one begins with what the change between them left as it was. */
  #before: GapStudy | null = null;
  /** Of the mesh files that were given last. */
  #meshes: Promise<MeshReader> = readerOf(new Map());
  /** The axle of the study, walked, once it is. */
  #walked: { walk: AxleWalk; readMesh: MeshReader } | null = null;
  readonly #asked: Record<Question, number> = { strip: 0, map: 0, columns: 0, tape: 0 };

  newest(generation: number): void {
    if (generation <= this.#newest) return;
    this.#newest = generation;
    this.#gaps = null;
    this.#walked = null;
  }

  async study(request: StudyRequest, tell: (event: StudyEvent) => void): Promise<void> {
    const { generation } = request;
    this.newest(generation);
    let since = performance.now();
    try {
      if (request.meshes) this.#meshes = readerOf(request.meshes);
      for (const event of this.#pieces(request, await this.#meshes)) {
        if (event && event !== 'rest') tell(light({ generation, ...event } as StudyEvent));
        if (!event && performance.now() - since < PIECE_ms) continue;
        await turn(event === 'rest' ? REST_ms : 0);
        if (generation !== this.#newest) return;
        since = performance.now();
      }
      tell({ generation, kind: 'done' });
    } catch (error) {
      console.error(error);
      tell({ generation, kind: 'failed', message: String(error) });
    }
  }

  async compareDesk(): ReturnType<Workshop['compareDesk']> {
    const { CompareWork } = await import('./compareWork.ts');
    return proxy(new CompareWork());
  }

  steeringStrip(left: number, right: number): ReturnType<Workshop['steeringStrip']> {
    return light(this.#gaps?.steeringStrip(left, right) ?? null);
  }

  strip(...asked: Parameters<Workshop['strip']>): ReturnType<Workshop['strip']> {
    return this.#answer('strip', gaps => gaps.strip(...asked));
  }

  pairMap(...asked: Parameters<Workshop['pairMap']>): ReturnType<Workshop['pairMap']> {
    return this.#answer('map', gaps => gaps.pairMap(...asked));
  }

  measureMap(...asked: Parameters<Workshop['measureMap']>): ReturnType<Workshop['measureMap']> {
    return this.#answer('map', ({ cycled, wide }) => measureMap(cycled, wide, ...asked));
  }

  columns(...asked: Parameters<Workshop['columns']>): ReturnType<Workshop['columns']> {
    return this.#answer('columns', ({ cycled }) => measureColumns(cycled, ...asked));
  }

  async swept(name: string): ReturnType<Workshop['swept']> {
    // seldom asked for: loaded then
    const { sweptVolume } = await import('../../geometry/gap/swept.ts');
    const gaps = this.#gaps;
    const part = gaps?.parts.find(each => each.name === name);
    if (!gaps || !part) return null;
    const { positions, triangles, tolerance } = sweptVolume(gaps.cycled, part);
    return light({ positions, triangles, tolerance });
  }

  async nextMeasurements(
    ...[slopes]: Parameters<Workshop['nextMeasurements']>
  ): ReturnType<Workshop['nextMeasurements']> {
    // only where the tape is in hand
    const { nextMeasurementSteps } = await import('../../geometry/advice/nextMeasurement.ts');
    const walked = this.#walked;
    if (!walked) return null;
    const { walk, readMesh } = walked;
    return this.#answer('tape', gaps =>
      nextMeasurementSteps(walk.build, [{ walk, gaps: gaps.report().found }], slopes, readMesh),
    );
  }

  /** Works on a side question in pieces; null where a newer one of its kind, or a newer study, comes between. */
  async #answer<Answer>(
    question: Question,
    begin: (gaps: GapStudy) => Generator<void, Answer | null>,
  ): Promise<Answer | null> {
    const gaps = this.#gaps;
    const mine = ++this.#asked[question];
    if (!gaps) return null;
    const steps = begin(gaps);
    let since = performance.now();
    for (;;) {
      const { done, value } = steps.next();
      if (done) return light(value);
      if (performance.now() - since < PIECE_ms) continue;
      await turn();
      if (gaps !== this.#gaps || mine !== this.#asked[question]) return null;
      since = performance.now();
    }
  }

  /** The work in pieces; what is yielded is told. */
  *#pieces(request: StudyRequest, readMesh: MeshReader): Generator<Told | 'rest' | null> {
    const build = keepAlike(this.#before?.cycled.build, request.build);
    const axle = build.axles.find(({ name }) => name === request.axle);
    const settled = settle(request.mechanism);
    if (!axle || !settled.ok) throw new Error(`no ${request.axle} axle that settles`);
    const { model } = settled;

    if (request.isTrial) {
      const glance = { build, axle, model, ...glanceAtRange(build, axle, model) };
      const { map } = yield* this.#begin(glance, GLANCE, readMesh);
      yield { kind: 'glance', range: toldOf(glance), map };
      yield 'rest';
    }
    const found = { build, axle, model, ...findRange(build, axle, model) };
    yield { kind: 'range', range: toldOf(found) };
    const { gaps, map } = yield* this.#begin(found, COARSE, readMesh);
    yield { kind: 'map', map };
    const { cycled } = gaps;
    yield { kind: 'strip', strip: yield* quietly(gaps.strip('shop')) };

    const of = gaps.pairs.length;
    let told = performance.now();
    for (const done of gaps.search()) {
      if (done === gaps.nearPairs) {
        const report = gaps.report();
        const findings = findFindings(build, [], [report.found]);
        yield { kind: 'findings', findings, gaps: report.told, isFinal: false };
        yield { kind: 'map', map: yield* quietly(gaps.fineMap()) };
      } else if (performance.now() - told > TELL_ms) {
        yield { kind: 'progress', what: 'gaps', done, of };
        told = performance.now();
      } else yield null;
    }
    if (gaps.nearPairs === 0) yield { kind: 'map', map: yield* quietly(gaps.fineMap()) };
    yield { kind: 'progress', what: 'gaps', done: of, of };

    const walk = yield* this.#walk(cycled);
    this.#walked = { walk, readMesh };
    const report = gaps.report();
    const findings = findFindings(build, [walk], [report.found]);
    yield { kind: 'findings', findings, gaps: report.told, isFinal: true };
    yield { kind: 'extremes', extremes: walkReport({ ...walk, walks: [] }).extremes };
    yield* this.#proof(gaps, walk);
  }

  /** Walks the range on a grid and makes the coarse map. */
  *#begin(
    ranged: Omit<Cycled, 'grid'>,
    size: GridSize,
    readMesh: MeshReader,
  ): Generator<null, { gaps: GapStudy; map: GapMap }> {
    const grid = yield* quietly(gridSteps(ranged.range, ranged.reach, size));
    const gaps = yield* quietly(GapStudy.begin({ ...ranged, grid }, readMesh, this.#before));
    this.#gaps = gaps;
    this.#before = gaps;
    return { gaps, map: gaps.coarseMap() };
  }

  /** The proof, and the findings once more with what it says. */
  *#proof(gaps: GapStudy, walk: AxleWalk): Generator<Told | null> {
    const of = gaps.pairs.length;
    const findings = (): Told => {
      const { found, told } = gaps.report();
      const list = findFindings(walk.build, [walk], [found]);
      return { kind: 'findings', findings: list, gaps: told, isFinal: true };
    };
    let told = performance.now();
    for (const share of gaps.prove()) {
      yield null;
      if (performance.now() - told < TELL_ms) continue;
      yield { kind: 'progress', what: 'proof', done: Math.round(share * of), of };
      told = performance.now();
    }
    yield findings();
  }

  /** The axle walked; tells how far it is now and then. */
  *#walk(cycled: Cycled): Generator<Told | null, AxleWalk> {
    const steps = walkSteps(cycled);
    let told = performance.now();
    for (;;) {
      const { done, value } = steps.next();
      if (done) return value;
      if (performance.now() - told > TELL_ms) {
        yield { kind: 'progress', what: 'extremes', done: value, of: measures.length };
        told = performance.now();
      } else yield null;
    }
  }
}

const toldOf = ({ range, reach }: Omit<Cycled, 'grid'>): RangeTold => {
  const { edge, ends, unstopped, holdsRide } = range;
  return { edge, ends, unstopped, holdsRide, box: reach.box };
};

async function readerOf(files: ReadonlyMap<string, Uint8Array>): Promise<MeshReader> {
  // what reads meshes is large to load: only where one is needed
  const draw = files.size > 0 ? (await import('../../geometry/gap/drawnMesh.ts')).drawnMesh : null;
  return meshesFrom(files, draw);
}

/** A hand that moves nothing for so long rests, ms. */
const REST_ms = 150;

/** Between two tellings of how far the work is, ms. */
const TELL_ms = 120;

type Told = StudyEvent extends infer Each
  ? Each extends { generation: number }
    ? Omit<Each, 'generation'>
    : never
  : never;

expose(new Bench());
