/** After a move, what is kept of the axle before it, against the same made anew: bit by bit, over random moves. */
import { readFileSync } from 'node:fs';
import { isDeepStrictEqual } from 'node:util';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { keepAlike } from '../../geometry/alike.ts';
import type { Build } from '../../geometry/build/build.ts';
import { gripsOf } from '../../geometry/build/grips.ts';
import { movedEntries } from '../../geometry/build/moves.ts';
import { Shifts } from '../../geometry/build/shift.ts';
import { coarseGrid, GLANCE } from '../../geometry/cycle/grid.ts';
import { openBuild } from '../../geometry/cycle/open.ts';
import { openAxle } from '../../geometry/cycle/openAxle.ts';
import { glanceAtRange } from '../../geometry/cycle/range.ts';
import { CoarseMap, type OnGrid } from '../../geometry/gap/map.ts';
import { type FoundPairs, type Pairs, pairsOf } from '../../geometry/gap/pairs.ts';
import type { Part } from '../../geometry/gap/part.ts';
import { partsOf } from '../../geometry/gap/parts.ts';
import { PlacedGrid } from '../../geometry/gap/placedGrid.ts';
import { meshReader } from '../../src/cli/meshes.ts';
import { numbersFrom } from '../random.ts';
import { type Example, pathOf } from './cycled.ts';

const EXAMPLES: [Example, 'front' | 'rear'][] = [
  ['whole-vehicle', 'front'],
  ['hung-tie-rod-front', 'front'],
  ['wishbone-rear', 'rear'],
];
const MOVES = 4;
const SEED = 20261127;

interface Before {
  build: Build;
  parts: Part[];
  found: FoundPairs;
  map: CoarseMap;
}

/** Names in place of parts, so that two lists can be held against each other. */
const told = ({ pairs, excluded }: Pairs) => ({
  pairs: pairs.map(({ a, b, ...rest }) => ({ a: a.name, b: b.name, ...rest })),
  excluded,
});
const bits = ({ gap, pair, pose, share, lower }: OnGrid) => ({ gap, pair, pose, share, lower });

/** Bit by bit; quicker than the test runner's own comparison, which would tell what differs. */
const expectSame = (is: unknown, anew: unknown): void =>
  expect(isDeepStrictEqual(is, anew)).toBe(true);

describe.each(EXAMPLES)('%s, %s axle', (example, name) => {
  test(`is after ${MOVES} random moves what it would be made anew (seed ${SEED})`, () => {
    const opened = openBuild(readFileSync(pathOf(example)));
    if (!opened.ok) throw new Error('it does not open');
    const shifts = new Shifts(opened.file, null);
    const own = opened.axles.find(({ axle }) => axle.name === name);
    if (!own) throw new Error('no such axle');
    const readMesh = meshReader(pathOf(example), 'examples');
    const grips = gripsOf(opened.build, own.axle);
    const random = numbersFrom(SEED);
    let before: Before | null = null;
    let kept = 0;
    for (let k = 0; k < MOVES; k++) {
      const grip = grips[Math.floor(random() * grips.length)];
      const entry = grip?.entries[Math.floor(random() * 3) as 0];
      const moves = [{ path: entry?.path ?? '', by: Math.round(32 * (random() - 0.5)) / 16 }];
      const shifted = shifts.together(moves);
      const anew = new Shifts(opened.file, null).together(moves);
      if (!shifted || !anew) continue;
      const fresh = { ...anew, entries: movedEntries(opened.build, moves) };
      const build: Build = keepAlike(before?.build, {
        ...shifted,
        entries: movedEntries(opened.build, moves),
      });
      expectSame(build, fresh);
      const [axle, freshAxle] = [build, fresh].map(each => each.axles.find(a => a.name === name));
      const settled = axle && openAxle(build, axle);
      if (!axle || !freshAxle || !settled?.ok) continue;

      const { parts } = partsOf(build, axle, readMesh, before?.parts);
      const { parts: freshParts } = partsOf(fresh, freshAxle, readMesh);
      expectSame(parts, freshParts);
      kept += parts.filter((part, i) => part === before?.parts[i]).length;

      const found = pairsOf(build, name, parts, { before: before?.found ?? null });
      const freshFound = pairsOf(fresh, name, freshParts);
      expectSame(told(found), told(freshFound));

      const { range, reach } = glanceAtRange(build, axle, settled.axle.model);
      const grid = coarseGrid(range, reach, GLANCE);
      const map: CoarseMap = new CoarseMap(parts, found.pairs, 'share', before?.map);
      const said = map.run(new PlacedGrid(map.motions, grid));
      const freshMap = new CoarseMap(freshParts, freshFound.pairs, 'share');
      expectSame(bits(said), bits(freshMap.run(new PlacedGrid(freshMap.motions, grid))));
      expectSame(map.stage.drawn, freshMap.stage.drawn);
      before = { build, parts, found, map };
    }
    expect(kept).toBeGreaterThan(10);
  });
});

describe('what is kept', () => {
  const anything = fc.object({
    withNullPrototype: false,
    values: [fc.double(), fc.string(), fc.boolean()],
  });

  test('equals what was made, and leaves what was there alone', () => {
    fc.assert(
      fc.property(anything, anything, (a, b) => {
        const before = structuredClone(a);
        expect(keepAlike(before, structuredClone(b))).toEqual(b);
        expect(before).toEqual(a);
        expect(keepAlike(before, structuredClone(a))).toBe(before);
      }),
    );
  });

  test('is the same object down to what differs, and tells zero from minus zero', () => {
    const before = { a: { b: [1, 2] }, c: { d: 0 }, e: new Float64Array([1, 0]) };
    const made = keepAlike(before, {
      a: { b: [1, 2] },
      c: { d: -0 },
      e: new Float64Array([1, -0]),
    });
    expect(made).not.toBe(before);
    expect(made.a).toBe(before.a);
    expect(Object.is(made.c.d, -0)).toBe(true);
    expect(made.e).not.toBe(before.e);
    expect(keepAlike<object>({ a: 1, b: undefined }, { a: 1 })).toEqual({ a: 1 });
    expect(keepAlike([1, 2, 3], [1, 2])).toEqual([1, 2]);
  });
});
