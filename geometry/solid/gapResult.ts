/** What the search for the gap of one pair of solids gives back. */
import { type Numbers, numbers } from './numbers.ts';
import { type Piece, SEGMENT } from './piece.ts';

/** `alongA`, `alongB` of a part that has no first end. */
export const NO_ALONG = -1;

/** One result, as plain numbers. */
export interface Gap {
  /** In; negative is overlap. */
  readonly gap: number;
  /** Points on both surfaces, common frame, in. */
  readonly pointA: [number, number, number];
  readonly pointB: [number, number, number];
  /** Unit direction with pointB − pointA = gap · normal. */
  readonly normal: [number, number, number];
  /** 0 to 1 from the part's first end; null for a part that has none. */
  readonly alongA: number | null;
  readonly alongB: number | null;
}

/** The result in place, written anew by each run. */
export class GapResult {
  /** The gap, in. Where `beyond`: a lower bound of it, and the fields below mean nothing. */
  gap = 0.5;
  beyond = false;
  /** Both points and the normal, one after the other: written at once by the closed form of rods. */
  readonly both = numbers(9);
  /** Points on both surfaces, common frame, in. */
  readonly pointA = this.both.subarray(0, 3) as Numbers;
  readonly pointB = this.both.subarray(3, 6) as Numbers;
  /** Unit direction with pointB − pointA = gap · normal. */
  readonly normal = this.both.subarray(6, 9) as Numbers;
  /** 0 to 1 from the part's first end, or NO_ALONG. */
  alongA = 0.5;
  alongB = 0.5;

  /** The last result as plain numbers; null where the gap was beyond the cutoff. */
  result(): Gap | null {
    if (this.beyond) return null;
    const { pointA: p, pointB: q, normal: n, alongA, alongB } = this;
    return {
      gap: this.gap,
      pointA: [p[0], p[1], p[2]],
      pointB: [q[0], q[1], q[2]],
      normal: [n[0], n[1], n[2]],
      alongA: alongA < 0 ? null : alongA,
      alongB: alongB < 0 ? null : alongB,
    };
  }

  /** Exchanges a and b in the result. */
  turnAround(): void {
    if (this.beyond) return;
    const { pointA, pointB, normal } = this;
    for (let i = 0; i < 3; i++) {
      const kept = pointA[i] as number;
      pointA[i] = pointB[i] as number;
      pointB[i] = kept;
      normal[i] = -(normal[i] as number);
    }
    const along = this.alongA;
    this.alongA = this.alongB;
    this.alongB = along;
  }
}

/** Where along its part a point on a placed piece lies, or NO_ALONG. */
export function alongOf(piece: Piece, placed: Numbers, point: Numbers): number {
  if (piece.from < 0) return NO_ALONG;
  let t: number;
  if (piece.core === SEGMENT) {
    const dx = placed[3] - placed[0];
    const dy = placed[4] - placed[1];
    const dz = placed[5] - placed[2];
    const square = dx * dx + dy * dy + dz * dz;
    const x = point[0] - placed[0];
    const y = point[1] - placed[1];
    const z = point[2] - placed[2];
    t = square > 0 ? (x * dx + y * dy + z * dz) / square : 0;
  } else {
    const x = point[0] - placed[0];
    const y = point[1] - placed[1];
    const z = point[2] - placed[2];
    t = 0.5 + (x * placed[3] + y * placed[4] + z * placed[5]) / (2 * placed[6]);
  }
  t = Math.max(0, Math.min(1, t));
  return piece.from + t * (piece.to - piece.from);
}
