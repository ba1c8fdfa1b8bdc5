/** The travel edge in stretches, one for each stop that makes it, and what they are called. */
import type { Axle } from '../../geometry/build/build.ts';
import type { EdgePoint } from '../../geometry/cycle/edge.ts';
import type { End } from '../../geometry/cycle/reach.ts';
import { partWords, type Shop, sentence } from '../../geometry/finding/words.ts';
import type { EndId } from '../../geometry/limit/limit.ts';

export interface Stretch extends End {
  /** Travels along it, its end included, in. */
  points: { left: number; right: number }[];
}

/** Cuts a closed edge where its stop changes; a stop that makes all of it gives one stretch. */
export function edgeStretches(edge: readonly EdgePoint[]): Stretch[] {
  const [any] = edge;
  if (!any) return [];
  const isSame = (a: End, b: End): boolean =>
    a.by === b.by && a.part === b.part && a.side === b.side;
  // begin where a stretch begins
  const found = edge.findIndex((p, i) => !isSame(p, edge.at(i - 1) ?? p));
  const start = Math.max(0, found);
  const out: Stretch[] = [];
  for (let i = 0; i < edge.length; i++) {
    const p = edge[(start + i) % edge.length] as EdgePoint;
    const last = out.at(-1);
    const point = { left: p.left, right: p.right };
    if (last && isSame(last, p)) last.points.push(point);
    else {
      last?.points.push(point);
      out.push({ by: p.by, part: p.part, side: p.side, points: [point] });
    }
  }
  const first = edge[start] as EdgePoint;
  out.at(-1)?.points.push({ left: first.left, right: first.right });
  return out;
}

const STATES: Partial<Record<EndId, string>> = {
  bumpStop: 'bottomed',
  shockShort: 'bottomed',
  shockLong: 'topped out',
  coilSolid: 'solid',
  strap: 'tight',
  steeringStop: 'at its stop',
  noPose: 'out of length',
};

/** 'Driver shock bottomed', 'Passenger strap tight', 'Assumed end of travel'. */
export function endWords(shop: Shop, axle: Axle, { by, part }: End): string {
  if (by === 'assumedTravel') return 'Assumed end of travel';
  const state = STATES[by] ?? '';
  return sentence(`${part ? partWords(shop, axle, part) : 'links'} ${state}`.trim());
}

/** How a stretch is drawn: width and dashes, px. */
export interface LineStyle {
  width: number;
  dashes: readonly number[];
}

const SOLID: LineStyle = { width: 4.5, dashes: [] };

const STYLES: Partial<Record<EndId, LineStyle>> = {
  bumpStop: SOLID,
  coilSolid: SOLID,
  shockShort: { width: 4.5, dashes: [2.25, 2.25] },
  shockLong: { width: 2.5, dashes: [2.5, 4.5] },
  strap: { width: 2.5, dashes: [9, 5] },
  noPose: { width: 2.5, dashes: [9, 4, 2.5, 4] },
  assumedTravel: { width: 1.5, dashes: [1.5, 6] },
};

export const lineOf = ({ by }: End): LineStyle => STYLES[by] ?? SOLID;
