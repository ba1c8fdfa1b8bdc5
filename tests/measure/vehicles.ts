/** Axles with every part that a measure reads, made in code, and builds that hold one axle each. */
import type {
  Axle,
  Build,
  JointEnd,
  Link,
  Rod,
  Vec3,
  Weights,
} from '../../geometry/build/build.ts';
import { MeasureContext } from '../../geometry/measure/measure.ts';
import type { AxleModel } from '../../geometry/pose/model.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import { unit } from '../../geometry/vector.ts';
import { modelOf } from '../pose/layouts.ts';

export const WHEELBASE = 112;

export const weights = (more: Partial<Weights> = {}): Weights => ({
  total: 5900,
  frontShare: 0.55,
  centerOfGravity: [-50, 0, 31],
  brakeShareFront: 0.6,
  driveShareFront: 0.4,
  ...more,
});

export const buildOf = (axle: Axle, more: Partial<Build> = {}): Build => ({
  name: 'a vehicle',
  variant: null,
  unit: 'in',
  driverSide: 'left',
  notes: null,
  wheelbase: WHEELBASE,
  weights: weights(),
  axles: [axle],
  solids: [],
  wanted: { bands: [], gaps: [], muted: [], assumedTravel: null },
  entries: [],
  places: [],
  jointPaths: {},
  warnings: [],
  ...more,
});

const degrees = Math.PI / 180;
const y = (side: 'left' | 'right'): 1 | -1 => (side === 'left' ? 1 : -1);
const SIDES = ['left', 'right'] as const;

/** A bolt through an end, a little off square to its link, so that no angle is at a kink. */
const bolted = (end: JointEnd, lean: Vec3, limit: number | null): JointEnd => ({
  ...end,
  bolt: unit(lean),
  limit: limit === null ? null : limit * degrees,
});

/** A bolt across a link: lateral, of a track bar fore and aft. */
const across = ({ kind }: Link, lean: number, up: number): Vec3 =>
  kind === 'track bar' ? [1, lean, up] : [lean, 1, up];

const studded = (rod: Rod, held: 'clocked' | 'studs'): Rod => ({
  ...rod,
  from: { ...rod.from, stud: unit([0.1, 0.05, 1]), limit: 22 * degrees },
  to: { ...rod.to, stud: unit([-0.04, 0.1, 1]), limit: 25 * degrees },
  roll: { held, at: 0 },
});

/** The same axle with driveline, springs, stops, lines, and joints that have bolts and limits. */
export function equipped(axle: Axle): Axle {
  const x = axle.origin[0];
  const front = axle.name === 'front';
  const on = (side: 'left' | 'right'): string => (axle.steered ? `${side} knuckle` : 'axle');
  const ahead = front ? -1 : 1;
  return {
    ...axle,
    links: axle.links.map((link, i) => ({
      ...link,
      axle: bolted(link.axle, across(link, 0.1 + 0.02 * i, 0.05), 20 + i),
      chassis: bolted(link.chassis, across(link, -0.05, 0.12 - 0.03 * i), i === 1 ? null : 17 + i),
    })),
    knuckles: axle.knuckles && {
      left: { ...axle.knuckles.left, toe: 0.1 * degrees, camber: -0.3 * degrees },
      right: { ...axle.knuckles.right, toe: 0.15 * degrees, camber: 0.2 * degrees },
    },
    steering: axle.steering && {
      ...axle.steering,
      dragLink: axle.steering.dragLink && studded(axle.steering.dragLink, 'studs'),
      tieRods: axle.steering.tieRods.map(rod => studded(rod, 'studs')),
      rams: [
        ...axle.steering.rams,
        {
          name: 'assist ram',
          kind: 'single',
          body: { on: 'axle', at: [4.25, -1.5, 20.25], diameter: null },
          axis: null,
          rod: axle.steering.box
            ? { on: 'tie rod', at: [4.5, -24.25, 18.5] }
            : { on: 'right knuckle', at: [4.5, -24.25, 18.5] },
          closed: 17,
          stroke: 10,
          bore: 1.75,
          rodDiameter: 1,
        },
      ],
    },
    shocks: SIDES.map(side => ({
      name: `${side} shock`,
      side,
      axle: [x - 5, y(side) * 20.5, 17],
      chassis: [x - 6.5, y(side) * 18, 41.5],
      shortest: 19.75,
      longest: 29.75,
      bodyEnd: 'chassis',
      body: { od: null, length: null },
      shaft: { od: null },
      reservoir: null,
    })),
    coils: SIDES.map(side => ({
      name: `${side} coil`,
      side,
      axle: [x + 0.5, y(side) * 17.5, 23.75],
      chassis: [x + 1, y(side) * 17.5, 38],
      free: 22,
      rate: 150,
      wire: null,
      turns: null,
      diameter: null,
      solid: null,
    })),
    bumpStops: SIDES.map(side => ({
      name: `${side} bump stop`,
      side,
      kind: 'rubber',
      pad: { on: side === 'left' ? 'axle' : 'chassis', at: [x + 1.5, y(side) * 17.5, 24.5] },
      strike: {
        on: side === 'left' ? 'chassis' : 'axle',
        at: [x + 1.5, y(side) * 17.5, 29.5],
        normal: unit([0.05, 0, -1]),
        radius: 2,
      },
      contactHeight: 1.75,
      solidHeight: 0,
      curve: [],
    })),
    lines: SIDES.map(side => ({
      name: `${side} brake hose`,
      from: { on: on(side), at: [x - 2, y(side) * 28, 22] },
      to: { on: 'chassis', at: [x - 4, y(side) * 16, 30] },
      length: 20,
      leastBendRadius: null,
      diameter: null,
    })),
    swayBar: {
      axis: { at: [x + 18, 0, 32], direction: unit([0.02, 1, -0.03]) },
      arms: SIDES.map(side => ({
        side,
        tip: [x + 5.5, y(side) * 21.5, 33],
        axle: [x + 3.75, y(side) * 23.5, 19.5],
      })),
      tubeOd: null,
    },
    driveline: {
      pinion: {
        joint: [x + ahead * 10.5, 9.5, 21],
        axis: [ahead * Math.cos(7 * degrees), 0, Math.sin(7 * degrees)],
        kind: 'single',
        limit: null,
      },
      transferCase: {
        joint: [x + ahead * 47, 8, 28.5],
        axis: [-ahead * Math.cos(4 * degrees), 0, (front ? 1 : -1) * Math.sin(4 * degrees)],
        kind: 'single',
        limit: null,
      },
      slip: [-2, 2],
      phase: 10 * degrees,
      tubeOd: 2,
      axleRatio: 4.88,
    },
  };
}

/** A model of an axle, with its build, asked for contexts. */
export class Vehicle {
  readonly axle: Axle;
  readonly build: Build;
  readonly model: AxleModel;

  constructor(axle: Axle, more: Partial<Build> = {}) {
    this.axle = axle;
    this.build = buildOf(axle, more);
    this.model = modelOf(axle);
  }

  pose(left: number, right: number, steer = 0): Pose {
    const { pose, status, part } = this.model.pose(left, right, steer);
    if (!pose) throw new Error(`no pose ${left}/${right}/${steer}: ${status} ${part}`);
    return pose;
  }

  at(left: number, right: number, steer = 0): MeasureContext {
    return this.contextOf(this.pose(left, right, steer));
  }

  /** The context at a pose next to another one. */
  near(neighbor: Pose, left: number, right: number, steer: number): MeasureContext {
    const { pose, status, part } = this.model.near(neighbor, left, right, steer);
    if (!pose) throw new Error(`no pose ${left}/${right}/${steer}: ${status} ${part}`);
    return this.contextOf(pose);
  }

  contextOf(pose: Pose): MeasureContext {
    return new MeasureContext(this.build, this.axle, this.model, pose);
  }
}
