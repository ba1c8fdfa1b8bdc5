import { describe, expect, test } from 'vitest';
import type { Axle, Rod } from '../../geometry/build/build.ts';
import { type Jet, SECOND } from '../../geometry/pose/jet.ts';
import type { AxleModel } from '../../geometry/pose/model.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import { rodsTurnedRound } from './changes.ts';
import { Equations } from './equations.ts';
import { FAMILIES } from './families.ts';
import { modelOf } from './layouts.ts';
import { lock } from './steerings.ts';
import { CENTRAL, distance, isExact } from './witness.ts';

/** A pose solved once more from itself, so that only rounding is left in it. */
function polished(model: AxleModel, left: number, right: number, steer: number): Pose {
  const { pose } = model.pose(left, right, steer);
  if (!pose) throw new Error(`no pose at ${left}, ${right}, ${steer}`);
  const again = model.near(pose, left, right, steer).pose;
  if (!again) throw new Error('a pose is lost when it is solved from itself');
  return again;
}

/** x, y, yaw, pitch and the knuckles' turns. */
const unknownsOf = (pose: Pose): number[] => {
  const turns = (['left', 'right'] as const).map(side => pose.knuckleTurn(side));
  return [
    pose.axle.o[0] as number,
    pose.axle.o[1] as number,
    pose.yaw,
    pose.pitch,
    ...turns.filter(turn => turn !== null),
  ];
};

const jetsOf = (pose: Pose): Jet[] => {
  const { o, yaw, pitch } = pose.axleJets();
  const tau = pose.steeringJets()?.tau;
  return [o[0], o[1], yaw, pitch, ...(tau ? [tau.left, tau.right] : [])];
};

const POSES: [number, number, number][] = [
  [0, 0, 0],
  [4, 4, 0.6],
  [-3, 5, -0.8],
  [5, -4, 1],
  [-6, -2, 0],
];

/** Rods of other lengths, rolled, and written from their other ends. */
const adjustedRods = (make: () => Axle) => (): Axle => {
  const axle = make();
  const change = (r: Rod, i: number): Rod => ({
    ...r,
    length: distance(r.from.at, r.to.at) + (i ? 0.25 : -0.25),
    roll: { ...r.roll, at: 0.3 },
  });
  const { steering } = axle;
  return rodsTurnedRound({
    ...axle,
    steering: steering && {
      ...steering,
      dragLink: steering.dragLink && change(steering.dragLink, 0),
      tieRods: steering.tieRods.map(change),
    },
  });
};

const held = [
  'three links, drag link beside the tie rod',
  'three links, tie rod beside the drag link',
  'three links, double-ended ram',
].map((name): [string, () => Axle] => [
  `${name}, adjusted`,
  adjustedRods(FAMILIES[name] as () => Axle),
]);

const exact = [...Object.entries(FAMILIES), ...held].filter(([, make]) => isExact(make()));
const compliant = Object.entries(FAMILIES).filter(([, make]) => !isExact(make()));

describe('derivatives of exact axles and their steering, against complex steps', () => {
  test.each(exact)('%s', (_, make) => {
    const axle = make();
    const model = modelOf(axle);
    const equations = new Equations(axle, model.steering?.sense ?? 1);
    const full = lock(axle.steering);
    const at = (l: number, r: number, s: number): { pose: Pose; first: number[][] } => {
      const pose = polished(model, l, r, s);
      return { pose, first: equations.derivatives(unknownsOf(pose), [l, r, s]) };
    };
    for (const [l, r, share] of POSES) {
      // nine tenths of lock: at full lock of the side-view arm a rod runs out at full bump
      const s = 0.9 * share * full;
      const { pose, first } = at(l, r, s);
      const jets = jetsOf(pose);
      for (const [i, jet] of jets.entries()) {
        for (let k = 0; k < 3; k++) {
          // both are exact to rounding; entries are of order 1 and less, conditions up to 1e3
          expect(jet[1 + k]).toBeCloseTo(first[i]?.[k] as number, 11);
        }
      }
      // second: eighth-order central differences of the complex-step first ones
      const h = 0.02;
      for (let k = 0; k < (full ? 3 : 2); k++) {
        const moved = (n: number): number[][] =>
          at(l + (k === 0 ? n * h : 0), r + (k === 1 ? n * h : 0), s + (k === 2 ? n * h : 0)).first;
        const pairs = CENTRAL.map(([n, weight]) => ({ up: moved(n), down: moved(-n), weight }));
        for (const [i, jet] of jets.entries()) {
          for (let j = 0; j < 3; j++) {
            let second = 0;
            for (const { up, down, weight } of pairs) {
              second += (weight * ((up[i]?.[j] as number) - (down[i]?.[j] as number))) / h;
            }
            // rounding of the first ones, 1e-12 near a dead point, over h; h⁸ of a tenth derivative is less
            const error = Math.abs((jet[SECOND[j]?.[k] as number] as number) - second);
            expect(error / (1 + Math.abs(second))).toBeLessThan(1e-9);
          }
        }
      }
    }
  });
});

describe('derivatives of compliant axles, against differences of poses', () => {
  test.each(compliant)('%s', (_, make) => {
    const axle = make();
    const model = modelOf(axle);
    const values = (l: number, r: number): number[] => {
      const pose = polished(model, l, r, 0);
      return [...pose.axle.o, ...pose.axle.R, ...someBodies(axle, pose)];
    };
    for (const [l, r] of POSES.slice(1, 4)) {
      const pose = polished(model, l, r, 0);
      const { o, R } = pose.axleJets();
      const jets = [...o, ...R, ...someBodyJets(axle, pose)];
      const h = 0.1;
      const grid = new Map<string, number[]>();
      for (let a = -2; a <= 2; a++) {
        for (let b = -2; b <= 2; b++) grid.set(`${a},${b}`, values(l + a * h, r + b * h));
      }
      const at = (a: number, b: number, i: number): number => grid.get(`${a},${b}`)?.[i] as number;
      for (const [i, jet] of jets.entries()) {
        const close = (have: number | undefined, want: number, bound: number): void =>
          expect(Math.abs((have as number) - want), `number ${i}`).toBeLessThan(bound);
        const line = (f: (n: number) => number): [number, number] => [
          (8 * (f(1) - f(-1)) - (f(2) - f(-2))) / (12 * h),
          (16 * (f(1) + f(-1)) - (f(2) + f(-2)) - 30 * f(0)) / (12 * h * h),
        ];
        const [dl, dll] = line(n => at(n, 0, i));
        const [dr, drr] = line(n => at(0, n, i));
        const [dlr] = line(n => line(m => at(n, m, i))[0]);
        // left: h⁴ of a fifth derivative (1e-4 × 1/L⁴, under bind 1e-3 more), 1e-13/h and 1e-13/h² of rounding
        close(jet[1], dl, 1e-7);
        close(jet[2], dr, 1e-7);
        close(jet[4], dll, 1e-6);
        close(jet[7], drr, 1e-6);
        close(jet[5], dlr, 1e-6);
      }
    }
  });
});

/** A point of every radius arm and of every shared joint that gives. */
const bodies = (axle: Axle): { on: string; at: readonly [number, number, number] }[] => [
  ...axle.radiusArms.map(arm => ({ on: arm.name, at: arm.axle[0].at })),
  ...(isExact(axle) ? [] : axle.sharedJoints)
    .filter(joint => joint.rates.radial !== null)
    .map(joint => ({ on: joint.name, at: joint.at })),
];
const someBodies = (axle: Axle, pose: Pose): number[] =>
  bodies(axle).flatMap(({ on, at }) => [...pose.point(on, at)]);
const someBodyJets = (axle: Axle, pose: Pose): Jet[] =>
  bodies(axle).flatMap(({ on, at }) => pose.pointJets(on, at));

describe('derivatives of points', () => {
  test('every named point of a steered axle, by all three inputs, against differences of poses', () => {
    for (const name of [
      'three links, drag link beside the tie rod',
      'three links, double-ended ram',
    ]) {
      const axle = (FAMILIES[name] as () => Axle)();
      const model = modelOf(axle);
      const [l, r, s] = [3, -2, 0.3 * lock(axle.steering)];
      const h = 0.03;
      const pose = polished(model, l, r, s);
      const bodyOf = [
        ...pose.mechanism.named,
        ...pose.mechanism.named.map(p => ({ ...p, on: 'tie rod' })),
      ];
      for (const { on, at } of bodyOf) {
        if (on === 'chassis') continue;
        const jets = pose.pointJets(on, at);
        for (let k = 0; k < 3; k++) {
          const moved = (n: number) =>
            polished(
              model,
              l + (k === 0 ? n * h : 0),
              r + (k === 1 ? n * h : 0),
              s + (k === 2 ? n * h : 0),
            ).point(on, at);
          const [up, down, up2, down2, now] = [moved(1), moved(-1), moved(2), moved(-2), moved(0)];
          for (let c = 0; c < 3; c++) {
            const [p1, m1, p2, m2, z] = [up, down, up2, down2, now].map(p => p[c] as number) as [
              number,
              number,
              number,
              number,
              number,
            ];
            // h⁴/30 of a fifth derivative: 3e-8 × 36 in/rad⁵ for points far off the rod
            expect(jets[c]?.[1 + k]).toBeCloseTo((8 * (p1 - m1) - (p2 - m2)) / (12 * h), 5);
            expect(jets[c]?.[SECOND[k]?.[k] as number]).toBeCloseTo(
              (16 * (p1 + m1) - (p2 + m2) - 30 * z) / (12 * h * h),
              4,
            );
          }
        }
      }
    }
  });
});
