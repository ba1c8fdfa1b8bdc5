/** How high the ends of a link are, how long it is, and where its frame end then lies. */
import { type AxlePlace, near, type Spot } from './axlePlace.ts';
import type { Both } from './taped.ts';
import { assumed, derived, guessed, type Value } from './value.ts';

/** Where the axle ends of links may lie from the wheel center, in: common practice, no source. */
const REACH_in = { below: 11, between: 2, above: 18 };
/** Least height between lower and upper links at the axle, in. */
const APART_in = 2;
/** Greatest rise of a link as a share of its length: a link that is steeper is a strut. */
const STEEPEST = 0.6;

/** Least share of a link's length that has to run fore and aft for its ends to be believed. */
const LEAST_RUN = 0.5;

export interface Heights {
  axle: Both;
  frame: Both;
  length: Both;
}

/** Both heights and the length of a link, as taped or by the rules. */
export function heightsOf(
  place: AxlePlace,
  what: 'lower' | 'upper',
  guess: { axle: number; rise: number; length: number; path: string; called: string },
): Heights {
  const { taped, name, radius, railBottom } = place;
  const datums = { wheelCenter: radius, railBottom };
  const id = (end: string): string => `${name}.${what}${end}`;
  const path = `${place.path}.links["${guess.path}"]`;
  const axleRule = () => ({
    value: near(radius, guess.axle, 1.5),
    path: `${path}.axle.at`,
    sentence: `The axle end of the ${guess.called} lies ${Math.abs(guess.axle)} in ${guess.axle < 0 ? 'below' : 'above'} the wheel center (common practice, no source).`,
  });
  const axle = taped.fitting(
    id('AxleHeight'),
    taped.heights(id('AxleHeight'), datums, axleRule),
    radius.at + (what === 'lower' ? -REACH_in.below : REACH_in.between),
    radius.at + (what === 'lower' ? REACH_in.between - APART_in : REACH_in.above),
    {
      message:
        what === 'lower'
          ? 'too far from the wheel center for a lower link'
          : 'too far from the wheel center for an upper link',
      fallback: () => axleRule().value,
    },
  );
  const length = taped.both(id('Length'), () => ({
    value: assumed(guess.length, 6),
    path: `${path}.chassis.at`,
    sentence: `The ${guess.called} is ${guess.length} in long (common practice, no source).`,
  }));
  const frameRule = () => ({
    value: guessed(axle.left.at + guess.rise, 3, axle.left),
    path: `${path}.chassis.at`,
    sentence: `The ${guess.called} rises ${guess.rise} in from the axle to the frame (common practice, no source).`,
  });
  const shorter = Math.min(length.left.at, length.right.at);
  const high = Math.max(axle.left.at, axle.right.at);
  const low = Math.min(axle.left.at, axle.right.at);
  const frame = taped.fitting(
    id('FrameHeight'),
    taped.heights(id('FrameHeight'), datums, frameRule),
    high - STEEPEST * shorter,
    low + STEEPEST * shorter,
    {
      message: 'steeper than a link can be that is as long as this one',
      fallback: () => frameRule().value,
    },
  );
  return { axle, frame, length };
}

/** How far a link runs fore and aft: what its length leaves after its rise and its run across. */
export function runOf(
  place: AxlePlace,
  what: string,
  side: 'left' | 'right',
  { axle, frame, length }: Heights,
  across: number,
): Value {
  const rise = frame[side].at - axle[side].at;
  const long = length[side].at;
  const square = long ** 2 - rise ** 2 - across ** 2;
  const least = LEAST_RUN * long;
  if (square < least ** 2) {
    const id = `${place.name}.${what}Length`;
    const isNew = !place.taped.problems.some(problem => problem.path === id);
    if (isNew) {
      place.taped.refuse(
        id,
        'shorter than its ends lie apart in height and across',
        'a length bolt to bolt that fits the heights of both ends; until then the link is drawn longer',
      );
    }
    return assumed(Math.hypot(least, 0.8 * Math.hypot(rise, across)), 6);
  }
  const run = Math.sqrt(square);
  // an error of the rise or of the length enters the run by their ratio to it
  const weigh = ({ at, from, tolerance }: Value, ratio: number): Value => ({
    at,
    from,
    tolerance: tolerance * ratio,
  });
  return derived(
    run,
    weigh(length[side], long / run),
    weigh(axle[side], Math.abs(rise) / run),
    weigh(frame[side], Math.abs(rise) / run),
  );
}

export const NOTE_RUN =
  'How far it runs fore and aft follows from its length, bolt to bolt, and from the heights of both ends (Pythagoras).';

/** The frame end of a link whose axle end is known. */
export function frameEnd(place: AxlePlace, axleX: Value, run: Value, y: Value, z: Value): Spot {
  return [derived(axleX.at + place.way * run.at, axleX, run), y, z];
}
