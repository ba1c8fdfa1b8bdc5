/**
 * Arms of a sway bar: in a plane by the cosine law, in space by what must stay (lengths, the axis), past over-center
 * by where they then lie.
 */
import { describe, expect, test } from 'vitest';
import type { Axle, Vec3 } from '../../geometry/build/build.ts';
import { swayNames } from '../../geometry/mechanism/swayBar.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import { distance, dot, norm, reject, sub, unit } from '../../geometry/vector.ts';
import { draws } from '../gap/cycled.ts';
import { longArms, modelOf } from './layouts.ts';

type Bar = NonNullable<Axle['swayBar']>;

/** Arm 12 in, end link 13 in, in planes square to the bar. */
const across: Bar = {
  axis: { at: [16, 0, 32], direction: [0, 1, 0] },
  arms: (['left', 'right'] as const).map(side => {
    const y = side === 'left' ? 20 : -20;
    return { side, tip: [4, y, 32], axle: [4, y, 19] };
  }),
  tubeOd: null,
};

const skewed: Bar = {
  axis: { at: [16, 1, 33], direction: unit([0.06, 1, -0.06]) },
  arms: [
    { side: 'left', tip: [4, 19, 31], axle: [3, 23, 19] },
    { side: 'right', tip: [5, -20, 34], axle: [3.5, -22, 18.5] },
  ],
  tubeOd: null,
};

const poseOf = (bar: Bar, left: number, right: number): Pose => {
  const { pose } = modelOf({ ...longArms(), swayBar: bar }).pose(left, right, 0);
  if (!pose) throw new Error(`no pose ${left}/${right}`);
  return pose;
};

/** Points of one side now: foot of the tip on the axis, tip, and the axle's end of the link. */
function pointsOf(
  pose: Pose,
  bar: Bar,
  side: 'left' | 'right',
): { foot: Vec3; tip: Vec3; end: Vec3 } {
  const arm = bar.arms.find(each => each.side === side) as Bar['arms'][number];
  const moved = pose.mechanism.swayArms.find(({ name }) => name === swayNames(side).name);
  if (!moved) throw new Error('no such arm');
  return {
    foot: moved.at,
    tip: pose.point(moved.name, arm.tip),
    end: pose.point('axle', arm.axle),
  };
}

test('in a plane the arm stands as the cosine law says', () => {
  // with both wheels moved alike the axle stays square to the bar, but for what the track bar shifts it sideways
  for (const travel of [-4, -2, 0, 2, 4, 6]) {
    const pose = poseOf(across, travel, travel);
    for (const side of ['left', 'right'] as const) {
      const { foot, tip, end } = pointsOf(pose, across, side);
      const drawn = across.arms.find(each => each.side === side) as Bar['arms'][number];
      // the link leans sideways by what the axle has shifted: its length seen in the plane is less
      const shift = end[1] - foot[1];
      const seen = Math.sqrt(13 ** 2 - shift ** 2);
      const [x, z] = [end[0] - foot[0], end[2] - foot[2]];
      const d = Math.hypot(x, z);
      const between = Math.acos((12 ** 2 + d ** 2 - seen ** 2) / (2 * 12 * d));
      // the arm lies above the line to the axle's end, on the far side of the pivot
      const angle = Math.atan2(z, x) - between;
      const wanted: Vec3 = [
        foot[0] + 12 * Math.cos(angle),
        foot[1],
        foot[2] + 12 * Math.sin(angle),
      ];
      expect(distance(tip, wanted), `${travel} ${side}`).toBeLessThan(1e-9);
      expect(distance(foot, drawn.tip)).toBeCloseTo(12, 12);
    }
  }
});

test('in space tip and link keep their lengths, and the tip its place along the axis (seed 21)', () => {
  const random = draws(21);
  for (let k = 0; k < 60; k++) {
    const pose = poseOf(skewed, 10 * random() - 5, 10 * random() - 5);
    for (const side of ['left', 'right'] as const) {
      const drawn = skewed.arms.find(each => each.side === side) as Bar['arms'][number];
      const { foot, tip, end } = pointsOf(pose, skewed, side);
      expect(distance(tip, end)).toBeCloseTo(distance(drawn.tip, drawn.axle), 9);
      expect(distance(foot, tip)).toBeCloseTo(distance(foot, drawn.tip), 9);
      expect(dot(skewed.axis.direction, sub(tip, drawn.tip))).toBeCloseTo(0, 9);
    }
  }
});

test('as drawn nothing is turned', () => {
  const drawn = poseOf(across, 0, 0);
  for (const arm of drawn.mechanism.swayArms) {
    const { cos, sin } = drawn.swayTurn(arm);
    expect(cos).toBeCloseTo(1, 12);
    expect(sin).toBeCloseTo(0, 12);
  }
});

describe('past over-center', () => {
  /** Short links: both arm and link point straight at the pivot before the axle has dropped far. */
  const short: Bar = {
    ...across,
    arms: across.arms.map(({ side, tip }) => ({
      side,
      tip: [11, tip[1], 31],
      axle: [6, tip[1], 22],
    })),
  };

  test('the margin goes through zero, and the arm lies in line with its link', () => {
    let last = Number.POSITIVE_INFINITY;
    let below = 0;
    for (let travel = 0; travel >= -8; travel -= 0.25) {
      const pose = poseOf(short, travel, travel);
      const [arm] = pose.mechanism.swayArms;
      if (!arm) throw new Error('no arm');
      const { margin, cos, sin } = pose.swayTurn(arm);
      expect(Math.hypot(cos, sin)).toBeCloseTo(1, 12);
      if (last < 0.5) expect(margin).toBeLessThan(last);
      last = margin;
      if (margin >= 0) continue;
      below++;
      const { foot, tip, end } = pointsOf(pose, short, 'left');
      const u: Vec3 = [0, 1, 0];
      // seen along the axis all three are in line, the tip between the others
      const [p, q] = [reject(sub(tip, foot), u), reject(sub(end, tip), u)];
      expect(dot(p, q) / (norm(p) * norm(q))).toBeCloseTo(1, 9);
      expect(distance(tip, end)).toBeGreaterThan(arm.length);
    }
    expect(below).toBeGreaterThan(3);
  });

  test('its derivatives are those of differences, on both sides of it', () => {
    for (const travel of [-0.5, -7]) {
      const h = 1e-4;
      const at = (dl: number): Pose => poseOf(short, travel + dl, travel);
      const pose = at(0);
      const [arm] = pose.mechanism.swayArms;
      if (!arm) throw new Error('no arm');
      const jets = pose.swayTurnJets(arm);
      const [more, less] = [at(h).swayTurn(arm), at(-h).swayTurn(arm)];
      for (const key of ['cos', 'sin', 'margin'] as const) {
        const slope = (more[key] - less[key]) / (2 * h);
        // h² of the third derivative, 1e-8, and rounding over h
        expect(Math.abs((jets[key][1] as number) - slope), `${key} ${travel}`).toBeLessThan(1e-6);
        expect(jets[key][0]).toBeCloseTo(pose.swayTurn(arm)[key], 12);
      }
    }
  });
});
