/**
 * Turning circle from the directions of the wheels alone: no slip. In plan the center lies on the rear axle's
 * line x = −L, midway between where both spin axes cross it. Closed-form case: wheels that follow Ackermann's
 * condition: both cross at one point, (L cot i) from the inner kingpin's foot.
 */
import { type Jet, minus, plus, product, root, shifted, times } from '../pose/jet.ts';
import type { Pose } from '../pose/pose.ts';
import { quotient, slopeOf } from './derivative.ts';
import { type Measure, type Reading, steeredAxle } from './measure.ts';
import { type Side, spinAxis, spinAxisJets, wheelCenter, wheelCenterJets } from './wheel.ts';

/** |n_x| under which a spin axis is parallel to the rear axle's line. */
const PARALLEL = 1e-9;

const STRAIGHT: Reading = { missing: 'a wheel points straight ahead' };
const APART: Reading = { missing: 'the wheels turn to opposite sides' };

/** Y at which a wheel's spin axis crosses the rear axle's line; null where it is parallel to it. */
function crossing(pose: Pose, side: Side, wheelbase: number): number | null {
  const n = spinAxis(pose, side);
  const center = wheelCenter(pose, side);
  if (Math.abs(n[0]) < PARALLEL) return null;
  return center[1] + (n[1] * (-wheelbase - center[0])) / n[0];
}

function crossingJet(pose: Pose, side: Side, wheelbase: number): Jet {
  const n = spinAxisJets(pose, side);
  const [x, y] = wheelCenterJets(pose, side);
  return plus(y, product(quotient(n[1], n[0]), shifted(times(x, -1), -wheelbase)));
}

export const turningCircle: Measure = {
  id: 'turningCircle',
  unit: 'ft',
  label: 'turning circle, curb to curb',
  definition:
    "Diameter in plan about the point of the rear axle's line midway between both spin axes' crossings, out to the center of the outer steered wheel and half of its tire's width; no slip.",
  source:
    'ISO 8855:2011, 7.1.9 (spin axes meet at the center of rotation); SAE J695 (curb to curb; from memory)',
  targets: steeredAxle,
  value: ({ axle, build, pose }) => {
    const left = crossing(pose, 'left', build.wheelbase);
    const right = crossing(pose, 'right', build.wheelbase);
    if (left === null || right === null) return STRAIGHT;
    if (!(left * right > 0)) return APART;
    const y = (left + right) / 2;
    const radius = (side: Side): number => {
      const center = wheelCenter(pose, side);
      return Math.hypot(center[0] + build.wheelbase, center[1] - y);
    };
    return 2 * Math.max(radius('left'), radius('right')) + axle.tire.width;
  },
  slope: ({ build, pose }) => {
    const { wheelbase } = build;
    const left = crossing(pose, 'left', wheelbase);
    const right = crossing(pose, 'right', wheelbase);
    if (left === null || right === null || !(left * right > 0)) return null;
    const y = times(
      plus(crossingJet(pose, 'left', wheelbase), crossingJet(pose, 'right', wheelbase)),
      0.5,
    );
    const [cx, cy] = wheelCenterJets(pose, left > 0 ? 'right' : 'left');
    const dx = shifted(cx, wheelbase);
    const dy = minus(cy, y);
    return slopeOf(root(plus(product(dx, dx), product(dy, dy))), 2);
  },
};
