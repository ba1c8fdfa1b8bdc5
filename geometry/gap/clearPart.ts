/**
 * The part of the range where two things that touch somewhere keep clear, as a bound of travel: 'clear below 3 1/4
 * up on the passenger side'. Found by searching, like the gaps themselves.
 */
import type { Place } from '../cycle/spots.ts';
import type { Pose } from '../pose/pose.ts';
import type { GapSearch, Searched } from './leastGaps.ts';
import type { PairGap } from './pairGap.ts';

/** What is bounded: the travel of one wheel, or the mean of both. */
export type Bounded = 'left' | 'right' | 'both';

export interface ClearPart {
  of: Bounded;
  /** Clear below the bound, or above it. */
  side: 'below' | 'above';
  /** Travel, in. */
  travel: number;
  /** Share of the range that lies there, 0 to 1. */
  share: number;
}

/** Looks across a slice of the range, ends included, and shares of the steering. */
const ACROSS = 9;
const SHARES = [-1, -0.5, 0, 0.5, 1];
/** Bounds are found to this, in: half of what a tape shows. */
const BOUND_in = 1 / 32;
/** Slices beyond a bound that are looked at, so that no touch lies there. */
const BEYOND = 6;
/** A smaller share of the range is not worth telling. */
const LEAST_SHARE = 0.1;

/**
 * The bound of travel that leaves most of the range without a touch between any of these pairs; null where none
 * leaves a tenth of it.
 */
export function clearPart(
  { range, grid }: Searched,
  search: GapSearch,
  found: readonly PairGap[],
): ClearPart | null {
  const gapAt = (pose: Pose): number =>
    Math.min(...found.map(({ pair }) => search.gapAt(pair, pose)));
  const places = grid.places.filter(place => place.steered.length > 0);
  const touching = [
    ...places.filter(place => place.steered.some(({ pose }) => gapAt(pose) < 0)),
    ...found.filter(({ gap }) => gap < 0).map(({ pose }) => pose.input),
  ];
  let best: ClearPart | null = null;
  for (const of of ['left', 'right', 'both'] as const) {
    const values = range.edge.map(p => travelOf(of, p));
    const hits = touching.map(p => travelOf(of, p));
    for (const side of ['below', 'above'] as const) {
      const [end, touch] =
        side === 'below'
          ? [Math.min(...values), Math.min(...hits)]
          : [Math.max(...values), Math.max(...hits)];
      const shareOf = (travel: number): number =>
        places.filter(p => (side === 'below' ? travelOf(of, p) < travel : travelOf(of, p) > travel))
          .length / places.length;
      // what is known to touch leaves this much at most
      if (shareOf(touch) < LEAST_SHARE || (best && shareOf(touch) <= best.share)) continue;
      const touches = (travel: number): boolean =>
        touchesOn(slicesOf(range.edge, of, travel), search, gapAt);
      const travel = boundBetween(end, touch, touches);
      const share = shareOf(travel);
      if (share >= LEAST_SHARE && (!best || share > best.share)) best = { of, side, travel, share };
    }
  }
  return best;
}

const travelOf = (of: Bounded, { left, right }: { left: number; right: number }): number =>
  of === 'both' ? (left + right) / 2 : of === 'left' ? left : right;

/** Where touches begin on the way from an end of the range to a travel that touches, on the clear side. */
function boundBetween(end: number, touch: number, touches: (travel: number) => boolean): number {
  let touching = touch;
  for (let k = 0; k < BEYOND; k++) {
    const at = end + ((touch - end) * k) / BEYOND;
    if (!touches(at)) continue;
    touching = at;
    break;
  }
  let clear = end;
  while (Math.abs(touching - clear) > BOUND_in) {
    const middle = (touching + clear) / 2;
    if (touches(middle)) touching = middle;
    else clear = middle;
  }
  return clear;
}

/** A stretch of the range along which what is bounded stays the same. */
type Slice = readonly [from: Place, to: Place];

/** The range cut at a travel: where the edge crosses it, two by two. */
function slicesOf(edge: Searched['range']['edge'], of: Bounded, travel: number): Slice[] {
  const crossings: Place[] = [];
  for (const [i, p] of edge.entries()) {
    const q = edge[(i + 1) % edge.length];
    if (!q) continue;
    const [a, b] = [travelOf(of, p) - travel, travelOf(of, q) - travel];
    if (a > 0 === b > 0) continue;
    const t = a / (a - b);
    const [left, right] = [p.left + t * (q.left - p.left), p.right + t * (q.right - p.right)];
    crossings.push({ left, right, share: 0, along: null });
  }
  crossings.sort((a, b) => a.left - a.right - (b.left - b.right));
  const out: Slice[] = [];
  for (let k = 0; k + 1 < crossings.length; k += 2) {
    out.push([crossings[k] as Place, crossings[k + 1] as Place]);
  }
  return out;
}

/** Whether a touch is found on slices: by a scan, and from its best by a search along the slice. */
function touchesOn(
  slices: readonly Slice[],
  search: GapSearch,
  gapAt: (pose: Pose) => number,
): boolean {
  const { steers } = search.poses;
  for (const [from, to] of slices) {
    let best = { across: 0, share: 0, gap: Number.POSITIVE_INFINITY };
    const look = (across: number, share: number): boolean => {
      const pose = search.poses.pose({
        left: from.left + across * (to.left - from.left),
        right: from.right + across * (to.right - from.right),
        share,
        along: null,
      });
      const gap = pose ? gapAt(pose) : Number.POSITIVE_INFINITY;
      if (gap >= best.gap) return false;
      best = { across, share, gap };
      return true;
    };
    for (let k = 0; k < ACROSS; k++) {
      for (const share of steers ? SHARES : [0]) look(k / (ACROSS - 1), share);
    }
    for (let step = 0.5 / (ACROSS - 1); step > 2e-3 && best.gap >= 0; ) {
      const { across, share } = best;
      const moved =
        look(Math.min(1, across + step), share) ||
        look(Math.max(0, across - step), share) ||
        (steers && look(across, Math.min(1, share + 2 * step))) ||
        (steers && look(across, Math.max(-1, share - 2 * step)));
      if (!moved) step /= 2;
    }
    if (best.gap < 0) return true;
  }
  return false;
}
