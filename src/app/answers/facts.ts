/** What rows, headline and section of a finding share: its words, where its pose stands, its pair of parts. */
import type { Finding } from '../../../geometry/finding/finding.ts';
import type { PairReport } from '../../../geometry/gap/gapReport.ts';
import { isSteered } from '../../../geometry/gap/placedGrid.ts';
import type { StampProps } from '../../charts/Stamp.tsx';
import { handleOf } from '../state/move.ts';
import type { Rig } from '../state/rig.ts';
import type { Results } from '../state/shop.ts';
import { type FindingWords, findingWords } from '../words/findingWords.ts';
import { isGuess } from '../words/guess.ts';
import { pageShop, poseLine, poseOf, steeringAt, steeringWords } from '../words/shopWords.ts';

export interface FindingFacts extends FindingWords {
  /** 'Driver 8 7/8 up, passenger 9 3/8 down, full right'. */
  where: string;
  /** 'full right', 'any steering'; '' where nothing steers. */
  steering: string;
  stamp: StampProps;
  /** What the pair of a gap finding asks for, in; null for the others. */
  required: number | null;
  /** Every number that it hangs on is assumed. */
  isGuess: boolean;
}

/**
 * Whether the steering makes no difference to a finding: nothing steers, or none of its parts moves with it. Tires
 * do; so do steering rods, knuckles and what rides on them.
 */
export function isAnySteering(rig: Rig, finding: Finding): boolean {
  if (!rig.axle.steered) return true;
  if ((finding.pose.steer?.value ?? 0) !== 0) return false;
  return !finding.parts.some(name => {
    const part = rig.parts.find(each => each.name === name);
    if (!part) return /tie rod|drag link|pitman|knuckle|ram|hose/.test(name);
    const { motion } = part;
    if (motion.kind === 'rigid') return isSteered(motion.body);
    return motion.kind === 'ends'
      ? isSteered(motion.from.on) || isSteered(motion.to.on)
      : isSteered(motion.at.on) || isSteered(motion.towards.on);
  });
}

export function factsOf(
  rig: Rig,
  unit: 'in' | 'mm',
  range: Results['range'],
  finding: Finding,
): FindingFacts {
  const shop = pageShop(rig.build, unit);
  const pose = poseOf(rig, finding.pose);
  const isAny = isAnySteering(rig, finding);
  const steering = !rig.axle.steered
    ? ''
    : isAny
      ? 'any steering'
      : pose
        ? steeringWords(rig, pose)
        : '';
  const { left, right } = handleOf(finding);
  const share = (side: 'left' | 'right', travel: number): number => {
    const end = range?.box[side][travel > 0 ? 'up' : 'down'] ?? 10;
    return travel / Math.max(1, Math.min(end, FULL_in));
  };
  const [l, r] = [share('left', left), share('right', right)];
  const isLeft = rig.build.driverSide === 'left';
  const asked = finding.others?.asked;
  return {
    ...findingWords({ shop, build: rig.build, axle: rig.axle }, finding),
    where: poseLine(shop, left, right, steering),
    steering,
    stamp: {
      driver: isLeft ? l : r,
      passenger: isLeft ? r : l,
      steer: isAny || !pose ? null : steeringAt(rig, pose).share,
    },
    required: asked?.unit === 'in' ? asked.value : null,
    isGuess: isGuess(rig.build, finding),
  };
}

/** Travel that is drawn at the rim of a stamp where the box of the range is wider, in. */
const FULL_in = 10;

/** The pair of parts that a gap finding is about, as the search found it; null for other findings. */
export function pairOf(gaps: Results['gaps'], finding: Finding): PairReport | null {
  const [a, b] = finding.parts;
  if (finding.kind !== 'partsTouch' && finding.kind !== 'gapShort') return null;
  return (
    gaps?.pairs.find(pair => (pair.a === a && pair.b === b) || (pair.a === b && pair.b === a)) ??
    null
  );
}
