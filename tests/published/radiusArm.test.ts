/**
 * Radius arms rigid on the axle: it turns about their frame pivots as it rises.
 * Derived: asin(sin a0 + z/R) − a0; pinion down and caster gained in bump for a front arm that runs back.
 */
import { describe, expect, test } from 'vitest';
import type { Axle, RadiusArm } from '../../geometry/build/build.ts';
import { rates } from '../pose/families.ts';
import { end, modelOf } from '../pose/layouts.ts';
import { axleAt, bar, DEG, MM, pair, poseAt, shift, single } from './planar.ts';

const bushing = rates({ radial: 1e6, axial: 1e5, conical: 5e4 });

/** As bodies on stiff bushings: in bump nothing is strained, so that their rates do not matter. */
function bodies(R: number, a0: number): Axle {
  const pivot = [-R * Math.cos(a0 * DEG), 500 - R * Math.sin(a0 * DEG)] as const;
  const arm = (side: 'left' | 'right'): RadiusArm => {
    const y = (side === 'left' ? 400 : -400) * MM;
    const joint = (name: string, x: number, z: number) =>
      end(`${side} radius arm.${name}`, [x * MM, y, z * MM], {
        kind: 'bushing',
        bolt: [0, 1, 0],
        rates: bushing,
      });
    return {
      name: `${side} radius arm`,
      kind: 'radius arm',
      axle: [joint('axle front', 80, 470), joint('axle rear', -90, 440)],
      chassis: joint('chassis', ...pivot),
      tube: null,
      through: [],
    };
  };
  return axleAt([0, 500], [bar([0, -500, 600])], { radiusArms: [arm('left'), arm('right')] });
}

/** The same with lengths: a triangle of two on the left, a third one on the right. */
function lengths(R: number, a0: number): Axle {
  const pivot = [-R * Math.cos(a0 * DEG), 500 - R * Math.sin(a0 * DEG)] as const;
  const [left, right] = pair('link', [80, 470], pivot, 400);
  if (!left || !right) throw new Error('a pair is two');
  return axleAt(
    [0, 500],
    [left, right, single('left rear link', [-90, 440], pivot, 400), bar([0, -500, 600])],
  );
}

const TRAVELS = [25, 50, 100, 150];
const LEVEL: [number, number[]][] = [
  [800, [1.7908, 3.5833, 7.1808, 10.8069]],
  [1000, [1.4325, 2.866, 5.7392, 8.6269]],
  [1200, [1.1937, 2.388, 4.7802, 7.1808]],
];

describe.each([
  ['bodies on bushings', bodies],
  ['lengths', lengths],
] as const)('%s', (_, make) => {
  test.each(LEVEL.flatMap(([R, row]) => TRAVELS.map((z, i) => [R, z, row[i] as number] as const)))(
    'level, %d mm, at %d mm: %d°',
    (R, z, degrees) => {
      const model = modelOf(make(R, 0));
      const pose = poseAt(model, z);
      // nose down of a pinion that points back: the front rises, which is a negative pitch
      expect(Math.abs(-pose.pitch / DEG - degrees)).toBeLessThan(6e-5); // printed with four places
      expect(-pose.pitch).toBeCloseTo(Math.asin(z / R), 8);
      // and the axle comes back towards its pivots by R (1 − cos)
      expect(shift(model, pose)[0]).toBeCloseTo(-R * (1 - Math.cos(pose.pitch)), 6);
      // + of pinion angle is nose up; a rearward nose goes down
      expect(pose.direction('axle', [-1, 0, 0])[2]).toBeLessThan(0);
      // caster is gained: the top of an upright axis goes back
      expect(pose.direction('axle', [0, 0, 1])[0]).toBeLessThan(0);
    },
  );

  test.each([
    [-100, -5.8019],
    [-50, -2.8894],
    [50, 2.8742],
    [100, 5.7405],
  ])('at −6°, 1000 mm, at %d mm: %d°', (z, degrees) => {
    const pose = poseAt(modelOf(make(1000, -6)), z);
    expect(Math.abs(-pose.pitch / DEG - degrees)).toBeLessThan(6e-5);
  });
});

test('two lengths in place of an arm are far too soft in pitch where its bushings sit fore and aft', () => {
  // a moment about Y on the axle: an arm on bushings ahead and behind takes it as a couple of radial forces,
  // ½ s² k_r a side; what is left of it in two lengths to the frame is their small angle
  const R = 1000;
  const arm = modelOf(bodies(R, 0));
  const H = stiffness(arm.solver);
  const couple = 2 * 0.5 * (170 * MM) ** 2 * 1e6;
  expect(H).toBeGreaterThan(0.5 * couple);
  expect(H).toBeLessThan(1.5 * couple);
});

/** The condensed stiffness of the axle in pitch alone: x and yaw held, arms free, in·lbf/rad. */
function stiffness(solver: unknown): number {
  const axle = solver as { n: number; hessian: Float64Array; evaluate(): number };
  axle.evaluate();
  const { n, hessian } = axle;
  const free = Array.from({ length: n }, (_, i) => i).filter(i => i > 3);
  // eliminate the arms' unknowns one after the other
  const rows = [3, ...free].map(r => [3, ...free].map(c => hessian[r * n + c] as number));
  for (let k = rows.length - 1; k > 0; k--) {
    const pivot = rows[k] as number[];
    for (let r = 0; r < k; r++) {
      const f = ((rows[r] as number[])[k] as number) / (pivot[k] as number);
      for (let c = 0; c <= k; c++) {
        const row = rows[r] as number[];
        row[c] = (row[c] as number) - f * (pivot[c] as number);
      }
    }
  }
  return rows[0]?.[0] as number;
}
