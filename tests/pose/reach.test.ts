import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Axle } from '../../geometry/build/build.ts';
import { assemble } from '../../geometry/mechanism/assemble.ts';
import { BEYOND_FOLD } from '../../geometry/pose/exactAxle.ts';
import { type AxleModel, settle } from '../../geometry/pose/model.ts';
import { number, plausible } from './arbitrary.ts';
import { Equations } from './equations.ts';
import { FAMILIES, rear } from './families.ts';
import { link, longArms, modelOf } from './layouts.ts';
import { search } from './search.ts';
import { lock } from './steerings.ts';
import { isExact, residual } from './witness.ts';

const SIDE_VIEW = 'three links, drag link to the left knuckle, arm in side view';

describe('over ±8 in at each wheel', () => {
  test.each(Object.entries(FAMILIES))(
    '%s: lengths hold to 1e-9 in wherever a pose exists',
    (name, make) => {
      const axle = make();
      const model = modelOf(axle);
      const full = lock(axle.steering);
      for (let left = -8; left <= 8; left += 2) {
        for (let right = -8; right <= 8; right += 2) {
          for (const steer of full ? [0, full, -full] : [0]) {
            const { pose, status, part } = model.pose(left, right, steer);
            if (pose) {
              expect(residual(axle, pose)).toBeLessThan(1e-9);
            } else {
              // only this one runs out: its arm swings in side view and the axle rises; proved below
              expect({ name, status, part }).toEqual({
                name: SIDE_VIEW,
                status: 'unreachable',
                part: 'drag link',
              });
            }
          }
        }
      }
    },
  );
});

/** Where a straight path of travels and steering leaves what can be reached: its last pose, by halving. */
function lastPose(model: AxleModel, to: readonly number[]): { at: number; base: number[] } {
  let inside = 0;
  let outside = 1;
  for (let i = 0; i < 40; i++) {
    const t = (inside + outside) / 2;
    const [l, r, s] = to.map(x => x * t) as [number, number, number];
    if (model.pose(l, r, s).status === 'solved') inside = t;
    else outside = t;
  }
  const [l, r, s] = to.map(x => x * inside) as [number, number, number];
  const { pose } = model.pose(l, r, s);
  if (!pose) throw new Error('the last pose is none');
  const turns = (['left', 'right'] as const)
    .map(side => pose.knuckleTurn(side))
    .filter(t => t !== null);
  return {
    at: inside,
    base: [pose.axle.o[0] as number, pose.axle.o[1] as number, pose.yaw, pose.pitch, ...turns],
  };
}

describe('unreachable is proved by search, not taken from a flag', () => {
  /** Random exact axles, far travels: those that end are searched around their last pose. */
  const seed = 20;
  const cases = fc
    .sample(fc.tuple(plausible, number(1), number(1), number(1)), { numRuns: 420, seed })
    .filter(([axle]) => isExact(axle));

  test(`random exact axles (seed ${seed})`, () => {
    const ended: Record<string, number> = {};
    let proved = 0;
    for (const [axle, a, b, c] of cases) {
      const assembly = assemble(axle);
      if (!assembly.ok) continue;
      const settled = settle(assembly.mechanism);
      if (!settled.ok) continue;
      const { model } = settled;
      const to = [30 * a, 30 * b, axle.steered ? 2 * c * lock(axle.steering) : 0];
      const verdict = model.pose(to[0] as number, to[1] as number, to[2]);
      expect(verdict.status).not.toBe('undecided');
      if (verdict.status !== 'unreachable' || proved >= 40) continue;
      const part = verdict.part as string;
      ended[part] = (ended[part] ?? 0) + 1;
      const equations = new Equations(axle, model.steering?.sense ?? 1);
      const { at, base } = lastPose(model, to);
      // a little further on, beyond the square root's reach of the search's own tolerance
      const beyond = to.map(x => x * (at + 0.01 * Math.max(at, 0.05)));
      const found = search(equations, base, beyond, 16, [3, 0.25]);
      // no solution within the spread of the starts; another branch may lie far off
      expect(
        found.nearest === null || found.nearest > 2,
        `${part} at ${beyond}: a solution lies ${found.nearest} away`,
      ).toBe(true);
      proved++;
    }
    // the ends are of several kinds
    expect(proved).toBeGreaterThan(25);
    expect(Object.keys(ended).length).toBeGreaterThan(3);
  });

  test('the search does find what is there', () => {
    const axle = longArms();
    const model = modelOf(axle);
    const { pose } = model.pose(6, -5, 0.3);
    if (!pose) throw new Error('no pose');
    const turns = [pose.knuckleTurn('left') as number, pose.knuckleTurn('right') as number];
    const base = [
      pose.axle.o[0] as number,
      pose.axle.o[1] as number,
      pose.yaw,
      pose.pitch,
      ...turns,
    ];
    const off = base.map((x, i) => x + (i < 2 ? 2 : 0.2));
    const found = search(
      new Equations(axle, model.steering?.sense ?? 1),
      off,
      [6, -5, 0.3],
      4,
      [0.1, 0.01],
    );
    expect(found.residual).toBeLessThan(1e-12);
    // two inches and 0.2 rad · 35.5 in away, where it was hidden
    expect(found.nearest).toBeCloseTo(0.2 * 35.5, 6);
  });

  test('the side-view arm at full bump and lock', () => {
    const axle = (FAMILIES[SIDE_VIEW] as () => Axle)();
    const model = modelOf(axle);
    const to = [8, 8, -lock(axle.steering)];
    expect(model.pose(8, 8, to[2]).part).toBe('drag link');
    const found = search(
      new Equations(axle, model.steering?.sense ?? 1),
      lastPose(model, to).base,
      to,
      40,
      [3, 1],
    );
    // none but with a knuckle turned over: more than a right angle away
    expect(found.nearest === null || found.nearest > (Math.PI / 2) * 35.5).toBe(true);
  });
});

/** Links so long that the axle only slides along Y and Z, and a level bar of length L to the left. */
const onBar = (L: number): Axle =>
  rear([
    link('left lower link', [-111, 19, 16], [-111 + 1e6, 19, 16]),
    link('right lower link', [-111, -19, 16], [-111 + 1e6, -19, 16]),
    link('upper link', [-111, 0, 27], [-111 + 1e6, 0, 27]),
    link('track bar', [-116, -20, 25], [-116, -20 + L, 25]),
  ]);

describe('the end of a branch', () => {
  // closed form: a level bar of length L lets the axle rise by L, where it stands upright
  test.each([15, 20, 33.75])('a track bar of %d in runs out at that travel', L => {
    const model = modelOf(onBar(L));
    for (const way of [1, -1]) {
      const inside = model.pose(way * (L - 1e-3), way * (L - 1e-3));
      expect(inside.status).toBe('solved');
      // its foot has moved aside by L − √(L² − (L − 1e-3)²); links of 1e6 in add L²/2e6
      const want = L - Math.sqrt(L ** 2 - (L - 1e-3) ** 2);
      expect((inside.pose?.axle.o[1] as number) - want).toBeCloseTo(0, 3);
      expect(model.pose(way * (L + 1e-3), way * (L + 1e-3))).toEqual({
        status: 'unreachable',
        part: 'track bar',
        pose: null,
      });
      // and nothing comes back beyond it
      expect(model.pose(way * (L + 30), way * (L + 30)).part).toBe('track bar');
    }
  });

  test('is met within 1e-8 in, from inside and from outside', () => {
    const model = modelOf(onBar(20));
    expect(model.pose(20 - 1e-8, 20 - 1e-8).status).toBe('solved');
    expect(model.pose(20 + 1e-8, 20 + 1e-8).status).toBe('unreachable');
  });

  test('the mirror branch is not taken, however near to it a start is', () => {
    const L = 20;
    const model = modelOf(onBar(L));
    const { pose } = model.pose(12, 12);
    if (!pose) throw new Error('no pose');
    // the bar's other foot: as far on the other side of its frame end, at y = −20 + L
    const state = Float64Array.from(pose.axle.state);
    const frame = -20 + L;
    const foot = -20 + (pose.axle.o[1] as number);
    state[1] = (state[1] as number) + 2 * (frame - foot);
    const { solver } = model;
    solver.state.set(state);
    expect(solver.solve(12, 12)).toBe(BEYOND_FOLD);
    // and a pose that stands there leads back to the branch that was drawn
    const mirror = Object.create(pose, { axle: { value: { ...pose.axle, state } } }) as typeof pose;
    const again = model.near(mirror, 12.5, 12.5).pose;
    expect(again?.axle.o[1]).toBeCloseTo(L - Math.sqrt(L ** 2 - 12.5 ** 2), 4);
  });

  test('links of a parallelogram run out where they stand upright', () => {
    const links = (['left', 'right'] as const).map(side => {
      const y = side === 'left' ? 18 : -18;
      return link(`${side} lower link`, [-111, y, 15], [-99, y, 15]);
    });
    const axle = rear([
      ...links,
      link('upper link', [-111, 2, 27], [-99, 2, 27]),
      link('track bar', [-116, -1e5, 25], [-116, 18, 25]),
    ]);
    const model = modelOf(axle);
    expect(model.pose(11.999, 11.999).status).toBe('solved');
    const verdict = model.pose(12.001, 12.001);
    expect(verdict.status).toBe('unreachable');
    expect(verdict.part).toMatch(/link$/);
  });

  test('a housing that is not as wide as the wheels are apart in height is named', () => {
    const axle = { ...onBar(1e5), wheelCenters: 8 };
    const model = modelOf(axle);
    expect(model.pose(3.999, -3.999).status).toBe('solved');
    expect(model.pose(4.001, -4.001)).toEqual({
      status: 'unreachable',
      part: 'axle housing',
      pose: null,
    });
    expect(model.near(model.ride, 0, 8.1).part).toBe('axle housing');
  });

  test('travels that are no numbers are no poses', () => {
    const model = modelOf(longArms());
    for (const bad of [Number.NaN, Infinity, -Infinity, 1e300]) {
      for (const [l, r, s] of [
        [bad, 0, 0],
        [0, bad, 0],
        [bad, bad, 0],
        [0, 0, bad],
      ] as const) {
        if (s === 1e300) continue; // a turn like any other
        const verdict = model.pose(l, r, s);
        expect(verdict.status, `${l} ${r} ${s}`).not.toBe('solved');
        expect(verdict.pose).toBeNull();
      }
    }
  });

  test('the part named is one whose length decides', () => {
    // given a little more or less length, the named part lets the axle go where it could not
    const axle = onBar(20);
    const longer = {
      ...axle,
      links: axle.links.map(l => (l.name === 'track bar' ? { ...l, length: 20.01 } : l)),
    };
    expect(modelOf(axle).pose(20.005, 20.005).part).toBe('track bar');
    expect(modelOf(longer).pose(20.005, 20.005).status).toBe('solved');
  });
});
