/** The build file as written: `NAME.axlewalk.json`. The single truth for its fields. */
import { z } from 'zod';
import { axle } from './axle.ts';
import { amount, anyEntry, type Evaluated, length, share, size, tilt, weight } from './entry.ts';
import { point } from './point.ts';
import { list, name, notes, object, oneOf, reference, sides, words } from './shape.ts';
import { solid } from './solid.ts';
import { start } from './start.ts';
import { taped } from './taped.ts';
import { alternative, variant } from './variant.ts';

/** Version of the format that this code writes and reads without an upgrade. */
export const currentVersion = 1;

const dimensionName = 'a name of letters and digits that begins with a small letter: railFace';

/** Its name is checked further where dimensions are resolved: no unit, no word of the grammar. */
const dimension = object('a dimension { "name", "value" }', {
  name: z.string({ error: dimensionName }).describe('As entries use it: railFace.'),
  value: anyEntry.describe('May use other dimensions. A bare number is a length.'),
  notes,
});

const measuredAt = object('measuredAt { "rake", "roll", "rideHeightChange" }', {
  rake: tilt.nullish().describe('Nose down +, against ride height, when the chassis was taped.'),
  roll: tilt.nullish().describe('Left side up +, against ride height, when the chassis was taped.'),
  rideHeightChange: length
    .nullish()
    .describe('How far the chassis is going to be raised at the front wheel centers.'),
});

const datum = object('a datum { "name", "point" }', {
  name,
  on: oneOf(['chassis', 'front axle', 'rear axle'])
    .nullish()
    .describe(
      'Body that carries it; "chassis" unless given. Chassis datums are carried over with the chassis.',
    ),
  sides,
  point,
  notes,
});

const weights = object('weights { "total", "frontShare", … }', {
  total: weight.describe('Of the whole vehicle, ready to drive.'),
  frontShare: share.nullish().describe('Share of the total on the front axle, 0 to 1.'),
  centerOfGravity: point.nullish().describe('At ride height; not carried over with the chassis.'),
  brakeShareFront: share.nullish().describe('Share of the brake force at the front axle, 0 to 1.'),
  driveShareFront: share.nullish().describe('Share of the drive force at the front axle, 0 to 1.'),
});

const partName = reference('the name of a part');
const pair = z.tuple([partName, partName], { error: 'two names of parts' });

const wanted = object('wanted { "bands", "gaps", "muted", "assumedTravel" }', {
  bands: list(
    'a list of bands',
    object('a band { "measure", "least", "greatest" }', {
      measure: reference('the id of a measure, such as bumpSteer'),
      axle: oneOf(['front', 'rear']).nullish().describe('Both axles unless given.'),
      part: partName.nullish().describe('Of a measure that each part has its own of.'),
      least: anyEntry.nullish().describe("A bare number is in the measure's own unit."),
      greatest: anyEntry.nullish().describe("A bare number is in the measure's own unit."),
    }),
  ).nullish(),
  gaps: list(
    'a list of required gaps',
    object('a required gap { "pair", "required", "why" }', {
      pair,
      required: amount.describe('Least gap that is asked for.'),
      why: words.nullish(),
    }),
    2000,
  ).nullish(),
  muted: list(
    'a list of muted pairs',
    object('a muted pair { "pair", "why" }', { pair, why: words.nullish() }),
    2000,
  ).nullish(),
  assumedTravel: object('assumed travel { "up", "down" }', {
    up: size.describe('Rise of both wheels.'),
    down: size.describe('Drop of both wheels.'),
  })
    .nullish()
    .describe('Travel to walk where nothing stops the axle, both positive.'),
});

export const buildFile = object('a build: an object that starts with "axlewalk": 1', {
  $schema: words.nullish().describe('For editors: the place of axlewalk.schema.json.'),
  axlewalk: z
    .literal(currentVersion, { error: `${currentVersion}, the version of this format` })
    .describe('Version of the format.'),
  name: name.describe('Of the build.'),
  unit: oneOf(['in', 'mm']).describe('Unit of lengths typed without one.'),
  driverSide: oneOf(['left', 'right']).nullish().describe('"left" unless given.'),
  notes,
  dimensions: list('a list of dimensions', dimension, 2000)
    .nullish()
    .describe('Values with names that entries may use.'),
  measuredAt: measuredAt.nullish().describe('How the chassis stood when it was taped.'),
  datums: list('a list of datums', datum, 2000)
    .nullish()
    .describe('Places that points are taped from.'),
  taped: list('a list of taped readings', taped, 500)
    .nullish()
    .describe('Readings that check the others: they move nothing.'),
  weights: weights.nullish(),
  wheelbase: size.describe('Between the front and the rear wheel centers.'),
  axles: list('a list of one or two axles', axle, 2).min(1, { error: 'one or two axles' }),
  solids: list('a list of solids', solid, 2000)
    .nullish()
    .describe(
      'What the mechanism does not have by itself: rails, cross-members, fenders, brackets.',
    ),
  wanted: wanted.nullish(),
  start: start
    .nullish()
    .describe('What the build was started from, to go on with; the parts say what it is by now.'),
  alternatives: list('a list of alternatives', alternative)
    .nullish()
    .describe('Candidates for one place, of which variants choose.'),
  variants: list('a list of variants', variant)
    .nullish()
    .describe('Other builds, as changes on this one: FILE#NAME.'),
});

/** A build file as one writes it. */
export type WrittenBuildFile = z.input<typeof buildFile>;
/** A valid build file as read: its entries are marked, else the same. */
export type BuildFile = z.infer<typeof buildFile>;
/** The build file with every entry replaced by its value in internal units. */
export type EvaluatedFile = Evaluated<BuildFile>;
