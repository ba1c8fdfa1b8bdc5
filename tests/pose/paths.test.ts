import { describe, expect, test } from 'vitest';
import type { AxleModel } from '../../geometry/pose/model.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import { FAMILIES } from './families.ts';
import { modelOf } from './layouts.ts';
import { lock } from './steerings.ts';

const POSES: [number, number, number][] = [
  [6, 6, 0.5],
  [-8, -7, -0.6],
  [8, -8, 0.8],
  [-7, 8, 0],
  [0.3, -5.1, -0.9],
];

/** Everything that a pose holds of the axle and its knuckles. */
const numbersOf = (pose: Pose): number[] => [
  ...pose.axle.R,
  ...pose.axle.o,
  ...pose.axle.state,
  ...(pose.turn ?? []),
];

const found = (verdict: { status: string; pose: Pose | null }): Pose => {
  if (!verdict.pose) throw new Error(verdict.status);
  return verdict.pose;
};

/** Along corners, each from its neighbor in steps of so many inches. */
function walked(model: AxleModel, corners: [number, number][], steer: number, step: number): Pose {
  let pose = model.ride;
  for (const [left, right] of corners) {
    const { left: l, right: r } = pose.input;
    const n = Math.max(1, Math.ceil(Math.max(Math.abs(left - l), Math.abs(right - r)) / step));
    for (let i = 1; i <= n; i++) {
      const at = (a: number, b: number): number => (i === n ? b : a + (i / n) * (b - a));
      pose = found(model.near(pose, at(l, left), at(r, right), 0));
    }
  }
  return found(model.atSteer(pose, steer));
}

describe.each(Object.entries(FAMILIES))('%s', (_, make) => {
  test('the same pose on three paths and with halved steps', () => {
    const axle = make();
    const model = modelOf(axle);
    for (const [left, right, share] of POSES) {
      const steer = share * lock(axle.steering);
      const direct = numbersOf(found(model.pose(left, right, steer)));
      const ways = [
        walked(
          model,
          [
            [left, 0],
            [left, right],
          ],
          steer,
          0.7,
        ),
        walked(
          model,
          [
            [-3, 4],
            [0, right],
            [left, right],
          ],
          steer,
          1.3,
        ),
        walked(model, [[left, right]], steer, 0.25),
      ];
      model.longestStep = 0.5;
      ways.push(found(model.pose(left, right, steer)));
      model.longestStep = 0.0625;
      ways.push(found(model.pose(left, right, steer)));
      model.longestStep = 1;
      for (const way of ways) {
        for (const [i, x] of numbersOf(way).entries()) {
          // what Newton leaves, 1e-11 in and 1e-12 in, times conditions up to 20
          expect(Math.abs(x - (direct[i] as number))).toBeLessThan(1e-9);
        }
      }
    }
  });

  test('the same bits on a second run, whatever was asked in between', () => {
    const axle = make();
    const first = modelOf(axle);
    const second = modelOf(make());
    const ask = (model: AxleModel): number[][] =>
      POSES.map(([l, r, share]) => {
        const pose = found(model.pose(l, r, share * lock(axle.steering)));
        const { o, yaw } = pose.axleJets();
        return [...numbersOf(pose), ...pose.margins, ...o.flatMap(jet => [...jet]), ...yaw];
      });
    const once = ask(first);
    first.pose(3, 3);
    first.near(first.ride, -2, 1);
    first.pose(90, -90);
    first.pose(Number.NaN, 0);
    expect(ask(first)).toEqual(once);
    second.pose(-5, 2);
    expect(ask(second)).toEqual(once);
  });

  test('poses stay as they were when others are asked for', () => {
    const axle = make();
    const model = modelOf(axle);
    const pose = found(model.pose(5, -4, 0.5 * lock(axle.steering)));
    const before = numbersOf(pose);
    found(model.pose(-6, -6));
    // made only now, from a solver that stands elsewhere
    const late = pose.axleJets();
    expect(numbersOf(pose)).toEqual(before);
    const early = found(model.pose(5, -4, 0.5 * lock(axle.steering))).axleJets();
    expect(late.yaw).toEqual(early.yaw);
    expect(late.o).toEqual(early.o);
  });

  test('a pose at another steering input is the one solved there', () => {
    const axle = make();
    const model = modelOf(axle);
    const full = lock(axle.steering);
    const straight = found(model.pose(-3, 6));
    const steered = found(model.atSteer(straight, 0.7 * full));
    expect(numbersOf(steered)).toEqual(numbersOf(found(model.pose(-3, 6, 0.7 * full))));
  });
});
