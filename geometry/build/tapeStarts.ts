/** Places that a point can be taped from: which there are for it, and how far it is from each. */
import type { Axle, Build, Place, Vec3 } from './build.ts';
import { acrossOf, type Grip, type GripSpot } from './grips.ts';
import { followers } from './hanging.ts';
import { own } from './problem.ts';
import type { BuildFile } from './schema/file.ts';

/** Where x, y and z of a point are taped from unless it says so. */
export const ORIGIN = ['ground', 'centerline', 'ground'] as const;

/** The places that x, y and z of a point are taped from; null for what is no point with three coordinates. */
export function startsIn(written: unknown): readonly [string, string, string] | null {
  if (Array.isArray(written)) return written.length === 3 ? ORIGIN : null;
  const from = own(written, 'from');
  if (!Array.isArray(own(written, 'by'))) return null;
  if (typeof from === 'string') return [from, from, from];
  return Array.isArray(from) ? (from as unknown as readonly [string, string, string]) : null;
}

/** Nearer to the middle than this a place is alike on both sides, in. */
const MIDDLE_in = 1e-6;

/**
 * Places from which this point can be taped on the side where it stands, the nearest first: not those that hang on it
 * themselves, nor those of the other axle or, for one of a mirrored pair, of the other side.
 */
export function startsOf(build: Build, axle: Axle, grip: Grip, spot: GripSpot): Place[] {
  const moving = grip.entries.map(({ path }) => path);
  const hanging = [...followers(build.entries, moving), ...moving];
  const isFree = ({ path }: Place): boolean =>
    path === null || !hanging.some(each => each.startsWith(path));
  const other = spot.image === 'left' ? 'right ' : 'left ';
  const isHere = ({ name, axle: of }: Place): boolean =>
    (of === null || of === axle.name) &&
    // the ground and the centerline are one point
    name !== 'centerline' &&
    (spot.image === null || !(name.startsWith(other) || name.includes(`.${other}`)));
  const away = ({ at }: Place): number =>
    Math.hypot(at[0] - spot.at[0], at[1] - spot.at[1], at[2] - spot.at[2]);
  return build.places
    .filter(place => isHere(place) && isFree(place))
    .sort((p, q) => away(p) - away(q));
}

/** How far a point is from a place, in: forward, up, and to the left; of a mirrored part sideways is outward. */
export function offsetFrom({ at, ...spot }: GripSpot, place: Place): Vec3 {
  const across = (at[1] - place.at[1]) * acrossOf({ at, ...spot });
  return [at[0] - place.at[0], across, at[2] - place.at[2]];
}

/** A place as a part calls it: a mirrored one, which is written for the left, by its name without the side. */
export function nameFor(places: readonly Place[], { name }: Place, { image }: GripSpot): string {
  if (image === null) return name;
  const once = name.startsWith(`${image} `) ? name.slice(image.length + 1) : null;
  if (once === null) return name.replace(`.${image} `, '.left ');
  return places.some(place => place.name === once) ? `left ${once}` : once;
}

/**
 * Why an offset along an axis can't be typed from a place, in words; null where it can. What stands at ride height and
 * what was taped have to have the same axes.
 */
export function whyNotFrom(
  { build, file }: { build: Build; file: BuildFile },
  spot: GripSpot,
  place: Place,
  axis: 0 | 1 | 2,
): string | null {
  const value = (path: string): number =>
    build.entries.find(entry => entry.path === path)?.value ?? 0;
  const own = spot.on ?? build.solids.find(({ name }) => name === spot.part)?.on ?? 'none';
  const isOnFrame = own === 'chassis';
  const bothOnFrame = isOnFrame && place.body === 'chassis';
  const neither = !isOnFrame && place.body !== 'chassis';
  if (value('measuredAt.rake') !== 0 || value('measuredAt.roll') !== 0) {
    return 'the frame was taped leaning';
  }
  if (value('measuredAt.rideHeightChange') !== 0 && !bothOnFrame && !neither) {
    return 'the frame is going to be raised, and the other end of the tape is not';
  }
  for (const { name, frame, wheelHeights } of file.axles) {
    const at = (side: string): number => value(`axles["${name}"].wheelHeights.${side}`);
    if (wheelHeights && at('left') !== at('right') && !bothOnFrame) {
      return `the ${name} axle was taped leaning`;
    }
    if (frame === 'bench' && !isOnFrame) return `the ${name} axle was taped on the bench`;
  }
  const isAside = spot.image === 'right' && !/^right |\.right /.test(place.name);
  if (axis === 1 && isAside && Math.abs(place.at[1]) > MIDDLE_in) {
    return 'the left one is what is entered, and this place has no twin over there';
  }
  return null;
}
