/**
 * Depth of two overlapping convex cores: the least translation that brings them apart.
 *
 * The difference C = { a − b } holds the origin, and the depth is the origin's distance from the
 * boundary of C. A polytope of vertices of C grows around the origin (van den Bergen, Collision Detection
 * in Interactive 3D Environments, 2003, from memory): of its faces the nearest, with unit normal n at
 * distance d, is pushed out to the vertex w of C farthest along n. Two bounds hold
 *
 *     least d over the faces  ≤  depth  ≤  n·w for every n
 *
 * (the polytope lies in C; moving by n·w along n brings the shapes apart), and the search ends when they meet.
 * Flat shapes end after finitely many vertices. Where both shapes are round and nearly share an axis, a whole
 * ring of faces is equally near and the bounds close slowly: then a descent goes on from the best n:
 *
 *     p = (n·w + δ) n lies outside; let q be the point of C nearest to p; the next n is along p − q.
 *
 * It never goes up: n'·q ≤ |p| − |p − q| ≤ n·w. It stands still where q is along n, which is a least
 * distance. Each q is one distance search, so corners and faces do not trouble it.
 *
 * Cores that are flat in the same plane (two segments, two plates) have no volume between them: the depth is
 * then C's thickness, 0 to rounding, along the plane's normal.
 */
import { APART, type Gjk } from './gjk.ts';
import { type Numbers, numbers } from './numbers.ts';
import { CYLINDER, type Piece, SEGMENT } from './piece.ts';
import { unmoved } from './placement.ts';
import { squareTo } from './support.ts';
import {
  BOUNDS_END_in,
  COPLANAR,
  FLAT,
  MOST_VERTICES,
  MOST_VERTICES_ROUND,
  TOUCHING_in,
} from './tolerances.ts';

const MOST_FACES = 2 * MOST_VERTICES + 8;
/** Steps of the descent at most. */
const MOST_DESCENTS = 60;
/** δ above, as a part of the shapes' size: small steps go far, but rounding over δ turns n. */
const OUTSIDE = 1e-3;
/** How far the points may be from spanning the depth, in; on round shapes each step of the descent halves it. */
const FOOT_in = 1e-5;
/**
 * End of its distance searches, in: bounds that meet within e at a distance δ leave the foot √(2 e δ) off,
 * 1e-7 in for 0.01 in.
 */
const FOOT_END_in = 1e-12;

export class Depth {
  /** Depth of the cores, in: ≥ 0 but for rounding. */
  depth = 0.5;
  /** Lower bound of it, in. */
  lower = 0.5;
  /** Unit direction along which b must move to come free by `depth`. */
  readonly normal = numbers(3);
  /** Points of the cores' surfaces with a − b = depth · normal. */
  readonly pointA = numbers(3);
  readonly pointB = numbers(3);
  totalVertices = 0;

  readonly #P = numbers(3 * MOST_VERTICES);
  readonly #Q = numbers(3 * MOST_VERTICES);
  readonly #W = numbers(3 * MOST_VERTICES);
  #vertices = 0;
  /** Corners of face f, its unit normal and its distance from the origin. */
  readonly #corner = new Int32Array(3 * MOST_FACES);
  readonly #n = new Float64Array(3 * MOST_FACES);
  readonly #d = new Float64Array(MOST_FACES);
  #faces = 0;
  /** Edges of removed faces, two vertices each. */
  readonly #edges = new Int32Array(6 * MOST_FACES);
  /** A point inside the polytope: faces are turned away from it. */
  readonly #inside = numbers(3);
  readonly #direction = numbers(3);
  /** Where b stands during the descent. */
  readonly #moved = unmoved();
  #size = 1;

  /** Finds the depth of the two pieces that `gjk` has found to overlap. */
  run(gjk: Gjk): void {
    this.#start(gjk);
    if (!this.#grow(gjk)) return;
    this.depth = Infinity;
    this.lower = 0;
    this.#tryAxes(gjk);
    const isRound = gjk.a?.core === CYLINDER || gjk.b?.core === CYLINDER;
    const most = isRound ? MOST_VERTICES_ROUND : MOST_VERTICES;
    const n = this.#direction;
    while (true) {
      const face = this.#nearestFace();
      this.lower = this.#d[face] as number;
      if (this.depth - this.lower <= BOUNDS_END_in || this.#vertices >= most) break;
      n[0] = this.#n[3 * face] as number;
      n[1] = this.#n[3 * face + 1] as number;
      n[2] = this.#n[3 * face + 2] as number;
      const w = this.#vertices;
      this.#reach(gjk, w);
      if (this.depth - this.lower <= BOUNDS_END_in) break;
      this.#vertices = w + 1;
      if (!this.#push(w)) break;
    }
    this.totalVertices += this.#vertices;
    this.#descend(gjk);
  }

  /** Adds the vertex farthest along the direction at place w, and takes its reach if it is the least so far. */
  #reach(gjk: Gjk, w: number): void {
    const n = this.#direction;
    gjk.addVertex(w, n, 1, this.#P, this.#Q, this.#W);
    const far = this.#along(n, w);
    if (far < this.depth) {
      this.depth = far;
      this.normal.set(n);
    }
  }

  /**
   * Tries the directions in which two parts with an axis each come apart sideways: from one axis to the other. Where
   * the axes are nearly the same line, the descent would turn towards these in ever smaller steps.
   */
  #tryAxes(gjk: Gjk): void {
    const { a, b, placedA, placedB } = gjk;
    const hasAxis = (piece: Piece | null) => piece?.core === CYLINDER || piece?.core === SEGMENT;
    if (!(hasAxis(a) && hasAxis(b)) || (a?.core === SEGMENT && b?.core === SEGMENT)) return;
    const round = a?.core === CYLINDER ? placedA : placedB;
    const other = round === placedA ? placedB : placedA;
    const isSegment = (round === placedA ? b : a)?.core === SEGMENT;
    const half = isSegment ? 0.5 : 0;
    const x = other[0] + half * (other[3] - other[0]) - round[0];
    const y = other[1] + half * (other[4] - other[1]) - round[1];
    const z = other[2] + half * (other[5] - other[2]) - round[2];
    const along = x * round[3] + y * round[4] + z * round[5];
    const ex = isSegment ? other[3] - other[0] : other[3];
    const ey = isSegment ? other[4] - other[1] : other[4];
    const ez = isSegment ? other[5] - other[2] : other[5];
    this.#tryLine(gjk, x - along * round[3], y - along * round[4], z - along * round[5]);
    this.#tryLine(
      gjk,
      round[4] * ez - round[5] * ey,
      round[5] * ex - round[3] * ez,
      round[3] * ey - round[4] * ex,
    );
  }

  /** Tries a direction and its opposite, if it is more than rounding. */
  #tryLine(gjk: Gjk, x: number, y: number, z: number): void {
    const n = this.#direction;
    const length = Math.sqrt(x * x + y * y + z * z);
    if (length < TOUCHING_in) return;
    for (let sign = -1; sign <= 1; sign += 2) {
      n[0] = (sign * x) / length;
      n[1] = (sign * y) / length;
      n[2] = (sign * z) / length;
      this.#reach(gjk, this.#vertices);
    }
  }

  #nearestFace(): number {
    const d = this.#d;
    let face = 0;
    for (let f = 1; f < this.#faces; f++) {
      if ((d[f] as number) < (d[face] as number)) face = f;
    }
    return face;
  }

  /** n · vertex w. */
  #along(n: Numbers, w: number): number {
    const W = this.#W;
    return (
      n[0] * (W[3 * w] as number) +
      n[1] * (W[3 * w + 1] as number) +
      n[2] * (W[3 * w + 2] as number)
    );
  }

  /** Takes over the simplex and measures the size of C. */
  #start(gjk: Gjk): void {
    this.#P.set(gjk.P);
    this.#Q.set(gjk.Q);
    this.#W.set(gjk.W);
    this.#vertices = gjk.size;
    this.#faces = 0;
    const a = gjk.a?.bound[3] ?? 0;
    const b = gjk.b?.bound[3] ?? 0;
    this.#size = a + b;
  }

  /** Adds the vertex farthest along ±n if it lies off the plane through vertex 0 square to n. */
  #widen(gjk: Gjk, n: Numbers): boolean {
    const w = this.#vertices;
    const at = this.#along(n, 0);
    for (const sign of [1, -1]) {
      gjk.addVertex(w, n, sign, this.#P, this.#Q, this.#W);
      if (Math.abs(this.#along(n, w) - at) > FLAT * this.#size) {
        this.#vertices = w + 1;
        return true;
      }
    }
    return false;
  }

  /**
   * Makes a tetrahedron of the simplex. False where C is flat: then the result stands already, the
   * thickness along the direction in which it is flat.
   */
  #grow(gjk: Gjk): boolean {
    const n = this.#direction;
    this.#dropSlivers();
    if (this.#vertices === 1) {
      let found = false;
      for (let axis = 0; axis < 3 && !found; axis++) {
        n.fill(0);
        n[axis] = 1;
        found = this.#widen(gjk, n);
      }
      if (!found) return this.#flat(gjk, n);
    }
    if (this.#vertices === 2) {
      const W = this.#W;
      const x = W[3] - W[0];
      const y = W[4] - W[1];
      const z = W[5] - W[2];
      const length = Math.sqrt(x * x + y * y + z * z);
      const [u, v] = squareTo(x / length, y / length, z / length);
      n.set(u);
      if (!this.#widen(gjk, n)) {
        n.set(v);
        if (!this.#widen(gjk, n)) return this.#flat(gjk, n);
      }
    }
    if (this.#vertices === 3) {
      this.#normalOf(0, 1, 2);
      if (!this.#widen(gjk, n)) return this.#flat(gjk, n);
    }
    const W = this.#W;
    for (let i = 0; i < 3; i++) {
      const a = W[i] as number;
      const b = W[3 + i] as number;
      const c = W[6 + i] as number;
      this.#inside[i] = (a + b + c + (W[9 + i] as number)) / 4;
    }
    this.#addFace(0, 1, 2);
    this.#addFace(0, 1, 3);
    this.#addFace(0, 2, 3);
    this.#addFace(1, 2, 3);
    return true;
  }

  /** Leaves out vertices that add no extent to the simplex but rounding. */
  #dropSlivers(): void {
    const n = this.#direction;
    const least = FLAT * this.#size;
    if (this.#vertices === 4) {
      this.#normalOf(0, 1, 2);
      if (Math.abs(this.#along(n, 3) - this.#along(n, 0)) <= least) this.#vertices = 3;
    }
    if (this.#vertices === 3 && this.#normalOf(0, 1, 2) <= least * this.#size) this.#vertices = 2;
    const W = this.#W;
    if (this.#vertices === 2) {
      const x = W[3] - W[0];
      const y = W[4] - W[1];
      const z = W[5] - W[2];
      if (Math.sqrt(x * x + y * y + z * z) <= least) this.#vertices = 1;
    }
  }

  /** Writes the unit normal of three vertices to the direction; any direction where they are in line. */
  #normalOf(i: number, j: number, k: number): number {
    const W = this.#W;
    const x = W[3 * k] as number;
    const y = W[3 * k + 1] as number;
    const z = W[3 * k + 2] as number;
    const ax = (W[3 * i] as number) - x;
    const ay = (W[3 * i + 1] as number) - y;
    const az = (W[3 * i + 2] as number) - z;
    const bx = (W[3 * j] as number) - x;
    const by = (W[3 * j + 1] as number) - y;
    const bz = (W[3 * j + 2] as number) - z;
    const nx = ay * bz - az * by;
    const ny = az * bx - ax * bz;
    const nz = ax * by - ay * bx;
    const length = Math.sqrt(nx * nx + ny * ny + nz * nz);
    const n = this.#direction;
    n[0] = length > 0 ? nx / length : 1;
    n[1] = length > 0 ? ny / length : 0;
    n[2] = length > 0 ? nz / length : 0;
    return length;
  }

  /** The result for a C without volume: no more than its thickness along n. */
  #flat(gjk: Gjk, n: Numbers): boolean {
    const w = this.#vertices;
    gjk.addVertex(w, n, 1, this.#P, this.#Q, this.#W);
    this.depth = Math.max(0, this.#along(n, w));
    this.lower = 0;
    this.normal.set(n);
    gjk.nearest(this.pointA, this.pointB);
    return false;
  }

  /** Adds a face, turned away from the inside. A sliver without a normal is never the nearest. */
  #addFace(i: number, j: number, k: number): void {
    const f = this.#faces;
    const n = this.#direction;
    const area = this.#normalOf(i, j, k);
    let d = this.#along(n, k);
    const inside = this.#inside;
    const turned = n[0] * inside[0] + n[1] * inside[1] + n[2] * inside[2] > d;
    const sign = turned ? -1 : 1;
    d *= sign;
    this.#corner[3 * f] = turned ? j : i;
    this.#corner[3 * f + 1] = turned ? i : j;
    this.#corner[3 * f + 2] = k;
    this.#n[3 * f] = sign * n[0];
    this.#n[3 * f + 1] = sign * n[1];
    this.#n[3 * f + 2] = sign * n[2];
    this.#d[f] = area > 0 ? d : Infinity;
    this.#faces = f + 1;
  }

  /** Removes the faces that vertex w can see and closes the hole with w. False if nothing is left to do. */
  #push(w: number): boolean {
    const edges = this.#edges;
    const corner = this.#corner;
    const W = this.#W;
    const x = W[3 * w] as number;
    const y = W[3 * w + 1] as number;
    const z = W[3 * w + 2] as number;
    const slack = COPLANAR * this.#size;
    let count = 0;
    for (let f = 0; f < this.#faces; ) {
      const above =
        (this.#n[3 * f] as number) * x +
        (this.#n[3 * f + 1] as number) * y +
        (this.#n[3 * f + 2] as number) * z -
        (this.#d[f] as number);
      // a sliver (d infinite) is never seen; a face whose plane holds w is, so that slivers stay rare
      if (!(above > -slack)) {
        f++;
        continue;
      }
      for (let side = 0; side < 3; side++) {
        const from = corner[3 * f + side] as number;
        const to = corner[3 * f + ((side + 1) % 3)] as number;
        let paired = -1;
        for (let e = 0; e < count; e++) {
          if (edges[2 * e] === to && edges[2 * e + 1] === from) {
            paired = e;
            break;
          }
        }
        if (paired >= 0) {
          count--;
          edges[2 * paired] = edges[2 * count] as number;
          edges[2 * paired + 1] = edges[2 * count + 1] as number;
        } else {
          edges[2 * count] = from;
          edges[2 * count + 1] = to;
          count++;
        }
      }
      this.#removeFace(f);
    }
    if (count < 3 || this.#faces + count > MOST_FACES) return false;
    for (let e = 0; e < count; e++) {
      this.#addFace(edges[2 * e] as number, edges[2 * e + 1] as number, w);
    }
    return true;
  }

  #removeFace(f: number): void {
    const last = this.#faces - 1;
    this.#faces = last;
    if (f === last) return;
    for (let i = 0; i < 3; i++) {
      this.#corner[3 * f + i] = this.#corner[3 * last + i] as number;
      this.#n[3 * f + i] = this.#n[3 * last + i] as number;
    }
    this.#d[f] = this.#d[last] as number;
  }

  /**
   * The descent described above, from the best direction so far. Its first step also finds the points of
   * the surfaces, and is the last one where the bounds have met.
   */
  #descend(gjk: Gjk): void {
    const { v, a, b, placeA, placeB } = gjk;
    if (a === null || b === null) return;
    gjk.cutoff = Infinity;
    gjk.end = FOOT_END_in;
    const n = this.normal;
    const { pointA, pointB } = this;
    const moved = this.#moved;
    for (let step = 0; step < MOST_DESCENTS; step++) {
      // b moved by p = out · n: then C − p is what the origin is measured from
      const out = this.depth + OUTSIDE * this.#size;
      moved.set(placeB);
      for (let i = 0; i < 3; i++) {
        moved[9 + i] = (placeB[9 + i] as number) + out * (n[i] as number);
        v[i] = -(n[i] as number);
      }
      gjk.begin(a, placeA, b, moved);
      const code = gjk.run();
      // q as points of A and B, with b where it was
      gjk.nearest(pointA, pointB);
      for (let i = 0; i < 3; i++) pointB[i] = (pointB[i] as number) - out * (n[i] as number);
      if (code !== APART) break;
      // v = q − p: the new direction is −v, and the reach along it is that of p less the distance
      const turned = -(v[0] * n[0] + v[1] * n[1] + v[2] * n[2]) / gjk.upper;
      const reach = out * turned - gjk.lower;
      const gained = this.depth - reach;
      if (gained < -BOUNDS_END_in) break;
      if (gained > 0) this.depth = reach;
      for (let i = 0; i < 3; i++) n[i] = -(v[i] as number) / gjk.upper;
      let missed = 0;
      for (let i = 0; i < 3; i++) {
        const between = (pointA[i] as number) - (pointB[i] as number);
        missed = Math.max(missed, Math.abs(between - this.depth * (n[i] as number)));
      }
      const ended = gained < BOUNDS_END_in / 100 || this.depth - this.lower <= BOUNDS_END_in;
      if (ended && missed < FOOT_in) break;
    }
    gjk.begin(a, placeA, b, placeB);
    gjk.end = BOUNDS_END_in;
  }
}
