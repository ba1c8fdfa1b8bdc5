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
 * f is needed where it is between c − 2ρ and c + 2ρ: a tetrahedron that the mesh passes has corners on both sides of c,
 * and no two of them are further apart than 2ρ (`distanceLattice.ts`).
 */
import { DistanceLattice } from './distanceLattice.ts';
import type { Placement } from './placement.ts';
import type { Solid } from './solid.ts';
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
  let lattice = new DistanceLattice(solid, placements, h, reach);
  while (lattice.count > mostPoints) {
    h *= Math.max(1.05, (lattice.count / mostPoints) ** (1 / 3));
    lattice = new DistanceLattice(solid, placements, h, reach);
  }
  lattice.fill(solid, placements);
  return { ...new Mesher(lattice).mesh(), tolerance: reach + h * Math.sqrt(3) };
}

class Mesher {
  readonly #lattice: DistanceLattice;
  readonly #f: Float64Array;
  readonly #level: number;

  constructor(lattice: DistanceLattice) {
    this.#lattice = lattice;
    this.#f = lattice.f;
    this.#level = lattice.level;
  }

  mesh(): { positions: Float64Array; triangles: Uint32Array } {
    const { size, step: h, least } = this.#lattice;
    const [nx, ny, nz] = size;
    const f = this.#f;
    const c = this.#level;
    const positions: number[] = [];
    const triangles: number[] = [];
    /** By the two lattice points of an edge: the vertex on it. */
    const vertices = new Map<number, number>();
    const [x0, y0, z0] = least;
    const coordinates = (p: number): [number, number, number] => {
      const i = p % nx;
      const rest = (p - i) / nx;
      const j = rest % ny;
      return [x0 + i * h, y0 + j * h, z0 + ((rest - j) / ny) * h];
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
