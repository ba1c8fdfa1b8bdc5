/**
 * What is taped in one go: a point with all that it takes to place it, the bends of a bar, a spring with both of its
 * ends, a thing that stands near. Entries are grouped by it, since nobody crawls under a vehicle three times for one bolt.
 */
import type { Axle, Build } from '../build/build.ts';
import { partWords } from '../finding/words.ts';

/**
 * The spot that an entry belongs to, as the path that all of its entries begin with.
 *
 * @example spotOf('axles["front"].links["lower link"].chassis.at[2]') // 'axles["front"].links["lower link"].chassis'
 */
export function spotOf(path: string): string {
  const [whole] = /^(?:solids|dimensions|datums)\["(?:[^"\\]|\\.)*"\]/.exec(path) ?? [];
  if (whole !== undefined) return whole;
  const axle = /^axles\["\w+"\]\./.exec(path)?.[0];
  if (axle === undefined) return path.replace(/[[.].*$/, '');
  const rest = path.slice(axle.length);
  // what has lengths of its own is taped as a whole: with one end alone it would have a length that it cannot have
  const [own] = WHOLE_PARTS.exec(rest) ?? [];
  if (own !== undefined) return axle + own;
  const [link] = /^links\["(?:[^"\\]|\\.)*"\]/.exec(rest) ?? [];
  if (link !== undefined) return axle + link + endOf(rest.slice(link.length));
  const steering = /^steering\.\w+/.exec(rest)?.[0];
  if (steering !== undefined) return axle + steering + endOf(rest.slice(steering.length));
  const [group = rest] =
    /^(?:housing\.differential|housing\.tube|knuckles\.kingpin|knuckles\.(?:left|right)\.kingpin|knuckles\.\w+|swayBar|tire|\w+)/.exec(
      rest,
    ) ?? [];
  return axle + group;
}

/** Springs, hoses, rams and the driveshaft; a tie rod's ends sit on arms that are alike; a joint is a limit off a tag. */
const WHOLE_PARTS =
  /^(?:(?:shocks|coils|bumpStops|straps|lines|joints|steering\.rams)\["(?:[^"\\]|\\.)*"\]|steering\.tieRod|driveline)/;

/** `.chassis`, `.axle` (of a radius arm: both of its bolts), `.through` of a part; all else of it is its data, ''. */
function endOf(rest: string): string {
  const end = /^\.(?:axle|chassis|through|from|to|axis)/.exec(rest)?.[0];
  if (end === undefined || isData(rest)) return '';
  return end;
}

/** A joint's limit, a tube's size: read off the part, not taped in place. */
const isData = (rest: string): boolean =>
  /\.(?:limit|stud|radius|bolt|bore|clocking)(?:\[|$)/.test(rest);

/** What to tape, in words: 'the frame end of the lower link', 'the bends of the track bar'. */
export function spotWords(build: Build, axle: Axle | null, spot: string): string {
  const names = [...spot.matchAll(/\["((?:[^"\\]|\\.)*)"\]/g)].map(([, name]) => name ?? '');
  const isOfAxle = spot.startsWith('axles');
  const name = (isOfAxle ? names[1] : names[0]) ?? null;
  const of = isOfAxle ? spot.replace(/^axles\["\w+"\]\./, '') : spot;
  const last = /\.(\w+)(?:\[[01]\])?$/.exec(of)?.[1] ?? '';
  const end = ENDS[last];
  if (of.startsWith('steering.')) return steeringWords(of, name, end);
  if (name !== null) {
    const called = axle ? partWords(build, axle, name) : name;
    if (of.startsWith('joints')) return `the largest angle of the ${called}`;
    return end
      ? `the ${end} of the ${called}`
      : DATA.test(of)
        ? `the data of the ${called}`
        : `the ${called}`;
  }
  return (
    WHOLE[of] ?? `the ${(of.split('.').at(-1) ?? of).replace(/([A-Z])/g, ' $1').toLowerCase()}`
  );
}

/** Parts whose own sizes are taped apart from their ends. */
const DATA = /^links/;

function steeringWords(of: string, name: string | null, end: string | undefined): string {
  if (name !== null) return `the ${name}`;
  const part = /^steering\.(\w+)/.exec(of)?.[1] ?? '';
  const called =
    { dragLink: 'drag link', tieRod: 'tie rod', box: 'steering box', pitmanArm: 'pitman arm' }[
      part
    ] ?? part;
  if (part === 'tieRod') return 'the tie rod with its ends and bends';
  return end ? `the ${end} of the ${called}` : `the data of the ${called}`;
}

const ENDS: Readonly<Record<string, string | undefined>> = {
  axle: 'axle end',
  chassis: 'frame end',
  through: 'bends',
  from: 'first end',
  to: 'other end',
  axis: 'shaft',
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
