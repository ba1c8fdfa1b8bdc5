/**
 * What a comparison is told about in words: which measure, where, how much of it a shop takes notice of, and which
 * way is the better one. Sizes of notice are common practice, no source; they rank sentences and nothing else.
 */
import type { PlaceName } from './places.ts';

/** Which way is better: less or more of it, without its sign; null: neither, unless the builds ask for something. */
export type Better = 'less' | 'more' | null;

export interface Subject {
  /** A measure's id. */
  id: string;
  at: readonly PlaceName[];
  /** In the measure's unit. */
  notice: number;
  better: Better;
  /** The clause before the amount: 'the pinion turns'. */
  clause: string;
  /** More and less of it. */
  words: readonly [more: string, less: string];
  /**
   * What a value is called by its sign, behind the amount: nose up, nose down; `sides`: towards which side of the
   * vehicle; null: it has none, or the sign is told as it is.
   */
  signs: readonly [plus: string, minus: string] | 'sides' | null;
  /** The one with the most of it in each build is told: of all that have it, or of the links' joints alone. */
  most?: 'any' | 'links';
}

const TRAVEL: readonly PlaceName[] = ['fullBump', 'fullDroop', 'crossedLeftUp', 'crossedRightUp'];
const LEVEL: readonly PlaceName[] = ['fullBump', 'fullDroop'];
const FLEXED: readonly PlaceName[] = ['crossedLeftUp', 'crossedRightUp'];
const LOCKS: readonly PlaceName[] = ['fullLeft', 'fullRight'];
const ANYWHERE: readonly PlaceName[] = ['ride', ...TRAVEL, ...LOCKS];

const MORE = ['more', 'less'] as const;
const HIGHER = ['higher', 'lower'] as const;
const TURN = ['to the left', 'to the right'] as const;

export const subjects: readonly Subject[] = [
  {
    id: 'pinionChange',
    at: TRAVEL,
    notice: 1,
    better: 'less',
    clause: 'the pinion turns',
    words: MORE,
    signs: ['nose up', 'nose down'],
  },
  {
    id: 'axleSteer',
    at: TRAVEL,
    notice: 0.5,
    better: 'less',
    clause: 'the axle steers',
    words: MORE,
    signs: TURN,
  },
  {
    id: 'bumpSteer',
    at: TRAVEL,
    notice: 0.5,
    better: 'less',
    clause: 'bump steer turns the wheels',
    words: MORE,
    signs: TURN,
  },
  {
    id: 'lateralShiftArc',
    at: LEVEL,
    notice: 0.25,
    better: 'less',
    clause: 'the arc of the track bar moves the axle aside',
    words: MORE,
    signs: 'sides',
  },
  {
    id: 'lateralShiftRoll',
    at: FLEXED,
    notice: 0.25,
    better: 'less',
    clause: 'flexing moves the axle aside',
    words: MORE,
    signs: 'sides',
  },
  {
    id: 'foreAftShift',
    at: TRAVEL,
    notice: 0.5,
    better: 'less',
    clause: 'the axle moves fore and aft',
    words: MORE,
    signs: ['forward', 'rearward'],
  },
  ...(
    [
      ['antiSquat', 'anti-squat is'],
      ['brakeAntiDive', 'anti-dive under braking is'],
      ['driveAntiLift', 'anti-lift under drive is'],
      ['brakeAntiLift', 'anti-lift under braking is'],
    ] as const
  ).map(
    ([id, clause]): Subject => ({
      id,
      at: ['ride'],
      notice: 10,
      better: null,
      clause,
      words: HIGHER,
      signs: null,
    }),
  ),
  {
    id: 'rollCenterHeight',
    at: ['ride'],
    notice: 1,
    better: null,
    clause: 'the roll center is',
    words: HIGHER,
    signs: null,
  },
  {
    id: 'axleRollAxisSlope',
    at: ['ride'],
    notice: 0.04,
    better: 'less',
    clause: 'a degree of roll steers the axle',
    words: MORE,
    signs: TURN,
  },
  {
    id: 'misalignment',
    at: ANYWHERE,
    notice: 3,
    better: 'less',
    clause: 'the most turned joint of the links turns',
    words: MORE,
    signs: null,
    most: 'links',
  },
  {
    id: 'pinionJointAngle',
    at: ANYWHERE,
    notice: 2,
    better: 'less',
    clause: 'the U-joint at the pinion bends',
    words: MORE,
    signs: null,
  },
  {
    id: 'transferJointAngle',
    at: ANYWHERE,
    notice: 2,
    better: 'less',
    clause: 'the U-joint at the transfer case bends',
    words: MORE,
    signs: null,
  },
  {
    id: 'driveshaftSlip',
    at: TRAVEL,
    notice: 0.25,
    better: 'less',
    clause: 'the driveshaft slips',
    words: MORE,
    signs: ['longer', 'shorter'],
  },
  {
    id: 'bind',
    at: ANYWHERE,
    notice: 0.02,
    better: 'less',
    clause: 'the layout binds',
    words: MORE,
    signs: null,
    most: 'any',
  },
  {
    id: 'turningCircle',
    at: LOCKS,
    notice: 1,
    better: 'less',
    clause: 'the turning circle is',
    words: ['wider', 'narrower'],
    signs: null,
  },
  {
    id: 'ackermannError',
    at: LOCKS,
    notice: 1,
    better: 'less',
    clause: 'the Ackermann error is',
    words: ['greater', 'smaller'],
    signs: null,
  },
  {
    id: 'scrubRadius',
    at: ['ride'],
    notice: 0.25,
    better: 'less',
    clause: 'the scrub radius is',
    words: ['greater', 'smaller'],
    signs: null,
    most: 'any',
  },
];

/** How much of the rest is noticed, in. */
export const NOTICE_in = { travel: 0.5, gap: 0.25, clearance: 0.5 };
/** Of steering, deg of pitman arm. */
export const NOTICE_STEER_deg = 2;
/** A difference that is noticed less than this is left unsaid. */
export const LEAST_SIZE = 0.25;
