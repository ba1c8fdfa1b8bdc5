/** Solids that the user draws, on any body, as written in the build file. */
import { z } from 'zod';
import { amount, count, size } from './entry.ts';
import { direction, point } from './point.ts';
import { flag, list, name, notes, object, oneOf, reference, sides } from './shape.ts';

const attitude = {
  forward: direction
    .nullish()
    .describe("Where its own X axis points; the vehicle's X unless given."),
  up: direction
    .nullish()
    .describe("Where its own Z axis points, squared to `forward`; the vehicle's Z unless given."),
};
const rounded = {
  from: point.describe('One end of its center line.'),
  to: point.describe('The other end.'),
  radius: size.describe('Outer radius.'),
};

/** Shapes, by the key that holds them. */
export const shapes = {
  sphere: object('a sphere { "center", "radius" }', {
    center: point,
    radius: size.describe('Outer radius.'),
  }),
  capsule: object('a capsule { "from", "to", "radius" }', rounded),
  bentTube: object('a bent tube { "points", "radius" }', {
    points: list('a list of points', point),
    radius: size.describe('Outer radius of the tube.'),
  }),
  box: object('a box { "center", "size", "forward", "up" }', {
    center: point.describe('Middle of the box.'),
    size: z
      .tuple([size, size, size], { error: '[length, width, height] along its own axes' })
      .describe('Along its own X, Y and Z.'),
    ...attitude,
  }),
  cylinder: object('a cylinder { "from", "to", "radius" }', rounded),
  hull: object('a hull { "points", "radius" }', {
    points: list('a list of points', point, 2000),
    radius: amount.nullish().describe('Rounding around the hull; 0 unless given.'),
  }),
  mesh: object('a mesh { "file", "at", … }', {
    file: z
      .string({ error: 'the path of an STL, OBJ or GLB file, from the folder of the build file' })
      .min(1, { error: 'the path of an STL, OBJ or GLB file, from the folder of the build file' })
      .describe('STL, OBJ or GLB, in the folder of the build file or below.'),
    scale: count.nullish().describe("Inches in one of the file's units; 1 unless given."),
    at: point
      .nullish()
      .describe("Where the file's origin lies; the vehicle's origin unless given."),
    ...attitude,
    sha256: z
      .string({ error: '64 hexadecimal digits' })
      .regex(/^[0-9a-f]{64}$/i, { error: '64 hexadecimal digits' })
      .nullish()
      .describe('Of the file, to know it again.'),
    size: z
      .int({ error: 'the size of the file in bytes' })
      .min(0, { error: 'the size of the file in bytes' })
      .nullish(),
  }),
};

export const shapeNames = Object.keys(shapes) as (keyof typeof shapes)[];

export const solid = object('a solid { "name", "on", and one shape }', {
  name,
  on: reference('a body: "chassis", "axle", "left knuckle" or the name of a part')
    .nullish()
    .describe(
      'Body that it rides on: chassis, axle, left knuckle, or a part; "chassis" unless given.',
    ),
  axle: oneOf(['front', 'rear'])
    .nullish()
    .describe('Which axle, where `on` is a body that both have.'),
  sides,
  new: flag.nullish().describe('Compared with the parts of its own body too.'),
  mayBeCut: flag.nullish().describe('Whether it may be cut or bent away; false unless given.'),
  give: amount.nullish().describe('How far it may move or flex: added to the gap asked for.'),
  sphere: shapes.sphere.nullish(),
  capsule: shapes.capsule.nullish(),
  bentTube: shapes.bentTube.nullish(),
  box: shapes.box.nullish(),
  cylinder: shapes.cylinder.nullish(),
  hull: shapes.hull.nullish(),
  mesh: shapes.mesh.nullish(),
  notes,
}).refine(
  value =>
    typeof value !== 'object' ||
    value === null ||
    shapeNames.filter(shape => (value as Record<string, unknown>)[shape] != null).length === 1,
  { error: `exactly one shape: ${shapeNames.join(', ')}`, when: () => true },
);
