/** Where the parts are at a pose: one placement a part, `chassisFromPart`. */
import type { Pose } from '../pose/pose.ts';
import { rolledRod } from '../pose/rolledRod.ts';
import { smallestTurn } from '../pose/steeringSolver.ts';
import { PLACEMENT_SIZE, type Placement } from '../solid/placement.ts';
import { dot, norm, sub, turned, unit, type V3 } from '../vector.ts';
import type { Anchor, Part } from './part.ts';
import { standingRoll } from './roll.ts';

/**
 * Writes the placement of a part at a pose: twelve numbers, rows then translation, vehicle axes as drawn to
 * vehicle axes now. A part between two ends is stretched along its line by what the ends are apart, so that
 * both ends stand where they are.
 *
 * @param roll turn of a link and what rides on it about the link's line, rad, right-handed from its axle end to its
 *   chassis end, from the drawn roll carried by the smallest turn of the line; unless given, the one in which its
 *   joints hold it, and the drawn one of a link that is free to roll
 */
export function placePart(
  part: Part,
  pose: Pose,
  out: Placement,
  roll = part.roll?.by === 'line' ? standingRoll(part.roll, pose) : 0,
): void {
  const m = part.motion;
  if (m.kind === 'rigid') {
    const { R, t } = pose.displacement(m.body);
    for (let i = 0; i < 9; i++) out[i] = R[i] as number;
    for (let i = 0; i < 3; i++) out[9 + i] = t[i] as number;
    return;
  }
  const [first, second] = m.kind === 'ends' ? [m.from, m.to] : [m.at, m.towards];
  const a = anchorNow(pose, first);
  const b = anchorNow(pose, second);
  const drawn = sub(second.at, first.at);
  const now = sub(b, a);
  const line = unit(drawn);
  const direction = unit(now);
  const stretch = m.kind === 'ends' ? norm(now) / norm(drawn) - 1 : 0;
  const cos = Math.cos(roll);
  const sin = Math.sin(roll);
  for (let c = 0; c < 3; c++) {
    const e: V3 = [c === 0 ? 1 : 0, c === 1 ? 1 : 0, c === 2 ? 1 : 0];
    // stretched along the drawn line, rolled about it, then turned onto the line now
    const along = dot(e, line) * stretch;
    const rolled = roll === 0 ? e : turned(e, line, cos, sin);
    const column = smallestTurn(line, direction, [
      rolled[0] + along * line[0],
      rolled[1] + along * line[1],
      rolled[2] + along * line[2],
    ]);
    for (let r = 0; r < 3; r++) out[3 * r + c] = column[r] as number;
  }
  for (let r = 0; r < 3; r++) {
    out[9 + r] =
      (a[r] as number) -
      (out[3 * r] as number) * first.at[0] -
      (out[3 * r + 1] as number) * first.at[1] -
      (out[3 * r + 2] as number) * first.at[2];
  }
}

/**
 * The same at any roll of what rolls, link or steering rod; false where the steering is out of reach with a rod so
 * rolled. Parts that no roll moves stand as they do.
 */
export function placeRolled(part: Part, pose: Pose, roll: number, out: Placement): boolean {
  if (part.roll?.by !== 'rod') {
    placePart(part, pose, out, part.roll ? roll : 0);
    return true;
  }
  const rolled = rolledRod(pose, part.roll.of.name, roll);
  if (rolled) placePart(part, rolled, out, 0);
  return rolled !== null;
}

export const anchorNow = (pose: Pose, anchor: Anchor): V3 => pose.point(anchor.on, anchor.at);

/** A fresh placement. */
export const placed = (part: Part, pose: Pose, roll?: number): Placement => {
  const out = new Float64Array(PLACEMENT_SIZE);
  placePart(part, pose, out, roll);
  return out;
};

/** Point of a part (vehicle axes as drawn) at a placement. */
export function carried(place: Placement, p: V3): V3 {
  const row = (r: number): number =>
    (place[3 * r] as number) * p[0] +
    (place[3 * r + 1] as number) * p[1] +
    (place[3 * r + 2] as number) * p[2] +
    (place[9 + r] as number);
  return [row(0), row(1), row(2)];
}
