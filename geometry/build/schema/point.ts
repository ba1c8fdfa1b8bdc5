/** Points, directions, axes and tubes as written in the build file. */
import { z } from 'zod';
import { angle, length, number, size } from './entry.ts';
import { object, oneOf, reference } from './shape.ts';

const triple = z.tuple([length, length, length], { error: '[x, y, z], three lengths' });
const frame = oneOf(['vehicle', 'bench'])
  .nullish()
  .describe(
    'Axes of what is typed here; unless given, those of the part (see `frame` of an axle).',
  );

const place =
  'the name of a datum, of a shared joint, or of a part\'s end such as "lower link.axle"';
const placeName = reference(place);

/**
 * A point: `[x, y, z]` in vehicle axes (X forward, Y left, Z up, from the ground below the front axle's
 * center), or an offset from a named place, or a length and an angle from one.
 *
 * Places:
 * - built in: `front axle` and `rear axle` (midway between the wheel centers), `ground` and `centerline`
 *   (the origin);
 * - `datums` and shared joints by their names;
 * - ends of parts as `part.end`: `lower link.axle`, `.chassis` (also of coils, shocks, straps); of a radius
 *   arm `.axle front`, `.axle rear`, `.chassis`; `left knuckle.lower`, `.upper`, `.shaft joint`;
 *   `drag link.from`, `.to`; `tie rod.from`, `.to`; `steering box` (its axis); of a ram `.body`, `.rod`; of a
 *   bump stop `.pad`, `.strike`; of a line `.from`, `.to`; `sway bar.axis`, `.left tip`, `.left axle` …;
 *   `driveshaft.pinion`, `.transfer case`. With two axles: `front sway bar`, `rear driveshaft` ….
 *
 * In a mirrored part `lower link.axle` also means `left lower link.axle`. `from` may name three places, one
 * for each of x, y and z: `["rear axle", "rail face", "ground"]`.
 */
export const point = z
  .union(
    [
      triple,
      object('an object with "from" and "by"', {
        from: z
          .union(
            [
              placeName,
              z.tuple([placeName, placeName, placeName], {
                error: 'three names of places: that of x, of y and of z',
              }),
            ],
            { error: `${place}, or three of them: that of x, of y and of z` },
          )
          .describe('Place that the tape starts from; or three: that of x, of y and of z.'),
        by: triple.describe('Offset [x, y, z] from there.'),
        frame,
      }),
      object('an object with "from", "length", "angle" and "plane"', {
        from: placeName.describe('Place that the tape starts from.'),
        length: size.describe('Distance from there.'),
        angle: angle.describe(
          'side: from X (forward) towards Z (up). front: from Y (left) towards Z (up). plan: from X (forward) towards Y (left).',
        ),
        plane: oneOf(['side', 'front', 'plan']).describe('Plane in which length and angle lie.'),
        frame,
      }),
    ],
    {
      error:
        '[x, y, z], or { "from": place, "by": [x, y, z] }, or { "from": place, "length", "angle", "plane" }',
    },
  )
  .meta({ id: 'point' });

/** A direction: three numbers in any ratio; its length does not count, and may not be zero. */
export const direction = z
  .tuple([number, number, number], { error: '[x, y, z], three numbers that give a direction' })
  .meta({ id: 'direction', description: 'Three numbers in any ratio; the length does not count.' });

/** A line in space. */
export const axis = object('an axis { "at": point, "direction": [x, y, z] }', {
  at: point.describe('A point on the axis.'),
  direction: direction.describe('Along the axis.'),
});

/** A tube or rod. */
export const tube = object('a tube { "od", "wall" }', {
  od: size.describe('Outer diameter.'),
  wall: size
    .nullish()
    .describe(
      'Wall thickness; without it the tube counts as solid for rates, and its weight is unknown.',
    ),
}).meta({ id: 'tube' });
