/**
 * Anti-squat, anti-dive and anti-lift by virtual work: a force at the ground on a locked housing, against the
 * load that the same force transfers. s = d(x of H)/d(travel), L wheelbase, h height of the center of gravity,
 * share that of brake or drive force at this axle:
 *   front: +100 · share · s · L/h,  rear: −100 · share · s · L/h.
 * Closed-form case: with the line from the contact to the side-view center at φ to the ground, s = ∓tan φ, so
 * 100 · share · tan φ · L/h (parallel links: tan φ is their slope). h is the one at ride height, at every pose.
 * The negative test: φ from the wheel center is right for drive torque held by the frame, not for a solid axle.
 */
import type { AxleName, Build, Vec3 } from '../build/build.ts';
import type { Jet } from '../pose/jet.ts';
import type { Pose } from '../pose/pose.ts';
import { along, slopeOf } from './derivative.ts';
import { groundPointDrawn } from './ground.ts';
import {
  AXLE_TARGET,
  type Measure,
  type MeasureContext,
  type Reading,
  type Target,
  WHEEL_TARGETS,
} from './measure.ts';
import { bothWheels, crossedUp, velocityAt } from './motion.ts';
import { outboard, type Side } from './wheel.ts';

/** The point of the housing whose fore-aft motion counts, as drawn: H, or the ground point at a wheel. */
function footDrawn(pose: Pose, side: Side | null): Vec3 {
  const [x, y, z] = groundPointDrawn(pose);
  return side ? [x, y + (outboard(side) * pose.mechanism.wheelCenters) / 2, z] : [x, y, z];
}

/** d(x)/d(travel) of that point: both wheels together, or by the wheel's own travel with them crossed. */
function rate(context: MeasureContext, side: Side | null): number {
  const { pose } = context;
  const foot = pose.point('axle', footDrawn(pose, side));
  if (!side) return velocityAt(bothWheels(context), pose, foot)[0];
  return outboard(side) * velocityAt(crossedUp(context), pose, foot)[0];
}

function rateJet({ pose }: MeasureContext, side: Side | null): Jet {
  const x = pose.pointJets('axle', footDrawn(pose, side))[0];
  return side ? along(x, outboard(side), -outboard(side)) : along(x, 1, 1);
}

interface Anti {
  axle: AxleName;
  force: 'brake' | 'drive';
  label: string;
  what: string;
}

/** share · L/h with its sign, or what is missing. */
function factor({ weights, wheelbase }: Build, { axle, force }: Anti): number | Reading {
  if (!weights) return { missing: 'the build has no weights' };
  const { centerOfGravity, brakeShareFront, driveShareFront } = weights;
  if (!centerOfGravity) return { missing: 'the center of gravity is not given' };
  const front = force === 'brake' ? brakeShareFront : driveShareFront;
  if (front === null) return { missing: `the front share of the ${force} force is not given` };
  const h = centerOfGravity[2];
  if (!(h > 0)) return { missing: 'the center of gravity is not above the ground' };
  return ((axle === 'front' ? front : -(1 - front)) * wheelbase) / h;
}

function anti(id: string, of: Anti): [Measure, Measure] {
  const make = (
    name: string,
    label: string,
    definition: string,
    targets: readonly Target[],
  ): Measure => ({
    id: name,
    unit: '%',
    label,
    definition,
    source:
      'Gillespie, Fundamentals of Vehicle Dynamics, ch. 7; Milliken, ch. 17 (from memory); by virtual work',
    targets: axle => (axle.name === of.axle ? [...targets] : []),
    value: (context, { side }) => {
      const share = factor(context.build, of);
      return typeof share === 'number' ? share * rate(context, side) : share;
    },
    slope: (context, { side }) => {
      const share = factor(context.build, of);
      return typeof share === 'number' ? slopeOf(rateJet(context, side), share) : null;
    },
  });
  return [
    make(
      id,
      of.label,
      `${of.what}, as a share of the load transfer: 100 % keeps this axle's springs at their length; both wheels together.`,
      AXLE_TARGET,
    ),
    make(
      `${id}Crossed`,
      `${of.label}, flexing`,
      `${of.what} at one wheel, with the wheels moved equal and opposite.`,
      WHEEL_TARGETS,
    ),
  ];
}

export const [brakeAntiDive, brakeAntiDiveCrossed] = anti('brakeAntiDive', {
  axle: 'front',
  force: 'brake',
  label: 'anti-dive under braking',
  what: 'How much of the dive under braking the links hold up',
});
export const [driveAntiLift, driveAntiLiftCrossed] = anti('driveAntiLift', {
  axle: 'front',
  force: 'drive',
  label: 'anti-lift under drive',
  what: 'How much of the front end rising under drive the links hold down',
});
export const [antiSquat, antiSquatCrossed] = anti('antiSquat', {
  axle: 'rear',
  force: 'drive',
  label: 'anti-squat',
  what: 'How much of the squat under drive the links hold up',
});
export const [brakeAntiLift, brakeAntiLiftCrossed] = anti('brakeAntiLift', {
  axle: 'rear',
  force: 'brake',
  label: 'anti-lift under braking',
  what: 'How much of the rear end rising under braking the links hold down',
});
