/**
 * Climbing to the greatest of a value over the range from a spot of it.
 *
 * First by slopes: projected quasi-Newton steps (BFGS with backtracking; Nocedal and Wright, Numerical
 * Optimization, ch. 3 and 6; from memory) in (left, right, share) inside, in (way along the edge, share) on
 * it. It ends, certain, where no way that the range leaves open leads up. Where slopes are missing or stall, at
 * kinks, a pattern search with shrinking steps goes on from there.
 */
import type { MeasureContext, Slope } from '../measure/measure.ts';
import { closeOn } from './crossing.ts';
import type { Place, Spot, Spots } from './spots.ts';

/** What is climbed. */
export interface Hill {
  /** −∞ where there is no value. */
  value(context: MeasureContext): number;
  /** Null where there is none. */
  slope: ((context: MeasureContext) => Slope | null) | null;
  /** Differences under this are none. */
  least: number;
  /** False where the share of the steering is held. */
  steers: boolean;
}

export interface Top {
  value: number;
  spot: Spot;
}

/** Inches that a whole share of the steering counts as. */
const SHARE_in = 10;
/** First and longest step, in. */
const FIRST_in = 0.25;
const LONGEST_in = 1.5;
/** Pattern search: first step after slopes, first step without them, last step, in. */
const POLISH_in = 0.05;
const PATTERN_in = 0.5;
const LAST_in = 2e-5;
const MOST_STEPS = 40;
/** Most looks of a pattern search: a ridge is given up rather than crept along. */
const MOST_LOOKS = 600;

/** Climbs from a spot as far as it goes. */
export function climb(spots: Spots, start: Spot, hill: Hill): Top {
  const from: Top = { value: hill.value(start.context), spot: start };
  if (!hill.slope) return byPattern(spots, from, hill, PATTERN_in);
  const { top, isCertain } = bySlopes(spots, from, hill, hill.slope);
  return isCertain ? top : byPattern(spots, top, hill, POLISH_in);
}

/** Steepest ways up that the range leaves open: by (left, right) or by way along the edge, and by share. */
interface Steepness {
  inside: boolean;
  /** One or two travels (in), then the share (in of SHARE_in). */
  gradient: number[];
}

function steepness(spots: Spots, spot: Spot, hill: Hill, slope: Slope): Steepness | null {
  const { place } = spot;
  const bySteer = slope[2];
  let [byLeft, byRight, byShare]: [number, number, number] = [slope[0], slope[1], 0];
  if (bySteer !== 0 && spots.steers) {
    const input = spots.inputSlope(spot);
    if (!input) return null;
    byLeft += bySteer * input[0];
    byRight += bySteer * input[1];
    if (hill.steers) byShare = (bySteer * spots.inputPerShare(spot)) / SHARE_in;
    // at full lock only the way back is open
    if (byShare * place.share > 0 && Math.abs(place.share) === 1) byShare = 0;
  }
  if (place.along === null) return { inside: true, gradient: [byLeft, byRight, byShare] };
  const { onward, back } = spots.edgeWays(spot);
  const upOnward = byLeft * onward[0] + byRight * onward[1];
  const upBack = byLeft * back[0] + byRight * back[1];
  const inward = spots.inward(spot) ?? [-onward[1], onward[0]];
  if (byLeft * inward[0] + byRight * inward[1] > 0 && !spots.isCorner(place.along)) {
    return { inside: true, gradient: [byLeft, byRight, byShare] };
  }
  const best = Math.max(upOnward, upBack, 0);
  return { inside: false, gradient: [best === 0 ? 0 : best === upOnward ? best : -best, byShare] };
}

const size = (v: readonly number[]): number => Math.hypot(...v);
const inner = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, x, i) => sum + x * (b[i] ?? 0), 0);

function bySlopes(
  spots: Spots,
  start: Top,
  hill: Hill,
  slopeAt: (context: MeasureContext) => Slope | null,
): { top: Top; isCertain: boolean } {
  let top = start;
  let curvature: Bfgs | null = null;
  for (let step = 0; step < MOST_STEPS; step++) {
    const slope = slopeAt(top.spot.context);
    const steep = slope && steepness(spots, top.spot, hill, slope);
    // a size that has come to nothing has a kink there
    const isNothing = top.value <= 0 && top.value >= -hill.least;
    if (!steep) return { top, isCertain: isNothing };
    const { gradient } = steep;
    const up = size(gradient);
    if (up * FIRST_in <= hill.least) return { top, isCertain: true };
    const place: Place = steep.inside ? { ...top.spot.place, along: null } : top.spot.place;
    // what was learned holds as long as the same ways are open
    const isCorner = place.along !== null && spots.isCorner(place.along);
    const mode = `${gradient.length} ${gradient.at(-1) === 0 ? 'held' : 'free'}`;
    if (curvature?.mode !== mode || isCorner) curvature = null;
    curvature?.learn(gradient);
    let way = curvature?.step(gradient) ?? gradient.map(g => (g * FIRST_in) / up);
    let rise = inner(way, gradient);
    if (!(rise > 1e-3 * up * size(way))) {
      curvature = null;
      way = gradient.map(g => (g * FIRST_in) / up);
      rise = FIRST_in * up;
    }
    const long = size(way);
    if (long > LONGEST_in) {
      way = way.map(x => (x * LONGEST_in) / long);
      rise = (rise * LONGEST_in) / long;
    }
    // what a quadratic has left to gain
    if (rise / 2 <= hill.least && curvature) return { top, isCertain: true };
    let next = zeroNear(spots, place, top, gradient, hill);
    if (next) {
      curvature = null;
      top = next;
      continue;
    }
    let share = 1;
    while (!next && share * size(way) > LAST_in) {
      const spot = move(
        spots,
        place,
        way.map(x => x * share),
      );
      const value = spot ? hill.value(spot.context) : Number.NEGATIVE_INFINITY;
      if (spot && value > top.value + 1e-4 * share * rise) next = { value, spot };
      else share *= 0.3;
    }
    if (!next) {
      if (isNothing || !curvature) return { top, isCertain: isNothing };
      curvature = null;
      continue;
    }
    curvature ??= new Bfgs(mode);
    curvature.went(gradient, wayBetween(place, next.spot.place, way, share));
    top = next;
  }
  return { top, isCertain: false };
}

/**
 * Where a size (an angle between lines, told negative so that its least is a top) comes to nothing near by: the
 * step to its zero, which is Newton's for what the size is of. Null where that does not halve it.
 */
function zeroNear(
  spots: Spots,
  place: Place,
  { value }: Top,
  gradient: readonly number[],
  hill: Hill,
): Top | null {
  const up = size(gradient);
  if (value >= -hill.least || -value > up * LONGEST_in) return null;
  const spot = move(
    spots,
    place,
    gradient.map(g => (g * -value) / (up * up)),
  );
  const there = spot ? hill.value(spot.context) : Number.NEGATIVE_INFINITY;
  return spot && there > value / 2 ? { value: there, spot } : null;
}

/** The step that was made, which the edge of the range may have cut short. */
function wayBetween(from: Place, to: Place, way: readonly number[], share: number): number[] {
  const byShare = (to.share - from.share) * SHARE_in;
  if (from.along === null) return [to.left - from.left, to.right - from.right, byShare];
  return [(way[0] ?? 0) * share, byShare];
}

/** The spot a step away; inside, cut short at the edge, on the edge at its next corner. */
function move(spots: Spots, place: Place, way: readonly number[]): Spot | null {
  const byShare = (place.along === null ? way[2] : way[1]) ?? 0;
  const share = Math.max(-1, Math.min(1, place.share + byShare / SHARE_in));
  if (place.along !== null) {
    const distance = way[0] ?? 0;
    if (distance === 0) return spots.at({ ...place, share });
    const corner = spots.cornerWithin(place.along, distance);
    const there = corner === null ? spots.alongEdge(place, distance) : spots.onEdge(corner, share);
    return spots.at({ ...there, share });
  }
  const [dl = 0, dr = 0] = way;
  const at = (t: number) => {
    const { margin } = spots.reach.travel(place.left + t * dl, place.right + t * dr);
    return { margin, what: null };
  };
  const end = at(1);
  if (end.margin >= 0) {
    return spots.at({ left: place.left + dl, right: place.right + dr, share, along: null });
  }
  const start = at(0);
  if (start.margin < 0) return null;
  const { inner: t } = closeOn(at, 0, start.margin, 1, end, 1e-9 / Math.hypot(dl, dr));
  const [left, right] = [place.left + t * dl, place.right + t * dr];
  const along = spots.nearestAlong(left, right);
  return spots.at(spots.onEdge(along, share));
}

/** Inverse of the curvature, learned from steps, for a maximum. */
class Bfgs {
  readonly mode: string;
  #H: number[][] | null = null;
  #gradient: readonly number[] = [];
  #step: readonly number[] = [];

  constructor(mode: string) {
    this.mode = mode;
  }

  went(gradient: readonly number[], step: readonly number[]): void {
    this.#gradient = gradient;
    this.#step = step;
  }

  /** Takes the gradient after the step in. */
  learn(gradient: readonly number[]): void {
    const s = this.#step;
    // of −f, which is to have a minimum
    const y = gradient.map((g, i) => (this.#gradient[i] ?? 0) - g);
    const sy = inner(s, y);
    if (!(sy > 1e-12 * size(s) * size(y))) {
      this.#H = null;
      return;
    }
    const n = gradient.length;
    const H =
      this.#H ??
      Array.from({ length: n }, (_, i) =>
        Array.from({ length: n }, (_, j) => (i === j ? sy / inner(y, y) : 0)),
      );
    const Hy = H.map(row => inner(row, y));
    const yHy = inner(y, Hy);
    this.#H = H.map((row, i) =>
      row.map(
        (h, j) =>
          h +
          ((1 + yHy / sy) * (s[i] ?? 0) * (s[j] ?? 0)) / sy -
          ((Hy[i] ?? 0) * (s[j] ?? 0) + (s[i] ?? 0) * (Hy[j] ?? 0)) / sy,
      ),
    );
  }

  step(gradient: readonly number[]): number[] | null {
    return this.#H?.map(row => inner(row, gradient)) ?? null;
  }
}

function byPattern(spots: Spots, start: Top, hill: Hill, first: number): Top {
  let top = start;
  let step = first;
  for (let looks = 0; step > LAST_in && looks < MOST_LOOKS; ) {
    let found = false;
    for (const place of neighbors(spots, top.spot.place, step, hill.steers)) {
      looks++;
      const spot = spots.at(place);
      const value = spot ? hill.value(spot.context) : Number.NEGATIVE_INFINITY;
      if (!spot || value <= top.value + hill.least * 1e-3) continue;
      top = { value, spot };
      found = true;
      break;
    }
    if (!found) step /= step > 0.01 ? 2 : 4;
  }
  return top;
}

/** Ways to look inside: by axes and between them. */
const WAYS: readonly (readonly [number, number])[] = [
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
  [0.7, 0.7],
  [-0.7, -0.7],
  [0.7, -0.7],
  [-0.7, 0.7],
];

function neighbors(spots: Spots, place: Place, step: number, steers: boolean): Place[] {
  const out: Place[] = [];
  if (spots.steers && steers) {
    for (const by of [step / SHARE_in, -step / SHARE_in]) {
      const share = Math.max(-1, Math.min(1, place.share + by));
      if (share !== place.share) out.push({ ...place, share });
    }
  }
  if (place.along !== null) {
    return [...out, spots.alongEdge(place, step), spots.alongEdge(place, -step)];
  }
  for (const [dl, dr] of WAYS) {
    out.push({ ...place, left: place.left + dl * step, right: place.right + dr * step });
  }
  return out;
}
