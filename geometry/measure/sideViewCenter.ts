/**
 * Side-view instant center: where the housing stands still in X and in Z as both wheels rise together, at y of
 * the axle's origin. Its motion a unit of travel is V = o′ + ω × ρ with ω_y = θ′ cos ψ cos φ (yaw ψ and pitch
 * θ turn about Z and about the axle's own axis; the roll stands still). At ρ = (X, 0, Z):
 *   V_x = o_x′ + ω_y Z = 0,  V_z = 1 − ω_y X = 0  ⇒  X = 1/ω_y,  Z = −o_x′/ω_y.
 * Closed-form case: level track bar, links in mirrored pairs: where the lines of lower and upper links cross.
 */
import { type Jet, minus, plus, product, reciprocal } from '../pose/jet.ts';
import type { Pose } from '../pose/pose.ts';
import type { V3 } from '../vector.ts';
import { along, quotient, slopeOf } from './derivative.ts';
import { AXLE_TARGET, type Measure, type Reading } from './measure.ts';
import { bothWheels } from './motion.ts';

/** Rate of pitch under which the housing does not turn, rad/in: the center is at infinity. */
const NO_PITCH = 1e-9;

const AT_INFINITY: Reading = {
  missing: 'the axle does not pitch here: its links are parallel and the center is at infinity',
};

function center(pose: Pose): { x: Jet; z: Jet } | null {
  const { o, R, pitch } = pose.axleJets();
  // cos ψ cos φ: the housing axis' part along Y
  const turn = product(along(pitch, 1, 1), R[4] as Jet);
  if (!(Math.abs(turn[0] as number) >= NO_PITCH)) return null;
  return {
    x: plus(o[0], reciprocal(turn)),
    z: minus(o[2], quotient(along(o[0], 1, 1), turn)),
  };
}

const common = {
  unit: 'in',
  source: 'Gillespie, ch. 7; Milliken, ch. 17 (side-view instant center; from memory)',
  targets: () => [...AXLE_TARGET],
} as const;

const measure = (id: string, axis: 'x' | 'z', label: string, definition: string): Measure => ({
  ...common,
  id,
  label,
  definition,
  value: context => {
    const { origin, turning } = bothWheels(context);
    const [x, , z] = context.pose.axle.o as unknown as V3;
    if (!(Math.abs(turning[1]) >= NO_PITCH)) return AT_INFINITY;
    return axis === 'x' ? x + 1 / turning[1] : z - origin[0] / turning[1];
  },
  slope: ({ pose }) => {
    const found = center(pose);
    return found && slopeOf(found[axis]);
  },
});

export const sideViewCenterX = measure(
  'sideViewCenterX',
  'x',
  'instant center, fore and aft',
  'X, vehicle axes, of the point where the housing stands still in X and Z as both wheels rise together.',
);
export const sideViewCenterZ = measure(
  'sideViewCenterZ',
  'z',
  'instant center, height',
  'Z, vehicle axes, of the point where the housing stands still in X and Z as both wheels rise together.',
);
