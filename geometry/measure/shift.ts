/**
 * Where the axle goes sideways and fore and aft. The lateral part splits into what the track bar's arc does
 * at the mean travel and what rolling adds. Closed-form cases: a track bar of length L, its axle end z₀ above
 * its frame end: arc = √(L² − z₀²) − √(L² − (z₀ + z)²) towards the frame end; four equal parallel links of
 * length L, down by a₀ to the axle: fore-aft L cos a₀ − √(L² − (L sin a₀ + z)²) towards the frame pivots.
 */
import type { Pose } from '../pose/pose.ts';
import { slopeOf } from './derivative.ts';
import { groundPoint, groundPointJets } from './ground.ts';
import { AXLE_TARGET, type Measure, type MeasureContext, NO_LEVEL, type Slope } from './measure.ts';

const common = { unit: 'in', targets: () => [...AXLE_TARGET] } as const;
const source = 'ISO 8855:2011 axes; displacement of the axle from ride height';

const x = (pose: Pose): number => pose.axle.o[0] as number;
const y = (pose: Pose): number => pose.axle.o[1] as number;

/** Slope of the level pose's y: both wheels go by half of either travel, and it does not steer the axle. */
function arcSlope(level: Pose): Slope {
  const [left, right] = slopeOf(level.axleJets().o[1]);
  const half = (left + right) / 2;
  return [half, half, 0];
}

export const lateralShift: Measure = {
  ...common,
  id: 'lateralShift',
  label: 'lateral shift',
  definition: "Y of the axle's origin less that at ride height; + to the left.",
  source,
  value: ({ pose, ride }) => y(pose) - y(ride),
  slope: ({ pose }) => slopeOf(pose.axleJets().o[1]),
};

export const lateralShiftArc: Measure = {
  ...common,
  id: 'lateralShiftArc',
  label: 'lateral shift by the arc',
  definition:
    'Lateral shift at the same mean travel without articulation: what the arc of the track bar does; + to the left.',
  source: 'closed form of a bar swinging about its frame end',
  value: ({ level, ride }) => (level ? y(level) - y(ride) : NO_LEVEL),
  slope: ({ level }) => (level ? arcSlope(level) : null),
};

export const lateralShiftRoll: Measure = {
  ...common,
  id: 'lateralShiftRoll',
  label: 'lateral shift by articulation',
  definition: 'Lateral shift less that of the arc: what articulation adds; + to the left.',
  source: 'difference of the two',
  value: ({ pose, level }) => (level ? y(pose) - y(level) : NO_LEVEL),
  slope: ({ pose, level }: MeasureContext) => {
    if (!level) return null;
    const all = slopeOf(pose.axleJets().o[1]);
    const arc = arcSlope(level);
    return [all[0] - arc[0], all[1] - arc[1], all[2] - arc[2]];
  },
};

export const lateralShiftGround: Measure = {
  ...common,
  id: 'lateralShiftGround',
  label: 'lateral shift at the ground',
  definition:
    'Y of the point of the housing midway between the tires on the ground, less that at ride height; + to the left.',
  source,
  value: ({ pose, ride }) => groundPoint(pose)[1] - groundPoint(ride)[1],
  slope: ({ pose }) => slopeOf(groundPointJets(pose)[1]),
};

export const foreAftShift: Measure = {
  ...common,
  id: 'foreAftShift',
  label: 'fore-aft shift',
  definition: "X of the axle's origin less that at ride height; + forward.",
  source,
  value: ({ pose, ride }) => x(pose) - x(ride),
  slope: ({ pose }) => slopeOf(pose.axleJets().o[0]),
};
