import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { acrossOf, type Grip, gripsOf, onSameBracket } from '../../geometry/build/grips.ts';
import { Shifts } from '../../geometry/build/shift.ts';
import { type OpenedBuild, openBuild } from '../../geometry/cycle/open.ts';

const folder = new URL('../../examples/', import.meta.url);
const examples = readdirSync(folder).filter(name => name.endsWith('.axlewalk.json'));

function opened(name: string): OpenedBuild {
  const read = openBuild(readFileSync(new URL(name, folder), 'utf8'));
  if (!read.ok) throw new Error(`${name} is not read`);
  return read;
}

const long = opened('long-arm-front.axlewalk.json');
const grips = gripsOf(long.build, long.build.axles[0] as never);
const grip = (path: string): Grip => {
  const found = grips.find(each => each.path === path);
  if (!found) throw new Error(`no grip ${path}`);
  return found;
};

// Shifts reads each shifted build from the file as any other: what stands in it then is where the point has gone
describe.each(examples)('%s', name => {
  const { build, axles, file } = opened(name);
  const shifts = new Shifts(file, null);
  test.each(axles.map(({ axle }) => axle.name))(
    '%s: a moved point stands where it was moved to',
    axleName => {
      const axle = build.axles.find(each => each.name === axleName);
      const list = axle ? gripsOf(build, axle) : [];
      expect(list.length).toBeGreaterThan(20);
      const by = [1 / 64, 1 / 32, -1 / 128] as const;
      // a turned bench, a chassis taped on a rake and an axle that is leveled turn what is typed, by some 7° at most
      const isTurned =
        file.measuredAt != null ||
        file.axles.some(each => each.frame === 'bench' || each.wheelHeights != null);
      const nearly = isTurned ? 0.005 : 1e-9;
      let checked = 0;
      for (const [i, { path, entries, spots }] of list.entries()) {
        if (i % 4 !== 0) continue;
        const shifted = shifts.together(
          entries.map((entry, k) => ({ path: entry.path, by: by[k as 0] })),
        );
        const now = shifted?.axles.find(each => each.name === axleName);
        if (!shifted || !now) continue;
        const moved = gripsOf(shifted, now).find(each => each.path === path);
        for (const [s, spot] of spots.entries()) {
          const to = moved?.spots[s];
          const wanted = [by[0], by[1] * acrossOf(spot), by[2]];
          for (const k of [0, 1, 2] as const) {
            expect(Math.abs((to?.at[k] ?? 99) - spot.at[k] - (wanted[k] ?? 0)), path).toBeLessThan(
              nearly,
            );
          }
        }
        checked++;
      }
      expect(checked).toBeGreaterThan(5);
    },
  );
  test('each body that a point rides on is one of the pose', () => {
    for (const { axle, model } of axles) {
      for (const { spots } of gripsOf(build, axle)) {
        for (const { on, at } of spots) {
          if (on === null) continue;
          const now = model.ride.point(on, at);
          expect(now.every(Number.isFinite)).toBe(true);
        }
      }
    }
  });
});

test('a mirrored part has one point on either side, a drawn one is its own', () => {
  const frame = grip('axles["front"].links["lower link"].chassis.at');
  expect(frame.spots.map(({ image, part }) => [image, part])).toEqual([
    ['left', 'left lower link'],
    ['right', 'right lower link'],
  ]);
  expect(frame.entries.map(({ typed }) => typed)).toEqual(['-10', '1/2', '-2']);
  expect(grip('solids["oil pan"].box.center').spots).toHaveLength(1);
});

test('a reservoir rides by itself or on the frame, a datum on what carries it', () => {
  for (const name of examples) {
    const { build } = opened(name);
    for (const axle of build.axles) {
      const all = gripsOf(build, axle);
      for (const shock of axle.shocks) {
        if (!shock.reservoir) continue;
        const on = shock.reservoir.on === 'chassis' ? 'chassis' : null;
        const ends = all
          .filter(({ path }) => path.includes('.reservoir.capsule.'))
          .flatMap(({ spots }) => spots.filter(({ part }) => part === `${shock.name} reservoir`));
        expect(ends.map(each => [each.on, each.at])).toEqual([
          [on, shock.reservoir.from],
          [on, shock.reservoir.to],
        ]);
      }
    }
  }
  const datum = grip('datums["rail bottom"].point');
  expect(datum.spots.map(({ image, on, part }) => [image, on, part])).toEqual([
    ['left', 'chassis', 'left rail bottom'],
    ['right', 'chassis', 'right rail bottom'],
  ]);
  const [left, right] = datum.spots.map(({ at }) => at);
  expect(right).toEqual([left?.[0], -(left?.[1] ?? 0), left?.[2]]);
});

test('a size is no point', () => {
  expect(grips.some(({ path }) => path.endsWith('.size'))).toBe(false);
});

test('what is near on the same body may sit on one bracket; what rides elsewhere does not', () => {
  const axleEnd = grip('axles["front"].links["track bar"].chassis.at');
  const with_ = onSameBracket(grips, axleEnd).map(({ path }) => path);
  expect(with_).not.toContain(axleEnd.path);
  for (const path of with_) {
    const bodies = grip(path).spots.map(({ on }) => on);
    expect(bodies).toContain('chassis');
  }
});
