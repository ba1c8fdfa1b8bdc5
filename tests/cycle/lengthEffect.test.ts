/** Given lengths against closed forms for parallel links that lie level: plane geometry, no source needed. */
import { describe, expect, test } from 'vitest';
import type { Edited } from '../../geometry/build/edit.ts';
import { asDrawn, sizedParts, withGivenLength } from '../../geometry/build/givenLength.ts';
import type { BuildFile } from '../../geometry/build/schema/file.ts';
import { lengthEffect } from '../../geometry/cycle/lengthEffect.ts';
import { openBuild } from '../../geometry/cycle/open.ts';
import { edited, sample, steered, type Written } from '../build/sample.ts';

const lower = 'axles["front"].links["lower link"]';
const upper = 'axles["front"].links["upper link"]';

/** Two lower links and an upper one, all level and straight fore and aft, 36 in long; a track bar straight across. */
const level = edited(sample(), {
  'axles.0.links': [
    {
      name: 'lower link',
      sides: 'mirror',
      axle: { at: [0, 17, 16] },
      chassis: { at: [-36, 17, 16] },
    },
    { name: 'upper link', axle: { at: [0, 0, 28] }, chassis: { at: [-36, 0, 28] } },
    {
      name: 'track bar',
      kind: 'track bar',
      axle: { at: [0, -20, 20] },
      chassis: { at: [0, 20, 20] },
    },
  ],
  'axles.0.driveline': {
    pinion: { joint: [-12, 0, 20], axis: { up: '5 deg' } },
    transferCase: { joint: [-40, 0, 26], axis: { up: 0 } },
  },
});

const given = (file: Written, path: string, typed: string | null): Written => {
  const base: Edited = { file: file as unknown as BuildFile, variant: null };
  const edit = withGivenLength(base, path, typed);
  if (!edit.ok) throw new Error(edit.message);
  return edit.file as unknown as Written;
};

function effect(file: Written, ...paths: string[]) {
  const opened = openBuild(JSON.stringify(file));
  if (!opened.ok) throw new Error(opened.problems.map(({ message }) => message).join());
  const now = opened.axles[0];
  if (!now) throw new Error('no axle');
  const parts = paths.flatMap(path => sizedParts(now.axle, path));
  const found = lengthEffect(now, asDrawn(now.axle, parts));
  if (!found) throw new Error('it can not stand as drawn');
  return found;
}

/** Solved to 1e-10 in; angles over 12 in of height. */
const SOLVED = 9;

describe('a longer link', () => {
  test('all three alike push the axle along them, and the track bar swings it aside', () => {
    const longer = given(given(level, lower, '36 1/2'), upper, '36 1/2');
    const { shift_in, yaw_deg, pinion_deg, bind } = effect(longer, lower, upper);
    const [x, y, z] = shift_in;
    // the track bar keeps its 40 in, the links have their 36 1/2
    expect((40 - y) ** 2 + x ** 2).toBeCloseTo(1600, SOLVED - 2);
    expect((36 + x) ** 2 + y ** 2).toBeCloseTo(36.5 ** 2, SOLVED - 2);
    expect(x).toBeGreaterThan(0.49);
    expect(z).toBeCloseTo(0, SOLVED);
    expect(yaw_deg).toBeCloseTo(0, SOLVED - 2);
    expect(pinion_deg).toBeCloseTo(0, SOLVED - 2);
    expect(bind.after.stretch_in).toBe(0);
  });

  test('the lower ones alone turn the axle: a pinion that points rearward drops', () => {
    const by = 1 / 16;
    const { pinion_deg, yaw_deg } = effect(given(level, lower, '36 1/16'), lower);
    // 12 in between the links; second order of the angle is a thousandth of a degree
    expect(pinion_deg).toBeCloseTo((-Math.atan(by / 12) * 180) / Math.PI, 2);
    expect(yaw_deg).toBeCloseTo(0, 4);
  });

  test('only the part that is asked about counts', () => {
    const both = given(given(level, lower, '36 1/2'), upper, '36 1/2');
    expect(effect(both, upper).pinion_deg).toBeCloseTo(
      effect(given(level, upper, '36 1/2'), upper).pinion_deg ?? 99,
      1,
    );
    expect(effect(both, upper).pinion_deg).toBeGreaterThan(1);
  });

  test('a tie rod turns the wheels', () => {
    const rod = 'axles["front"].steering.tieRod';
    const { wheels_deg, shift_in } = effect(given(steered(), rod, '62 1/4'), rod);
    expect(shift_in).toEqual([0, 0, 0]);
    // the drag link holds the right one; the rod runs ahead of the kingpins: the left one toes in
    expect(wheels_deg?.right).toBeCloseTo(0, SOLVED - 2);
    expect(Math.abs(wheels_deg?.left ?? 0)).toBeGreaterThan(1);
  });

  test('one that can not be assembled is refused, and says so', () => {
    const opened = openBuild(JSON.stringify(given(level, upper, '60')));
    expect(opened.ok ? 'taken' : opened.problems[0]?.message).toMatch(/links part after/);
  });
});

describe('in the file', () => {
  test('given, typed anew and taken out again', () => {
    const longer = given(level, lower, '36 1/2');
    const [link] = (longer.axles as BuildFile['axles'])[0]?.links ?? [];
    expect(link).toMatchObject({ name: 'lower link', length: '36 1/2' });
    expect(given(given(longer, lower, '37'), lower, null)).toEqual(level);
  });

  test('a variant takes out what the base gives', () => {
    const file = { ...given(level, lower, '36 1/2'), variants: [{ name: 'as drawn' }] };
    const shown = { file: file as unknown as BuildFile, variant: 'as drawn' };
    const edit = withGivenLength(shown, lower, null);
    const opened = openBuild(JSON.stringify(edit.ok ? edit.file : null), { variant: 'as drawn' });
    expect(opened.ok && opened.build.axles[0]?.links[0]?.length).toBeNull();
  });

  test('what has no length of its own has none to give', () => {
    const opened = openBuild(JSON.stringify(level));
    const axle = opened.ok ? opened.build.axles[0] : undefined;
    if (!axle) throw new Error('no axle');
    expect(sizedParts(axle, 'axles["front"].tire')).toEqual([]);
    expect(sizedParts(axle, lower)).toEqual([
      { name: 'left lower link', drawn: 36, given: null },
      { name: 'right lower link', drawn: 36, given: null },
    ]);
  });
});
