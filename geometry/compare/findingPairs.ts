/**
 * Findings of two builds: fixed, new, unchanged. The same trouble is known by what it is and which parts it is of, not
 * by its pose, which moves as the build changes; pieces of one thing (a differential and its cover) are that thing.
 */
import { type Finding, SEVERITIES } from '../finding/finding.ts';
import type { AxleGaps } from '../gap/gapReport.ts';

/** One trouble in both builds: null in the one that has none of it. */
export interface FindingPair {
  a: Finding | null;
  b: Finding | null;
}

export interface FindingComparison {
  /** In the first alone, or less severe in the second. */
  fixed: FindingPair[];
  /** In the second alone, or more severe there. */
  new: FindingPair[];
  unchanged: FindingPair[];
}

/** Findings of one build with the gaps that some came from. */
export interface Found {
  findings: readonly Finding[];
  gaps: readonly AxleGaps[];
}

/** Kinds that are one trouble in two degrees. */
const DEGREES: Readonly<Record<string, string>> = { partsTouch: 'gap', gapShort: 'gap' };

export function findingPairsOf(a: Found, b: Found): FindingComparison {
  const out: FindingComparison = { fixed: [], new: [], unchanged: [] };
  const ofA = byTrouble(a);
  const ofB = byTrouble(b);
  for (const [key, inA] of ofA) {
    const inB = ofB.get(key) ?? null;
    const worse = inB ? rank(inA) - rank(inB) : -1;
    (worse < 0 ? out.fixed : worse > 0 ? out.new : out.unchanged).push({ a: inA, b: inB });
  }
  for (const [key, inB] of ofB) if (!ofA.has(key)) out.new.push({ a: null, b: inB });
  return out;
}

/** 0 for the worst. */
const rank = ({ severity }: Finding): number => SEVERITIES.indexOf(severity);

/** Findings by their trouble; of two of one trouble, which are told worst first, the second gets a key of its own. */
function byTrouble({ findings, gaps }: Found): Map<string, Finding> {
  const wholes = new Map(
    gaps.flatMap(({ parts, walk }) =>
      parts.map(part => [`${walk.axle.name} ${part.name}`, part.of] as const),
    ),
  );
  const out = new Map<string, Finding>();
  for (const finding of findings) {
    const whole = (part: string): string => wholes.get(`${finding.axle} ${part}`) ?? part;
    const key = troubleOf(finding, whole);
    let count = 0;
    while (out.has(`${key} ${count}`)) count++;
    out.set(`${key} ${count}`, finding);
  }
  return out;
}

/** Kinds that an axle has once, whichever part is worst. */
const ONCE = new Set(['bind', 'bracketRatesAssumed', 'upTravelEnds', 'droopEnds']);

function troubleOf(finding: Finding, whole: (part: string) => string): string {
  const { kind, axle, parts, limit, pose, text } = finding;
  if (ONCE.has(kind)) return JSON.stringify([kind, axle]);
  if (kind === 'unstopped') return JSON.stringify([kind, axle, pose.left_in > 0]);
  // a limit that is near and one that is passed are one trouble; so are both joints of one link
  const trouble = limit ?? DEGREES[kind] ?? kind;
  const of =
    limit === 'jointMisalignment'
      ? parts.map(part => part.replace(/\.[^.]*$/, ''))
      : trouble === 'gap'
        ? parts.map(whole)
        : parts;
  // a band is of one measure, which its text begins with
  const band = kind === 'outOfBand' ? text.replace(/ comes to .*$/s, '') : null;
  return JSON.stringify([trouble, axle, band, [...new Set(of)].sort()]);
}
