/**
 * What commonly stands near an axle and can be struck. Each is proposed where such a thing usually is, far from
 * certain, until it is taped.
 */
import type { AxlePlace, Spot } from './axlePlace.ts';
import { halfTrack, near, RAIL_HEIGHT_in, RAIL_in, railCenter, write } from './axlePlace.ts';
import { shockTop } from './springs.ts';
import { assumed, guess, guessed, type Value, type Written } from './value.ts';

/** A thing that may stand near an axle; the screen offers those of the axles that there are. */
export interface Surrounding {
  /** As its solid is called in the build; with two axles the rear one's has `rear` in front where both have one. */
  id: string;
  label: string;
  axle: 'front' | 'rear' | 'either';
  /** Whether a new build has it unless it is taken out. */
  isUsual: boolean;
}

export const surroundings: readonly Surrounding[] = [
  { id: 'rail', label: 'frame rails', axle: 'either', isUsual: true },
  { id: 'fender', label: 'fenders', axle: 'either', isUsual: true },
  { id: 'inner fender', label: 'inner fenders', axle: 'front', isUsual: true },
  { id: 'wheel well', label: 'wheel wells', axle: 'rear', isUsual: true },
  { id: 'gear housing', label: 'housing of the steering gear', axle: 'front', isUsual: true },
  { id: 'oil pan', label: 'oil pan', axle: 'front', isUsual: true },
  { id: 'bumper', label: 'bumper', axle: 'front', isUsual: false },
  { id: 'coil bucket', label: 'coil buckets', axle: 'either', isUsual: false },
  { id: 'exhaust', label: 'exhaust', axle: 'front', isUsual: false },
  { id: 'tailpipe', label: 'tailpipe', axle: 'rear', isUsual: false },
  { id: 'fuel tank', label: 'fuel tank', axle: 'rear', isUsual: false },
  { id: 'bed', label: 'bed or flatbed over the tires', axle: 'rear', isUsual: false },
  {
    id: 'link cross-member',
    label: 'cross-member behind the links',
    axle: 'either',
    isUsual: false,
  },
  { id: 'battery tray', label: 'battery tray', axle: 'front', isUsual: false },
];

type Size = readonly [number, number, number];

/** How far off a thing may be that nobody has taped, in. */
const FAR_OFF_in = 3;

/** Solids of the things that are named, around one axle; those of another axle are left out. */
export function proposeSurroundings(
  place: AxlePlace,
  near: readonly string[],
  prefix: string,
): object[] {
  return surroundings
    .filter(({ id, axle }) => near.includes(id) && (axle === 'either' || axle === place.name))
    .filter(({ id }) => id !== 'gear housing' || place.choice.steering !== 'doubleRam')
    .map(({ id, label }) => {
      const name = `${prefix}${id}`;
      place.taped.rule(
        `solids["${name}"]`,
        `Where the ${label} ${/s$/.test(label) ? 'stand' : 'stands'} is a guess, off by inches, until it is taped (common practice, no source).`,
      );
      return { name, ...(besidePart(place, id, prefix) ?? shapeOf(place, id)) };
    });
}

/** What is bolted to a part goes where that part is taped to be; null for what stands by itself. */
function besidePart(place: AxlePlace, id: string, prefix: string): object | null {
  const { pen } = place.taped;
  const beside = (from: string, by: readonly [number, number, number]): object => ({
    from,
    by: by.map(each => pen.length(assumed(each, 1))),
  });
  const boxAt = (center: object, size: Size): object => ({
    box: { center, size: size.map(each => inches(each, '1 in')) },
  });
  if (id === 'gear housing') {
    return boxAt(beside('steering box', [0.5, -1.5 * place.driver, 4.75]), [6.5, 5, 7]);
  }
  if (id !== 'coil bucket') return null;
  return { sides: 'mirror', ...boxAt(beside(`${prefix}coil.chassis`, [0, 0, 1.25]), [5, 5, 1.5]) };
}

function shapeOf(place: AxlePlace, id: string): object {
  const { radius, tireHeight, wheelCenters, railBottom } = place;
  // flexed, a wheel comes up nearly twice as far as both do together, and a fender leaves it that room
  const top = radius.at + tireHeight.at / 2 + 11;
  const side = railCenter(place);
  const tire = halfTrack(place);
  const z = (at: number): Value => guessed(at, FAR_OFF_in, radius);
  const x = (at: number): Value => assumed(at, FAR_OFF_in);
  switch (id) {
    case 'rail':
      return mirroredBox(
        place,
        [x(place.way * 50), side, guessed(railBottom.at + RAIL_HEIGHT_in / 2, 0.25, railBottom)],
        [70, RAIL_in, RAIL_HEIGHT_in],
        '1/2 in',
      );
    case 'fender':
      return { ...mirroredBox(place, [x(0), tire, z(top)], [46, 14, 0.5]), mayBeCut: true };
    case 'inner fender':
      return {
        ...mirroredBox(
          place,
          // it ends over the shocks, which lean in under it
          [x(0), near(tire, -15.5, FAR_OFF_in), z(Math.max(top - 5, shockTop(place) + 6.5))],
          [30, 0.25, 9],
        ),
        mayBeCut: true,
      };
    case 'wheel well':
      return mirroredBox(place, [x(0), near(tire, -12, FAR_OFF_in), z(top - 1)], [44, 0.25, 10]);
    case 'oil pan':
      return box(place, [x(-10), assumed(0, FAR_OFF_in), z(radius.at + 19)], [20, 9, 7]);
    case 'bumper':
      return box(place, [x(26), assumed(0, 2), z(radius.at + 14)], [3, 50, 7]);
    case 'exhaust':
      return pipe(place, [-14, -46], -11, radius.at + 16);
    case 'tailpipe':
      return pipe(place, [30, -12], -9, radius.at + 16);
    case 'fuel tank':
      return box(place, [x(-22), assumed(0, FAR_OFF_in), z(radius.at + 14)], [14, 22, 9]);
    case 'bed':
      return box(place, [x(0), assumed(0, 1), z(top + 2)], [96, wheelCenters.at + 12, 2]);
    case 'link cross-member':
      return box(place, [x(place.way * 40), assumed(0, 1), z(radius.at + 2)], [3, 27, 2]);
    default:
      return mirroredBox(place, [x(-14), near(tire, -14, FAR_OFF_in), z(top - 4)], [8, 6, 8]);
  }
}

const inches = (value: number, off: string): Written =>
  guess(`${Math.round(value * 8) / 8} in`, off);

const box = (place: AxlePlace, center: Spot, size: Size, off = '1 in'): object => ({
  box: { center: write(place, center), size: size.map(each => inches(each, off)) },
});

const mirroredBox = (place: AxlePlace, center: Spot, size: Size, off = '1 in'): object => ({
  sides: 'mirror',
  ...box(place, center, size, off),
});

/** A pipe that runs fore and aft. */
const pipe = (place: AxlePlace, [from, to]: [number, number], y: number, z: number): object => ({
  bentTube: {
    points: [from, to].map(at =>
      write(place, [
        assumed(at, FAR_OFF_in),
        assumed(y, FAR_OFF_in),
        guessed(z, FAR_OFF_in, place.radius),
      ]),
    ),
    radius: guess('1 1/4 in', '1/4 in'),
  },
});
