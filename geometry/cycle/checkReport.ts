/** What a build describes, axle by axle, once nothing is wrong with it: what `axlewalk check --json` prints. */
import type { AxleName } from '../build/build.ts';
import type { SteeringKind } from '../mechanism/mechanism.ts';
import { RANK } from '../tolerances.ts';
import { sub, type V3 } from '../vector.ts';
import { type RateSpread, rateSpreads } from './bracketRates.ts';
import type { OpenedBuild } from './open.ts';
import type { OpenedAxle } from './openAxle.ts';
import { type Bind, bindOf, poseJoints, poseLengths, posePoints } from './poseLengths.ts';

/** Where given lengths put the axle at ride height; all zero where it stands as drawn. */
export interface RideShift extends Bind {
  /** Axle origin less that as drawn, vehicle axes. */
  shift_in: V3;
  roll_deg: number;
  yaw_deg: number;
  pitch_deg: number;
  /** Turns of the knuckles, as the steering's given lengths leave them; null where nothing steers. */
  knuckles: { left: { turn_deg: number }; right: { turn_deg: number } } | null;
}

export interface AxleCheck {
  axle: AxleName;
  /** Lengths that locate the axle: links and track bars. */
  lengths: number;
  radiusArms: number;
  /** Of the derivative of the lengths (or of the stiffness) by the four unknowns, at ride height. */
  rank: number;
  /** Motions left: the travels of the two wheels. */
  freedoms: number;
  /** Solved exactly; else by least elastic energy. */
  exact: boolean;
  steering: SteeringKind | null;
  ride: RideShift;
  /** How rates move with their brackets; empty where no bracket's rate is given. */
  bracketRates: RateSpread[];
}

export interface CheckReport {
  build: string;
  variant: string | null;
  valid: true;
  axles: AxleCheck[];
  counts: Record<CountName, number>;
  /** Field paths of entries that somebody assumed. */
  assumed: string[];
  warnings: string[];
}

export type CountName =
  | 'axles'
  | 'links'
  | 'trackBars'
  | 'radiusArms'
  | 'dragLinks'
  | 'tieRods'
  | 'rams'
  | 'shocks'
  | 'coils'
  | 'bumpStops'
  | 'straps'
  | 'lines'
  | 'swayBars'
  | 'driveshafts'
  | 'solids'
  | 'entries'
  | 'measured'
  | 'drawing'
  | 'assumed';

/** All about a build that was opened. */
export function checkReport({ build, axles }: OpenedBuild): CheckReport {
  const { entries } = build;
  const assumed = entries.filter(entry => entry.from === 'assumed').map(entry => entry.path);
  const all = axles.map(({ axle }) => axle);
  const count = <T>(pick: (axle: (typeof all)[number]) => readonly T[]): number =>
    all.reduce((sum, axle) => sum + pick(axle).length, 0);
  const one = <T>(part: T | null | undefined): T[] => (part ? [part] : []);
  const from = (origin: (typeof entries)[number]['from']): number =>
    entries.filter(entry => entry.from === origin).length;
  return {
    build: build.name,
    variant: build.variant,
    valid: true,
    axles: axles.map(axleCheck),
    counts: {
      axles: all.length,
      links: count(axle => axle.links.filter(link => link.kind === 'link')),
      trackBars: count(axle => axle.links.filter(link => link.kind === 'track bar')),
      radiusArms: count(axle => axle.radiusArms),
      dragLinks: count(axle => one(axle.steering?.dragLink)),
      tieRods: count(axle => axle.steering?.tieRods ?? []),
      rams: count(axle => axle.steering?.rams ?? []),
      shocks: count(axle => axle.shocks),
      coils: count(axle => axle.coils),
      bumpStops: count(axle => axle.bumpStops),
      straps: count(axle => axle.straps),
      lines: count(axle => axle.lines),
      swayBars: count(axle => one(axle.swayBar)),
      driveshafts: count(axle => one(axle.driveline)),
      solids: build.solids.length,
      entries: entries.length,
      measured: from('measured'),
      drawing: from('drawing'),
      assumed: assumed.length,
    },
    assumed: [...new Set(assumed)],
    warnings: build.warnings,
  };
}

function axleCheck(opened: OpenedAxle): AxleCheck {
  const { axle, model } = opened;
  const { mechanism } = model;
  const [largest = 0] = model.rank.values;
  const rank = model.rank.values.filter(value => value > RANK * largest).length;
  return {
    axle: axle.name,
    lengths: mechanism.lengths.names.length,
    radiusArms: mechanism.arms.length,
    rank,
    freedoms: 6 - rank,
    exact: mechanism.exact,
    steering: mechanism.steering?.kind ?? null,
    ride: rideShift(opened),
    bracketRates: rateSpreads(opened),
  };
}

const DEGREES = 180 / Math.PI;

/** Where given lengths put an axle at ride height. */
export function rideShift({ model }: OpenedAxle): RideShift {
  const { ride, mechanism } = model;
  const left = ride.knuckleTurn('left');
  const right = ride.knuckleTurn('right');
  return {
    shift_in: sub(ride.point('axle', mechanism.origin), mechanism.origin),
    roll_deg: ride.roll * DEGREES,
    yaw_deg: ride.yaw * DEGREES,
    pitch_deg: ride.pitch * DEGREES,
    knuckles:
      left === null || right === null
        ? null
        : { left: { turn_deg: left * DEGREES }, right: { turn_deg: right * DEGREES } },
    ...bindOf(poseLengths(ride, posePoints(ride)), poseJoints(ride)),
  };
}
