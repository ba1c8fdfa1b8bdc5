/**
 * How parts roll about the line between their joints: bent links and what rides on links, steering rods that only
 * their studs hold and what hangs on those. Search, map and proof ask here; all must look at the same rolls.
 */
import type { Axle, Rod, Vec3 } from '../build/build.ts';
import { type KnuckleStop, knuckleStops } from '../limit/steering.ts';
import { rollEnd } from '../measure/rodRoll.ts';
import { rodsOf, rollingAt, rollingPart } from '../measure/rolling.ts';
import type { Pose } from '../pose/pose.ts';
import { rolledRod, rollOfRod, steersByRoll } from '../pose/rolledRod.ts';
import { ON_LINE_in } from '../tolerances.ts';
import { norm, reject, sub, unit } from '../vector.ts';
import type { Part, PartRoll } from './part.ts';

/** Rolls, rad, from ≤ to; alike where a joint holds the part. A full circle is from −π to π. */
export interface RollRange {
  from: number;
  to: number;
}

const CIRCLE: RollRange = { from: -Math.PI, to: Math.PI };

/**
 * The rolls that a part may have at a pose, from where it is drawn, carried by the smallest turn of its line. They are
 * to be covered by whatever says 'no pose of the range': its ends move with the pose (`RollingJets` has the slopes).
 *
 * Held: the one roll in which its joints hold it. Free: the window of its joints' limits; the full circle where a link
 * has a bolt and no limit. Where no roll keeps the limits: the easiest one. A rod whose roll steers goes no further than
 * the steering stops let the knuckles; where no limit of a stud stops it, it stands as drawn: how far it goes is then not
 * known, and the finding `slop` says so.
 */
export function rollRange({ of, by, stops }: PartRoll, pose: Pose): RollRange {
  if (by === 'rod') {
    const from = rollEnd(pose, of, 'from');
    const to = rollEnd(pose, of, 'to');
    if (typeof from === 'object' && 'roll' in from && typeof to === 'object' && 'roll' in to) {
      const range = { from: from.roll, to: to.roll };
      return steersByRoll(pose, of.name) ? withinStops(range, pose, of.name, stops) : range;
    }
    const isFree = !steersByRoll(pose, of.name) && rollingAt(pose, of).window.kind === 'full';
    return isFree ? CIRCLE : only(rollOfRod(pose, of.name));
  }
  const { held, window, easiest } = rollingAt(pose, of);
  if (held !== null) return only(held);
  if (window.kind === 'full') return CIRCLE;
  return window.kind === 'arc' ? { from: window.from, to: window.to } : only(easiest.roll);
}

/** A knuckle counts as past its stop from here on, rad. */
const PAST_rad = 1e-9;
/** Halvings of a roll that ends at a stop: 1e-6 of a turn. */
const HALVINGS = 20;

/** What of a range a rod reaches from where it stands before a knuckle comes to its stop. */
function withinStops(
  { from, to }: RollRange,
  pose: Pose,
  rod: string,
  stops: readonly KnuckleStop[],
): RollRange {
  const isKept = (roll: number): boolean => {
    const rolled = rolledRod(pose, rod, roll);
    return (
      rolled === null ||
      stops.every(({ side, end, most }) => end * (rolled.knuckleTurn(side) ?? 0) <= most + PAST_rad)
    );
  };
  const stands = Math.max(from, Math.min(to, rollOfRod(pose, rod)));
  const reached = (wanted: number): number => {
    if (isKept(wanted)) return wanted;
    let [kept, past] = [stands, wanted];
    for (let i = 0; i < HALVINGS; i++) {
      const middle = (kept + past) / 2;
      if (isKept(middle)) kept = middle;
      else past = middle;
    }
    return kept;
  };
  return { from: reached(from), to: reached(to) };
}

/** The same roll where a part may have it at a pose, by whole turns from it; else null. */
export function rollWithin(roll: PartRoll, angle: number, pose: Pose): number | null {
  const { from, to } = rollRange(roll, pose);
  const turns = roll.by === 'line' ? Math.ceil((from - angle) / (2 * Math.PI)) : 0;
  const same = angle + 2 * Math.PI * turns;
  return same >= from && same <= to ? same : null;
}

const only = (roll: number): RollRange => ({ from: roll, to: roll });

/** The roll in which a part is shown: held, or of what is free the drawn one, or the nearest to it in its window. */
export function standingRoll(roll: PartRoll, pose: Pose): number {
  if (roll.by === 'rod') return rollOfRod(pose, roll.of.name);
  const { from, to } = rollRange(roll, pose);
  return Math.max(from, Math.min(to, 0));
}

/** True where a joint leaves a part one roll a pose: nothing to search. */
export const isHeld = ({ of, by }: PartRoll): boolean =>
  by === 'line' && (of.holders.length > 0 || of.joints.some(joint => joint.holds));

/**
 * The roll that moves a part, or null. A part that two rods move hangs on the first of them: only where a bent drag
 * link on its studs hangs on a tie rod on its studs is the other roll left out.
 */
export function rollOf(axle: Axle, part: Part): PartRoll | null {
  return rollOfRods(axle, part) ?? rollOfLink(axle, part);
}

function rollOfLink(axle: Axle, part: Part): PartRoll | null {
  const link = axle.links.find(({ name }) => name === part.body);
  const of = link && rollingPart(axle, link.name);
  if (!link || !of) return null;
  // a straight tube looks alike in every roll; what is drawn on it does not
  const isBent = link.through.some(at => isBeside(at, { from: link.axle, to: link.chassis }));
  return part.name === link.name && !isBent ? null : { of, by: 'line', stops: [] };
}

function rollOfRods(axle: Axle, part: Part): PartRoll | null {
  const bodies = bodiesOf(part);
  for (const rod of rodsOf(axle)) {
    const of = rod.roll.held === 'studs' ? rollingPart(axle, rod.name) : null;
    if (!of) continue;
    const isStraightRod = part.name === rod.name && !rod.through.some(at => isBeside(at, rod));
    const moved = bodiesMovedBy(axle, rod);
    if (bodies.some(body => moved.has(body) || (isOn(axle, rod, body) && !isStraightRod))) {
      return { of, by: 'rod', stops: knuckleStops(axle) };
    }
  }
  return null;
}

const bodiesOf = ({ motion: m }: Part): string[] =>
  m.kind === 'rigid'
    ? [m.body]
    : m.kind === 'ends'
      ? [m.from.on, m.to.on]
      : [m.at.on, m.towards.on];

/** Bodies that turn as a rod rolls, since the other rod hangs beside its line. */
function bodiesMovedBy(axle: Axle, rod: Rod): Set<string> {
  const moved = new Set<string>();
  const dragLink = axle.steering?.dragLink;
  for (const other of rodsOf(axle)) {
    if (other === rod) continue;
    for (const [end, far] of [
      [other.from, other.to],
      [other.to, other.from],
    ] as const) {
      if (!isOn(axle, rod, end.on) || !isBeside(end.at, rod)) continue;
      moved.add(other.name);
      // a tie rod on the drag link turns the knuckle at its other end; a drag link on the tie rod turns both knuckles
      if (other === dragLink) for (const on of [rod.name, rod.from.on, rod.to.on]) moved.add(on);
      else moved.add(far.on);
    }
  }
  return moved;
}

/** Whether a body's name is a rod's: its own, or in short that of the first tie rod. */
const isOn = (axle: Axle, rod: Rod, body: string): boolean =>
  body === rod.name || (body === 'tie rod' && rod === axle.steering?.tieRods[0]);

/** Whether a point as drawn lies beside the line between both ends of a part. */
const isBeside = (at: Vec3, { from, to }: { from: { at: Vec3 }; to: { at: Vec3 } }): boolean =>
  norm(reject(sub(at, from.at), unit(sub(to.at, from.at)))) > ON_LINE_in;
