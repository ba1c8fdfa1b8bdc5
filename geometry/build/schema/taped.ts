/** Readings of the tape that no field takes, kept to check those that one does, as written in the build file. */
import { z } from 'zod';
import { angle, length, size } from './entry.ts';
import { notes, object, oneOf, reference } from './shape.ts';

const place = reference('the name of a part\'s end such as "left lower link.axle", or of an axle');

const distance = object('a taped distance { "from", "to", "along", "length" }', {
  from: place.describe('Where the tape starts: `part.end`, `front axle`, `rear axle` or `ground`.'),
  to: place.describe('Where it ends.'),
  along: oneOf(['straight', 'forward', 'left', 'up'])
    .nullish()
    .describe(
      'straight: from point to point; else how far the end lies that way from the start; "straight" unless given.',
    ),
  length: length.describe('As taped, as the vehicle stood that day.'),
  notes,
});

const slant = object('a taped slant { "from", "to", "plane", "angle" }', {
  from: place.describe('One point of the line.'),
  to: place.describe('Another point of it.'),
  plane: oneOf(['side', 'front', 'plan']).describe(
    'side: from X (forward) towards Z (up). front: from Y (left) towards Z (up). plan: from X (forward) towards Y (left).',
  ),
  angle: angle.describe('By the angle finder; which of both ends is which does not matter.'),
  notes,
});

const rise = object('a taped rise { "of", "rise", "over" }', {
  of: oneOf(['front pinion', 'rear pinion', 'front transfer case', 'rear transfer case']).describe(
    'Which axis of the driveline.',
  ),
  rise: length.describe('How much higher it is at the flange, from two heights.'),
  over: size.describe('How far these two are apart along it.'),
  notes,
});

export const taped = z.union([distance, slant, rise], {
  error:
    'a taped distance { "from", "to", "length" }, slant { "from", "to", "plane", "angle" } or rise { "of", "rise", "over" }',
});
