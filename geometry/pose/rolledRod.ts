/**
 * A pose with one steering rod rolled about the line between its joints. What hangs on the rod beside its line (the
 * other rod, a ram) moves with it, and where that rod drives a knuckle, the wheels turn at the same input.
 */
import type { SteeringMechanism, SteeringRod } from '../mechanism/mechanism.ts';
import { Pose } from './pose.ts';
import { STEERED, SteeringSolver } from './steeringSolver.ts';

/** True where the other rod hangs beside this one's line, so that its roll turns the wheels; a ram alone does not. */
export function steersByRoll({ mechanism: { steering } }: Pose, rod: string): boolean {
  return !!steering?.held && steering.rods[steering.held.rod]?.name === rod;
}

/**
 * The same axle and input with a rod at another roll.
 *
 * @param roll from where it is drawn, rad, right-handed from the `from` of the build to its `to`
 * @returns null where the steering is out of reach, or there is none
 */
export function rolledRod(pose: Pose, rod: string, roll: number): Pose | null {
  const { steering } = pose.mechanism;
  if (!steering) return null;
  const rolled: SteeringMechanism = {
    ...steering,
    rods: steering.rods.map(r =>
      // the mechanism may take the rod from its other end: its line points the other way
      r.name === rod ? { ...r, rollAt: isAsWritten(r) ? roll : -roll } : r,
    ),
  };
  const mechanism = { ...pose.mechanism, steering: rolled };
  let { turn, margins } = pose;
  if (steersByRoll(pose, rod)) {
    const solver = new SteeringSolver(rolled, mechanism.origin);
    if (solver.follow(pose.axle.R, pose.axle.o, pose.input.steer) !== STEERED) return null;
    turn = solver.turn.slice();
    margins = solver.margins.slice();
  }
  return new Pose(mechanism, pose.input, pose.axle, turn, margins, pose.sense, () =>
    pose.axleJets(),
  );
}

/** Roll at which a pose has a rod, rad, as `rolledRod` takes it; 0 where there is no such rod. */
export function rollOfRod({ mechanism: { steering } }: Pose, rod: string): number {
  const found = steering?.rods.find(r => r.name === rod);
  return found ? (isAsWritten(found) ? found.rollAt : -found.rollAt) : 0;
}

const isAsWritten = ({ name, from }: SteeringRod): boolean => from.name === `${name}.from`;
