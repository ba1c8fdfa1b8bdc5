/**
 * Toe of each wheel, and how the sum of both changes with travel. Closed-form case: drawn straight ahead the
 * toe is the static one; both wheels turned alike by τ about upright kingpins, left toe −τ, right toe +τ.
 */
import { type Jet, minus } from '../pose/jet.ts';
import type { Pose } from '../pose/pose.ts';
import { slopeOf } from './derivative.ts';
import { type Measure, NO_RIDE, steeredAxle, WHEEL_TARGETS } from './measure.ts';
import { outboard, type Side, steerJet, steerOf } from './wheel.ts';

export const toe: Measure = {
  id: 'toe',
  unit: 'deg',
  label: 'toe',
  definition: 'Left wheel: minus its steer; right wheel: its steer; + toe-in.',
  source: 'ISO 8855:2011, 7.1.6 (static toe angle, toe-in positive), read at any pose',
  targets: () => [...WHEEL_TARGETS],
  value: ({ pose }, { side }) => -outboard(side as Side) * steerOf(pose, side as Side),
  slope: ({ pose }, { side }) => slopeOf(steerJet(pose, side as Side), -outboard(side as Side)),
};

const totalToe = (pose: Pose): number => steerOf(pose, 'right') - steerOf(pose, 'left');
const totalToeJet = (pose: Pose): Jet => minus(steerJet(pose, 'right'), steerJet(pose, 'left'));

export const totalToeChange: Measure = {
  id: 'totalToeChange',
  unit: 'deg',
  label: 'change of total toe',
  definition:
    'Sum of both toes less that at ride height with the same steering input; + more toe-in.',
  source: 'ISO 8855:2011, 7.1.7 (total toe), difference from ride height',
  targets: steeredAxle,
  value: ({ pose, rideSameSteer }) =>
    rideSameSteer ? totalToe(pose) - totalToe(rideSameSteer) : NO_RIDE,
  slope: ({ pose, rideSameSteer }) => {
    if (!rideSameSteer) return null;
    const [left, right, steer] = slopeOf(totalToeJet(pose));
    return [left, right, steer - slopeOf(totalToeJet(rideSameSteer))[2]];
  },
};
