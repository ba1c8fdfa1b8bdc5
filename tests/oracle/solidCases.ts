/**
 * Seeded pairs of placed shapes, for comparing gaps with other code: solids.cpp computes them once, the tests
 * compute them again. Nothing here depends on the engine but + − × ÷ and square roots, which IEEE 754 rounds
 * in one way.
 *
 * Half of the cases have general positions. The others are degenerate on purpose: sizes and shifts in
 * quarters of an inch and turns by right angles give faces that touch, edges and axes that are parallel,
 * shapes that coincide; turns that miss these by 1e-3 to 1e-12 lie next to them.
 */

export const kinds = [
  'sphere',
  'capsule',
  'bentTube',
  'box',
  'cylinder',
  'tire',
  'hull',
  'mesh',
] as const;
export type Kind = (typeof kinds)[number];

export type Point = [number, number, number];

export type Shape =
  | { kind: 'sphere'; center: Point; radius: number }
  | { kind: 'capsule'; from: Point; to: Point; radius: number }
  | { kind: 'bentTube'; points: Point[]; radius: number }
  | { kind: 'box'; center: Point; half: Point }
  | { kind: 'cylinder'; from: Point; to: Point; radius: number }
  | { kind: 'tire'; center: Point; axis: Point; diameter: number; width: number; shoulder: number }
  | { kind: 'hull'; pool: number }
  | { kind: 'mesh'; pool: number };

/** A rotation by rows and a translation, in. */
export interface Place {
  rotation: number[];
  translation: Point;
}

export interface Case {
  a: Shape;
  placeA: Place;
  b: Shape;
  placeB: Place;
}

/** Every pair of kinds, each once. */
export const pairsOfKinds: readonly (readonly [Kind, Kind])[] = kinds.flatMap((a, i) =>
  kinds.slice(i).map(b => [a, b] as const),
);

/** Uniform numbers from 0 to 1 (mulberry32), the same for the same seed. */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t = (t + Math.imul(t ^ (t >>> 7), t | 61)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** The seed of one pair of kinds. */
export function seedOf(seed: number, a: Kind, b: Kind): number {
  return (seed + 1000 * kinds.indexOf(a) + kinds.indexOf(b)) >>> 0;
}

/** `count` cases of a pair of kinds. The first ones stay the same whatever the count. */
export function* casesOf(a: Kind, b: Kind, seed: number, count: number): Generator<Case> {
  const random = randomFrom(seedOf(seed, a, b));
  for (let i = 0; i < count; i++) {
    const even = random() < 0.5;
    yield {
      a: shapeOf(a, random, even),
      placeA: placeOf(random, even),
      b: shapeOf(b, random, even),
      placeB: placeOf(random, even),
    };
  }
}

/** From least to most; in quarters if `even`. */
function size(random: () => number, even: boolean, least: number, most: number): number {
  const value = least + (most - least) * random();
  return even ? Math.max(least, Math.round(4 * value) / 4) : value;
}

function point(random: () => number, even: boolean, reach: number): Point {
  return [
    size(random, even, -reach, reach),
    size(random, even, -reach, reach),
    size(random, even, -reach, reach),
  ];
}

function shapeOf(kind: Kind, random: () => number, even: boolean): Shape {
  const r = () => size(random, even, 0.25, 3);
  switch (kind) {
    case 'sphere':
      return { kind, center: point(random, even, 2), radius: r() };
    case 'capsule':
      return { kind, ...line(random, even, 0), radius: r() };
    case 'bentTube': {
      const points = [point(random, even, 6)];
      for (let i = 0, n = 1 + Math.floor(3 * random()); i < n; i++) {
        points.push(point(random, even, 6));
      }
      return { kind, points, radius: r() };
    }
    case 'box':
      return {
        kind,
        center: point(random, even, 2),
        half: [
          size(random, even, 0.25, 6),
          size(random, even, 0.25, 6),
          size(random, even, 0.25, 6),
        ],
      };
    case 'cylinder':
      return { kind, ...line(random, even, 0.5), radius: r() };
    case 'tire': {
      const shoulder = size(random, even, 0, 2);
      return {
        kind,
        center: point(random, even, 2),
        axis: even ? [0, 1, 0] : direction(random),
        diameter: 2 * shoulder + size(random, even, 1, 16),
        width: 2 * shoulder + size(random, even, 0.5, 6),
        shoulder,
      };
    }
    default:
      return {
        kind,
        pool: Math.floor(random() * (kind === 'hull' ? hulls.length : meshes.length)),
      };
  }
}

/** A line; half of the even ones run along an axis. */
function line(random: () => number, even: boolean, least: number): { from: Point; to: Point } {
  while (true) {
    const from = point(random, even, 6);
    const to = point(random, even, 6);
    if (even && random() < 0.5) {
      const axis = Math.floor(3 * random());
      for (let i = 0; i < 3; i++) if (i !== axis) to[i] = from[i] as number;
    }
    const square = to.reduce((sum, each, i) => sum + (each - (from[i] as number)) ** 2, 0);
    if (square >= least * least) return { from, to };
  }
}

function direction(random: () => number): Point {
  while (true) {
    const v: Point = [2 * random() - 1, 2 * random() - 1, 2 * random() - 1];
    const square = v[0] * v[0] + v[1] * v[1] + v[2] * v[2];
    if (square > 0.01 && square <= 1) {
      const length = Math.sqrt(square);
      return [v[0] / length, v[1] / length, v[2] / length];
    }
  }
}

function placeOf(random: () => number, even: boolean): Place {
  const translation = even
    ? point(random, true, random() < 0.2 ? 1 : 8)
    : point(random, false, random() < 0.2 ? 3 : 11);
  let [w, x, y, z] = turn(random);
  if (even) {
    // a turn by right angles, missed by little one time in three
    const root = Math.sqrt(0.5);
    const turns = [
      [1, 0, 0, 0],
      [root, root, 0, 0],
      [root, 0, root, 0],
      [root, 0, 0, root],
      [0.5, 0.5, 0.5, 0.5],
      [0, 0, 1, 0],
    ];
    [w = 1, x = 0, y = 0, z = 0] = turns[Math.floor(random() * turns.length)] as number[];
    if (random() < 1 / 3) {
      const off = 10 ** -Math.floor(3 + 10 * random());
      const length = Math.sqrt(1 + off * off);
      const [p, q, r] = direction(random);
      // product with the small turn (1, off · direction)
      [w, x, y, z] = [
        (w - off * (x * p + y * q + z * r)) / length,
        (x + off * (w * p + y * r - z * q)) / length,
        (y + off * (w * q + z * p - x * r)) / length,
        (z + off * (w * r + x * q - y * p)) / length,
      ];
    }
  }
  return { rotation: rotationOf(w, x, y, z), translation };
}

/** A unit quaternion, uniform over all turns. */
function turn(random: () => number): [number, number, number, number] {
  while (true) {
    const q = [0, 0, 0, 0].map(() => 2 * random() - 1);
    const square = q.reduce((sum, each) => sum + each * each, 0);
    if (square <= 0.01 || square > 1) continue;
    const length = Math.sqrt(square);
    return q.map(each => each / length) as [number, number, number, number];
  }
}

/** Rotation by rows; entries that are 0 or ±1 but for rounding become so, to be square to the last bit. */
function rotationOf(w: number, x: number, y: number, z: number): number[] {
  return [
    1 - 2 * (y * y + z * z),
    2 * (x * y - w * z),
    2 * (x * z + w * y),
    2 * (x * y + w * z),
    1 - 2 * (x * x + z * z),
    2 * (y * z - w * x),
    2 * (x * z - w * y),
    2 * (y * z + w * x),
    1 - 2 * (x * x + y * y),
  ].map(each => {
    const near = Math.round(each);
    return Math.abs(each - near) < 1e-15 ? near : each;
  });
}

export interface PoolMesh {
  positions: number[];
  triangles: number[];
  /** Whether it was made as a closed surface. */
  closed: boolean;
}

/** The hulls that cases choose from: clouds of points, a prism, a pyramid, a flat plate. */
export const hulls: readonly Point[][] = makeHulls();

/** The meshes that cases choose from: an even box, a lumpy ball, a ring, an open sheet, one triangle. */
export const meshes: readonly PoolMesh[] = makeMeshes();

function makeHulls(): Point[][] {
  const random = randomFrom(7);
  const cloud = (n: number, x: number, y: number, z: number): Point[] =>
    Array.from({ length: n }, () => {
      const [p, q, r] = direction(random);
      return [x * p, y * q, z * r];
    });
  const prism: Point[] = [];
  for (const z of [-2, 2]) {
    for (const [x, y] of [
      [3, 0],
      [1.5, 2],
      [-1.5, 2],
      [-3, 0],
      [-1.5, -2],
      [1.5, -2],
    ] as const) {
      prism.push([x, y, z]);
    }
  }
  return [
    cloud(12, 3, 3, 3),
    cloud(30, 6, 1.5, 2),
    cloud(20, 1, 4, 4),
    prism,
    [
      [2, 2, 0],
      [-2, 2, 0],
      [-2, -2, 0],
      [2, -2, 0],
      [0, 0, 5],
    ],
    [
      [4, 2, 0],
      [-4, 2, 0],
      [-4, -2, 0],
      [4, -2, 0],
    ],
  ];
}

function makeMeshes(): PoolMesh[] {
  const random = randomFrom(11);
  const cube = grid(2, 2, (u, v) => [u, v, 0]);
  const sheet = grid(12, 8, (u, v) => [
    8 * (u - 0.5),
    6 * (v - 0.5),
    0.8 * (random() - 0.5) + 3 * (u - 0.5) * (u - 0.5),
  ]);
  return [
    boxMesh(3, 2, 1),
    ball(random),
    ring(),
    { ...sheet, closed: false },
    { ...cube, positions: cube.positions.map(each => 4 * each - 2), closed: false },
    { positions: [0, 0, 0, 5, 0, 0, 1, 4, 2], triangles: [0, 1, 2], closed: false },
  ];
}

function grid(
  columns: number,
  rows: number,
  at: (u: number, v: number) => Point,
): { positions: number[]; triangles: number[] } {
  const positions: number[] = [];
  const triangles: number[] = [];
  for (let j = 0; j <= rows; j++) {
    for (let i = 0; i <= columns; i++) positions.push(...at(i / columns, j / rows));
  }
  for (let j = 0; j < rows; j++) {
    for (let i = 0; i < columns; i++) {
      const p = j * (columns + 1) + i;
      const q = p + columns + 1;
      triangles.push(p, p + 1, q + 1, p, q + 1, q);
    }
  }
  return { positions, triangles };
}

function boxMesh(x: number, y: number, z: number): PoolMesh {
  const positions: number[] = [];
  for (let k = 0; k < 8; k++) positions.push(k & 1 ? x : -x, k & 2 ? y : -y, k & 4 ? z : -z);
  const faces = [
    [0, 2, 3, 1],
    [4, 5, 7, 6],
    [0, 1, 5, 4],
    [2, 6, 7, 3],
    [0, 4, 6, 2],
    [1, 3, 7, 5],
  ] as const;
  return {
    positions,
    triangles: faces.flatMap(([a, b, c, d]) => [a, b, c, a, c, d]),
    closed: true,
  };
}

/** An octahedron, each face divided three times, pushed out to about 4 in with lumps. */
function ball(random: () => number): PoolMesh {
  let positions: Point[] = [
    [1, 0, 0],
    [-1, 0, 0],
    [0, 1, 0],
    [0, -1, 0],
    [0, 0, 1],
    [0, 0, -1],
  ];
  let triangles = [0, 2, 4, 2, 1, 4, 1, 3, 4, 3, 0, 4, 2, 0, 5, 1, 2, 5, 3, 1, 5, 0, 3, 5];
  for (let level = 0; level < 3; level++) {
    const middles = new Map<number, number>();
    const next: number[] = [];
    const middle = (i: number, j: number): number => {
      const key = Math.min(i, j) * 1000 + Math.max(i, j);
      const known = middles.get(key);
      if (known !== undefined) return known;
      const p = positions[i] as Point;
      const q = positions[j] as Point;
      const m = [p[0] + q[0], p[1] + q[1], p[2] + q[2]] as Point;
      const length = Math.sqrt(m[0] * m[0] + m[1] * m[1] + m[2] * m[2]);
      positions.push([m[0] / length, m[1] / length, m[2] / length]);
      middles.set(key, positions.length - 1);
      return positions.length - 1;
    };
    for (let t = 0; t < triangles.length; t += 3) {
      const [a = 0, b = 0, c = 0] = triangles.slice(t, t + 3);
      const p = middle(a, b);
      const q = middle(b, c);
      const r = middle(c, a);
      next.push(a, p, r, p, b, q, r, q, c, p, q, r);
    }
    triangles = next;
  }
  positions = positions.map(([x, y, z]) => {
    const radius = 4 + 0.6 * (random() - 0.5);
    return [radius * x, radius * y, radius * z];
  });
  return { positions: positions.flat(), triangles, closed: true };
}

/** A square ring, 8 × 8 outside and 4 × 4 inside, 2 high: closed, and not convex. */
function ring(): PoolMesh {
  const positions: number[] = [];
  for (const z of [-1, 1]) {
    for (const s of [4, 2]) positions.push(s, s, z, -s, s, z, -s, -s, z, s, -s, z);
  }
  const triangles: number[] = [];
  const quad = (a: number, b: number, c: number, d: number) => triangles.push(a, b, c, a, c, d);
  for (let i = 0; i < 4; i++) {
    const j = (i + 1) % 4;
    quad(i, j, 8 + j, 8 + i);
    quad(4 + j, 4 + i, 12 + i, 12 + j);
    quad(8 + i, 8 + j, 12 + j, 12 + i);
    quad(j, i, 4 + i, 4 + j);
  }
  return { positions, triangles, closed: true };
}
