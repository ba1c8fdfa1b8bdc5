/**
 * Must-not-reach limits that are met inside the range, or nearly: joints, U-joints, axle shafts; slack of lines,
 * splines and coils; steering rods and sway bars near over-center.
 */
import type { Axle } from '../build/build.ts';
import { BROKEN } from '../cycle/poseReport.ts';
import type { AxleWalk } from '../cycle/walkReport.ts';
import type { LimitId } from '../limit/limit.ts';
import { MeasureContext, SHOWN } from '../measure/measure.ts';
import { rollingOf, rollingParts } from '../measure/rolling.ts';
import type { Pose } from '../pose/pose.ts';
import { extentOf } from './extent.ts';
import { type FieldsOf, JOINT, SPAN } from './fields.ts';
import type { Draft, Rule } from './finding.ts';
import { beyond, type LeastMargin, leastMargins } from './margins.ts';
import { rodsOutOfReach } from './range.ts';
import { amountWords, partWords, sentence } from './words.ts';

/** What a sentence is made of. */
interface Told {
  /** 'the axle end of the driver lower link' */
  part: string;
  /** The margin without its sign. */
  size: string;
  /** What the limit allows. */
  allowed: string;
  end: number;
}

interface Family {
  broken: 'limitBroken' | 'slackUsedUp';
  near: 'nearLimit' | 'nearOverCenter';
  /** Margin asked for, internal unit. Common practice, no source. */
  asked: number;
  brokenText(told: Told): string;
  nearText(told: Told): string;
  fields(axle: Axle, part: string): FieldsOf[];
}

const degrees = Math.PI / 180;

/** Angles: 2° leave room for wear, and for limits that were read off by eye. */
const joint: Omit<Family, 'fields'> = {
  broken: 'limitBroken',
  near: 'nearLimit',
  asked: 2 * degrees,
  brokenText: ({ part, size, allowed }) => `${part} is turned ${size} past its ${allowed} limit`,
  nearText: ({ part, size, allowed }) => `${part} comes within ${size} of its ${allowed} limit`,
};

const slack = { broken: 'slackUsedUp', near: 'nearLimit' } as const;

export const FAMILIES: Partial<Record<LimitId, Family>> = {
  jointMisalignment: { ...joint, fields: linkJoint },
  driveshaftJoint: {
    ...joint,
    fields: (_, part) => [
      { part, only: /^\.(joint|axis|limit)/ },
      { part: otherUJoint(part), only: /^\.joint/ },
    ],
  },
  axleShaftJoint: {
    ...joint,
    brokenText: told => joint.brokenText({ ...told, part: `${told.part}'s axle shaft joint` }),
    nearText: told => joint.nearText({ ...told, part: `${told.part}'s axle shaft joint` }),
    fields: (_, part) => [{ part, only: /^\.(kingpin|toe|camber|shaftLimit|steeringStop)/ }],
  },
  driveshaftSlip: {
    ...slack,
    asked: 0.5,
    brokenText: ({ part, size, end }) =>
      end < 0
        ? `the slip of ${part} bottoms, the shaft being ${size} too long`
        : `the slip of ${part} pulls apart, the shaft being ${size} too short`,
    nearText: ({ part, size, end }) =>
      end < 0
        ? `the slip of ${part} has ${size} left before it bottoms`
        : `the slip of ${part} has ${size} left before it is pulled apart`,
    fields: () => [{ part: 'driveshaft', only: /^\.(slip|pinion\.joint|transferCase\.joint)/ }],
  },
  lineLength: {
    ...slack,
    asked: 1,
    brokenText: ({ part, size }) => `${part} is ${size} too short`,
    nearText: ({ part, size }) => `${part} has ${size} of slack left`,
    fields: (_, part) => [{ part, only: /^\.(from|to|length)/ }],
  },
  coilUnseated: {
    ...slack,
    asked: 0.25,
    brokenText: ({ part, size }) =>
      `${part} comes off its seat: the seats are ${size} further apart than its free length`,
    nearText: ({ part, size }) => `${part} has ${size} left before it comes off its seat`,
    fields: (_, part) => [{ part, only: /^\.(axle|chassis|free)/ }],
  },
  overCenter: {
    broken: 'limitBroken',
    near: 'nearOverCenter',
    // 20° between a rod and its arm (0.34 is its sine)
    asked: 0.34,
    brokenText: ({ part }) => `${part} goes over center`,
    nearText: ({ part, size }) =>
      `${part} comes near over-center: a margin of ${size}, where 1 is square to its arm and 0 is over center`,
    fields: (_, part) => [
      { part, only: SPAN },
      { part, only: /^\.(length|axis|arms|endLinks)/ },
      { part: 'left knuckle', only: /^\.kingpin/ },
      { part: 'right knuckle', only: /^\.kingpin/ },
      { part: 'steering box', only: /^\.axis/ },
    ],
  },
};

export const limits: Rule = {
  kinds: ['limitBroken', 'slackUsedUp', 'nearOverCenter', 'nearLimit'],
  find: walk => {
    // both ends of a link that no roll satisfies are one trouble, both ends of a spline or a rod's are two
    const troubles = new Map<string, LeastMargin[]>();
    for (const each of leastMargins(walk, Object.keys(FAMILIES) as LimitId[])) {
      const { limit, target } = each;
      const whose = limit.id === 'jointMisalignment' ? wholeOf(target.part) : target.part;
      const key = `${limit.id}|${whose}|${target.end}`;
      troubles.set(key, [...(troubles.get(key) ?? []), each]);
    }
    return [...troubles.values()].flatMap(margins => draftOf(walk, margins));
  },
};

/** @param margins of one trouble, least first */
function draftOf(walk: AxleWalk, margins: readonly LeastMargin[]): Draft[] {
  const [worst] = margins;
  const family = worst && FAMILIES[worst.limit.id];
  if (!worst || !family || worst.margin >= family.asked) return [];
  const { build, axle } = walk;
  const { limit, target, margin, allowed, pose } = worst;
  const { unit } = limit;
  const shown = (value: number): string => amountWords(build, value * SHOWN[unit], unit);
  const told: Told = {
    part: `the ${partWords(build, axle, target.part)}`,
    size: shown(Math.abs(margin)),
    allowed: shown(allowed),
    end: target.end,
  };
  const isBroken = margin < BROKEN;
  // a rod that ends the steering by running out of reach is told by that
  const isTold =
    limit.id === 'overCenter' && rodsOutOfReach(walk).some(({ end }) => end.part === target.part);
  if (isTold) return [];
  const parts = margins
    .filter(each => each === worst || (isBroken && each.margin < BROKEN))
    .map(each => each.target.part);
  const fields = family.fields(axle, target.part);
  const common = {
    parts,
    pose,
    limit: limit.id,
    fields,
    ...(limit.id === 'jointMisalignment' ? { linkRoll: rollAt(walk, pose, target.part) } : {}),
  };
  if (!isBroken) {
    return [
      {
        ...common,
        kind: family.near,
        severity: 'watch',
        amount: { value: margin * SHOWN[unit], unit },
        others: { asked: { value: family.asked * SHOWN[unit], unit } },
        text: where =>
          `${sentence(family.nearText(told))}: ${where}. ${sentence(shown(family.asked))} is asked for (common practice).`,
      },
    ];
  }
  const extent = extentOf(walk, build, pose, beyond(worst));
  const both =
    parts.length > 1 ? ' No roll of it keeps both of its ends within their limits there.' : '';
  const begins = extent ? ` It begins at ${extent.fromWords}.` : '';
  return [
    {
      ...common,
      kind: family.broken,
      severity: 'mustFix',
      amount: { value: -margin * SHOWN[unit], unit },
      extent,
      text: where => `${sentence(family.brokenText(told))}: ${where}.${both}${begins}`,
    },
  ];
}

/** The roll at which a link's joints are asked, unless it is a radius arm, which does not roll. */
function rollAt(
  { build, axle, model }: AxleWalk,
  pose: Pose,
  part: string,
): Record<string, number> {
  const whole = wholeOf(part);
  if (!rollingParts(axle).has(whole)) return {};
  const { easiest } = rollingOf(new MeasureContext(build, axle, model, pose), whole);
  return { [whole]: easiest.roll };
}

const wholeOf = (part: string): string => part.slice(0, part.lastIndexOf('.'));

const otherUJoint = (part: string): string =>
  part.endsWith('.pinion') ? 'driveshaft.transfer case' : 'driveshaft.pinion';

/** Both ends of a joint's part, since its line runs from one to the other, with their joints. */
function linkJoint(axle: Axle, part: string): FieldsOf[] {
  const whole = wholeOf(part);
  const isArm = axle.radiusArms.some(arm => arm.name === whole);
  const ends = isArm ? ['axle front', 'axle rear', 'chassis'] : ['axle', 'chassis', 'from', 'to'];
  return [
    ...ends.map(end => ({ part: `${whole}.${end}`, only: JOINT })),
    { part: whole, only: /^\.(length|roll)/ },
  ];
}
