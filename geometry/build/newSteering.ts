/** Steering as it is added to an axle that stands: all of it by a layout, or one ram more. */
import { add, distance, scale, sub } from '../vector.ts';
import type { Axle, Build, Rod, Vec3 } from './build.ts';
import type { RamEnds } from './newParts.ts';
import { PointPen } from './pointPen.ts';
import type { BuildFile } from './schema/file.ts';
import type { SteeringLayoutId } from './start/layouts.ts';
import { placeIn } from './start/placeIn.ts';
import { proposeKnuckles, proposeSteering } from './start/steering.ts';
import { guess } from './start/value.ts';

/** Fields of the axle with the steering of a layout, by the rules that a new build is proposed by. */
export function newSteering(
  layout: SteeringLayoutId,
  build: Build,
  file: BuildFile,
  axle: Axle,
): Record<string, unknown> {
  const place = placeIn(build, axle, layout);
  const isBench = file.axles.find(({ name }) => name === axle.name)?.frame === 'bench';
  const proposed = {
    ...(axle.steered ? {} : { steered: true }),
    ...(axle.knuckles ? {} : { knuckles: proposeKnuckles(place) }),
    steering: proposeSteering(place),
  };
  return isBench ? (fromGround(proposed) as typeof proposed) : proposed;
}

/** Keys whose three numbers are a direction: they say which way, not where. */
const DIRECTIONS = new Set(['stud', 'direction', 'axis']);

/** The same with its points in vehicle axes, on an axle whose points are taped on the bench. */
function fromGround(value: unknown, key = ''): unknown {
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) {
    const isPoint = value.length === 3 && value.every(each => isEntry(each));
    if (isPoint && !DIRECTIONS.has(key)) return { from: 'ground', by: value, frame: 'vehicle' };
    return value.map(each => fromGround(each));
  }
  return Object.fromEntries(Object.entries(value).map(([k, each]) => [k, fromGround(each, k)]));
}

const isEntry = (value: unknown): boolean =>
  typeof value === 'object' && value !== null && 'value' in value;

/** From the ram's body to its rod's end, straight ahead, in: common practice, no source. */
const BODY = { axle: [-0.25, 22, 2], chassis: [1, 17, 3] } as const;
const STROKE_in = 8;

/**
 * A single-ended ram, straight across, which stands at half of its stroke straight ahead.
 *
 * @throws RangeError where nothing on the axle is there for it to push
 */
export function newRam(
  name: string,
  { body, rod }: RamEnds,
  build: Build,
  file: BuildFile,
  axle: Axle,
): { name: string } & Record<string, unknown> {
  const pen = new PointPen(build, file, axle);
  // a second one lies the other way round, so that both have room
  const isOdd = (axle.steering?.rams.length ?? 0) % 2 === 1;
  const isLeft = (build.driverSide === 'left') !== isOdd;
  const end = pushedAt(axle, rod, isLeft ? 'left' : 'right');
  const [dx, dy, dz] = BODY[body];
  // towards the middle of the vehicle, and past it
  const base = add(end, [dx, end[1] > 0 ? -dy : dy, dz]);
  const long = distance(base, end);
  return {
    name,
    kind: 'single',
    body: { on: body, at: pen.point(base, body), diameter: guess('2 in', '1/4 in') },
    rod: { on: rod, at: pen.point(end, 'axle', 1.5) },
    closed: pen.length(long - STROKE_in / 2, 0.5),
    stroke: pen.length(STROKE_in, 0.5),
    bore: guess('1 3/4 in', '1/4 in'),
    rodDiameter: guess('3/4 in', '1/8 in'),
  };
}

/** Where it pushes: a rod near its end across from the ram's body, a knuckle inside its steering arm. */
function pushedAt({ steering, knuckles }: Axle, rod: RamEnds['rod'], from: 'left' | 'right'): Vec3 {
  const away = from === 'left' ? -1 : 1;
  const along = (of: Rod | undefined | null, share: number): Vec3 => {
    if (!of) throw new RangeError(`there is no ${rod} to push`);
    const ends = [of.from.at, of.to.at].sort((a, b) => away * (b[1] - a[1]));
    const [far, near] = ends as [Vec3, Vec3];
    return add(far, scale(sub(near, far), share));
  };
  switch (rod) {
    case 'tie rod':
      return along(steering?.tieRods[0], 0.12);
    case 'drag link':
      return along(steering?.dragLink, 0.2);
    default: {
      const knuckle = knuckles?.[rod === 'left knuckle' ? 'left' : 'right'];
      const arm = [...(steering?.tieRods ?? []), steering?.dragLink]
        .flatMap(of => (of ? [of.from, of.to] : []))
        .find(({ on }) => on === rod);
      if (!knuckle || !arm) throw new RangeError(`there is no ${rod} to push`);
      // on the same arm, a little nearer to the kingpin and above the rod's stud
      const { lower } = knuckle.kingpin;
      return [lower[0] + 0.8 * (arm.at[0] - lower[0]), arm.at[1], arm.at[2] + 1.5];
    }
  }
}
