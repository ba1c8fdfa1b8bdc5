/**
 * Findings from gaps: things that touch, things that come nearer than is asked, and drawn solids that could not be
 * made. Pieces of the same two things, such as a differential and its cover against the drag link, are one finding.
 */
import type { Axle } from '../build/build.ts';
import { type ClearPart, clearPart } from '../gap/clearPart.ts';
import type { AxleGaps } from '../gap/gapReport.ts';
import { type PairGap, rollsOf } from '../gap/pairGap.ts';
import type { Part, PartKind } from '../gap/part.ts';
import { isHeld } from '../gap/roll.ts';
import { SHOWN } from '../measure/measure.ts';
import { extentOf } from './extent.ts';
import type { FieldsOf } from './fields.ts';
import type { Draft } from './finding.ts';
import { lengthWords, listed, partWords, riseWords, type Shop, seat, sentence } from './words.ts';

/** Its kinds, worst first. */
export const gapKinds = ['partsTouch', 'gapShort', 'solidLeftOut'] as const;

/** What there is to know from the gaps of an axle. */
export function gapDrafts(gaps: AxleGaps): Draft[] {
  const groups = new Map<string, PairGap[]>();
  for (const found of gaps.gaps) {
    const { a, b } = found.pair;
    if (found.gap >= found.pair.required && found.gap >= 0) continue;
    const key = JSON.stringify([a.of, b.of].sort());
    groups.set(key, [...(groups.get(key) ?? []), found]);
  }
  return [...[...groups.values()].map(group => draftOf(gaps, group)), ...leftOut(gaps)];
}

function draftOf(gaps: AxleGaps, group: PairGap[]): Draft {
  const { build, axle } = gaps.walk;
  const touching = group.filter(({ gap }) => gap < 0);
  const isHit = touching.length > 0;
  const worst = group.reduce((least, each) =>
    (isHit ? each.gap < least.gap : spare(each) < spare(least)) ? each : least,
  );
  const { gap, pair, pose } = worst;
  const [subject, object] = inOrder(pair.a, pair.b);
  const [one, other] = [subject, object].map(part => partWords(build, axle, part.name));
  const of = [subject, object].map(part => fieldsOfPart(part, axle));
  const common = {
    parts: [subject.name, object.name],
    pose,
    fields: of.flatMap(each => each.fields),
    paths: [
      ...of.flatMap(each => each.paths),
      ...(pair.asked === null ? [] : [`wanted.gaps[${pair.asked}]`]),
    ],
    assumed: subject.assumed || object.assumed,
    linkRoll: rollsOf(worst),
  };
  const rolled = rollWords(build, axle, worst);
  const asked = { value: pair.required, unit: 'in' };
  if (!isHit) {
    const why = pair.asked === null ? 'common practice' : pair.why;
    return {
      ...common,
      kind: 'gapShort',
      severity: 'watch',
      amount: { value: gap, unit: 'in' },
      others: { asked },
      text: where =>
        `The ${one} ${verb('comes', one)} within ${lengthWords(build, gap)} of the ${other}, parts rigid: ${where}${rolled}. ${sentence(lengthWords(build, pair.required))} is asked for${why ? ` (${why})` : ''}.`,
    };
  }
  const clear = pair.still ? null : clearPart(gaps.walk, gaps.search, touching);
  const depth = lengthWords(build, -gap);
  return {
    ...common,
    kind: 'partsTouch',
    severity: 'mustFix',
    amount: { value: -gap, unit: 'in' },
    others: { asked },
    extent: pair.still
      ? null
      : extentOf(
          gaps.walk,
          build,
          pose,
          ({ pose: at }) => -Math.min(...touching.map(each => gaps.search.gapAt(each.pair, at))),
        ),
    text: where =>
      pair.still
        ? `The ${one} and the ${other} are drawn ${depth} into each other; they ride on one body, and one of them is new.`
        : `The ${one} ${verb('hits', one)} the ${other} by ${depth}, parts rigid: ${where}${rolled}${clear ? `; ${clearWords(build, clear)}` : ''}.`,
  };
}

/** 'hits', or 'hit' of what is told in the plural: 'axle tubes'. */
const verb = (one: string, subject = ''): string =>
  /[^s]s$/.test(subject) ? one.replace(/s$/, '') : one;

/** ', with the track bar rolled 12.5° from where it is drawn': of what is free to roll, where it is not as drawn. */
function rollWords(shop: Shop, axle: Axle, { pair, rollA, rollB }: PairGap): string {
  const words = new Set<string>();
  for (const [{ roll }, angle] of [
    [pair.a, rollA],
    [pair.b, rollB],
  ] as const) {
    const degrees = Math.abs(angle) * SHOWN.deg;
    if (!roll || isHeld(roll) || degrees < TOLD_deg) continue;
    words.add(`the ${partWords(shop, axle, roll.of.name)} rolled ${degrees.toFixed(1)}°`);
  }
  return words.size === 0 ? '' : `, with ${listed([...words])} from where it is drawn`;
}

/** A smaller roll is not told, deg: it would read 0.0°. */
const TOLD_deg = 0.05;

/** What is left of a gap after what is asked, in. */
const spare = ({ gap, pair }: PairGap): number => gap - pair.required;

/** 'clear below 3 1/4 up on the passenger side'. The bound is told on its clear side. */
function clearWords(shop: Shop, { of, side, travel }: ClearPart): string {
  const sixteenths = 16 * travel;
  const told = (side === 'below' ? Math.floor(sixteenths) : Math.ceil(sixteenths)) / 16;
  const whose = of === 'both' ? ', mean of both sides' : ` on the ${seat(shop, of)} side`;
  return `clear ${side} ${riseWords(shop, told).replace(/^at /, '')}${whose}`;
}

/** Who hits whom: rods hit what they pass, tires hit what stands, and all hit what is drawn. */
const SUBJECTS: readonly PartKind[] = [
  'trackBar',
  'dragLink',
  'tieRod',
  'ram',
  'ramBracket',
  'link',
  'radiusArm',
  'driveshaft',
  'shock',
  'reservoir',
  'pitmanArm',
  'tire',
  'wheel',
  'coil',
  'knuckle',
  'swayBarLink',
  'swayBar',
  'bumpStop',
  'differential',
  'housing',
  'drawn',
];

function inOrder(a: Part, b: Part): [Part, Part] {
  if (a.kind === 'drawn' && b.kind === 'drawn' && a.body === 'chassis') return [b, a];
  return SUBJECTS.indexOf(a.kind) <= SUBJECTS.indexOf(b.kind) ? [a, b] : [b, a];
}

/** Fields of a part that its shape and its place hang on. */
const SHAPE = /^(?!\.(rates|curve|notes|weight))/;

function fieldsOfPart(part: Part, axle: Axle): { fields: FieldsOf[]; paths: string[] } {
  const at = `axles["${axle.name}"]`;
  const own = (name: string): { fields: FieldsOf[]; paths: string[] } => ({
    fields: [{ part: name, only: SHAPE }],
    paths: [],
  });
  const paths = (...list: string[]): { fields: FieldsOf[]; paths: string[] } => ({
    fields: [],
    paths: list,
  });
  switch (part.kind) {
    case 'housing':
      return paths(`${at}.housing.tube`, `${at}.knuckles`);
    case 'differential':
      return paths(`${at}.housing.differential`);
    case 'tire':
    case 'wheel':
      return paths(`${at}.tire`, `${at}.wheelCenters`);
    case 'pitmanArm':
      return paths(`${at}.steering.pitmanArm`, `${at}.steering.box`);
    case 'swayBar':
    case 'swayBarLink':
      return paths(`${at}.swayBar`);
    case 'drawn': {
      const side = /^(?:left|right) (.*)$/.exec(part.name);
      const names = [part.name, ...(side?.[1] === undefined ? [] : [side[1]])];
      return paths(...names.map(name => `solids[${JSON.stringify(name)}]`));
    }
    case 'ram':
    case 'ramBracket':
    case 'shock':
    case 'reservoir':
      return own(part.of);
    default:
      return own(part.name);
  }
}

function leftOut({ problems, walk }: AxleGaps): Draft[] {
  return problems.map(({ part, problem }) => ({
    kind: 'solidLeftOut',
    severity: 'watch',
    parts: [part],
    pose: walk.model.ride,
    amount: { value: 1, unit: '1' },
    fields: [],
    paths: [`solids[${JSON.stringify(part)}]`],
    text: () => `The ${part} could not be made and is compared with nothing. ${sentence(problem)}.`,
  }));
}
