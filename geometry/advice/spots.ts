/**
 * What is taped in one go: a part with its ends and bends, or a thing that stands near. Entries are grouped by it,
 * since nobody crawls under a vehicle three times for one link, and what has lengths of its own would have one that it
 * cannot have with one end taped and the other assumed.
 */
import type { Axle, Build } from '../build/build.ts';
import { partWords } from '../finding/words.ts';

/**
 * The spot that an entry belongs to, as the path that all of its entries begin with.
 *
 * @example spotOf('axles["front"].links["lower link"].chassis.at[2]') // 'axles["front"].links["lower link"]'
 */
export function spotOf(path: string): string {
  const [whole] = /^(?:solids|dimensions|datums)\["(?:[^"\\]|\\.)*"\]/.exec(path) ?? [];
  if (whole !== undefined) return whole;
  const axle = /^axles\["\w+"\]\./.exec(path)?.[0];
  if (axle === undefined) return path.replace(/[[.].*$/, '');
  const rest = path.slice(axle.length);
  return axle + (PART.exec(rest)?.[0] ?? rest);
}

const PART =
  /^(?:(?:links|shocks|coils|bumpStops|straps|lines|joints|steering\.rams)\["(?:[^"\\]|\\.)*"\]|steering\.\w+|housing\.\w+|knuckles\.(?:(?:left|right)\.)?\w+|\w+)/;

/** What to tape, in words: 'the frame end of the lower link', 'the bends of the track bar'. */
export function spotWords(build: Build, axle: Axle | null, spot: string): string {
  const names = [...spot.matchAll(/\["((?:[^"\\]|\\.)*)"\]/g)].map(([, name]) => name ?? '');
  const isOfAxle = spot.startsWith('axles');
  const name = (isOfAxle ? names[1] : names[0]) ?? null;
  const of = isOfAxle ? spot.replace(/^axles\["\w+"\]\./, '') : spot;
  const steered = /^steering\.(?!rams)(\w+)/.exec(of)?.[1];
  if (steered !== undefined)
    return `the ${STEERING[steered] ?? steered}${RODS.has(steered) ? ' with its ends' : ''}`;
  if (name !== null) {
    const called = axle ? partWords(build, axle, name) : name;
    if (of.startsWith('joints')) return `the largest angle of the ${called}`;
    return `the ${called}${of.startsWith('links') ? ' with its ends' : ''}`;
  }
  return (
    WHOLE[of] ?? `the ${(of.split('.').at(-1) ?? of).replace(/([A-Z])/g, ' $1').toLowerCase()}`
  );
}

const RODS: ReadonlySet<string> = new Set(['dragLink', 'tieRod']);

const STEERING: Readonly<Record<string, string | undefined>> = {
  dragLink: 'drag link',
  tieRod: 'tie rod',
  box: 'steering box',
  pitmanArm: 'pitman arm',
};

const WHOLE: Readonly<Record<string, string | undefined>> = {
  'housing.differential': 'the differential',
  'housing.tube': 'the axle tubes',
  'knuckles.kingpin': 'the ball joints of the knuckle',
  'knuckles.steeringStop': 'the steering stop',
  'knuckles.shaftJoint': 'the joint of the axle shaft',
  'knuckles.shaftLimit': 'the largest angle of the axle shaft joint',
  'knuckles.toe': 'toe',
  'knuckles.camber': 'camber',
  driveline: 'the driveshaft with both of its joints',
  swayBar: 'the sway bar',
  tire: 'the tire',
  wheelCenters: 'the distance between the wheel centers',
  wheelbase: 'the wheelbase',
  weights: 'the weights',
};
