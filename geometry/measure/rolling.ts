/**
 * The links, track bars and steering rods whose joints have a bolt axis, with how they may roll at a pose.
 *
 * Roll 0 is the drawn roll carried along by the smallest turn of the line: in the chassis frame for links, in
 * the axle frame for steering rods (the rule by which their clocked bodies are placed). Angles between bolt
 * and bore do not hang on that choice.
 *
 * A joint that holds the roll (a bushing, an anti-roll washer) keeps its bore as close to its bolt as drawn:
 * the turn φ₀ from bore to bolt stays what it was. Where it has no bolt axis, the link takes the smallest turn
 * of its line as its bracket sees it. Two joints that hold it share the twist half and half.
 */
import type { Axle, JointEnd, Rod } from '../build/build.ts';
import type { Pose } from '../pose/pose.ts';
import { smallestTurn } from '../pose/steeringSolver.ts';
import {
  anySquare,
  cross,
  dot,
  norm,
  reject,
  scale,
  sub,
  turned,
  unit,
  type V3,
} from '../vector.ts';
import { kept } from './kept.ts';
import {
  type EasiestRoll,
  easiestRoll,
  type RollJoint,
  type RollWindow,
  rollCenter,
  rollWindow,
  wrapped,
} from './linkRoll.ts';
import type { MeasureContext } from './measure.ts';
import { type Ends, lengthEnds } from './span.ts';

/** A joint of a rolling part as drawn, vehicle axes. */
export interface DrawnJoint {
  /** `part.end` */
  name: string;
  /** Body that carries the bracket and its bolt. */
  on: string;
  bolt: V3;
  /** Clocked; as the link's drawn roll has it. */
  bore: V3;
  limit: number | null;
  holds: boolean;
}

export interface RollingPart {
  name: string;
  /** Body in whose frame the smallest turn is taken. */
  frame: 'axle' | 'chassis';
  /** Where both ends ride: of a link its index among the mechanism's lengths, of a rod the points themselves. */
  ends: number | Ends;
  /** From the axle to the chassis (rods: from `from` to `to`), as drawn. */
  line: V3;
  /** Joints with a bolt axis. */
  joints: DrawnJoint[];
  /** Bodies of joints that hold the roll and have no bolt axis. */
  holders: string[];
}

interface RollingParts {
  all: ReadonlyMap<string, RollingPart>;
  withBolts: ReadonlyMap<string, RollingPart>;
}

const partsOf = new WeakMap<Axle, RollingParts>();

/** Every part of an axle that has a joint with a bolt axis, by name. */
export const rollingParts = (axle: Axle): ReadonlyMap<string, RollingPart> =>
  madeOf(axle).withBolts;

/** A part that has a joint with a bolt axis, or one that holds its roll; null: nothing tells how it rolls. */
export const rollingPart = (axle: Axle, name: string): RollingPart | null =>
  madeOf(axle).all.get(name) ?? null;

function madeOf(axle: Axle): RollingParts {
  const known = partsOf.get(axle);
  if (known) return known;
  const made = [
    ...axle.links.map((link, i) =>
      part(
        link.name,
        'chassis',
        { end: link.axle, on: 'axle' },
        { end: link.chassis, on: 'chassis' },
        i,
      ),
    ),
    ...rodsOf(axle).map(rod =>
      part(rod.name, 'axle', rodEnd(rod, 'from'), rodEnd(rod, 'to'), {
        from: { on: rod.from.on, at: rod.from.at },
        to: { on: rod.to.on, at: rod.to.at },
      }),
    ),
  ];
  const by = (has: (part: RollingPart) => boolean): Map<string, RollingPart> =>
    new Map(made.filter(has).map(each => [each.name, each]));
  const parts = {
    all: by(({ joints, holders }) => joints.length + holders.length > 0),
    withBolts: by(({ joints }) => joints.length > 0),
  };
  partsOf.set(axle, parts);
  return parts;
}

/** The drag link and the tie rods. */
export const rodsOf = ({ steering }: Axle): Rod[] =>
  [steering?.dragLink, ...(steering?.tieRods ?? [])].filter(rod => !!rod);

type WrittenEnd = Pick<
  JointEnd,
  'name' | 'at' | 'bolt' | 'bore' | 'limit' | 'clocking' | 'holdsRoll'
>;

function rodEnd(rod: Rod, key: 'from' | 'to'): { end: WrittenEnd; on: string } {
  const { at, stud, limit, on } = rod[key];
  const name = `${rod.name}.${key}`;
  return { end: { name, at, bolt: stud, bore: null, limit, clocking: 0, holdsRoll: false }, on };
}

function part(
  name: string,
  frame: 'axle' | 'chassis',
  a: { end: WrittenEnd; on: string },
  b: { end: WrittenEnd; on: string },
  ends: RollingPart['ends'],
): RollingPart {
  const line = unit(sub(b.end.at, a.end.at));
  const joints = [a, b].flatMap(({ end, on }) => {
    const bore = end.bolt && drawnBore(end.bolt, end, line);
    return end.bolt && bore
      ? [{ name: end.name, on, bolt: end.bolt, bore, limit: end.limit, holds: end.holdsRoll }]
      : [];
  });
  return {
    name,
    frame,
    ends,
    line,
    joints,
    holders: [a, b].filter(({ end }) => end.holdsRoll && !end.bolt).map(({ on }) => on),
  };
}

/**
 * The bore axis as drawn, clocked about the line: the entered one, or the bolt projected square to the line.
 * Null where the bolt lies along the line, so that it has no projection.
 */
export function drawnBore(
  bolt: V3,
  end: { bore: V3 | null; clocking: number },
  line: V3,
): V3 | null {
  let bore = end.bore;
  if (!bore) {
    const across = reject(bolt, line);
    if (norm(across) < 1e-9) return null;
    bore = unit(across);
  } else if (dot(bolt, bore) < 0) bore = scale(bore, -1);
  return turned(bore, line, Math.cos(end.clocking), Math.sin(end.clocking));
}

/** Where both ends of a part ride: on axle and chassis, on a shared joint that gives, on bodies of the steering. */
export const endsOf = (pose: Pose, { ends }: RollingPart): Ends =>
  typeof ends === 'number' ? lengthEnds(pose, ends) : ends;

/** How a part may roll at a pose. */
export interface Rolling {
  part: RollingPart;
  /** Joints now, chassis axes, in the order of the part's. */
  joints: RollJoint[];
  /** Roll in which a joint holds the part, rad; null: it is free to roll. */
  held: number | null;
  /** Where limits allow it to be; where it is held, that one roll. */
  window: RollWindow;
  /** Where the larger share of both limits is least; where it is held, that roll. */
  easiest: EasiestRoll | { roll: number; by: 'held' };
}

/** The roll of a part at a context's pose; the part is one of `rollingParts`. */
export const rollingOf = kept((context: MeasureContext, name: string): Rolling => {
  const found = rollingParts(context.axle).get(name);
  if (!found) throw new Error(`no joint of '${name}' has a bolt axis`);
  return rollingAt(context.pose, found);
});

export function rollingAt(pose: Pose, of: RollingPart): Rolling {
  const { from, to } = endsOf(pose, of);
  const line = unit(sub(pose.point(to.on, to.at), pose.point(from.on, from.at)));
  const carried = carriedIn(pose, of.frame, of.line, line);
  const joints = of.joints.map(
    (joint): RollJoint => ({
      bolt: pose.direction(joint.on, joint.bolt),
      bore: carried(joint.bore),
      line,
      limit: joint.limit,
    }),
  );
  const held = heldRoll(pose, of, joints, line);
  return {
    part: of,
    joints,
    held,
    window:
      held === null
        ? rollWindow(joints)
        : { kind: 'arc', from: held, to: held, fromBy: -1, toBy: -1 },
    easiest: held === null ? easiestRoll(joints) : { roll: held, by: 'held' },
  };
}

/** Carries a direction of a link by the smallest turn of its line, as a body sees it; all in chassis axes. */
function carriedIn(pose: Pose, body: string, drawn: V3, line: V3): (v: V3) => V3 {
  if (body === 'chassis') return v => smallestTurn(drawn, line, v);
  const { R } = pose.displacement(body);
  const row = (i: number): V3 => [R[i] as number, R[i + 3] as number, R[i + 6] as number];
  const seen: V3 = [dot(row(0), line), dot(row(1), line), dot(row(2), line)];
  return v => pose.direction(body, smallestTurn(drawn, seen, v));
}

function heldRoll(
  pose: Pose,
  of: RollingPart,
  joints: readonly RollJoint[],
  line: V3,
): number | null {
  const rolls = of.joints.flatMap((joint, i) =>
    joint.holds ? [rollCenter(joints[i] as RollJoint) - drawnCenter(joint, of.line)] : [],
  );
  if (of.holders.length > 0) {
    const mark = anySquare(of.line);
    const atZero = carriedIn(pose, of.frame, of.line, line)(mark);
    for (const body of of.holders) {
      const now = carriedIn(pose, body, of.line, line)(mark);
      rolls.push(Math.atan2(dot(line, cross(atZero, now)), dot(atZero, now)));
    }
  }
  const [first, second] = rolls;
  if (first === undefined) return null;
  return wrapped(second === undefined ? first : first + wrapped(second - first) / 2);
}

/** φ₀ as drawn, rad. */
export const drawnCenter = (joint: DrawnJoint, line: V3): number =>
  rollCenter({ bolt: joint.bolt, bore: joint.bore, line, limit: null });
