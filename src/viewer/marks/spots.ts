/** Where two parts are nearest to each other now: computed anew for each pose from the proof's own solids. */
import type { Pair } from '../../../geometry/gap/pairs.ts';
import { DistanceSolver } from '../../../geometry/solid/distance.ts';
import type { Placed } from '../placed.ts';

export class Spot {
  readonly pair: Pair;
  /** False: there is nothing to show, the parts are far from each other. */
  isNear = false;
  /** In; negative where they overlap. */
  gap = 0;
  /** Nearest points, vehicle axes, in: of the first part, of the second, and between them. */
  readonly a = { x: 0, y: 0, z: 0 };
  readonly b = { x: 0, y: 0, z: 0 };
  readonly middle = { x: 0, y: 0, z: 0 };

  constructor(pair: Pair) {
    this.pair = pair;
  }

  /** Share of the wanted gap that is left; under 0 they overlap. */
  get share(): number {
    return this.pair.required > 0 ? this.gap / this.pair.required : this.gap < 0 ? -1 : 9;
  }
}

/** Gaps beyond this are not marked, in. */
const FAR_in = 4;

export class Spots {
  readonly spots: readonly Spot[];
  readonly #solver = new DistanceSolver();
  #version = -1;

  constructor(pairs: readonly Pair[]) {
    this.spots = pairs.map(pair => new Spot(pair));
    this.#solver.cutoff = FAR_in;
  }

  /** Brings them up to where the parts stand; nothing where they have not moved. */
  update(placed: Placed): void {
    if (placed.version === this.#version) return;
    this.#version = placed.version;
    for (let i = 0; i < this.spots.length; i++)
      measure(this.spots[i] as Spot, placed, this.#solver);
  }
}

function measure(spot: Spot, placed: Placed, solver: DistanceSolver): void {
  const { pair } = spot;
  const a = placed.indexOf(pair.a.name);
  const b = placed.indexOf(pair.b.name);
  spot.isNear = false;
  if (a < 0 || b < 0) return;
  solver.run(
    pair.solidA,
    placed.places[a] as Float64Array,
    pair.solidB,
    placed.places[b] as Float64Array,
  );
  if (solver.beyond) return;
  spot.isNear = true;
  spot.gap = solver.gap;
  const { pointA: p, pointB: q } = solver;
  set(spot.a, p[0], p[1], p[2]);
  set(spot.b, q[0], q[1], q[2]);
  set(spot.middle, (p[0] + q[0]) / 2, (p[1] + q[1]) / 2, (p[2] + q[2]) / 2);
}

function set(out: { x: number; y: number; z: number }, x: number, y: number, z: number): void {
  out.x = x;
  out.y = y;
  out.z = z;
}
