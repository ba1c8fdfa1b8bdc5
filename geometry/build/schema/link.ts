/** Joints, links, track bars and radius arms as written in the build file. */
import { z } from 'zod';
import { angle, angleLimit, pressure, rate, size, torsionalRate } from './entry.ts';
import { direction, point, tube } from './point.ts';
import { flag, list, name, notes, object, oneOf, reference, sides } from './shape.ts';

/** Rates of a joint. One that is not given is stiff, as far as the link's tube is. */
const rates = object('rates { "radial", "axial", "torsional", "conical", "bracket" }', {
  radial: rate.nullish().describe('Across the bolt.'),
  axial: rate.nullish().describe('Along the bolt.'),
  torsional: torsionalRate.nullish().describe('About the bolt. Gives moments, moves no pose.'),
  conical: torsionalRate.nullish().describe('Against misalignment.'),
  bracket: rate.nullish().describe('Of the bracket that it sits in.'),
});

const bolt = direction
  .nullish()
  .describe('Axis of the bolt (of a tapered stud: the stud), fixed in the bracket.');
const bore = direction
  .nullish()
  .describe(
    'Axis of the bore, fixed in the link; unless given, the bolt as drawn, squared to the link.',
  );
const limit = angleLimit.nullish().describe('Largest misalignment.');
const clocking = angle
  .nullish()
  .describe(
    'Turn of the bore about the line from axle to chassis, right-handed, from where `bore` has it.',
  );

/**
 * A joint: without `at` a kind of joint that any number of link ends may name; with `at` and `on` one
 * physical joint point, shared by the links that name it (they leave their own `at` out).
 */
export const joint = object('a joint { "name", "kind", … }', {
  name,
  kind: oneOf(['rodEnd', 'ball', 'bushing']).describe('Kind of joint.'),
  at: point.nullish().describe('Makes it one shared joint point.'),
  on: oneOf(['axle', 'chassis']).nullish().describe('Body that carries a shared joint point.'),
  sides,
  bolt,
  bore,
  limit,
  clocking,
  housing: size.nullish().describe("Outer diameter of the joint's housing."),
  holdsRoll: flag
    .nullish()
    .describe(
      'Whether it keeps the link from rolling about its own line (a bushing, an anti-roll washer); a bushing does unless it says false.',
    ),
  rates: rates.nullish(),
  notes,
});

/** One end of a link. */
export const linkEnd = object('a link end { "at": point, "joint": name }', {
  at: point
    .nullish()
    .describe('Center of the joint. Left out where `joint` names a shared joint point.'),
  joint: reference('the name of a joint under "joints"')
    .nullish()
    .describe('Name of a joint; without it a rod end whose misalignment nobody asks for.'),
  bolt: bolt.describe('In place of the bolt of the joint.'),
  bore: bore.describe('In place of the bore of the joint.'),
  limit: limit.describe('In place of the limit of the joint.'),
  clocking: clocking.describe('In place of the clocking of the joint.'),
}).meta({ id: 'linkEnd' });

const body = {
  name,
  sides,
  tube: tube.nullish(),
  through: list('a list of points', point)
    .nullish()
    .describe(
      'Points along a bent body, from the axle end to the chassis end, as drawn at ride height.',
    ),
  notes,
};

/** A link or track bar: one length between an axle point and a chassis point. */
export const straightLink = object('a link { "name", "kind", "axle", "chassis", … }', {
  kind: oneOf(['link', 'track bar']).optional().describe('"link" unless given.'),
  ...body,
  axle: linkEnd.describe('End on the axle.'),
  chassis: linkEnd.describe('End on the chassis.'),
  length: size
    .nullish()
    .describe('Free length, where an adjuster was turned or another link is tried; else as drawn.'),
  rate: rate.nullish().describe('Total rate with both ends and the tube in it.'),
  modulus: pressure.nullish().describe("Young's modulus of the tube; steel unless given."),
});

/** A radius arm: a body with two axle ends (front, rear) and one chassis end. */
export const radiusArm = object(
  'a radius arm { "name", "kind", "axle": [end, end], "chassis", … }',
  {
    kind: oneOf(['radius arm']),
    ...body,
    axle: z
      .tuple([linkEnd, linkEnd], { error: 'two link ends: [front, rear]' })
      .describe('Both ends on the axle: `NAME.axle front` and `NAME.axle rear`.'),
    chassis: linkEnd.describe('End on the chassis.'),
  },
);

export const link = z.discriminatedUnion('kind', [straightLink, radiusArm], {
  error: issue =>
    issue.code === 'invalid_union' && issue.note !== undefined
      ? '"link", "track bar" or "radius arm"'
      : 'a link { "name", "kind", "axle", "chassis", … }',
});
