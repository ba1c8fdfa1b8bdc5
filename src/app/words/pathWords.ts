/** Fields of a build file in words: 'Lower link', 'frame end, height, from its datum'. */
import { sentence } from '../../../geometry/finding/words.ts';

export interface PathWords {
  /** Under what it stands in a list: 'Links and arms'. */
  group: string;
  /** Address of the thing that it is a field of: `axles["front"].links["lower link"]`. */
  thing: string;
  /** That thing's name: 'Lower link'. */
  name: string;
  /** Which of its fields: 'frame end, height'. */
  field: string;
}

/** Groups in the order in which lists show them, each with the keys of the file that belong to it. */
export const PART_GROUPS: readonly (readonly [group: string, keys: readonly string[]])[] = [
  ['Links and arms', ['links', 'radiusArms', 'joints', 'sharedJoints']],
  ['Steering', ['steering', 'knuckles']],
  ['Axle and wheels', ['housing', 'tire', 'wheelCenters', 'wheelHeights', 'turned', 'swayBar']],
  ['Springs, stops and lines', ['shocks', 'coils', 'bumpStops', 'straps', 'lines']],
  ['Driveline', ['driveline']],
  ['Drawn parts', ['solids']],
  ['Vehicle', ['wheelbase', 'weights', 'measuredAt', 'dimensions', 'datums']],
  ['What is wanted', ['wanted']],
];

/** Names of things that the file has one of. */
const NAMES: Record<string, string> = {
  housing: 'axle housing',
  wheelCenters: 'wheel centers',
  wheelHeights: 'wheel centers',
  turned: 'axle as measured',
  swayBar: 'sway bar',
  dragLink: 'drag link',
  tieRod: 'tie rod',
  pitmanArm: 'pitman arm',
  box: 'steering box',
  driveline: 'driveshaft',
  measuredAt: 'as measured',
  dimensions: 'named dimensions',
  gaps: 'wanted gap',
  bands: 'wanted band',
  assumedTravel: 'assumed travel',
};

/** Words of keys where they are not the key's own. Empty: the key says nothing to a reader. */
const KEYS: Record<string, string> = {
  at: '',
  point: '',
  value: '',
  by: 'from its datum',
  chassis: 'frame end',
  axle: 'axle end',
  joint: 'joint',
  from: 'first end',
  to: 'second end',
  od: 'OD',
  tube: 'tube',
  wall: 'wall',
  limit: 'largest angle',
  bolt: 'bolt direction',
  stud: 'stud direction',
  bore: 'bore direction',
  direction: 'axis direction',
  normal: 'strike direction',
  housing: 'joint OD',
  rates: '',
  radial: 'radial stiffness',
  axial: 'axial stiffness',
  torsional: 'twist stiffness',
  conical: 'tilt stiffness',
  bracket: 'bracket stiffness',
  lower: 'lower ball joint',
  upper: 'upper ball joint',
  kingpin: '',
  shaftJoint: 'axle shaft joint',
  shaftLimit: 'axle shaft joint, largest angle',
  steeringStop: 'steering stop',
  inward: 'as the inner tire',
  outward: 'as the outer tire',
  axis: 'axis',
  sweep: 'turn of the arm',
  ratio: 'ratio',
  free: 'free length',
  solid: 'length with the turns closed',
  wire: 'wire size',
  turns: 'turns',
  shortest: 'shortest length',
  longest: 'longest length',
  closed: 'length when closed',
  pad: 'pad',
  strike: 'strike plane',
  contactHeight: 'height at first contact',
  solidHeight: 'height when solid',
  curve: 'load curve',
  loadedRadius: 'loaded radius',
  give: 'may give',
  rim: 'wheel',
  transferCase: 'transfer case end',
  pinion: 'pinion end',
  aside: 'aside',
  up: 'up',
  slip: 'slip',
  phase: 'phase of the yokes',
  axleRatio: 'axle ratio',
  leastBendRadius: 'least bend radius',
  capsule: '',
  cylinder: '',
  sphere: '',
  box: '',
  hull: '',
  bentTube: '',
  mesh: '',
  through: 'bend',
  points: 'point',
  required: 'wanted',
  least: 'at least',
  greatest: 'at most',
  frontShare: 'share on the front',
  centerOfGravity: 'center of gravity',
  brakeShareFront: 'front share of the braking',
  driveShareFront: 'front share of the drive',
  rideHeightChange: 'change of ride height',
  rodDiameter: 'rod diameter',
  arms: 'arm',
  endLinks: 'end link',
  cover: 'cover',
  size: '',
};

const POINT = ['fore and aft', 'sideways', 'height'];
/** Last keys before an index that mean something else than a coordinate of a point. */
const INDEXED: Record<string, readonly string[]> = {
  size: ['length', 'width', 'height'],
  bolt: ['forward share', 'left share', 'up share'],
  stud: ['forward share', 'left share', 'up share'],
  bore: ['forward share', 'left share', 'up share'],
  direction: ['forward share', 'left share', 'up share'],
  normal: ['forward share', 'left share', 'up share'],
  axis: ['forward share', 'left share', 'up share'],
  sweep: ['to the right', 'to the left'],
  slip: ['shorter', 'longer'],
};

type Step = string | number | { name: string };

/** `axles["front"].links["lower link"].at[0]` in steps: keys, names in quotes, indices. */
function stepsOf(path: string): Step[] {
  const steps: Step[] = [];
  for (const [, key, quoted, index] of path.matchAll(
    /([A-Za-z]\w*)|\[("(?:[^"\\]|\\.)*")\]|\[(\d+)\]/g,
  )) {
    if (key !== undefined) steps.push(key);
    else if (quoted !== undefined) steps.push({ name: JSON.parse(quoted) as string });
    else steps.push(Number(index));
  }
  return steps;
}

const isName = (step: Step | undefined): step is { name: string } => typeof step === 'object';

/** 'leastBendRadius' → 'least bend radius'. */
const spaced = (key: string): string => key.replace(/[A-Z]/g, c => ` ${c.toLowerCase()}`);

const known = new Map<string, PathWords>();

/** A field's path in words. Lists of all fields ask for the same ones again with each change. */
export function pathWords(path: string): PathWords {
  const words = known.get(path) ?? wordsOf(path);
  known.set(path, words);
  return words;
}

function wordsOf(path: string): PathWords {
  const steps = stepsOf(path);
  const isOfAxle = steps[0] === 'axles';
  const start = isOfAxle ? 2 : 0;
  const key = String(steps[start] ?? '');
  const group = PART_GROUPS.find(([, keys]) => keys.includes(key))?.[0] ?? 'Vehicle';
  // how many steps name the thing: a list's key and the name, `steering.box`, or one key
  let count = 1;
  const next = steps[start + 1];
  if (key === 'dimensions') count = 2;
  else if (isName(next)) count = 2;
  else if (key === 'steering' || key === 'wanted') {
    count = isName(steps[start + 2]) || typeof steps[start + 2] === 'number' ? 3 : 2;
  }
  if (key === 'steering' && next === 'tieRod') count = 2;
  const last = steps[start + count - 1];
  const named = steps[start + count - 2];
  const name = isName(last)
    ? last.name
    : typeof last === 'number'
      ? `${NAMES[String(named)] ?? spaced(String(named))} ${last + 1}`
      : (NAMES[String(last)] ?? spaced(String(last)));
  const isNamedNumber = key === 'dimensions';
  return {
    group,
    thing: addressOf(steps.slice(0, isNamedNumber ? 1 : start + count)),
    name: sentence(isNamedNumber ? 'named dimensions' : name),
    field: isNamedNumber && isName(next) ? next.name : fieldWords(steps.slice(start + count)),
  };
}

function addressOf(steps: readonly Step[]): string {
  return steps
    .map((step, i) =>
      isName(step)
        ? `[${JSON.stringify(step.name)}]`
        : typeof step === 'number'
          ? `[${step}]`
          : i === 0
            ? step
            : `.${step}`,
    )
    .join('');
}

function fieldWords(steps: readonly Step[]): string {
  const words: string[] = [];
  for (let i = 0; i < steps.length; i++) {
    const step = steps[i];
    if (step === undefined) continue;
    if (isName(step)) {
      words.push(step.name);
      continue;
    }
    if (typeof step === 'number') {
      const before = [...steps.slice(0, i)].reverse().find(each => typeof each === 'string');
      const isLast = i === steps.length - 1 || steps[i + 1] === 'by';
      const isItem = !isLast || before === 'curve';
      if (isItem && typeof steps[i - 1] === 'number') words.push(step === 0 ? 'height' : 'load');
      else if (isItem || typeof steps[i - 1] === 'number')
        words.push(isItem ? String(step + 1) : (POINT[step] ?? String(step + 1)));
      else words.push((INDEXED[String(before)] ?? POINT)[step] ?? String(step + 1));
      continue;
    }
    // a ram's bore is a diameter, a joint's a direction
    const isDiameter = step === 'bore' && typeof steps[i + 1] !== 'number';
    const text = isDiameter ? 'bore' : (KEYS[step] ?? spaced(step));
    if (text !== '') words.push(text);
  }
  return joined(words);
}

/** 'tube', 'OD' → 'tube OD'; 'bend', '1', 'height' → 'bend 1, height'. */
function joined(words: readonly string[]): string {
  let out = '';
  for (const [i, word] of words.entries()) {
    const before = words[i - 1] ?? '';
    const close =
      /^\d+$/.test(word) ||
      (/^(OD|wall|diameter|length|width|radius)$/.test(word) &&
        /^(tube|body|shaft|wheel|cover|differential)$/.test(before));
    out += i === 0 ? word : close ? ` ${word}` : `, ${word}`;
  }
  return out;
}
