/** Shocks, coils, stops, straps, lines and sway bar as written in the build file. */
import { z } from 'zod';
import { count, force, length, rate, size } from './entry.ts';
import { axis, direction, point, tube } from './point.ts';
import { list, name, notes, object, oneOf, reference, sides } from './shape.ts';

export const shock = object('a shock { "name", "axle", "chassis", "shortest", "longest", … }', {
  name,
  sides,
  axle: point.describe('Center of its eye on the axle.'),
  chassis: point.describe('Center of its eye on the chassis.'),
  shortest: size.describe('Between its eyes, bottomed.'),
  longest: size.describe('Between its eyes, topped out.'),
  bodyEnd: oneOf(['axle', 'chassis'])
    .nullish()
    .describe('End of the body; "chassis" unless given.'),
  body: object('a shock body { "od", "length" }', {
    od: size.nullish().describe('Outer diameter of the body.'),
    length: size.nullish().describe('From the eye at its end to the shaft seal.'),
  }).nullish(),
  shaft: object('a shock shaft { "od" }', {
    od: size.nullish().describe('Diameter of the shaft.'),
  }).nullish(),
  reservoir: object('a reservoir { "on", "capsule" }', {
    on: oneOf(['body', 'chassis']).describe("Rides on the shock's body, or is mounted elsewhere."),
    capsule: object('a capsule { "from", "to", "radius" }', {
      from: point.describe('One end of its center line.'),
      to: point.describe('The other end.'),
      radius: size.describe('Its outer radius.'),
    }),
  }).nullish(),
  notes,
});

export const coil = object('a coil { "name", "axle", "chassis", … }', {
  name,
  sides,
  axle: point.describe('Center of its seat on the axle.'),
  chassis: point.describe('Center of its seat on the chassis.'),
  free: size.nullish().describe('Free length.'),
  rate: rate.nullish().describe('Of the coil.'),
  wire: size.nullish().describe('Diameter of the wire.'),
  turns: count.nullish().describe('Active turns.'),
  diameter: size.nullish().describe('Mean diameter of the coil.'),
  solid: size.nullish().describe('Length between the seats with the turns closed.'),
  notes,
});

export const bumpStop = object('a bump stop { "name", "kind", "pad", "strike", … }', {
  name,
  sides,
  kind: oneOf(['rubber', 'air']).describe('rubber: a bump stop; air: an air bump.'),
  pad: object('a pad { "on", "at" }', {
    on: oneOf(['axle', 'chassis']).describe('Body that carries the pad point.'),
    at: point.describe('Middle of the face that strikes.'),
  }),
  strike: object('a strike plane { "on", "at", "normal", "radius" }', {
    on: oneOf(['axle', 'chassis']).describe('The other body.'),
    at: point.describe('Center of the strike plane.'),
    normal: direction
      .nullish()
      .describe(
        'Towards the pad; unless given straight down, or straight up where the pad is on the chassis.',
      ),
    radius: size.nullish().describe('Of the plane: a pad that slid off it stops nothing.'),
  }),
  contactHeight: length.describe('Height of the pad over the plane where it touches.'),
  solidHeight: length.describe('Height where it holds.'),
  curve: list('a list of [height, force]', z.tuple([length, force], { error: '[height, force]' }))
    .nullish()
    .describe('Height and force, from contact down.'),
  notes,
});

export const strap = object('a limit strap { "name", "axle", "chassis", "length" }', {
  name,
  sides,
  axle: point.describe('Its end on the axle.'),
  chassis: point.describe('Its end on the chassis.'),
  length: size.describe('Between its ends, pulled tight.'),
  notes,
});

const lineEnd = object('an end { "on": body, "at": point }', {
  on: reference('a body: "chassis", "axle", "left knuckle" or the name of a part').describe(
    'Body that carries the end: chassis, axle, left knuckle, right knuckle or a part.',
  ),
  at: point.describe('Where the line ends.'),
});

export const line = object('a line { "name", "from", "to", "length", … }', {
  name,
  sides,
  from: lineEnd,
  to: lineEnd,
  length: size.describe('Free length.'),
  leastBendRadius: size.nullish().describe('At its center line.'),
  diameter: size.nullish().describe('Outer diameter.'),
  notes,
});

const mirroredOrOne = {
  side: oneOf(['left', 'right']).nullish().describe('Side of this one, where it is not mirrored.'),
  sides,
};

/** A bar on the chassis, an arm on each side, an end link from each arm's tip to the axle. */
export const swayBar = object('a sway bar { "axis", "arms", "endLinks", "tube" }', {
  axis: axis.describe('Axis that the bar turns about, on the chassis.'),
  arms: list(
    'a list of arms',
    object('an arm { "sides" or "side", "tip" }', { ...mirroredOrOne, tip: point }),
    2,
  ).describe('Where each arm takes its end link: one with `sides`, or two with `side`.'),
  endLinks: list(
    'a list of end links',
    object('an end link { "sides" or "side", "axle" }', { ...mirroredOrOne, axle: point }),
    2,
  ).describe('Where each end link meets the axle.'),
  tube: tube.nullish(),
  notes,
});
