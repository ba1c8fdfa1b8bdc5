/**
 * Gaps of one axle: the map, strips along paths, and the search pair by pair, nearest first. Long work comes as
 * generators that stop now and then.
 */
import { Reach } from '../../geometry/cycle/reach.ts';
import type { Cycled } from '../../geometry/cycle/walkReport.ts';
import { type StopMargin, stopMarginSteps, withBeyond } from '../../geometry/gap/beyondStops.ts';
import { type AxleGapReport, type AxleGaps, gapReport } from '../../geometry/gap/gapReport.ts';
import { clearancesOf } from '../../geometry/gap/groundClearance.ts';
import { GapSearch } from '../../geometry/gap/leastGaps.ts';
import { CoarseMap, type OnGrid } from '../../geometry/gap/map.ts';
import type { PairGap } from '../../geometry/gap/pairGap.ts';
import { type Excluded, type FoundPairs, type Pair, pairsOf } from '../../geometry/gap/pairs.ts';
import type { Part } from '../../geometry/gap/part.ts';
import { type MeshReader, type PartsProblem, partsOf } from '../../geometry/gap/parts.ts';
import { PlacedGrid } from '../../geometry/gap/placedGrid.ts';
import { ProofRun, RESOLUTION_in } from '../../geometry/gap/proofRun.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import { type Path, pathOf } from './paths.ts';
import type { GapMap, GapStrip, PathName } from './protocol.ts';
import { type WideGrid, wideGrid } from './wideGrid.ts';

/** Refined map: places along each travel, steering inputs at each. */
export const FINE = { size: 33, turns: 7 };
/** Steering inputs of the steering strip: odd, so that straight ahead is one. */
const STEERINGS = 41;
/** Cells that the proof takes at a time: the dearest are some 10 ms each. */
const CELLS = 1;
/** Poses of a path that are looked at in one go. */
const TOGETHER = 24;

export class GapStudy {
  readonly cycled: Cycled;
  readonly parts: Part[];
  readonly problems: PartsProblem[];
  readonly pairs: Pair[];
  readonly excluded: Excluded[];
  /** The grid of the refined map, once it is made. */
  wide: WideGrid | null = null;
  readonly #found: FoundPairs;
  readonly #map: CoarseMap;
  readonly #coarse: OnGrid;
  /** Made when the first pair is searched. */
  #searching: GapSearch | null = null;
  /** For questions in between: its neighbors are not those of the study. */
  readonly #reach: Reach;
  /** Indices of pairs, nearest on the coarse grid first. */
  readonly #order: number[];
  readonly #gaps: (PairGap | undefined)[];
  #resolution: number | null = null;
  #margins: StopMargin[] = [];
  /** How many of the first pairs may come under what they want. */
  readonly nearPairs: number;

  private constructor(
    cycled: Cycled,
    made: ReturnType<typeof partsOf>,
    found: FoundPairs,
    map: CoarseMap,
    coarse: OnGrid,
  ) {
    const { build, axle, model, range, reach } = cycled;
    this.cycled = cycled;
    this.parts = made.parts;
    this.problems = made.problems;
    this.#found = found;
    this.pairs = range.holdsRide ? found.pairs : [];
    this.excluded = found.excluded;
    this.#map = map;
    this.#coarse = coarse;
    this.#reach = new Reach(build, axle, model);
    this.#reach.box = reach.box;
    const spare = this.pairs.map((pair, p) => (coarse.lower[p] as number) - pair.required);
    this.#order = [...this.pairs.keys()].sort(
      (p, q) => (spare[p] as number) - (spare[q] as number),
    );
    this.nearPairs = spare.filter(each => each < 0.25).length;
    this.#gaps = new Array(this.pairs.length);
  }

  /**
   * Makes parts, pairs and the coarse map, stopping between them.
   *
   * @param before a study of the same axle before a change: what it knows of parts that are the same still holds
   */
  static *begin(
    cycled: Cycled,
    readMesh: MeshReader,
    before: GapStudy | null = null,
  ): Generator<void, GapStudy> {
    const { build, axle, range, grid } = cycled;
    const made = partsOf(build, axle, readMesh, before?.parts);
    yield;
    const found = pairsOf(build, axle.name, made.parts, {
      still: build.axles[0]?.name === axle.name,
      before: before === null ? null : before.#found,
    });
    yield;
    const pairs = range.holdsRide ? found.pairs : [];
    const map = new CoarseMap(made.parts, pairs, 'share', before === null ? null : before.#map);
    yield;
    const coarse = yield* map.steps(new PlacedGrid(map.motions, grid));
    return new GapStudy(cycled, made, found, map, coarse);
  }

  get #search(): GapSearch {
    this.#searching ??= new GapSearch(this.cycled, this.parts, this.pairs, this.#map);
    return this.#searching;
  }

  /** The map on the coarse grid. */
  coarseMap(): GapMap {
    const { grid } = this.cycled;
    const { left, right, places } = grid;
    const isIn = Uint8Array.from(places, ({ straight }) => (straight ? 1 : 0));
    const write = new Writer(places.length, this.pairs);
    write.all(this.#coarse, 0);
    return {
      isCoarse: true,
      left: left.slice(),
      right: right.slice(),
      inside: isIn,
      ...write.map,
      pairs: write.pairs,
    };
  }

  /** The refined map, and its grid with it. */
  *fineMap(): Generator<void, GapMap> {
    const grid = yield* this.#wide();
    const { left, right, inside, places } = grid;
    const write = new Writer(places.length, this.pairs);
    for (let from = 0; from < places.length; from += left.length) {
      const row = places.slice(from, from + left.length);
      const said = yield* this.#map.steps(new PlacedGrid(this.#map.motions, { places: row }));
      write.all(said, from);
    }
    return {
      isCoarse: false,
      left: left.slice(),
      right: right.slice(),
      inside: inside.slice(),
      ...write.map,
      pairs: write.pairs,
    };
  }

  /** The map of one pair alone, on the refined grid; null for parts that are not compared. */
  *pairMap(a: string, b: string): Generator<void, GapMap | null> {
    const pair = this.pairs.find(each => each.a.name === a && each.b.name === b);
    if (!pair) return null;
    const { left, right, inside, places } = yield* this.#wide();
    const parts = pair.a === pair.b ? [pair.a] : [pair.a, pair.b];
    // a pair that never moves is the same everywhere, and is asked for like one that does
    const map = new CoarseMap(parts, [{ ...pair, still: false }], 'share');
    const write = new Writer(places.length, [pair]);
    for (let from = 0; from < places.length; from += left.length) {
      const row = places.slice(from, from + left.length);
      const said = yield* map.steps(new PlacedGrid(map.motions, { places: row }));
      write.all(said, from);
    }
    return {
      isCoarse: false,
      left: left.slice(),
      right: right.slice(),
      inside: inside.slice(),
      ...write.map,
      pairs: write.pairs,
    };
  }

  /** What is left along a path. */
  *strip(name: PathName, at: readonly [number, number] = [0, 0]): Generator<void, GapStrip> {
    const path = pathOf(name, this.cycled.range, this.#reach, at);
    yield;
    return yield* this.#along(path);
  }

  /** What is left from full right to full left; null where nothing steers, or nothing can stand there. */
  steeringStrip(left: number, right: number): GapStrip | null {
    const reach = this.#reach;
    const { pose } = reach.travel(left, right);
    const interval = pose && reach.axle.steered ? reach.steering(pose) : null;
    if (!pose || !interval) return null;
    const poses: Pose[] = [];
    for (let k = 0; k < STEERINGS; k++) {
      const at = reach.steered(pose, interval, -1 + (2 * k) / (STEERINGS - 1));
      if (at) poses.push(at);
    }
    const steps = this.#along({ poses, marks: [] });
    for (;;) {
      const { done, value } = steps.next();
      if (done) return value;
    }
  }

  *#wide(): Generator<void, WideGrid> {
    if (!this.wide) {
      const { range, reach } = this.cycled;
      const steps = wideGrid(range, reach, FINE.size, FINE.turns);
      for (;;) {
        const { done, value } = steps.next();
        if (done) {
          this.wide = value;
          break;
        }
        yield;
      }
    }
    return this.wide;
  }

  *#along({ poses, marks }: Path): Generator<void, GapStrip> {
    const write = new Writer(poses.length, this.pairs);
    for (let from = 0; from < poses.length; from += TOGETHER) {
      const places = poses.slice(from, from + TOGETHER).map(pose => ({ steered: [{ pose }] }));
      const said = yield* this.#map.steps(new PlacedGrid(this.#map.motions, { places }));
      write.all(said, from);
    }
    const { share, gap, pair } = write.map;
    const places = poses.map(({ input }) => ({ ...input }));
    return { places, share, gap, pair, pairs: write.pairs, marks };
  }

  /** Searches the least gap of each pair; yields how many are done. */
  *search(): Generator<number> {
    let done = 0;
    for (const p of this.#order) {
      this.#gaps[p] = this.#search.least(p);
      yield ++done;
    }
  }

  /**
   * Proves the gaps that were searched, those with least to spare first; yields the share of the pairs that are done.
   * What is known of them in the meantime is in the report.
   */
  *prove(): Generator<number> {
    const searched = [...this.#gaps.keys()].filter(p => this.#gaps[p] !== undefined);
    const gaps = searched.flatMap(p => this.#gaps[p] ?? []);
    const margins = stopMarginSteps(this.cycled, this.parts, this.#search, gaps);
    for (;;) {
      const { done, value } = margins.next();
      if (done) {
        this.#margins = value;
        break;
      }
      yield 0;
    }
    const run = new ProofRun(this.cycled, this.#search, gaps);
    for (let more = gaps.length > 0; more; ) {
      more = run.step(CELLS);
      const p = searched[run.last];
      if (p !== undefined) this.#gaps[p] = run.gaps[run.last];
      yield run.done;
    }
    this.#resolution = RESOLUTION_in;
  }

  /** What is known so far. */
  report(): { found: AxleGaps; told: AxleGapReport } {
    const { cycled, parts, problems, excluded } = this;
    const found: AxleGaps = {
      walk: cycled,
      parts,
      gaps: withBeyond(
        this.#gaps.filter(each => each !== undefined),
        this.#margins,
      ),
      excluded,
      clearances: clearancesOf(cycled, parts),
      problems,
      notes: parts.flatMap(part =>
        (part.solid.mesh?.notes ?? []).map(problem => ({ part: part.name, problem })),
      ),
      search: this.#search,
      margins: this.#margins,
      resolution: this.#resolution,
    };
    return { found, told: gapReport(found) };
  }
}

/** Writes what runs of a map say into columns, with the pairs that occur alone. */
class Writer {
  readonly map: Pick<GapMap, 'share' | 'gap' | 'pair' | 'steer'>;
  readonly pairs: { a: string; b: string; required: number }[] = [];
  readonly #all: readonly Pair[];
  readonly #index = new Map<number, number>();

  constructor(size: number, all: readonly Pair[]) {
    this.#all = all;
    this.map = {
      share: new Float64Array(size).fill(Number.NaN),
      gap: new Float64Array(size).fill(Number.NaN),
      pair: new Int32Array(size).fill(-1),
      steer: new Float64Array(size),
    };
  }

  /** @param from where the run's first place stands in the columns */
  all({ grid, gap, share, pair, pose }: OnGrid, from: number): void {
    for (let c = 0; c < grid.cells.length; c++) {
      const at = from + (grid.cells[c] as number);
      const p = pair[c] as number;
      this.map.gap[at] = gap[c] as number;
      this.map.share[at] = share[c] as number;
      this.map.pair[at] = p < 0 ? -1 : this.#told(p);
      this.map.steer[at] = grid.poses[pose[c] as number]?.input.steer ?? 0;
    }
  }

  #told(p: number): number {
    let index = this.#index.get(p);
    if (index === undefined) {
      index = this.pairs.length;
      this.#index.set(p, index);
      const { a, b, required } = this.#all[p] as Pair;
      this.pairs.push({ a: a.name, b: b.name, required });
    }
    return index;
  }
}
