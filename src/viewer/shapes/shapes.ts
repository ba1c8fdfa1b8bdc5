/** Every part of an axle as it is drawn, from the build's own dimensions. */
import { isAlike } from '../../../geometry/alike.ts';
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
  // whatever is left
  drawSolid,
];

/**
 * One entry a part, in the order of the parts. The geometries are the caller's to dispose (`disposeShapes`).
 *
 * @param before shapes of the axle before a change: those of parts that look the same are taken over
 */
export function shapesOf(
  build: Build,
  axle: Axle,
  parts: readonly Part[],
  before: readonly PartShape[] = [],
): PartShape[] {
  const known = new Map(before.map(shape => [shape.part, shape]));
  return parts.map(part => {
    for (const by of part.kind === 'drawn' ? [drawSolid] : drawers) {
      const drawing = by(part, axle, build);
      if (!drawing) continue;
      const { from, into } = drawing;
      const was = known.get(part);
      if (was?.by === by && isAlike(was.from, from)) return was;
      const palette = new Palette();
      into(palette);
      return { part, shapes: palette.shapes(), by, from };
    }
    throw new Error(`nothing draws ${part.name}`);
  });
}

/** @param but shapes that are still in use */
export function disposeShapes(shapes: readonly PartShape[], but: readonly PartShape[] = []): void {
  const kept = new Set(but);
  for (const each of shapes) {
    if (kept.has(each)) continue;
    for (const { geometry } of each.shapes) geometry.dispose();
  }
}
