/** What a change of the build did: pairs that came nearer or went apart, findings that went and came. */
import type { Finding } from '../../../geometry/finding/finding.ts';
import type { AxleGapReport, PairReport } from '../../../geometry/gap/gapReport.ts';
import { SAME_GAP_in } from '../../../geometry/gap/pairGap.ts';
import { isGap } from '../words/findingWords.ts';

export interface GapChange {
  a: string;
  b: string;
  /** Null where the pair is not there, or is not compared. */
  before: number | null;
  after: number | null;
  /** What the pair wants after it (before, where it is gone), in. */
  required: number;
}

export interface WhatItDid {
  /** Of pairs that lack something before or after, those that changed; what matters most first. */
  gaps: GapChange[];
  /** Pairs that lack something and did not change. */
  unchanged: number;
  /** Other findings. */
  went: Finding[];
  came: Finding[];
}

interface Known {
  findings: readonly Finding[];
  gaps: Pick<AxleGapReport, 'pairs'> | null;
}

/** @param wholeOf the thing that a part is a piece of: a differential and its cover are one */
export function whatItDid(
  before: Known,
  after: Known,
  wholeOf: (part: string) => string,
): WhatItDid {
  const was = tightest(before.gaps?.pairs ?? [], wholeOf);
  const is = tightest(after.gaps?.pairs ?? [], wholeOf);
  const all = [...new Set([...was.keys(), ...is.keys()])].flatMap((key): GapChange[] => {
    const [p, q] = [was.get(key), is.get(key)];
    const named = q ?? p;
    if (!named || !(lacks(p) || lacks(q))) return [];
    return [
      {
        a: named.a,
        b: named.b,
        before: p?.gap_in ?? null,
        after: q?.gap_in ?? null,
        required: named.required_in,
      },
    ];
  });
  const gaps = all.filter(isChanged).sort((p, q) => rank(p) - rank(q) || size(q) - size(p));
  const [gone, come] = [others(before.findings), others(after.findings)];
  return {
    gaps,
    unchanged: all.length - gaps.length,
    went: [...gone].filter(([key]) => !come.has(key)).map(([, finding]) => finding),
    came: [...come].filter(([key]) => !gone.has(key)).map(([, finding]) => finding),
  };
}

const lacks = (pair: PairReport | undefined): boolean =>
  pair !== undefined && pair.gap_in < pair.required_in;

const isChanged = ({ before, after }: GapChange): boolean =>
  before === null || after === null || Math.abs(after - before) > SAME_GAP_in;

/** New touches, touches that are gone, those that stay, then what only comes near. */
function rank({ before, after }: GapChange): number {
  const [touched, touches] = [before !== null && before < 0, after !== null && after < 0];
  if (touches) return touched ? 2 : 0;
  return touched ? 1 : 3;
}

const size = ({ before, after }: GapChange): number => Math.abs((after ?? 0) - (before ?? 0));

/** Of all pieces of two things, the pair with the least left. */
function tightest(
  pairs: readonly PairReport[],
  wholeOf: (part: string) => string,
): Map<string, PairReport> {
  const out = new Map<string, PairReport>();
  for (const pair of pairs) {
    const key = JSON.stringify([wholeOf(pair.a), wholeOf(pair.b)].sort());
    const known = out.get(key);
    if (!known || pair.gap_in - pair.required_in < known.gap_in - known.required_in) {
      out.set(key, pair);
    }
  }
  return out;
}

/** Findings that are no gaps, by what they are of. */
function others(findings: readonly Finding[]): Map<string, Finding> {
  const out = new Map<string, Finding>();
  for (const finding of findings) {
    if (isGap(finding)) continue;
    const { kind, limit, axle, parts, text } = finding;
    // a band is of one measure, which its text begins with
    const band = kind === 'outOfBand' ? text.replace(/ comes to .*$/s, '') : null;
    out.set(JSON.stringify([limit ?? kind, axle, band, [...parts].sort()]), finding);
  }
  return out;
}
