/** Gaps of one axle: the map, strips along paths, and the search pair by pair, nearest first. */
import { coarseGrid } from '../../geometry/cycle/grid.ts';
import { shopPoses } from '../../geometry/cycle/walk.ts';
import type { Cycled } from '../../geometry/cycle/walkReport.ts';
import { type AxleGapReport, type AxleGaps, gapReport } from '../../geometry/gap/gapReport.ts';
import { clearancesOf } from '../../geometry/gap/groundClearance.ts';
import { GapSearch } from '../../geometry/gap/leastGaps.ts';
import { CoarseMap } from '../../geometry/gap/map.ts';
import type { PairGap } from '../../geometry/gap/pairGap.ts';
import { type Excluded, type Pair, pairsOf } from '../../geometry/gap/pairs.ts';
import type { Part } from '../../geometry/gap/part.ts';
import { type MeshReader, type PartsProblem, partsOf } from '../../geometry/gap/parts.ts';
import { PlacedGrid } from '../../geometry/gap/placedGrid.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import type { GapMap, GapStrip } from './protocol.ts';

/** Refined map: places along left and right travel, steering inputs at each. */
const FINE = { left: 31, right: 31, steer: 7 };
/** Steering inputs of the steering strip. */
const STEERINGS = 41;
/** Poses between two named ones along the shop's walk. */
const BETWEEN = 8;

export class GapStudy {
  readonly cycled: Cycled;
  readonly parts: Part[];
  readonly problems: PartsProblem[];
  readonly pairs: Pair[];
  readonly excluded: Excluded[];
  readonly #map: CoarseMap;
  readonly #search: GapSearch;
  /** Indices of pairs, nearest on the coarse grid first. */
  readonly #order: number[];
  readonly #found: (PairGap | undefined)[];
  /** How many of the first pairs may come under what they want. */
  readonly nearPairs: number;

  constructor(cycled: Cycled, readMesh: MeshReader) {
    this.cycled = cycled;
    const { build, axle, range } = cycled;
    const { parts, problems } = partsOf(build, axle, readMesh);
    this.parts = parts;
    this.problems = problems;
    const { pairs, excluded } = pairsOf(build, axle.name, parts, {
      still: build.axles[0]?.name === axle.name,
    });
    this.pairs = range.holdsRide ? pairs : [];
    this.excluded = excluded;
    this.#map = new CoarseMap(parts, this.pairs);
    this.#map.run(new PlacedGrid(this.#map.motions, cycled.grid));
    const spare = this.pairs.map((pair, p) => (this.#map.lower[p] as number) - pair.required);
    this.#order = [...this.pairs.keys()].sort(
      (p, q) => (spare[p] as number) - (spare[q] as number),
    );
    this.nearPairs = spare.filter(each => each < 0.25).length;
    this.#search = new GapSearch(cycled, parts, this.pairs);
    this.#found = new Array(this.pairs.length);
  }

  get #names(): GapMap['pairs'] {
    return this.pairs.map(({ a, b, required }) => ({ a: a.name, b: b.name, required }));
  }

  /** The map on the coarse grid, or on a finer one. */
  map(isCoarse: boolean): GapMap {
    const { range, reach } = this.cycled;
    const grid = isCoarse ? this.cycled.grid : coarseGrid(range, reach, FINE);
    this.#map.run(new PlacedGrid(this.#map.motions, grid));
    const placed = this.#map.grid;
    const size = grid.places.length;
    const map: GapMap = {
      isCoarse,
      left: grid.left,
      right: grid.right,
      share: new Float64Array(size).fill(Number.NaN),
      gap: new Float64Array(size).fill(Number.NaN),
      pair: new Int32Array(size).fill(-1),
      steer: new Float64Array(size),
      pairs: this.#names,
    };
    for (let c = 0; c < placed.cells.length; c++) {
      const k = placed.cells[c] as number;
      this.#read(map, k, c);
      map.steer[k] = placed.poses[this.#map.pose[c] as number]?.input.steer ?? 0;
    }
    return map;
  }

  /** What is left along the shop's walk: each of its poses, from lock to lock. */
  strip(): GapStrip {
    const { range, reach } = this.cycled;
    const shop = shopPoses(range, reach);
    const poses: Pose[] = [];
    const marks: GapStrip['marks'] = [];
    for (const { name, wheels, pose } of shop) {
      if (wheels !== 'straight') continue;
      const interval = reach.steering(pose);
      const count = interval && this.cycled.axle.steered ? 2 * BETWEEN : 0;
      for (let k = 0; k <= count; k++) {
        const share = count === 0 ? 0 : -1 + (2 * k) / count;
        const at = interval ? reach.steered(pose, interval, share) : pose;
        if (!at) continue;
        if (k === count / 2) marks.push({ at: poses.length, name });
        poses.push(at);
      }
    }
    return this.#along(poses, marks);
  }

  steeringStrip(left: number, right: number): GapStrip | null {
    const { reach, axle } = this.cycled;
    const { pose } = reach.travel(left, right);
    const interval = pose && axle.steered ? reach.steering(pose) : null;
    if (!pose || !interval) return null;
    const poses: Pose[] = [];
    for (let k = 0; k < STEERINGS; k++) {
      const share = -1 + (2 * k) / (STEERINGS - 1);
      const at = reach.steered(pose, interval, share);
      if (at) poses.push(at);
    }
    return this.#along(poses, []);
  }

  #along(poses: readonly Pose[], marks: GapStrip['marks']): GapStrip {
    this.#map.run(
      new PlacedGrid(this.#map.motions, { places: poses.map(pose => ({ steered: [{ pose }] })) }),
    );
    const strip: GapStrip = {
      places: poses.map(({ input }) => ({ ...input })),
      share: new Float64Array(poses.length),
      gap: new Float64Array(poses.length),
      pair: new Int32Array(poses.length),
      pairs: this.#names,
      marks,
    };
    for (let c = 0; c < poses.length; c++) this.#read(strip, c, c);
    return strip;
  }

  /** Writes what the map's last run says of a cell. */
  #read(out: Pick<GapMap, 'share' | 'gap' | 'pair'>, at: number, cell: number): void {
    const gap = this.#map.gap[cell] as number;
    const pair = this.#map.pair[cell] as number;
    const required = this.pairs[pair]?.required ?? 0;
    out.gap[at] = gap;
    out.pair[at] = pair;
    out.share[at] = required > 0 ? gap / required : gap < 0 ? -1 : Number.POSITIVE_INFINITY;
  }

  /** Searches the least gap of each pair; yields how many are done. */
  *search(): Generator<number> {
    let done = 0;
    for (const p of this.#order) {
      this.#found[p] = this.#search.least(p);
      yield ++done;
    }
  }

  /** What is known so far. */
  report(): { found: AxleGaps; told: AxleGapReport } {
    const { cycled, parts, problems, excluded } = this;
    const found: AxleGaps = {
      walk: cycled,
      parts,
      gaps: this.#found.filter(each => each !== undefined),
      excluded,
      clearances: clearancesOf(cycled, parts),
      problems,
      notes: parts.flatMap(part =>
        (part.solid.mesh?.notes ?? []).map(problem => ({ part: part.name, problem })),
      ),
      search: this.#search,
    };
    return { found, told: gapReport(found) };
  }
}
