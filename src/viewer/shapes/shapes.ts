/** Every part of an axle as it is drawn, from the build's own dimensions. */
import type { Axle, Build } from '../../../geometry/build/build.ts';
import type { Part } from '../../../geometry/gap/part.ts';
import { drawDifferential, drawTubes, drawYoke } from './housing.ts';
import { drawDriveshaft, drawLink, drawRadiusArm, drawSwayBar } from './links.ts';
import { type Drawer, Palette, type PartShape } from './shape.ts';
import { drawSolid } from './solids.ts';
import { drawBumpStop, drawCoil, drawReservoir, drawShock } from './springs.ts';
import { drawKnuckle, drawPitmanArm, drawRam, drawRod } from './steering.ts';
import { drawTire, drawWheel } from './wheels.ts';

const drawers: readonly Drawer[] = [
  drawLink,
  drawRadiusArm,
  drawTubes,
  drawYoke,
  drawDifferential,
  drawKnuckle,
  drawRod,
  drawPitmanArm,
  drawRam,
  drawTire,
  drawWheel,
  drawShock,
  drawReservoir,
  drawCoil,
  drawBumpStop,
  drawDriveshaft,
  drawSwayBar,
];

/** One entry a part, in the order of the parts. The geometries are the caller's to dispose (`disposeShapes`). */
export function shapesOf(build: Build, axle: Axle, parts: readonly Part[]): PartShape[] {
  return parts.map(part => {
    const palette = new Palette();
    const isDrawn = part.kind !== 'drawn' && drawers.some(draw => draw(part, axle, palette));
    if (!isDrawn) drawSolid(part, build, axle, palette);
    return { part, shapes: palette.shapes() };
  });
}

export function disposeShapes(shapes: readonly PartShape[]): void {
  for (const each of shapes) for (const { geometry } of each.shapes) geometry.dispose();
}
