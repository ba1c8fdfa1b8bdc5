/** What an elastic pose asks of its members, against what the elastic model holds for. */
import type { Mechanism } from '../mechanism/mechanism.ts';
import { STRETCH_END } from '../tolerances.ts';
import { ElasticAxle } from './elasticAxle.ts';
import type { AxleSolver } from './follow.ts';

/** A member and its stretch as a share of its own length; of an arm's joint: of the arm's reach. */
export interface Stretched {
  name: string;
  share: number;
}

/** The member that is stretched most where the solver stands; null for an exact axle. */
export function mostStretched(solver: AxleSolver, mechanism: Mechanism): Stretched | null {
  if (!(solver instanceof ElasticAxle)) return null;
  const { lengths, arms } = mechanism;
  const { R, o, state } = solver;
  let found: Stretched | null = null;
  const offer = (name: string, share: number): void => {
    if (!found || share > found.share) found = { name, share };
  };
  for (const [i, name] of lengths.names.entries()) {
    const shift = (shared: number, c: number): number =>
      shared < 0 ? 0 : (state[4 + 3 * shared + c] as number);
    let square = 0;
    for (let c = 0; c < 3; c++) {
      let p = (o[c] as number) - (lengths.chassisPoints[3 * i + c] as number);
      p -= shift(lengths.chassisShared[i] as number, c);
      for (let k = 0; k < 3; k++) {
        p +=
          (R[3 * c + k] as number) *
          ((lengths.axlePoints[3 * i + k] as number) + shift(lengths.axleShared[i] as number, k));
      }
      square += p * p;
    }
    const free = lengths.free[i] as number;
    offer(name, Math.abs(Math.sqrt(square) - free) / free);
  }
  const offset = new Float64Array(3);
  for (const [k, arm] of arms.entries()) {
    const reach = Math.max(
      ...arm.joints.map(({ at }) =>
        Math.hypot(at[0] - arm.center[0], at[1] - arm.center[1], at[2] - arm.center[2]),
      ),
    );
    for (const joint of arm.joints) {
      solver.armOffset(k, joint, offset);
      offer(
        joint.name,
        Math.hypot(offset[0] as number, offset[1] as number, offset[2] as number) / reach,
      );
    }
  }
  return found;
}

/** Name of the member that is stretched past what the elastic model holds for, or null. */
export function overstretched(solver: AxleSolver, mechanism: Mechanism): string | null {
  const most = mostStretched(solver, mechanism);
  return most && most.share > STRETCH_END ? most.name : null;
}
