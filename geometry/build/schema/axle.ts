/** One axle as written in the build file. */
import { z } from 'zod';
import { amount, angle, angleLimit, count, length, size, tilt } from './entry.ts';
import { joint, link } from './link.ts';
import { point, tube } from './point.ts';
import { flag, list, notes, object, oneOf } from './shape.ts';
import { bumpStop, coil, line, shock, strap, swayBar } from './spring.ts';
import { knuckles, steering } from './steering.ts';

const ball = {
  center: point.describe('Center of the ball that stands for it.'),
  radius: size.describe('Radius of that ball.'),
};

const housing = object('a housing { "tube", "differential" }', {
  tube: object('an axle tube { "od" }', {
    od: size.describe('Outer diameter of both axle tubes.'),
  }).nullish(),
  differential: object('a differential { "center", "radius", "cover" }', {
    ...ball,
    cover: object('a cover { "center", "radius" }', ball).nullish(),
  }).nullish(),
});

const tire = object('a tire { "diameter", "width", "loadedRadius", … }', {
  diameter: size.describe('Measured, unloaded.'),
  width: size.describe('Section, measured.'),
  loadedRadius: size.describe('From the ground to the wheel center at ride height.'),
  shoulder: amount
    .nullish()
    .describe('Radius of the rounded shoulder; 15 % of the width unless given.'),
  give: amount.nullish().describe('How far the sidewall may bulge: added to the gap asked for.'),
  rim: object('a rim { "diameter", "width", "offset" }', {
    diameter: size.describe('At the bead seat.'),
    width: size.describe('Between the bead seats.'),
    offset: length
      .nullish()
      .describe('From the mid-plane to the hub face, outboard +; 0 unless given.'),
  }).nullish(),
});

const flangeAxis = object('an axis { "up": angle, "aside": angle }', {
  up: tilt.describe('Elevation, pointing out of the flange.'),
  aside: tilt
    .nullish()
    .describe(
      'Turn to the left, seen from above, of one who looks out of the flange; 0 unless given.',
    ),
});

const drivelineEnd = object('an end of the driveshaft { "joint", "axis", "kind", "limit" }', {
  joint: point.describe('Center of the U-joint (of a double cardan: the middle of both).'),
  axis: flangeAxis.describe('Points out of the flange, towards the other flange.'),
  kind: oneOf(['single', 'double cardan']).nullish().describe('"single" unless given.'),
  limit: angleLimit.nullish().describe('Largest joint angle.'),
});

const driveline = object('a driveline { "pinion", "transferCase", … }', {
  pinion: drivelineEnd,
  transferCase: drivelineEnd,
  slip: z
    .tuple([length, length], { error: '[shorter (negative), longer (positive)]' })
    .nullish()
    .describe('Change of length from drawn that the spline allows: shorter (negative), longer.'),
  phase: angle
    .nullish()
    .describe(
      "Turn of the pinion's yoke from being in line with the transfer case's; 0 unless given.",
    ),
  tube: tube.nullish(),
  axleRatio: count.nullish().describe('Turns of the driveshaft for one of the wheels.'),
  notes,
});

export const axle = object('an axle { "name", "steered", "wheelCenters", "tire", … }', {
  name: oneOf(['front', 'rear']).describe('The rear axle lies one wheelbase behind the front one.'),
  steered: flag.describe('True on a front axle that steers.'),
  wheelCenters: size.describe('Distance between the wheel centers, straight ahead.'),
  frame: oneOf(['vehicle', 'bench'])
    .nullish()
    .describe(
      "vehicle: this axle's points are taped in vehicle axes at ride height. bench: points and directions of housing, knuckles, tie rod and what sits on them are taped in the axle's own frame, from midway between the wheel centers.",
    ),
  turned: tilt
    .nullish()
    .describe(
      'How far the axle is turned from the bench, right-handed about Y (+ drops a pinion that points forward, lifts one that points rearward); only with "frame": "bench".',
    ),
  wheelHeights: object('wheel heights { "left", "right", "difference" }', {
    left: size.describe('From the floor to the left wheel center.'),
    right: size.describe('From the floor to the right wheel center.'),
    difference: oneOf(['level', 'roll'])
      .nullish()
      .describe(
        'level: this axle\'s points are turned level, with a warning. roll: the chassis turns with them and keeps its lean against the axle. "level" unless given.',
      ),
  })
    .nullish()
    .describe('As measured; a difference is leveled, or kept as roll at ride height.'),
  housing: housing.nullish(),
  tire,
  joints: list('a list of joints', joint).nullish(),
  links: list('a list of links', link),
  knuckles: knuckles.nullish(),
  steering: steering.nullish(),
  shocks: list('a list of shocks', shock).nullish(),
  coils: list('a list of coils', coil).nullish(),
  bumpStops: list('a list of bump stops', bumpStop).nullish(),
  straps: list('a list of straps', strap).nullish(),
  lines: list('a list of lines', line).nullish(),
  swayBar: swayBar.nullish(),
  driveline: driveline.nullish(),
  notes,
});
