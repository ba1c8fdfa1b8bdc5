/** The report of `gaps` for a person: what touches, what is near, what was left out, and the ground clearance. */
import type { Build } from '../../geometry/build/build.ts';
import { lengthWords, partWords, seat } from '../../geometry/finding/words.ts';
import type {
  AxleGapReport,
  AxleGaps,
  PairReport,
  StopReport,
} from '../../geometry/gap/gapReport.ts';
import type { PartKind } from '../../geometry/gap/part.ts';
import { CAUTIONS } from './cautions.ts';
import { shortPose } from './extremesText.ts';
import type { FullGapReport } from './gaps.ts';
import type { Screen } from './io.ts';
import { styleOf, table, wrap } from './layout.ts';
import { findingLines } from './walkText.ts';
import { fixed, limitLabel, several } from './words.ts';

/** Pairs with this much over what is asked are counted, not listed, in. */
const FAR_in = 1;
/** Parts whose ground clearance is listed: the lowest ones. */
const LOWEST = 10;

export function gapsText(
  report: FullGapReport,
  found: readonly AxleGaps[],
  build: Build,
  screen: Screen,
  pair: { a: string; b: string } | null,
): string {
  const style = styleOf(screen);
  const name = report.variant === null ? report.build : `${report.build}, ${report.variant}`;
  const lines: string[] = [];
  for (const [i, axle] of report.axles.entries()) {
    const gaps = found[i];
    if (!gaps) continue;
    const left = axle.excluded.reduce((sum, each) => sum + each.count, 0);
    const counts = pair
      ? several(axle.pairs.length, 'pair')
      : `${several(axle.pairs.length, 'pair')} of ${axle.parts} parts, ${left} left out`;
    if (lines.length > 0) lines.push('');
    lines.push(style.heading(`${name}: ${axle.axle} axle, least gaps of ${counts}`));
    lines.push(...wrap(provedLine(axle, gaps, build), '  ').map(style.aside));
    lines.push('', ...(pair ? onePair(axle, gaps, build, pair) : allPairs(axle, gaps, build)));
  }
  lines.push('', ...findingLines(report.findings, style, report.axles.length > 1));
  for (const [i, axle] of report.axles.entries()) {
    const gaps = found[i];
    if (!gaps || axle.stops.length === 0) continue;
    lines.push('', style.heading(`first touch past each stop of the ${axle.axle} axle`));
    lines.push(...stopLines(axle, gaps, build));
  }
  if (!pair) {
    for (const axle of report.axles) {
      lines.push('', style.heading(`ground clearance, ${axle.axle} axle, lowest first`));
      lines.push(...clearanceLines(axle, build));
    }
  }
  lines.push('', ...wrap(CAUTIONS).map(style.aside));
  return `${lines.join('\n')}\n`;
}

/** What the list holds for. */
function provedLine({ pairs }: AxleGapReport, { resolution }: AxleGaps, build: Build): string {
  if (resolution === null) {
    return 'Parts taken as rigid. Searched, not proved: a pose with less may have been missed.';
  }
  const open = pairs.filter(({ status }) => status === 'undecided').length;
  return `Parts taken as rigid. Proved over the whole range: no pose that the stops allow has a gap under what 'at least' says${
    open > 0 ? `, but for ${several(open, 'pair')} not settled yet` : ''
  }. Looked for down to ${lengthWords(build, resolution)}.`;
}

const HEAD = ['pair', 'gap', 'at least', 'asked', '', 'there'];

/** Pairs that are always named, by the kinds of their parts. */
const NAMED: readonly (readonly [PartKind, PartKind])[] = [
  ['trackBar', 'dragLink'],
  ['trackBar', 'differential'],
  ['ram', 'tieRod'],
];

function allPairs(axle: AxleGapReport, gaps: AxleGaps, build: Build): string[] {
  const rows = axle.pairs.map((pair, i) => {
    const kinds = [gaps.gaps[i]?.pair.a.kind, gaps.gaps[i]?.pair.b.kind];
    const isNamed = NAMED.some(each => each.every(kind => kinds.includes(kind)));
    return { pair, spare: pair.gap_in - pair.required_in, isNamed };
  });
  rows.sort((a, b) => a.spare - b.spare);
  const shown = rows.filter(({ spare, isNamed }) => spare < FAR_in || isNamed);
  const rest = rows.length - shown.length;
  const muted = axle.excluded.filter(each => each.why.startsWith('muted'));
  const sameBody = axle.excluded.reduce(
    (sum, each) => sum + (each.why.startsWith('muted') ? 0 : each.count),
    0,
  );
  return [
    ...table([HEAD, ...shown.map(({ pair }) => rowOf(pair, build))]),
    '',
    `  ${several(rest, 'further pair')} with ${lengthWords(build, FAR_in)} or more over what is asked`,
    ...wrap(`left out: ${several(sameBody, 'pair')} that ride on one body`, '  ', '    '),
    ...muted.flatMap(({ a, b, why }) => wrap(`${why}: ${a} / ${b}`, '    ', '      ')),
    ...thereLines(axle),
  ];
}

function onePair(
  axle: AxleGapReport,
  gaps: AxleGaps,
  build: Build,
  { a, b }: { a: string; b: string },
): string[] {
  const parts = gaps.parts;
  if (axle.pairs.length === 0) {
    const is = (part: { name: string; of: string }, name: string): boolean =>
      [part.name, part.of].includes(name.replace(`${axle.axle} `, ''));
    const why = gaps.excluded.find(each => {
      const one = parts.find(part => part.name === each.a);
      const two = parts.find(part => part.name === each.b);
      return one && two && ((is(one, a) && is(two, b)) || (is(one, b) && is(two, a)));
    })?.why;
    return wrap(`${a} / ${b} is not compared${why ? `: ${why}` : ' on this axle'}`, '  ', '    ');
  }
  const lines = table([HEAD, ...axle.pairs.map(pair => rowOf(pair, build))]);
  for (const pair of axle.pairs) {
    const point = (of: readonly number[]): string => of.map(c => fixed(c, 3)).join(', ');
    const along = (share: number | null): string =>
      share === null ? '' : `, ${fixed(100 * share, 0)} % along`;
    lines.push(
      '',
      `  ${pair.a}: (${point(pair.pointA)})${along(pair.alongA)}`,
      `  ${pair.b}: (${point(pair.pointB)})${along(pair.alongB)}`,
    );
    if (pair.why) lines.push(...wrap(`asked for: ${pair.why}`, '  ', '    '));
  }
  return [...lines, ...thereLines(axle)];
}

function rowOf(pair: PairReport, build: Build): string[] {
  const hits = pair.status === 'touches';
  const short = pair.gap_in < pair.required_in;
  return [
    `${pair.a} / ${pair.b}`,
    signedWords(build, pair.gap_in),
    pair.lower_in === null ? '–' : signedWords(build, pair.lower_in),
    lengthWords(build, pair.required_in),
    hits ? 'hits' : short ? 'short' : pair.status === 'undecided' ? 'not settled yet' : '',
    shortPose(pair.pose, build.driverSide),
  ];
}

const signedWords = (build: Build, gap: number): string =>
  gap < 0 ? `−${lengthWords(build, -gap)}` : lengthWords(build, gap);

function thereLines({ pairs }: AxleGapReport): string[] {
  const steers = pairs.some(({ pose }) => pose.steer !== null);
  return wrap(
    `there: travel of the driver and of the passenger wheel in inches, + up${steers ? '; L or R, the steering input' : ''}`,
    '  ',
  );
}

/** How far past each stop the first pair touches. */
function stopLines({ stops, pairs }: AxleGapReport, gaps: AxleGaps, build: Build): string[] {
  const stopWords = ({ by, part, side }: StopReport): string => {
    if (part === null) return limitLabel(by);
    if (by === 'assumedTravel')
      return `${limitLabel(by)}${side ? `, ${seat(build, side)}` : ''} ${part}`;
    return `${limitLabel(by)}, ${partWords(build, gaps.walk.axle, part)}`;
  };
  const words = (past: number, unit: 'in' | 'deg'): string =>
    unit === 'in' ? lengthWords(build, past) : `${fixed(past, 1)}°`;
  const rows = stops.map(stop => {
    const { past, unit, searched, a, b, pose } = stop;
    return [
      stopWords(stop),
      past === null ? `none within ${words(searched, unit)}` : words(past, unit),
      a === null ? '' : `${a} / ${b}`,
      pose ? shortPose(pose, build.driverSide) : '',
    ];
  });
  const touching = pairs.filter(({ status }) => status === 'touches').length;
  const rest = touching > 0 ? `, the ${several(touching, 'pair')} that touch already left out` : '';
  return [
    ...table([['stop', 'past it', 'pair', 'there'], ...rows]),
    ...wrap(
      `past it: travel square to the stop's line on the map, or steering input, until a pair first touches${rest}. Searched from places along each stop, not proved.`,
      '  ',
    ),
  ];
}

function clearanceLines({ clearances }: AxleGapReport, build: Build): string[] {
  const words = (value: number | null): string =>
    value === null ? '–' : lengthWords(build, value);
  const lowest = clearances.slice(0, LOWEST);
  return [
    ...table([
      ['part', 'at ride', 'both up', 'least', 'there'],
      ...lowest.map(({ part, ride, stuffed, least }) => [
        part,
        words(ride),
        words(stuffed),
        words(least.value),
        shortPose(least.pose, build.driverSide),
      ]),
    ]),
    ...wrap(
      `over the plane through both contact points of the axle's tires; all ${clearances.length} parts are in --json`,
      '  ',
    ),
  ];
}
