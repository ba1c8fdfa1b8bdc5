/** What a finding says on screens, from its kind, parts and amounts: a row's title, and the sentence that leads. */
import type { Axle, Build } from '../../../geometry/build/build.ts';
import type { Finding } from '../../../geometry/finding/finding.ts';
import { listed, partWords, type Shop, seat, sentence } from '../../../geometry/finding/words.ts';
import { limits } from '../../../geometry/limit/list.ts';
import { measures } from '../../../geometry/measure/list.ts';
import type { Measure } from '../../../geometry/measure/measure.ts';

export interface FindingWords {
  /** A few words for a row: 'Driver tire hits gear housing'. */
  title: string;
  /** The sentence that leads, before and behind its amount: 'Driver tire hits the gear housing by', '.'. */
  before: string;
  after: string;
  /** False where the amount says nothing: the sentence then stands without it. */
  hasAmount: boolean;
  /** What the amount is, beside it: 'short', 'left'. Empty for gaps. */
  note: string;
}

/** What words of findings need to know. */
export interface Told {
  shop: Shop;
  build: Build;
  axle: Axle;
}

/** True of findings whose amount is the gap of two parts. */
export const isGap = ({ kind }: Pick<Finding, 'kind'>): boolean =>
  kind === 'partsTouch' || kind === 'gapShort';

/** A gap finding's gap, in, negative where it overlaps; null for the others. */
export function gapOf({ kind, amount }: Pick<Finding, 'kind' | 'amount'>): number | null {
  if (kind === 'partsTouch') return -amount.value;
  return kind === 'gapShort' ? amount.value : null;
}

/** 'hits', or 'hit' of what is told in the plural. */
const verb = (one: string, subject: string): string =>
  /[^s]s$/.test(subject) ? one.replace(/s$/, '') : one;

/** The measure whose band a finding is about: the band is named by what the finding hangs on. */
export function measureOf(build: Build, { hangsOn }: Finding): Measure | null {
  for (const path of hangsOn) {
    const index = /^wanted\.bands\[(\d+)\]/.exec(path)?.[1];
    const band = index === undefined ? undefined : build.wanted.bands[Number(index)];
    const measure = band && measures.find(({ id }) => id === band.measure);
    if (measure) return measure;
  }
  return null;
}

export function findingWords(told: Told, finding: Finding): FindingWords {
  const { shop, axle, build } = told;
  const words = finding.parts.map(part => partWords(shop, axle, part));
  const [one = 'axle', other = ''] = words;
  const subject = sentence(one);
  const all = listed(words);
  const limit = limits.find(({ id }) => id === finding.limit)?.label ?? 'limit';
  const say = (
    title: string,
    before: string,
    after = '.',
    note = '',
    hasAmount = true,
  ): FindingWords => ({ title, before, after, note, hasAmount });
  switch (finding.kind) {
    case 'partsTouch': {
      if (finding.extent === undefined && isAtRide(finding)) {
        return say(
          `${subject} drawn into ${other}`,
          `${subject} and ${other} are drawn`,
          ' into each other.',
        );
      }
      const hits = verb('hits', one);
      return say(`${subject} ${hits} ${other}`, `${subject} ${hits} the ${other} by`);
    }
    case 'gapShort':
      return say(
        `${subject} close to ${other}`,
        `${subject} ${verb('comes', one)} within`,
        ` of the ${other}.`,
      );
    case 'solidLeftOut':
      return say(`${subject} left out`, `${subject} could not be made`, '.', '', false);
    case 'slackUsedUp':
      switch (finding.limit) {
        case 'lineLength':
          return say(`${subject} too short`, `${subject} is`, ' too short.', 'short');
        case 'coilUnseated':
          return say(
            `${subject} comes off its seat`,
            `${subject} comes off its seat by`,
            '.',
            'off',
          );
        default:
          return say(`${subject}: ${limit}`, `${subject}: ${limit} by`, '.', 'over');
      }
    case 'limitBroken':
      switch (finding.limit) {
        case 'overCenter':
          return say(`${subject} goes over center`, `${subject} goes over center`, '.', '', false);
        case 'jointMisalignment':
          return say(
            `${subject} past its misalignment`,
            `${subject} goes past its misalignment by`,
            '.',
            'over',
          );
        case 'driveshaftJoint':
          return say(`${subject} past its angle`, `${subject} goes past its angle by`, '.', 'over');
        default:
          return say(`${subject}: ${limit}`, `${subject}: ${limit} by`, '.', 'over');
      }
    case 'nearOverCenter':
      return say(`${subject} near over-center`, `${subject} comes near over-center: a margin of`);
    case 'nearLimit':
      return say(`${subject} near its limit`, `${subject} has`, ` left to its limit.`, 'left');
    case 'outOfBand': {
      const label = sentence(measureOf(build, finding)?.label ?? 'value');
      const { side } = finding;
      const of = words.length > 0 ? ` of ${all}` : side ? ` on the ${seat(shop, side)} side` : '';
      return say(
        `${label}${of} out of its band`,
        `${label}${of} leaves the wanted band by`,
        '.',
        'out',
      );
    }
    case 'bandNotChecked':
      return say('A wanted band is not checked', 'A wanted band is not checked', '.', '', false);
    case 'bind':
      return say(`${sentence(all)} bind`, `The layout binds: the ${one} takes`);
    case 'slop':
      return say(`${subject} has slop`, `${subject} rolls`, ' before it works.', '', true);
    case 'upTravelEnds':
    case 'droopEnds': {
      const what = finding.kind === 'upTravelEnds' ? 'Up-travel' : 'Droop';
      const way = finding.kind === 'upTravelEnds' ? 'up' : 'down';
      return say(`${what} ends: ${limit}`, `${what} ends at`, ` ${way}: ${limit}.`, way);
    }
    case 'unstopped':
      return say('Nothing stops the travel', 'Nothing stops the travel at', '.', 'assumed');
    case 'noSteeringStop':
      return say('No steering stop', 'No steering stop ends the turn at', '.', 'turned');
    case 'steeringEndsEarly':
      return say(
        `${subject} ends the turn before its stop`,
        `${subject} ends the turn`,
        ' before the steering stop.',
        'early',
      );
    case 'padSlidOff':
      return say(`${subject}: pad off its strike plate`, `${subject}: the pad has slid off by`);
    case 'ramMovesWithTravel':
      return say(`${subject} moves with travel`, `${subject} moves with travel by`);
    case 'givenLength':
      return say('A given length moves the axle', 'A given length moves the axle by', '.', 'moved');
    case 'bracketRatesAssumed':
      return say('Bracket stiffness is assumed', 'Bracket stiffness is assumed', '.', '', false);
    case 'rideOutsideRange':
      return say('Ride height is past a stop', 'Ride height is past a stop by', '.', 'past');
    case 'noPose':
      return say('The axle runs out of reach', 'The axle runs out of reach at', '.');
    case 'rangeInPieces':
      return say('The travel falls into pieces', 'The travel falls into pieces', '.', '', false);
    default: {
      const first = /^[^.:]*/.exec(finding.text)?.[0] ?? finding.text;
      return say(first, first, '.', '', false);
    }
  }
}

const isAtRide = ({ pose }: Finding): boolean =>
  pose.left_in === 0 && pose.right_in === 0 && (pose.steer?.value ?? 0) === 0;

/** 'Two touch, three close.': what a set of findings comes to. */
export function summaryWords(findings: readonly Finding[], isFinal: boolean): string {
  const count = (kind: string): number => findings.filter(each => each.kind === kind).length;
  const [touch, close] = [count('partsTouch'), count('gapShort')];
  const others = findings.filter(each => !isGap(each) && each.severity === 'mustFix').length;
  const said = [
    touch > 0 ? `${numberWord(touch)} touch` : '',
    close > 0 ? `${numberWord(close)} close` : '',
    others > 0 ? `${numberWord(others)} more to fix` : '',
  ].filter(each => each !== '');
  if (said.length === 0) return isFinal ? 'Nothing found that touches.' : 'Nothing touches so far.';
  return `${sentence(said.join(', '))}${isFinal ? '' : ' so far'}.`;
}

const NUMBERS = 'no one two three four five six seven eight nine ten eleven twelve'.split(' ');

/** 'two'; digits from thirteen on. */
export const numberWord = (count: number): string => NUMBERS[count] ?? String(count);
