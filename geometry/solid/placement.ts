/**
 * A rigid placement: twelve numbers, the rotation by rows and then the translation, so that
 * `pointInCommon = R · pointInBody + t`. Its name says from and to: `commonFromBody`.
 */
import { type Numbers, numbers } from './numbers.ts';
import { ROTATION } from './tolerances.ts';

export type Placement = Float64Array<ArrayBufferLike>;

/** Numbers of a placement. */
export const PLACEMENT_SIZE = 12;

/** The placement that leaves everything where it is. */
export function unmoved(): Placement {
  const place = numbers(PLACEMENT_SIZE);
  place[0] = place[4] = place[8] = 1;
  return place;
}

/**
 * A placement from a rotation by rows (nine numbers) and a translation (three, in).
 *
 * @example
 *   const chassisFromAxle = placement([1, 0, 0, 0, 1, 0, 0, 0, 1], [0, 0, 20]);
 */
export function placement(rotation: ArrayLike<number>, translation: ArrayLike<number>): Placement {
  const place = numbers(PLACEMENT_SIZE);
  for (let i = 0; i < 9; i++) place[i] = rotation[i] as number;
  for (let i = 0; i < 3; i++) place[9 + i] = translation[i] as number;
  return place;
}

/** What keeps `place` from being a rigid placement, or null: every distance relies on it. */
export function problemOfPlacement(place: ArrayLike<number>): string | null {
  if (place.length < PLACEMENT_SIZE)
    return `a placement has 12 numbers; this one has ${place.length}`;
  const m = Array.from({ length: PLACEMENT_SIZE }, (_, i) => place[i] as number);
  const bad = m.findIndex(each => !Number.isFinite(each));
  if (bad >= 0) return `number ${bad + 1} of the placement is ${m[bad]}; it must be finite`;
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0, i = 0] = m;
  const worst = Math.max(
    Math.abs(a * a + d * d + g * g - 1),
    Math.abs(b * b + e * e + h * h - 1),
    Math.abs(c * c + f * f + i * i - 1),
    Math.abs(a * b + d * e + g * h),
    Math.abs(a * c + d * f + g * i),
    Math.abs(b * c + e * f + h * i),
  );
  if (worst > ROTATION)
    return 'the axes of the placement are not square to each other and of length 1';
  const handed = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
  return handed < 0 ? 'the axes of the placement are left-handed; they must be right-handed' : null;
}

/** Writes the point at `from[i]` … carried by `place` to `out[o]` … */
export function carryPoint(
  place: Placement,
  from: Float64Array,
  i: number,
  out: Float64Array,
  o: number,
): void {
  const m = place as Numbers;
  const x = from[i] as number;
  const y = from[i + 1] as number;
  const z = from[i + 2] as number;
  out[o] = m[0] * x + m[1] * y + m[2] * z + m[9];
  out[o + 1] = m[3] * x + m[4] * y + m[5] * z + m[10];
  out[o + 2] = m[6] * x + m[7] * y + m[8] * z + m[11];
}

/** Writes both ends of a segment, `from[0..5]`, carried by `place` to `out[o]` … */
export function carrySegment(
  place: Placement,
  from: Float64Array,
  out: Float64Array,
  o: number,
): void {
  const m = place as Numbers;
  const s = from as Numbers;
  out[o] = m[0] * s[0] + m[1] * s[1] + m[2] * s[2] + m[9];
  out[o + 1] = m[3] * s[0] + m[4] * s[1] + m[5] * s[2] + m[10];
  out[o + 2] = m[6] * s[0] + m[7] * s[1] + m[8] * s[2] + m[11];
  out[o + 3] = m[0] * s[3] + m[1] * s[4] + m[2] * s[5] + m[9];
  out[o + 4] = m[3] * s[3] + m[4] * s[4] + m[5] * s[5] + m[10];
  out[o + 5] = m[6] * s[3] + m[7] * s[4] + m[8] * s[5] + m[11];
}

/** Writes the direction at `from[i]` … turned by `place` to `out[o]` … */
export function turnVector(
  place: Placement,
  from: Float64Array,
  i: number,
  out: Float64Array,
  o: number,
): void {
  const m = place as Numbers;
  const x = from[i] as number;
  const y = from[i + 1] as number;
  const z = from[i + 2] as number;
  out[o] = m[0] * x + m[1] * y + m[2] * z;
  out[o + 1] = m[3] * x + m[4] * y + m[5] * z;
  out[o + 2] = m[6] * x + m[7] * y + m[8] * z;
}

/** Writes aFromB, which carries points of body b into the frame of body a, to `out`. */
export function relativePlacement(
  out: Placement,
  commonFromA: Placement,
  commonFromB: Placement,
): void {
  const a = commonFromA as Numbers;
  const b = commonFromB as Numbers;
  const x = b[9] - a[9];
  const y = b[10] - a[10];
  const z = b[11] - a[11];
  for (let row = 0; row < 3; row++) {
    const p = a[row] as number;
    const q = a[row + 3] as number;
    const r = a[row + 6] as number;
    out[3 * row] = p * b[0] + q * b[3] + r * b[6];
    out[3 * row + 1] = p * b[1] + q * b[4] + r * b[7];
    out[3 * row + 2] = p * b[2] + q * b[5] + r * b[8];
    out[9 + row] = p * x + q * y + r * z;
  }
}
