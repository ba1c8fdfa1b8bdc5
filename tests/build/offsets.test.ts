import { describe, expect, test } from 'vitest';
import type { Build } from '../../geometry/build/build.ts';
import type { Edit, Edited } from '../../geometry/build/edit.ts';
import { type Grip, type GripSpot, gripsOf } from '../../geometry/build/grips.ts';
import { type TapedOffset, withOffset } from '../../geometry/build/offsets.ts';
import type { BuildFile } from '../../geometry/build/schema/file.ts';
import {
  nameFor,
  offsetFrom,
  startsIn,
  startsOf,
  whyNotFrom,
} from '../../geometry/build/tapeStarts.ts';
import { axleOf, built, edited, sample, type Written } from './sample.ts';

const file = edited(sample(), {
  datums: [
    { name: 'rail bottom', sides: 'mirror', point: [-28, 15, 24] },
    { name: 'tank corner', point: [-40, 4, 30] },
  ],
  'axles.0.links.0.chassis.at': [-38, '15 1/4', { value: '22 3/8', from: 'measured' }],
  solids: [
    {
      name: 'tab',
      box: { center: { from: 'left lower link.chassis', by: [0, 0, 2] }, size: [4, 1, 4] },
    },
  ],
});
const end = 'axles["front"].links["lower link"].chassis.at';

function held(build: Build, path: string, side = 0): { grip: Grip; spot: GripSpot } {
  const grip = gripsOf(build, axleOf(build)).find(each => each.path === path);
  const spot = grip?.spots[side];
  if (!grip || !spot) throw new Error(`no point ${path}`);
  return { grip, spot };
}

const place = (build: Build, name: string) => {
  const found = build.places.find(each => each.name === name);
  if (!found) throw new Error(`no place ${name}`);
  return found;
};

describe('places to tape from', () => {
  const build = built(file);
  const { grip, spot } = held(build, end);
  const right = held(build, end, 1).spot;
  const names = (of: GripSpot): string[] =>
    startsOf(build, axleOf(build), grip, of).map(({ name }) => name);

  test('those of the side where it stands, the nearest first', () => {
    expect(names(spot).slice(0, 3)).toEqual([
      'left rail bottom',
      'tank corner',
      'upper link.chassis',
    ]);
    expect(names(spot)).not.toContain('right rail bottom');
    expect(names(right)).toContain('right rail bottom');
    expect(names(spot)).toEqual(expect.arrayContaining(['ground', 'front axle']));
  });

  test('not itself, nor what hangs on it', () => {
    expect(names(spot)).not.toContain('left lower link.chassis');
    const datum = held(build, 'datums["rail bottom"].point');
    const moved = edited(file, {
      'axles.0.links.1.chassis.at': { from: 'left rail bottom', by: [-10, -20, 4] },
    });
    const other = built(moved);
    const starts = startsOf(other, axleOf(other), held(other, datum.grip.path).grip, datum.spot);
    expect(starts.map(({ name }) => name)).not.toContain('upper link.chassis');
  });

  test('offsets are alike on both sides of a mirrored part', () => {
    expect(offsetFrom(spot, place(build, 'left rail bottom'))).toEqual([-10, 0.25, -1.625]);
    expect(offsetFrom(right, place(build, 'right rail bottom'))).toEqual([-10, 0.25, -1.625]);
    expect(nameFor(build.places, place(build, 'right rail bottom'), right)).toBe('rail bottom');
    expect(nameFor(build.places, place(build, 'ground'), right)).toBe('ground');
  });

  test('what can not be typed says why', () => {
    const why = (changes: Written, at: string, axis: 0 | 1 | 2, side = 0) => {
      const written = edited(file, changes);
      const now = built(written);
      return whyNotFrom(
        { build: now, file: written as unknown as BuildFile },
        held(now, end, side).spot,
        place(now, at),
        axis,
      );
    };
    expect(why({}, 'left rail bottom', 2)).toBeNull();
    expect(why({}, 'tank corner', 1, 1)).toMatch(/no twin/);
    expect(why({}, 'tank corner', 2, 1)).toBeNull();
    const raised = { measuredAt: { rideHeightChange: 4 } };
    expect(why(raised, 'left rail bottom', 2)).toBeNull();
    expect(why(raised, 'ground', 2)).toMatch(/raised/);
    expect(why({ measuredAt: { rake: '1 deg' } }, 'left rail bottom', 2)).toMatch(/leaning/);
  });
});

describe('an offset typed from a place', () => {
  const base: Edited = { file: file as unknown as BuildFile, variant: null };
  const typed = (offset: TapedOffset, of: Edited = base): BuildFile => {
    const edit: Edit = withOffset(of, end, offset);
    if (!edit.ok) throw new Error(edit.message);
    return edit.file;
  };
  const written = (of: BuildFile) => of.axles[0]?.links[0]?.chassis;

  test('stands in the file as it was read off the tape; the rest stays as typed, and the point is there', () => {
    const now = typed({ axis: 2, from: 'rail bottom', typed: '2 1/2', way: -1 });
    expect(written(now)).toEqual({
      at: {
        from: ['ground', 'centerline', 'rail bottom'],
        by: [-38, '15 1/4', { value: '-2 1/2', from: 'measured' }],
      },
    });
    const build = built(now as unknown as Written);
    for (const side of [0, 1]) {
      const { spot } = held(build, end, side);
      const start = place(build, side === 0 ? 'left rail bottom' : 'right rail bottom');
      expect(offsetFrom(spot, start)).toEqual([-10, 0.25, -2.5]);
    }
    const [x, y, z] = held(build, end).spot.at;
    expect([x, y, z]).toEqual([-38, 15.25, 21.5]);
  });

  test('taped from one place it names it once, and from the origin it is a plain point again', () => {
    let now: Edited = base;
    const offset = (axis: 0 | 1 | 2, from: string, amount: string, way: 1 | -1): void => {
      now = { ...now, file: typed({ axis, from, typed: amount, way }, now) };
    };
    offset(2, 'rail bottom', '1 5/8', -1);
    offset(0, 'rail bottom', '10', -1);
    offset(1, 'rail bottom', '1/4', 1);
    expect(startsIn(written(now.file)?.at)).toEqual(['rail bottom', 'rail bottom', 'rail bottom']);
    expect(written(now.file)?.at).toMatchObject({ from: 'rail bottom' });
    expect(held(built(now.file as unknown as Written), end).spot.at).toEqual([-38, 15.25, 22.375]);
    offset(0, 'ground', '38', -1);
    offset(1, 'centerline', '15 1/4', 1);
    offset(2, 'ground', '22 3/8', 1);
    expect(written(now.file)?.at).toEqual(['-38', '15 1/4', { value: '22 3/8', from: 'measured' }]);
  });

  test("with a variant shown it is the variant's own", () => {
    const variants = [{ name: 'low', changes: [] }];
    const shown: Edited = { file: { ...base.file, variants }, variant: 'low' };
    const now = typed({ axis: 2, from: 'rail bottom', typed: '3', way: -1 }, shown);
    expect(now.axles).toEqual(base.file.axles);
    expect(held(built(now as unknown as Written, 'low'), end).spot.at[2]).toBe(21);
  });

  test('what no tape reads is left to the reader to refuse', () => {
    const now = typed({ axis: 2, from: 'rail bottom', typed: '3 1/', way: -1 });
    expect(() => built(now as unknown as Written)).toThrow(/3 1\//);
  });
});
