/** Pins of findings on the travel map: where each stands, so that none covers another or its own spot. */
import type { Point } from './boxes.ts';

export type PinKind = 'touch' | 'close' | 'stop';

export interface Pin {
  /** Of what it stands for, in its list. */
  index: number;
  /** What is written on it. */
  label: string;
  kind: PinKind;
  /** Every number that it hangs on is assumed: drawn open. */
  isGuess: boolean;
  /** Step of the gap scale, for the ring of a close one. */
  step: number;
  /** Its spot, px. */
  spot: Point;
}

export interface PlacedPin extends Pin {
  /** Its middle, px. */
  at: Point;
}

/** Radius of a pin, px. */
export const PIN_px = 10.5;
/** Least distance between the middles of two pins, px. */
const APART = 2 * PIN_px + 2;
/** How far from its spot a pin may stand, px: the handle's ring has room about the spot. */
const WAYS = [30, 36, 44, 54, 68, 84];
const TURNS = 16;

/**
 * Places pins in order, each beside its spot with a leader, inside the range. One that has no room is left out: the
 * list of findings has it.
 *
 * @param inwards the middle of the range, px
 * @param isInside whether a point lies in the range
 */
export function placePins(
  pins: readonly Pin[],
  inwards: Point,
  isInside: (x: number, y: number) => boolean,
): PlacedPin[] {
  const placed: PlacedPin[] = [];
  const isFree = ({ x, y }: Point): boolean =>
    placed.every(({ at }) => Math.hypot(at.x - x, at.y - y) >= APART) &&
    pins.every(({ spot }) => Math.hypot(spot.x - x, spot.y - y) >= PIN_px + 2);
  for (const pin of pins) {
    const { x, y } = pin.spot;
    const start = Math.atan2(inwards.y - y, inwards.x - x);
    let at: Point | null = null;
    search: for (const way of WAYS) {
      for (let k = 0; k < TURNS; k++) {
        // inwards first, then alternating to both sides
        const turn = (k % 2 === 0 ? 1 : -1) * Math.ceil(k / 2) * ((2 * Math.PI) / TURNS);
        const point = {
          x: x + way * Math.cos(start + turn),
          y: y + way * Math.sin(start + turn),
        };
        if (!isFree(point) || !isInside(point.x, point.y)) continue;
        at = point;
        break search;
      }
    }
    if (at) placed.push({ ...pin, at });
  }
  return placed;
}
