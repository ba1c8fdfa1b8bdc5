/** A front axle with every part that a finding may be of, and nothing wrong with any of them. */
import type { Axle, Build, Vec3 } from '../../geometry/build/build.ts';
import { type AxleWalk, walkAxle } from '../../geometry/cycle/walkReport.ts';
import { type Finding, findFindings } from '../../geometry/finding/finding.ts';
import { bumpStops, opened, SIDES, shocks } from '../cycle/made.ts';
import { longArms } from '../pose/layouts.ts';

export const degrees = Math.PI / 180;

const y = (side: 'left' | 'right'): 1 | -1 => (side === 'left' ? 1 : -1);
const across: Vec3 = [0, 1, 0];
const ahead: Vec3 = [1, 0, 0];
const up: Vec3 = [0, 0, 1];

/** Joints with bolts and limits on links, track bar and steering rods of any axle. */
export function jointed(axle: Axle, limit = 30 * degrees): Axle {
  const { steering } = axle;
  const studs = (rod: NonNullable<typeof steering>['tieRods'][number]) => ({
    ...rod,
    from: { ...rod.from, stud: up, limit },
    to: { ...rod.to, stud: up, limit },
  });
  return {
    ...axle,
    links: axle.links.map(link => {
      const bolt = link.kind === 'track bar' ? ahead : across;
      return {
        ...link,
        axle: { ...link.axle, bolt, limit },
        chassis: { ...link.chassis, bolt, limit },
      };
    }),
    steering: steering && {
      ...steering,
      dragLink: steering.dragLink && studs(steering.dragLink),
      tieRods: steering.tieRods.map(studs),
    },
  };
}

/** Stops, springs, lines and driveline for any front axle. */
export function equipped(axle: Axle): Axle {
  const { knuckles, steering } = axle;
  const stops = { inward: 30 * degrees, outward: null };
  return {
    ...axle,
    knuckles: knuckles && {
      left: { ...knuckles.left, shaftLimit: 40 * degrees, steeringStop: stops },
      right: { ...knuckles.right, shaftLimit: 40 * degrees, steeringStop: stops },
    },
    steering: steering && {
      ...steering,
      box: steering.box && { ...steering.box, sweep: [-50 * degrees, 50 * degrees] },
      rams: steering.box
        ? [
            {
              name: 'assist ram',
              kind: 'single',
              body: { on: 'axle', at: [4.25, -1.5, 20.25], diameter: 2 },
              axis: null,
              rod: { on: 'tie rod', at: [4.5, -24.25, 18.5] },
              closed: 18,
              stroke: 10,
              bore: 1.75,
              rodDiameter: 0.75,
            },
          ]
        : steering.rams,
    },
    shocks: shocks({ shortest: 17, longest: 31 }),
    straps: SIDES.map(side => ({
      name: `${side} strap`,
      side,
      axle: [2, y(side) * 16, 20],
      chassis: [2, y(side) * 15, 34],
      length: 19,
    })),
    coils: SIDES.map(side => ({
      name: `${side} coil`,
      side,
      axle: [0.5, y(side) * 17.5, 23.75],
      chassis: [1, y(side) * 17.5, 38],
      free: 27,
      rate: 150,
      wire: null,
      turns: null,
      diameter: null,
      solid: 6,
    })),
    bumpStops: bumpStops(3),
    lines: SIDES.map(side => ({
      name: `${side} brake hose`,
      from: { on: `${side} knuckle`, at: [-2, y(side) * 28, 22] },
      to: { on: 'chassis', at: [-4, y(side) * 16, 30] },
      length: 30,
      leastBendRadius: null,
      diameter: null,
    })),
    driveline: {
      pinion: {
        joint: [-10.5, 9.5, 21],
        axis: [-Math.cos(7 * degrees), 0, Math.sin(7 * degrees)],
        kind: 'single',
        limit: 35 * degrees,
      },
      transferCase: {
        joint: [-47, 8, 28.5],
        axis: [Math.cos(4 * degrees), 0, -Math.sin(4 * degrees)],
        kind: 'single',
        limit: 35 * degrees,
      },
      slip: [-4, 4],
      phase: 0,
      tubeOd: 2,
      axleRatio: 4.88,
    },
  };
}

export const faultless = (): Axle => equipped(jointed(longArms()));

export function walked(axle: Axle, more: Partial<Build> = {}): AxleWalk {
  const { build, model } = opened(axle, more);
  return walkAxle(build, axle, model, { path: 'both', extremes: false });
}

/** Findings of an axle in a build with nothing else in it. */
export function findingsOf(axle: Axle, more: Partial<Build> = {}): Finding[] {
  const walk = walked(axle, more);
  return findFindings(walk.build, [walk]);
}
