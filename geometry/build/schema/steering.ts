/** Knuckles and steering as written in the build file. */
import { z } from 'zod';
import { angle, angleLimit, count, size, tilt } from './entry.ts';
import { axis, direction, point, tube } from './point.ts';
import { list, name, notes, object, oneOf, sides } from './shape.ts';

const knuckleShape = {
  kingpin: object('a kingpin axis { "lower": point, "upper": point }', {
    lower: point.describe('Lower ball joint, or the lower end of the kingpin.'),
    upper: point.describe('Upper ball joint, or the upper end of the kingpin.'),
  }),
  toe: tilt.nullish().describe('Static toe of this wheel, toe-in +; 0 unless given.'),
  camber: tilt.nullish().describe('Static camber, top outboard +; 0 unless given.'),
  shaftJoint: point.nullish().describe("Center of the axle shaft's outer joint."),
  shaftLimit: angleLimit.nullish().describe('Largest angle of that joint.'),
  steeringStop: object('steering stops { "inward", "outward" }', {
    inward: angleLimit.nullish().describe("Largest turn as the turn's inner wheel, positive."),
    outward: angleLimit.nullish().describe("Largest turn as the turn's outer wheel, positive."),
  }).nullish(),
};

const knuckle = object('a knuckle { "kingpin", … }', knuckleShape);

/** Both knuckles: the left one with `"sides": "mirror"`, or both in full. */
export const knuckles = z.union(
  [
    object('knuckles { "sides": "mirror", "kingpin", … }', {
      sides: oneOf(['mirror']).describe('The right knuckle is the mirror image of this left one.'),
      ...knuckleShape,
      notes,
    }),
    object('knuckles { "left": …, "right": … }', { left: knuckle, right: knuckle, notes }),
  ],
  { error: 'knuckles { "sides": "mirror", "kingpin", … } or { "left": …, "right": … }' },
);

const rodBodies = [
  'pitman arm',
  'left knuckle',
  'right knuckle',
  'tie rod',
  'drag link',
  'ram rod',
] as const;

/** One end of the drag link or of a tie rod. */
const rodEnd = object('an end { "on": body, "at": point }', {
  on: oneOf(rodBodies).describe('Body that the end is joined to.'),
  at: point.describe('Center of the joint.'),
  stud: direction.nullish().describe('Axis of the tapered stud.'),
  limit: angleLimit.nullish().describe('Largest misalignment from the stud.'),
}).meta({ id: 'rodEnd' });

const rodShape = {
  from: rodEnd,
  to: rodEnd,
  length: size.nullish().describe('Length set by the adjuster; else as drawn.'),
  tube: tube.nullish(),
  through: list('a list of points', point)
    .nullish()
    .describe('Points along a bent body, from `from` to `to`, as drawn at ride height.'),
  roll: object('roll { "held": "clocked" or "studs", "at": angle }', {
    held: oneOf(['clocked', 'studs']).describe(
      'clocked: the rod takes the smallest turn of its line from the drawn one; studs: it rolls until its studs stop it.',
    ),
    at: angle.nullish().describe('Turn from the clocked roll, about the line from `from` to `to`.'),
  })
    .nullish()
    .describe(
      'What holds the roll of a rod with attachments off its line; "clocked" unless given.',
    ),
  notes,
};

const rod = object('a rod { "from", "to", … }', rodShape);

/** One tie rod; or, beside a double-ended ram, the left one mirrored or both in full. */
const tieRod = z.union(
  [
    object('a tie rod { "from", "to", … }', { sides, ...rodShape }),
    object('tie rods { "left": …, "right": … }', { left: rod, right: rod }),
  ],
  { error: 'a tie rod { "from", "to", … } or { "left": …, "right": … }' },
);

const ramShape = {
  name,
  closed: size.nullish().describe('Length between its ends when closed.'),
  stroke: size.nullish().describe('Travel of the rod.'),
  bore: size.nullish().describe('Diameter of the piston.'),
  rodDiameter: size.nullish().describe('Diameter of the rod.'),
  notes,
};

const ramBody = object('a ram body { "on", "at" }', {
  on: oneOf(['axle', 'chassis']).describe('Body that carries it.'),
  at: point.describe("Single: the body's pivot. Double: the middle of the barrel."),
  diameter: size.nullish().describe('Outer diameter of the barrel.'),
});

/** Ram from axle or chassis that pushes a rod or a knuckle. */
const singleRam = object('a ram { "name", "kind": "single", "body", "rod", … }', {
  kind: oneOf(['single']).describe('single: pushes a rod or a knuckle.'),
  ...ramShape,
  sides,
  body: ramBody,
  rod: object('the rod\'s end { "on", "at" }', {
    on: oneOf(['tie rod', 'left knuckle', 'right knuckle', 'drag link']).describe(
      'Body that it pushes.',
    ),
    at: point.describe('Center of that joint; it may lie off the line of the rod that it pushes.'),
  }),
});

/** Double-ended ram on the axle that takes the place of box and drag link. */
const doubleRam = object('a ram { "name", "kind": "double", "body", "axis", … }', {
  kind: oneOf(['double']).describe('double: steers by itself, through a tie rod at either end.'),
  ...ramShape,
  body: ramBody,
  axis: direction.nullish().describe("Line of its rod; the vehicle's Y unless given."),
});

const ram = z.discriminatedUnion('kind', [singleRam, doubleRam], {
  error: issue =>
    issue.code === 'invalid_union' && issue.note !== undefined
      ? '"single" or "double"'
      : 'a ram { "name", "kind", "body", … }',
});

export const steering = object('steering { "box", "pitmanArm", "dragLink", "tieRod", "rams" }', {
  box: object('a steering box { "axis", "ratio", "sweep", … }', {
    axis: axis.describe('Sector shaft: the axis that the pitman arm turns about.'),
    ratio: count.nullish().describe('Turns of the steering wheel for one of the pitman arm.'),
    sweep: z
      .tuple([angle, angle], { error: '[to the right (negative), to the left (positive)]' })
      .nullish()
      .describe(
        "The box's own ends: pitman angle from drawn to the right (negative), to the left.",
      ),
    wheelsLeft: oneOf(['+', '-'])
      .nullish()
      .describe(
        "Sense about the axis's direction, right-handed, that turns the wheels left; else found from the linkage.",
      ),
  }).nullish(),
  pitmanArm: object('a pitman arm { "tube" }', { tube: tube.nullish() }).nullish(),
  dragLink: rod
    .nullish()
    .describe('From the pitman arm to a knuckle or to a point on the tie rod.'),
  tieRod: tieRod
    .nullish()
    .describe('Between the knuckles, or from one of them to a point on the drag link.'),
  rams: list('a list of rams', ram).nullish(),
  notes,
});
