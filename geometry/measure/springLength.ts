/**
 * Lengths of shocks, coils and rams, what share of a stroke is used, and motion ratios. Closed-form cases: a
 * shock leaning by δ in front view between points square above each other changes by cos δ a unit of travel
 * with both wheels moved alike; one that stands b from the middle on a pure rolling axle, 2b cos δ/W by
 * travel of its own wheel with equal and opposite travels.
 */
import type { Axle, Coil, Ram, Shock } from '../build/build.ts';
import type { Jet } from '../pose/jet.ts';
import type { Pose } from '../pose/pose.ts';
import { dot, sub, unit, type V3 } from '../vector.ts';
import { along, slopeOf } from './derivative.ts';
import type { Measure, Reading, Target } from './measure.ts';
import { type AxleMotion, bothWheels, crossedUp, velocityAt } from './motion.ts';
import { axleToChassis, type Ends, spanJet, spanLength } from './span.ts';
import { outboard } from './wheel.ts';

const named = <T extends { name: string }>(parts: readonly T[], { part }: Target): T =>
  parts.find(p => p.name === part) as T;
const targetsOf = (parts: readonly { name: string }[]): Target[] =>
  parts.map(({ name }) => ({ part: name, side: null }));

type Kind = 'shock' | 'coil';

const LIST: Record<Kind, (axle: Axle) => readonly (Shock | Coil)[]> = {
  shock: axle => axle.shocks,
  coil: axle => axle.coils,
};

function lengthMeasure(kind: Kind, between: string): Measure {
  const ends = (axle: Axle, target: Target): Ends => axleToChassis(named(LIST[kind](axle), target));
  return {
    id: `${kind}Length`,
    unit: 'in',
    label: `${kind} length`,
    definition: `Length ${between}.`,
    source: 'geometry',
    targets: axle => targetsOf(LIST[kind](axle)),
    value: ({ axle, pose }, target) => spanLength(pose, ends(axle, target)),
    slope: ({ axle, pose }, target) => slopeOf(spanJet(pose, ends(axle, target))),
  };
}

export const shockLength = lengthMeasure('shock', 'between the ends of the shock');
export const coilLength = lengthMeasure('coil', "between the centers of the coil's seats");

/** −d length / d travel, both wheels moved alike: rate of the jet along (1, 1). */
const ratioBoth = (length: Jet): Jet => along(length, -1, -1);

/** The same by travel of the part's own side, wheels moved equal and opposite. */
function ratioCrossed(length: Jet, side: 'left' | 'right'): Jet {
  const own = outboard(side);
  return along(length, -own, own);
}

/** −d length / d travel of a part between axle and chassis, along a motion: −(unit line · velocity). */
function shortening(pose: Pose, part: { axle: V3; chassis: V3 }, motion: AxleMotion): number {
  const at = pose.point('axle', part.axle);
  return -dot(unit(sub(at, part.chassis)), velocityAt(motion, pose, at));
}

const MOTION_RATIO =
  'Milliken, Race Car Vehicle Dynamics, ch. 16; Gillespie, ch. 5 (wheel rate = rate × ratio²; from memory)';
const NO_SIDE: Reading = { missing: 'the part stands on neither side' };

function motionRatio(kind: Kind): Measure {
  return {
    id: `${kind}MotionRatio`,
    unit: 'in/in',
    label: `motion ratio of the ${kind}`,
    definition: `How much shorter the ${kind} gets a unit of travel at this pose, both wheels moved alike.`,
    source: MOTION_RATIO,
    targets: axle => targetsOf(LIST[kind](axle)),
    value: (context, target) =>
      shortening(context.pose, named(LIST[kind](context.axle), target), bothWheels(context)),
    slope: ({ axle, pose }, target) =>
      slopeOf(ratioBoth(spanJet(pose, axleToChassis(named(LIST[kind](axle), target))))),
  };
}

function motionRatioCrossed(kind: Kind): Measure {
  return {
    id: `${kind}MotionRatioCrossed`,
    unit: 'in/in',
    label: `motion ratio of the ${kind}, flexing`,
    definition: `How much shorter the ${kind} gets a unit of travel of its own wheel at this pose, wheels moved equal and opposite.`,
    source: MOTION_RATIO,
    targets: axle => targetsOf(LIST[kind](axle)),
    value: (context, target) => {
      const part = named(LIST[kind](context.axle), target);
      if (!part.side) return NO_SIDE;
      return outboard(part.side) * shortening(context.pose, part, crossedUp(context));
    },
    slope: ({ axle, pose }, target) => {
      const part = named(LIST[kind](axle), target);
      return part.side && slopeOf(ratioCrossed(spanJet(pose, axleToChassis(part)), part.side));
    },
  };
}

export const shockMotionRatio = motionRatio('shock');
export const shockMotionRatioCrossed = motionRatioCrossed('shock');
export const coilMotionRatio = motionRatio('coil');
export const coilMotionRatioCrossed = motionRatioCrossed('coil');

export const shockStrokeShare: Measure = {
  id: 'shockStrokeShare',
  unit: '%',
  label: 'stroke of the shock used',
  definition: 'Longest length less the length, over the stroke; 0 topped out, 100 bottomed.',
  source: 'geometry',
  targets: axle => targetsOf(axle.shocks),
  value: ({ axle, pose }, target) => {
    const shock = named(axle.shocks, target);
    const stroke = shock.longest - shock.shortest;
    if (!(stroke > 0)) return NO_STROKE;
    return (shock.longest - spanLength(pose, axleToChassis(shock))) / stroke;
  },
  slope: ({ axle, pose }, target) => {
    const shock = named(axle.shocks, target);
    const stroke = shock.longest - shock.shortest;
    return stroke > 0 ? slopeOf(spanJet(pose, axleToChassis(shock)), -1 / stroke) : null;
  },
};

const NO_STROKE: Reading = { missing: 'the stroke is not given' };

const rams = (axle: Axle): readonly Ram[] => axle.steering?.rams ?? [];

/** Ends of a single-ended ram; null for a double-ended one, whose rod is the input. */
export const ramEnds = ({ body, rod }: Ram): Ends | null => rod && { from: body, to: rod };

export const ramLength: Measure = {
  id: 'ramLength',
  unit: 'in',
  label: 'ram length',
  definition: 'Length between the ends of a single-ended ram.',
  source: 'geometry',
  targets: axle => targetsOf(rams(axle).filter(ram => ram.rod)),
  value: ({ axle, pose }, target) => spanLength(pose, ramEnds(named(rams(axle), target)) as Ends),
  slope: ({ axle, pose }, target) =>
    slopeOf(spanJet(pose, ramEnds(named(rams(axle), target)) as Ends)),
};

/** Double-ended: drawn in the middle of its stroke, + as the input turns left. */
export const ramStrokeShare: Measure = {
  id: 'ramStrokeShare',
  unit: '%',
  label: 'stroke of the ram used',
  definition:
    'Single-ended ram: length less the closed length, over the stroke; 0 closed, 100 open. Double-ended ram: 50 as drawn, 100 at its end to the left.',
  source: 'geometry',
  targets: axle => targetsOf(rams(axle)),
  value: ({ axle, pose }, target) => {
    const ram = named(rams(axle), target);
    const ends = ramEnds(ram);
    if (!ram.stroke) return NO_STROKE;
    if (!ends) return 0.5 + pose.input.steer / ram.stroke;
    if (ram.closed === null) return { missing: 'the closed length of the ram is not given' };
    return (spanLength(pose, ends) - ram.closed) / ram.stroke;
  },
  slope: ({ axle, pose }, target) => {
    const ram = named(rams(axle), target);
    const ends = ramEnds(ram);
    if (!ram.stroke) return null;
    if (!ends) return [0, 0, 1 / ram.stroke];
    return ram.closed === null ? null : slopeOf(spanJet(pose, ends), 1 / ram.stroke);
  },
};
