/** Shapes that are taken over after a move, against the same drawn anew: bit by bit, over random moves. */
import { isDeepStrictEqual } from 'node:util';
import { expect, test } from 'vitest';
import { keepAlike } from '../../geometry/alike.ts';
import type { Build } from '../../geometry/build/build.ts';
import { gripsOf } from '../../geometry/build/grips.ts';
import { Shifts } from '../../geometry/build/shift.ts';
import type { Part } from '../../geometry/gap/part.ts';
import { partsOf } from '../../geometry/gap/parts.ts';
import type { PartShape } from '../../src/viewer/shapes/shape.ts';
import { disposeShapes, shapesOf } from '../../src/viewer/shapes/shapes.ts';
import { numbersFrom } from '../random.ts';
import { EXAMPLES, open, readMesh } from './opened.ts';

const SEED = 20261127;
const MOVES = 12;

const numbersOf = ({ part, shapes }: PartShape) => ({
  part: part.name,
  shapes: shapes.map(({ look, hold, copies, geometry }) => ({
    look,
    hold,
    copies,
    index: geometry.getIndex()?.array,
    position: geometry.getAttribute('position').array,
    normal: geometry.getAttribute('normal').array,
  })),
});

test.each(EXAMPLES)(
  `%s is drawn after random moves as it would be anew (seed ${SEED})`,
  example => {
    const { file, build, axle: own } = open(example);
    const shifts = new Shifts(file, null);
    const grips = gripsOf(build, own);
    const random = numbersFrom(SEED);
    let before: { build: Build; parts: Part[]; shapes: PartShape[] } | null = null;
    let kept = 0;
    for (let k = 0; k < MOVES; k++) {
      const grip = grips[Math.floor(random() * grips.length)];
      const path = grip?.entries[Math.floor(random() * 3) as 0].path ?? '';
      const shifted = shifts.build(path, Math.round(32 * (random() - 0.5)) / 16);
      if (!shifted) continue;
      const moved: Build = keepAlike(before?.build, shifted);
      const axle = moved.axles.find(({ name }) => name === own.name);
      if (!axle) throw new Error('the axle is gone');
      const { parts } = partsOf(moved, axle, readMesh, before?.parts);
      const shapes = shapesOf(moved, axle, parts, before?.shapes);
      const anew = shapesOf(moved, axle, parts);
      for (const [i, each] of shapes.entries()) {
        const fresh = anew[i];
        expect(
          fresh && isDeepStrictEqual(numbersOf(each), numbersOf(fresh)),
          `${each.part.name} after ${path}`,
        ).toBe(true);
        if (each === before?.shapes[i]) kept++;
      }
      disposeShapes(anew);
      before = { build: moved, parts, shapes };
    }
    expect(kept).toBeGreaterThan(10);
  },
);
