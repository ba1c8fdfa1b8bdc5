/** Which of a point's places belongs to the part that is chosen. */
import type { GripSpot } from '../../../geometry/build/grips.ts';
import type { Rig } from '../state/rig.ts';

/** Whether a point stands on the chosen part, or on another piece of the same whole. */
export function isSpotOf(
  { parts }: Pick<Rig, 'parts'>,
  spot: GripSpot,
  chosen: string | null,
): boolean {
  const own = parts.find(({ name }) => name === chosen);
  if (own === undefined) return false;
  const whole = parts.find(({ name }) => name === spot.part)?.of ?? spot.part;
  return whole === own.of || spot.part === own.name;
}

/** True of a place that no part stands for: a datum. */
export const isBare = ({ parts }: Pick<Rig, 'parts'>, { part }: GripSpot): boolean =>
  !parts.some(({ name, of }) => name === part || of === part);

/** The one of a point's places that is moved: that of the chosen part, else the first. */
export const chosenSpot = (
  rig: Pick<Rig, 'parts'>,
  spots: readonly GripSpot[],
  chosen: string | null,
): GripSpot | undefined => spots.find(each => isSpotOf(rig, each, chosen)) ?? spots[0];
