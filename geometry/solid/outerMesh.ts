/**
 * An outer mesh around a solid at many placements: what it sweeps, to a stated tolerance.
 *
 * On a lattice of step h stands f, the distance from the union of all placed solids (0 inside). f changes by no more
 * than the point moves. The mesh is {g = c}, g the piecewise linear interpolation of f over tetrahedra, six a cube (those
 * that share its long diagonal), so that it closes without a table of cases. Over a tetrahedron with corners x_i and
 * x = Σ w_i x_i,
 *   (1) |g(x) − f(x)| ≤ Σ w_i |x_i − x| ≤ √(Σ w_i |x_i − x|²) ≤ ρ = h √3 / 2,
 * the radius of the smallest ball around it (the long diagonal is its diameter; the mean of squares about the mean is
 * at most that about the ball's center, by Jensen and Huygens–Steiner). With c = r + ρ
 *   (2) every point within r of a placed solid is inside: g ≤ f + ρ ≤ c;
 *   (3) every point of the mesh is within r + 2ρ = r + h √3 of one: f ≤ g + ρ.
 * f is needed where it is under c + 2ρ: every tetrahedron that the mesh passes has a corner under c, and no corner is
 * further from that than 2ρ. Elsewhere it stands as that bound, which (1) allows.
 */
import { distanceFromCore, placeShape } from './coreDistance.ts';
import { DistanceSolver } from './distance.ts';
import { type Numbers, numbers } from './numbers.ts';
import { type Piece, PLACED_SIZE, POINTS, SEGMENT } from './piece.ts';
import { carryPoint, type Placement, unmoved } from './placement.ts';
import { type Solid, solidOf } from './solid.ts';
import { sphere } from './sphere.ts';
import type { Triangles } from './triangles.ts';

/** A closed mesh; the order of a triangle's corners is counterclockwise from outside. */
export interface OuterMesh extends Triangles {
  positions: Float64Array;
  triangles: Uint32Array;
  /** No point of the mesh is further from a placed solid than this, in. */
  tolerance: number;
}

export interface OuterMeshOptions {
  /** Step of the lattice, in. */
  step: number;
  /** All that is this near to a placed solid lies inside, in. */
  reach: number;
  /** Most points of the lattice; with more the step is made longer, and the tolerance with it. */
  mostPoints?: number;
}

/** Eight bytes each: about 50 MB. */
const MOST_POINTS = 6_000_000;

/**
 * @example
 * const mesh = outerMesh(rod, placements, { step: 0.25, reach: 0 });
 */
export function outerMesh(
  solid: Solid,
  placements: readonly Placement[],
  { step, reach, mostPoints = MOST_POINTS }: OuterMeshOptions,
): OuterMesh {
  let h = step;
  let lattice = new Lattice(solid, placements, h, reach);
  while (lattice.count > mostPoints) {
    h *= Math.max(1.05, (lattice.count / mostPoints) ** (1 / 3));
    lattice = new Lattice(solid, placements, h, reach);
  }
  lattice.fill(solid, placements);
  return { ...lattice.mesh(), tolerance: reach + h * Math.sqrt(3) };
}

class Lattice {
  readonly #h: number;
  /** c and c + 2ρ. */
  readonly #level: number;
  readonly #band: number;
  readonly #least = [Infinity, Infinity, Infinity];
  readonly #size: [number, number, number];
  readonly count: number;
  #f = new Float64Array(0);
  readonly #solver = new DistanceSolver();

  constructor(solid: Solid, placements: readonly Placement[], h: number, reach: number) {
    this.#h = h;
    const ball = (h * Math.sqrt(3)) / 2;
    this.#level = reach + ball;
    this.#band = this.#level + 2 * ball;
    const most = [-Infinity, -Infinity, -Infinity];
    const center = numbers(3);
    const bounds = solid.mesh ? [solid.bound] : solid.pieces.map(piece => piece.bound);
    for (const place of placements) {
      for (const bound of bounds) {
        carryPoint(place, bound, 0, center, 0);
        const radius = bound[3] as number;
        for (let axis = 0; axis < 3; axis++) {
          const at = center[axis] as number;
          this.#least[axis] = Math.min(this.#least[axis] as number, at - radius);
          most[axis] = Math.max(most[axis] as number, at + radius);
        }
      }
    }
    // a rim beyond the band, so that the mesh closes inside
    const rim = this.#band + h;
    this.#size = [0, 1, 2].map(axis => {
      this.#least[axis] = (this.#least[axis] as number) - rim;
      return Math.ceil(((most[axis] as number) + rim - (this.#least[axis] as number)) / h) + 1;
    }) as [number, number, number];
    this.count = this.#size[0] * this.#size[1] * this.#size[2];
  }

  fill(solid: Solid, placements: readonly Placement[]): void {
    this.#f = new Float64Array(this.count).fill(this.#band);
    for (const place of placements) {
      if (solid.mesh)
        this.#take(bySearch(this.#solver, solid, place), boundBox(solid.bound, place));
      for (const piece of solid.pieces) this.#takePiece(piece, place);
    }
  }

  #takePiece(piece: Piece, place: Placement): void {
    if (piece.core === POINTS) {
      const alone = solidOf('hull', [piece]);
      this.#take(bySearch(this.#solver, alone, place), boundBox(piece.bound, place));
      return;
    }
    const placed = numbers(PLACED_SIZE);
    placeShape(piece, place, placed);
    const at = numbers(7);
    const from = (x: number, y: number, z: number): number => {
      at[0] = x;
      at[1] = y;
      at[2] = z;
      distanceFromCore(piece, placed, at);
      return at[3] - piece.radius;
    };
    if (piece.core !== SEGMENT) {
      this.#take(from, boundBox(piece.bound, place));
      return;
    }
    // a long rod in short boxes along it: one box around all of it holds mostly air
    const length = Math.hypot(placed[3] - placed[0], placed[4] - placed[1], placed[5] - placed[2]);
    const parts = Math.max(1, Math.ceil(length / (4 * (piece.radius + this.#band))));
    for (let k = 0; k < parts; k++) {
      const end = (t: number, axis: 0 | 1 | 2): number =>
        placed[axis] + t * (placed[(axis + 3) as 3 | 4 | 5] - placed[axis]);
      const box = ([0, 1, 2] as const).map(axis => {
        const [p, q] = [end(k / parts, axis), end((k + 1) / parts, axis)];
        return [Math.min(p, q) - piece.radius, Math.max(p, q) + piece.radius] as const;
      });
      this.#take(from, box as unknown as Box);
    }
  }

  /** Lowers f to a distance where that is under the band, at all points of a box grown by it. */
  #take(distance: (x: number, y: number, z: number) => number, box: Box): void {
    const h = this.#h;
    const [nx, ny] = this.#size;
    const range = box.map(([low, high], axis) => {
      const zero = this.#least[axis] as number;
      return [
        Math.max(0, Math.ceil((low - this.#band - zero) / h)),
        Math.min((this.#size[axis] as number) - 1, Math.floor((high + this.#band - zero) / h)),
      ] as const;
    }) as unknown as Box;
    const [x0, y0, z0] = this.#least as [number, number, number];
    const f = this.#f;
    for (let k = range[2][0]; k <= range[2][1]; k++) {
      for (let j = range[1][0]; j <= range[1][1]; j++) {
        let at = range[0][0] + nx * (j + ny * k);
        for (let i = range[0][0]; i <= range[0][1]; i++, at++) {
          const before = f[at] as number;
          if (before === 0) continue;
          const now = distance(x0 + i * h, y0 + j * h, z0 + k * h);
          if (now < before) f[at] = Math.max(0, now);
        }
      }
    }
  }

  mesh(): { positions: Float64Array; triangles: Uint32Array } {
    const [nx, ny, nz] = this.#size;
    const f = this.#f;
    const c = this.#level;
    const positions: number[] = [];
    const triangles: number[] = [];
    /** By the two lattice points of an edge: the vertex on it. */
    const vertices = new Map<number, number>();
    const [x0, y0, z0] = this.#least as [number, number, number];
    const coordinates = (p: number): [number, number, number] => {
      const i = p % nx;
      const rest = (p - i) / nx;
      const j = rest % ny;
      return [x0 + i * this.#h, y0 + j * this.#h, z0 + ((rest - j) / ny) * this.#h];
    };
    const onEdge = (inner: number, outer: number): number => {
      const key = Math.min(inner, outer) * f.length + Math.max(inner, outer);
      const known = vertices.get(key);
      if (known !== undefined) return known;
      const [a, b] = [f[inner] as number, f[outer] as number];
      const t = (c - a) / (b - a);
      const [p, q] = [coordinates(inner), coordinates(outer)];
      for (let axis = 0; axis < 3; axis++) {
        positions.push((p[axis] as number) + t * ((q[axis] as number) - (p[axis] as number)));
      }
      vertices.set(key, positions.length / 3 - 1);
      return positions.length / 3 - 1;
    };
    const corners = [0, 1, 2, 3, 4, 5, 6, 7].map(
      n => (n & 1) + nx * (((n >> 1) & 1) + ny * (n >> 2)),
    );
    for (let k = 0; k + 1 < nz; k++) {
      for (let j = 0; j + 1 < ny; j++) {
        for (let i = 0; i + 1 < nx; i++) {
          const at = i + nx * (j + ny * k);
          let inside = 0;
          for (const corner of corners) if ((f[at + corner] as number) < c) inside++;
          if (inside === 0 || inside === 8) continue;
          for (const tetrahedron of TETRAHEDRA) {
            this.#cut(
              tetrahedron.map(n => at + (corners[n] as number)),
              onEdge,
              triangles,
            );
          }
        }
      }
    }
    return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
  }

  /** The one or two triangles in which the mesh passes a tetrahedron; its corners are right-handed. */
  #cut(
    corners: readonly number[],
    onEdge: (inner: number, outer: number) => number,
    out: number[],
  ): void {
    const inner = corners.filter(p => (this.#f[p] as number) < this.#level);
    if (inner.length === 0 || inner.length === 4) return;
    const outer = corners.filter(p => (this.#f[p] as number) >= this.#level);
    // an even order of (inner, outer) keeps the hand of the corners, an odd one turns it
    const order = [...inner, ...outer].map(p => corners.indexOf(p));
    let swaps = 0;
    for (let a = 0; a < 4; a++) {
      for (let b = a + 1; b < 4; b++) if ((order[a] as number) > (order[b] as number)) swaps++;
    }
    const put = (a: number, b: number, d: number): void => {
      if (swaps % 2 === 0) out.push(a, b, d);
      else out.push(a, d, b);
    };
    const [p = 0, q = 0, r = 0] = inner;
    const [s = 0, t = 0, u = 0] = outer;
    if (inner.length === 1) put(onEdge(p, s), onEdge(p, t), onEdge(p, u));
    else if (inner.length === 3) put(onEdge(p, s), onEdge(q, s), onEdge(r, s));
    else {
      const [ps, pt, qs, qt] = [onEdge(p, s), onEdge(p, t), onEdge(q, s), onEdge(q, t)];
      put(ps, pt, qt);
      put(ps, qt, qs);
    }
  }
}

/** The six tetrahedra of a cube about its diagonal from corner 0 to 7, right-handed; corner n at (n&1, n>>1&1, n>>2). */
const TETRAHEDRA: readonly (readonly number[])[] = [
  [0, 1, 3, 7],
  [0, 3, 2, 7],
  [0, 2, 6, 7],
  [0, 6, 4, 7],
  [0, 4, 5, 7],
  [0, 5, 1, 7],
];

type Box = readonly [
  readonly [number, number],
  readonly [number, number],
  readonly [number, number],
];

function boundBox(bound: Float64Array, place: Placement): Box {
  const center = numbers(3);
  carryPoint(place, bound, 0, center, 0);
  const radius = bound[3] as number;
  return [0, 1, 2].map(axis => [
    (center[axis] as number) - radius,
    (center[axis] as number) + radius,
  ]) as unknown as Box;
}

/** Radius of the ball that stands for a point, in. */
const POINT_in = 1e-6;

/** Distance of a point from any solid by search; slower than a closed form. */
function bySearch(
  solver: DistanceSolver,
  solid: Solid,
  place: Placement,
): (x: number, y: number, z: number) => number {
  const made = sphere({ center: [0, 0, 0], radius: POINT_in });
  if ('problem' in made) throw new Error(made.problem);
  const at = unmoved() as Placement & Numbers;
  return (x, y, z) => {
    at[9] = x;
    at[10] = y;
    at[11] = z;
    solver.cutoff = Number.POSITIVE_INFINITY;
    solver.run(solid, place, made.solid, at);
    return solver.gap + POINT_in;
  };
}
