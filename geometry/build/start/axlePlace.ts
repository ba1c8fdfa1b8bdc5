/** Where the parts of an axle lie, before they are written: what was taped of wheels and frame, and how points are written. */
import type { AxleName, Side } from '../build.ts';
import type { AxleChoice } from './layouts.ts';
import type { Both, Taped } from './taped.ts';
import { assumed, derived, guessed, type Value, type Written } from './value.ts';

/** [forward of the axle, left of the middle, above the floor]. */
export type Spot = readonly [Value, Value, Value];
type WrittenPoint =
  | [Written, Written, Written]
  | { from: [string, string, string]; by: [Written, Written, Written] };

export interface AxlePlace {
  choice: AxleChoice;
  taped: Taped;
  name: AxleName;
  /** Path of the axle in the file. */
  path: string;
  /** −1: the links run rearward from the axle, as on a front axle; +1: forward. */
  way: 1 | -1;
  /** +1: the driver sits on the left. */
  driver: 1 | -1;
  wheelbase: Value;
  wheelHeights: Both;
  /** Loaded radius: the mean of both. */
  radius: Value;
  tireHeight: Value;
  wheelCenters: Value;
  railOutside: Value;
  railBottom: Value;
  /** Points of the drawing, in the axle's x and above the floor. */
  anchors: Map<string, readonly [number, number, number]>;
}

/** Width of a frame rail, in: common practice, no source. */
export const RAIL_in = 3;
/** Height of a frame rail, in: common practice, no source. */
export const RAIL_HEIGHT_in = 5;

/** How far the wheel centers of one axle may differ from their mean in height, in. */
const LEAN_in = 1.5;
/** Room for tires between the frame and the middles of the tires, both sides, in. */
const TIRES_in = 14;

export function placeAxle(choice: AxleChoice, taped: Taped, wheelbase: Value): AxlePlace {
  const { name } = choice;
  const path = `axles["${name}"]`;
  const id = (what: string): string => `${name}.${what}`;
  const wheelRule = () => {
    const tire = taped.has(id('tireHeight'))
      ? taped.one(id('tireHeight'), () => ({ value: assumed(0, 0), path: '', sentence: '' }))
      : null;
    return tire
      ? {
          value: guessed(0.48 * tire.at, 0.5, tire),
          path: `${path}.tire.loadedRadius`,
          sentence:
            'The wheel center stands at 48 % of the height of the tire: a loaded tire squats (common practice, no source).',
        }
      : {
          value: assumed(18, 2),
          path: `${path}.tire.loadedRadius`,
          sentence: 'The wheel center stands 18 in above the floor (common practice, no source).',
        };
  };
  const stand = taped.both(id('wheelHeight'), wheelRule);
  const mean = (stand.left.at + stand.right.at) / 2;
  const wheelHeights = taped.fitting(id('wheelHeight'), stand, mean - LEAN_in, mean + LEAN_in, {
    message: 'left and right differ by more than a level floor leaves',
    fallback: () => wheelRule().value,
  });
  const { left, right } = wheelHeights;
  const radius = left.at === right.at ? left : derived((left.at + right.at) / 2, left, right);
  const tall = taped.one(id('tireHeight'), () => ({
    value: guessed(radius.at / 0.48, 1, radius),
    path: `${path}.tire.diameter`,
    sentence:
      'The tire is as tall as the wheel center is high, divided by 0.48 (common practice, no source).',
  }));
  // a tire cannot stand taller loaded than it is by itself
  const isTall = tall.at >= 2 * radius.at;
  if (!isTall) {
    taped.refuse(
      id(taped.has(id('tireHeight')) ? 'tireHeight' : 'wheelHeight'),
      'less than twice the height of the wheel center',
      'the height of the tire off the ground, at least twice that of its center on the ground',
    );
  }
  const tireHeight = isTall ? tall : guessed(radius.at / 0.48, 1, radius);
  const wheelCenters = taped.one(id('wheelCenters'), () => ({
    value: assumed(70, 3),
    path: `${path}.wheelCenters`,
    sentence:
      'The tires stand 70 in apart, middle to middle: a full-width axle (common practice, no source).',
  }));
  const railRule = () => ({
    value: assumed(33, 3),
    path: `${path}.links`,
    sentence: 'The frame is 33 in wide outside (common practice, no source).',
  });
  const rails = taped.both(id('railOutside'), railRule);
  const railOutside = taped.fitting(id('railOutside'), rails, 20, wheelCenters.at - TIRES_in, {
    message: 'no room is left for tires beside the frame',
    fallback: () => railRule().value,
  }).left;
  const bottomRule = () => ({
    value: guessed(radius.at + 5, 3, radius),
    path: `${path}.links`,
    sentence:
      'The bottom of the frame rail lies 5 in above the wheel center (common practice, no source).',
  });
  const bottoms = taped.heights(
    id('railBottom'),
    { wheelCenter: radius, railBottom: null },
    bottomRule,
  );
  const railBottom = taped.fitting(id('railBottom'), bottoms, 4, radius.at + 24, {
    message: 'too far from the wheel center for a frame rail',
    fallback: () => bottomRule().value,
  }).left;
  return {
    choice,
    taped,
    name,
    path,
    way: name === 'front' ? -1 : 1,
    driver: taped.start.layout.driverSide === 'left' ? 1 : -1,
    wheelbase,
    wheelHeights,
    radius,
    tireHeight,
    wheelCenters,
    railOutside,
    railBottom,
    anchors: new Map(),
  };
}

/** A value off another by a guess: `near(radius, -3.5, 1)` is 3 1/2 below the wheel center, give or take 1. */
export const near = (value: Value, by: number, off: number): Value =>
  guessed(value.at + by, off, value);

/** To which side: left of the middle for +1. */
export const toward = (sign: 1 | -1, value: Value): Value => {
  if (sign === 1) return value;
  const { at, from, tolerance } = value;
  return { at: -at + 0, from, tolerance };
};

export const signOf = (side: Side): 1 | -1 => (side === 'left' ? 1 : -1);

/** Fore and aft of the axle, in the direction in which its links run: + is towards the frame's middle. */
export const along = ({ way }: AxlePlace, by: number, off: number): Value => assumed(way * by, off);

/** Half of the frame, from the middle to the center of a rail. */
export const railCenter = ({ railOutside }: AxlePlace): Value =>
  derived(railOutside.at / 2 - RAIL_in / 2, railOutside);
/** Half of the distance between wheel centers. */
export const halfTrack = ({ wheelCenters }: AxlePlace): Value =>
  derived(wheelCenters.at / 2, wheelCenters);

/** A point as the file has it: in vehicle axes on a front axle, from the rear axle's place on a rear one. */
export function write({ name, taped }: AxlePlace, spot: Spot): WrittenPoint {
  const by = spot.map(value => taped.pen.length(value)) as [Written, Written, Written];
  return name === 'front' ? by : { from: ['rear axle', 'centerline', 'ground'], by };
}

/** Notes a point of the drawing. */
export function anchor(place: AxlePlace, called: string, [x, y, z]: Spot): void {
  place.anchors.set(`${place.name} ${called}`, [x.at, y.at, z.at]);
}

/**
 * A part that both sides have: once with `sides: mirror` where they are alike, else one for each side.
 *
 * @param make the part without its name, for the side with that sign
 */
export function mirrored<T extends object>(
  name: string,
  isAlike: boolean,
  make: (sign: 1 | -1) => T,
): ({ name: string; sides?: 'mirror' } & T)[] {
  if (isAlike) return [{ name, sides: 'mirror', ...make(1) }];
  return [
    { name: `left ${name}`, ...make(1) },
    { name: `right ${name}`, ...make(-1) },
  ];
}
