/**
 * Distance from the union of a solid at many placements, on a lattice: for `outerMesh`, which needs it near one level.
 *
 * Points stand in blocks. A placement is asked at a block's middle first: the distance changes by no more than the point
 * moves, so that it can lower nothing in a block of half diagonal R where it is over the block's largest value by R. A
 * block that lies deep inside is not looked at again, so that what counts is the surface of what is swept. In the others
 * a point is asked where the tangent plane at the middle, which lies under a convex distance, is under its value.
 */
import { distanceFromCore, placeShape } from './coreDistance.ts';
import { DistanceSolver } from './distance.ts';
import { type Numbers, numbers } from './numbers.ts';
import { type Piece, PLACED_SIZE, POINTS, SEGMENT } from './piece.ts';
import { carryPoint, type Placement, unmoved } from './placement.ts';
import { type Solid, solidOf } from './solid.ts';
import { sphere } from './sphere.ts';
import { reach as reachOf } from './support.ts';

/** Points along each side of a block. */
const BLOCK = 4;

interface Distance {
  /** Distance of a point from a placed solid, or, where that is not under the cutoff, anything between both. */
  at(x: number, y: number, z: number, cutoff: number): number;
  /** Gradient of a convex distance at the last point, in its places 4 to 6; null where nothing is known. */
  gradient: Numbers | null;
}

type Box = [low: number, high: number][];

export class DistanceLattice {
  /** Step between neighboring points, in. */
  readonly step: number;
  /** The level that matters, c, in. */
  readonly level: number;
  readonly least: readonly [number, number, number];
  readonly size: readonly [number, number, number];
  readonly count: number;
  /** Distances, x fastest; right where they are within 2ρ of the level, else on the same side of that. */
  f = new Float64Array(0);

  /** Nothing under it matters, nothing over it is told. */
  readonly #deep: number;
  readonly #band: number;
  readonly #blocks: readonly [number, number, number];
  /** Largest value of each block. */
  #most = new Float64Array(0);
  readonly #solver = new DistanceSolver();

  /** @param reach what is held around the solid, in: the level is that and half of a cube's diagonal */
  constructor(solid: Solid, placements: readonly Placement[], step: number, reach: number) {
    this.step = step;
    const ball = (step * Math.sqrt(3)) / 2;
    this.level = reach + ball;
    this.#deep = this.level - 2 * ball;
    this.#band = this.level + 2 * ball;
    const around: Box = [0, 1, 2].map(() => [Infinity, -Infinity]);
    for (const place of placements) {
      const boxes = solid.mesh
        ? [boxOfBall(solid.bound, place)]
        : solid.pieces.map(piece => boxOf(piece, place));
      for (const box of boxes) {
        for (const [axis, [low, high]] of box.entries()) {
          const all = around[axis] as [number, number];
          all[0] = Math.min(all[0], low);
          all[1] = Math.max(all[1], high);
        }
      }
    }
    // a rim beyond the band, so that the mesh closes inside
    const rim = this.#band + step;
    this.least = around.map(([low]) => low - rim) as unknown as [number, number, number];
    this.size = around.map(([low, high]) => Math.ceil((high - low + 2 * rim) / step) + 1) as [
      number,
      number,
      number,
    ];
    this.#blocks = this.size.map(n => Math.ceil(n / BLOCK)) as [number, number, number];
    this.count = this.size[0] * this.size[1] * this.size[2];
  }

  fill(solid: Solid, placements: readonly Placement[]): void {
    this.f = new Float64Array(this.count).fill(this.#band);
    const [bx, by, bz] = this.#blocks;
    this.#most = new Float64Array(bx * by * bz).fill(this.#band);
    for (const k of spread(placements.length)) {
      const place = placements[k] as Placement;
      if (solid.mesh) {
        this.#take(bySearch(this.#solver, solid, place), boxOfBall(solid.bound, place));
      }
      for (const piece of solid.pieces) this.#takePiece(piece, place);
    }
  }

  #takePiece(piece: Piece, place: Placement): void {
    if (piece.core === POINTS) {
      const alone = solidOf('hull', [piece]);
      this.#take(bySearch(this.#solver, alone, place), boxOf(piece, place));
      return;
    }
    const placed = numbers(PLACED_SIZE);
    placeShape(piece, place, placed);
    const at = numbers(7);
    const from: Distance = {
      gradient: at,
      at: (x, y, z) => {
        at[0] = x;
        at[1] = y;
        at[2] = z;
        distanceFromCore(piece, placed, at);
        return at[3] - piece.radius;
      },
    };
    if (piece.core !== SEGMENT) {
      this.#take(from, boxOf(piece, place));
      return;
    }
    // a long rod in short boxes along it: one box around all of it holds mostly air
    const length = Math.hypot(placed[3] - placed[0], placed[4] - placed[1], placed[5] - placed[2]);
    const parts = Math.max(1, Math.ceil(length / (4 * (piece.radius + this.#band))));
    const end = (t: number, axis: 0 | 1 | 2): number =>
      placed[axis] + t * (placed[(axis + 3) as 3 | 4 | 5] - placed[axis]);
    for (let k = 0; k < parts; k++) {
      const box = ([0, 1, 2] as const).map((axis): [number, number] => {
        const [p, q] = [end(k / parts, axis), end((k + 1) / parts, axis)];
        return [Math.min(p, q) - piece.radius, Math.max(p, q) + piece.radius];
      });
      this.#take(from, box);
    }
  }

  /** Lowers f to a distance where that is under the band, in all blocks that a box grown by the band meets. */
  #take(distance: Distance, box: Box): void {
    const side = BLOCK * this.step;
    const [x, y, z] = box.map(([low, high], axis) => {
      const zero = this.least[axis] as number;
      const last = (this.#blocks[axis] as number) - 1;
      return [
        Math.max(0, Math.floor((low - this.#band - zero) / side)),
        Math.min(last, Math.floor((high + this.#band - zero) / side)),
      ];
    }) as [[number, number], [number, number], [number, number]];
    const middle = ((BLOCK - 1) / 2) * this.step;
    const half = middle * Math.sqrt(3);
    const [x0, y0, z0] = this.least;
    for (let k = z[0]; k <= z[1]; k++) {
      for (let j = y[0]; j <= y[1]; j++) {
        for (let i = x[0]; i <= x[1]; i++) {
          const block = i + this.#blocks[0] * (j + this.#blocks[1] * k);
          const most = this.#most[block] as number;
          if (most <= this.#deep) continue;
          const there = distance.at(
            x0 + i * side + middle,
            y0 + j * side + middle,
            z0 + k * side + middle,
            most + half,
          );
          if (there >= most + half) continue;
          this.#most[block] = this.#lower(distance, there, i, j, k);
        }
      }
    }
  }

  /** Lowers the points of a block, and tells the largest that is left. @param there the distance of its middle */
  #lower(distance: Distance, there: number, bi: number, bj: number, bk: number): number {
    const h = this.step;
    const [nx, ny, nz] = this.size;
    const [x0, y0, z0] = this.least;
    const f = this.f;
    const deep = this.#deep;
    // the tangent plane, a step along each axis
    const { gradient } = distance;
    const gx = gradient ? gradient[4] * h : 0;
    const gy = gradient ? gradient[5] * h : 0;
    const gz = gradient ? gradient[6] * h : 0;
    const middle = (BLOCK - 1) / 2;
    const [i0, j0, k0] = [BLOCK * bi, BLOCK * bj, BLOCK * bk];
    const base = gradient
      ? there - middle * (gx + gy + gz) - ROUNDING_in
      : Number.NEGATIVE_INFINITY;
    const [endI, endJ, endK] = [
      Math.min(nx, i0 + BLOCK),
      Math.min(ny, j0 + BLOCK),
      Math.min(nz, k0 + BLOCK),
    ];
    let most = 0;
    for (let k = k0; k < endK; k++) {
      for (let j = j0; j < endJ; j++) {
        const row = nx * (j + ny * k);
        const plane = base + (j - j0) * gy + (k - k0) * gz;
        for (let i = i0; i < endI; i++) {
          let value = f[row + i] as number;
          if (value > deep && plane + (i - i0) * gx < value) {
            const now = distance.at(x0 + i * h, y0 + j * h, z0 + k * h, value);
            if (now < value) {
              value = Math.max(0, now);
              f[row + i] = value;
            }
          }
          if (value > most) most = value;
        }
      }
    }
    return most;
  }
}

/** What the tangent plane may lie over the distance by rounding, in. */
const ROUNDING_in = 1e-9;

/** All numbers under a count, far ones first: what is swept is soon filled. */
function* spread(count: number): Generator<number> {
  let stride = Math.max(1, Math.round(count * 0.618));
  while (gcd(stride, count) !== 1) stride++;
  for (let n = 0, k = 0; n < count; n++, k = (k + stride) % count) yield k;
}

const gcd = (a: number, b: number): number => (b === 0 ? a : gcd(b, a % b));

function boxOf(piece: Piece, place: Placement): Box {
  return [0, 1, 2].map(axis => {
    const n = [0, 1, 2].map(each => (each === axis ? 1 : 0)) as [number, number, number];
    return [-reachOf(piece, place, -n[0], -n[1], -n[2]), reachOf(piece, place, ...n)];
  });
}

function boxOfBall(bound: Float64Array, place: Placement): Box {
  const center = numbers(3);
  carryPoint(place, bound, 0, center, 0);
  const radius = bound[3] as number;
  return [...center].map(c => [c - radius, c + radius]);
}

/** Radius of the ball that stands for a point, in. */
const POINT_in = 1e-6;

/** Distance of a point from any solid by search; slower than a closed form. */
function bySearch(solver: DistanceSolver, solid: Solid, place: Placement): Distance {
  const made = sphere({ center: [0, 0, 0], radius: POINT_in });
  if ('problem' in made) throw new Error(made.problem);
  const at = unmoved() as Placement & Numbers;
  return {
    gradient: null,
    at: (x, y, z, cutoff) => {
      at[9] = x;
      at[10] = y;
      at[11] = z;
      solver.cutoff = cutoff;
      solver.run(solid, place, made.solid, at);
      return solver.gap + POINT_in;
    },
  };
}
