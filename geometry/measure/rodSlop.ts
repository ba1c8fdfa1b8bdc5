/**
 * Slop: what a steering rod that can roll about the line between its joints lets go by. A rod that holds
 * another rod, or a ram, beside its own line rolls over the window of its studs before it must follow.
 *
 * With the input held and the rod at the roll φ, its studs allow an arc whose ends W(φ) move with the wheels
 * that the roll has turned: the end that counts is the fixed point φ = W(pose, φ). The slop is what changes
 * between both ends: the mean steer where the rod steers the wheels; the ram's length where a ram pushes
 * beside it.
 *
 * Slopes: q(pose, φ) along φ′ = W_pose/(1 − W_φ); derivatives by the pose from jets, those by φ from central
 * differences of the closed form. Closed-form case: clocked rods, and points on the line, 0.
 */
import type { Axle, Ram, Rod, Vec3 } from '../build/build.ts';
import type { Jet } from '../pose/jet.ts';
import type { Pose } from '../pose/pose.ts';
import { rolledRod } from '../pose/rolledRod.ts';
import { ON_LINE_in } from '../tolerances.ts';
import { norm, reject, sub, unit } from '../vector.ts';
import { kept } from './kept.ts';
import type { Measure, MeasureContext, Reading, Slope } from './measure.ts';
import { type RollSide, rollEnd, windowEnd } from './rodRoll.ts';
import { type RollingPart, rodsOf, rollingAt, rollingParts } from './rolling.ts';
import { RollingJets } from './rollingJets.ts';
import { type Ends, spanJet, spanLength } from './span.ts';
import { ramEnds } from './springLength.ts';
import { meanSteerJet, meanSteerOf } from './wheel.ts';

/** What is held beside a rod's line. */
interface Beside {
  /** Part that the slop is told of: the rod that rolls, or the ram. */
  part: string;
  rod: Rod;
  ram: Ram | null;
}

const besideAt = new WeakMap<Axle, Beside[]>();

/** Rods that hold another rod's end, or a ram's, off their own line. */
function besides(axle: Axle): Beside[] {
  let found = besideAt.get(axle);
  if (!found) {
    found = findBesides(axle);
    besideAt.set(axle, found);
  }
  return found;
}

function findBesides(axle: Axle): Beside[] {
  const rods = rodsOf(axle);
  const rodOn = (on: string): Rod | undefined =>
    rods.find(rod => rod.name === on) ?? (on === 'tie rod' ? axle.steering?.tieRods[0] : undefined);
  const off = (rod: Rod, at: Vec3): boolean =>
    norm(reject(sub(at, rod.from.at), unit(sub(rod.to.at, rod.from.at)))) > ON_LINE_in;
  const out: Beside[] = [];
  for (const held of rods) {
    for (const end of [held.from, held.to]) {
      const rod = rodOn(end.on);
      if (rod && off(rod, end.at)) out.push({ part: rod.name, rod, ram: null });
    }
  }
  for (const ram of axle.steering?.rams ?? []) {
    const rod = ram.rod && rodOn(ram.rod.on);
    if (ram.rod && rod && off(rod, ram.rod.at)) out.push({ part: ram.name, rod, ram });
  }
  return out;
}

const besideOf = (axle: Axle, part: string | null): Beside =>
  besides(axle).find(beside => beside.part === part) as Beside;

interface Slop {
  from: { roll: number; pose: Pose };
  to: { roll: number; pose: Pose };
}

const rolling = (axle: Axle, rod: Rod): RollingPart | undefined => rollingParts(axle).get(rod.name);

const slopOf = kept((context: MeasureContext, part: string): Slop | Reading => {
  const { rod } = besideOf(context.axle, part);
  const from = rollEnd(context.pose, rolling(context.axle, rod), 'from');
  if (typeof from !== 'object' || !('pose' in from)) return from;
  const to = rollEnd(context.pose, rolling(context.axle, rod), 'to');
  if (typeof to !== 'object' || !('pose' in to)) return to;
  return { from, to };
});

const isSlop = (got: Slop | Reading): got is Slop => typeof got === 'object' && 'from' in got;

/** What changes as the rod rolls, with its derivatives at a fixed roll. */
interface Quantity {
  value(pose: Pose): number;
  jet(pose: Pose): Jet;
}

const steered: Quantity = { value: meanSteerOf, jet: meanSteerJet };

const ramOf = ({ ram }: Beside): Quantity => ({
  value: pose => spanLength(pose, ramEnds(ram as Ram) as Ends),
  jet: pose => spanJet(pose, ramEnds(ram as Ram) as Ends),
});

function slopMeasure(
  words: Pick<Measure, 'id' | 'unit' | 'label' | 'definition'>,
  withRam: boolean,
  quantityOf: (beside: Beside) => Quantity,
): Measure {
  return {
    ...words,
    source: "derived: intersection of both studs' windows",
    targets: axle =>
      besides(axle)
        .filter(({ ram }) => (ram !== null) === withRam)
        .map(({ part }) => ({ part, side: null })),
    value: (context, { part }) => {
      const beside = besideOf(context.axle, part);
      if (beside.rod.roll.held === 'clocked') return 0;
      const slop = slopOf(context, part as string);
      if (!isSlop(slop)) return slop;
      const { value } = quantityOf(beside);
      return Math.abs(value(slop.to.pose) - value(slop.from.pose));
    },
    slope: (context, { part }): Slope | null => {
      const beside = besideOf(context.axle, part);
      if (beside.rod.roll.held === 'clocked') return [0, 0, 0];
      const slop = slopOf(context, part as string);
      if (!isSlop(slop)) return null;
      const quantity = quantityOf(beside);
      const change = quantity.value(slop.to.pose) - quantity.value(slop.from.pose);
      const to = slopeAtEnd(context, beside.rod, quantity, slop.to, 'to');
      const from = slopeAtEnd(context, beside.rod, quantity, slop.from, 'from');
      if (!to || !from || change === 0) return null;
      const sign = Math.sign(change);
      return [sign * (to[0] - from[0]), sign * (to[1] - from[1]), sign * (to[2] - from[2])];
    },
  };
}

export const rodSlop = slopMeasure(
  {
    id: 'rodSlop',
    unit: 'deg',
    label: 'slop of a rod that can roll',
    definition:
      'Change of mean steer as a rod that holds another beside its own line rolls over the window of its studs, input held; 0 where the rod is clocked.',
  },
  false,
  () => steered,
);

export const ramSlop = slopMeasure(
  {
    id: 'ramSlop',
    unit: 'in',
    label: 'slop of a ram beside its rod',
    definition:
      'Change of length of a ram that pushes beside the line of a rod, as that rod rolls over the window of its studs, input held: how far the ram moves before it pushes; 0 where the rod is clocked.',
  },
  true,
  ramOf,
);

/** Half of the step of the differences by roll, rad: their error is of its square, about 1e-8. */
const ROLL_STEP = 1e-4;

/** Slope of the quantity at one end of the free roll, which itself moves with the pose. */
function slopeAtEnd(
  context: MeasureContext,
  rod: Rod,
  { value, jet }: Quantity,
  { roll, pose }: { roll: number; pose: Pose },
  side: RollSide,
): Slope | null {
  const { axle } = context;
  const part = rolling(axle, rod);
  const end = part && new RollingJets(pose, rollingAt(pose, part)).windowEnd(side);
  const less = rolledRod(pose, rod.name, roll - ROLL_STEP);
  const more = rolledRod(pose, rod.name, roll + ROLL_STEP);
  if (!end || !less || !more) return null;
  const endLess = windowEnd(less, part, side);
  const endMore = windowEnd(more, part, side);
  if (typeof endLess !== 'number' || typeof endMore !== 'number') return null;
  const byRoll = (value(more) - value(less)) / (2 * ROLL_STEP);
  const endByRoll = (endMore - endLess) / (2 * ROLL_STEP);
  const still = jet(pose);
  const by = (k: number): number =>
    (still[k] as number) + (byRoll * (end[k] as number)) / (1 - endByRoll);
  return [by(1), by(2), by(3)];
}
