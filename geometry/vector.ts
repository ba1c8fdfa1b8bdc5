/**
 * Vectors of three numbers: plain arrays in, new plain arrays out. For set-up and results; the solvers'
 * inner loops write their components out instead.
 */
export type V3 = readonly [number, number, number];

export const add = (a: V3, b: V3): V3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const sub = (a: V3, b: V3): V3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const scale = (a: V3, s: number): V3 => [a[0] * s, a[1] * s, a[2] * s];
export const dot = (a: V3, b: V3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: V3, b: V3): V3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const norm = (a: V3): number => Math.sqrt(dot(a, a));
export const distance = (a: V3, b: V3): number => norm(sub(a, b));

/** `a` with length 1. A zero vector stays zero: callers that can meet one check `norm` first. */
export const unit = (a: V3): V3 => {
  const length = norm(a);
  return length === 0 ? [0, 0, 0] : scale(a, 1 / length);
};

/** The part of `a` square to the unit vector `n`. */
export const reject = (a: V3, n: V3): V3 => sub(a, scale(n, dot(a, n)));

/** `a` turned right-handed about the unit axis by the angle with this cosine and sine (Rodrigues). */
export const turned = (a: V3, axis: V3, cos: number, sin: number): V3 => {
  const along = dot(axis, a) * (1 - cos);
  const side = cross(axis, a);
  return [
    a[0] * cos + side[0] * sin + axis[0] * along,
    a[1] * cos + side[1] * sin + axis[1] * along,
    a[2] * cos + side[2] * sin + axis[2] * along,
  ];
};

/** Some unit vector square to the unit vector `n`; the same one for the same `n`. */
export const anySquare = (n: V3): V3 => {
  const x = Math.abs(n[0]);
  const y = Math.abs(n[1]);
  const z = Math.abs(n[2]);
  const e: V3 = x <= y && x <= z ? [1, 0, 0] : y <= z ? [0, 1, 0] : [0, 0, 1];
  return unit(reject(e, n));
};
