/** Resolved axles for the solver's tests, made in code: the two fronts of the worked example and pieces to vary. */
import type { Axle, JointEnd, Link, Rod, Steering, Vec3 } from '../../geometry/build/build.ts';
import { assemble } from '../../geometry/mechanism/assemble.ts';
import { type AxleModel, settle } from '../../geometry/pose/model.ts';

const noRates = { radial: null, axial: null, torsional: null, conical: null, bracket: null };

export function end(name: string, at: Vec3, more: Partial<JointEnd> = {}): JointEnd {
  return {
    name,
    at,
    kind: 'ball',
    bolt: null,
    bore: null,
    limit: null,
    clocking: 0,
    housing: null,
    holdsRoll: false,
    rates: noRates,
    shared: null,
    ...more,
  };
}

export function link(name: string, axle: Vec3, chassis: Vec3, more: Partial<Link> = {}): Link {
  return {
    name,
    kind: name === 'track bar' ? 'track bar' : 'link',
    axle: end(`${name}.axle`, axle),
    chassis: end(`${name}.chassis`, chassis),
    length: null,
    tube: null,
    modulus: 29e6,
    rate: null,
    through: [],
    ...more,
  };
}

export function rod(
  name: string,
  from: [Rod['from']['on'], Vec3],
  to: [Rod['from']['on'], Vec3],
): Rod {
  return {
    name,
    from: { on: from[0], at: from[1], stud: null, limit: null },
    to: { on: to[0], at: to[1], stud: null, limit: null },
    length: null,
    tube: null,
    through: [],
    roll: { held: 'clocked', at: 0 },
  };
}

export const frontSteering = (): Steering => ({
  box: {
    axis: { at: [13.5, 18, 27.25], direction: [0, 0, 1] },
    ratio: 16,
    sweep: null,
    wheelsLeft: null,
  },
  pitmanArm: null,
  dragLink: rod(
    'drag link',
    ['pitman arm', [7.25, 18, 27.25]],
    ['right knuckle', [7, -29.5, 23.75]],
  ),
  tieRods: [
    rod(
      'tie rod',
      ['left knuckle', [6.75, 30.75, 17.75]],
      ['right knuckle', [6.75, -30.75, 17.75]],
    ),
  ],
  rams: [],
});

export function front(links: Link[], more: Partial<Axle> = {}): Axle {
  const knuckle = (side: 'left' | 'right') => {
    const s = side === 'left' ? 1 : -1;
    return {
      side,
      kingpin: { lower: [0.42, s * 30.8, 16] as Vec3, upper: [-0.42, s * 29.6, 24] as Vec3 },
      toe: 0,
      camber: 0,
      shaftJoint: null,
      shaftLimit: null,
      steeringStop: { inward: null, outward: null },
    };
  };
  return {
    name: 'front',
    steered: true,
    wheelCenters: 71,
    origin: [0, 0, 20],
    housing: { tubeOd: 3.5, differential: null },
    tire: { diameter: 41.4, width: 13.5, loadedRadius: 20, shoulder: 2, give: 0, rim: null },
    links,
    radiusArms: [],
    sharedJoints: [],
    knuckles: { left: knuckle('left'), right: knuckle('right') },
    steering: frontSteering(),
    shocks: [],
    coils: [],
    bumpStops: [],
    straps: [],
    lines: [],
    swayBar: null,
    driveline: null,
    ...more,
  };
}

const trackBar = (rate: number | null): Link =>
  link('track bar', [3.5, -20.5, 25], [4, 18, 27.75], { rate });

export const longArms = (): Axle =>
  front([
    link('left lower link', [-1.5, 17.5, 16.5], [-38, 15.5, 22]),
    link('right lower link', [-1.5, -17.5, 16.5], [-38, -15.5, 22]),
    link('upper link', [-1, -8, 27], [-33.5, -11, 30.25]),
    trackBar(null),
  ]);

export const shortArms = (): Axle =>
  front([
    link('left lower link', [-1.5, 17.5, 16.5], [-24, 15.5, 21.25], { rate: 12000 }),
    link('right lower link', [-1.5, -17.5, 16.5], [-24, -15.5, 21.25], { rate: 12000 }),
    link('left upper link', [-1, 17, 24.5], [-17.5, 15, 27.5], { rate: 12000 }),
    link('right upper link', [-1, -17, 24.5], [-17.5, -15, 27.5], { rate: 12000 }),
    trackBar(24000),
  ]);

/** Settles an axle or says why not. */
export function modelOf(axle: Axle): AxleModel {
  const assembly = assemble(axle);
  if (!assembly.ok) throw new Error(JSON.stringify(assembly.problems));
  const settled = settle(assembly.mechanism);
  if (!settled.ok) throw new Error(JSON.stringify(settled.problems));
  return settled.model;
}
