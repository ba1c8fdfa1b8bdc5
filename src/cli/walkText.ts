/** The report of `walk` for a person: the range, what is wrong, the extremes. */
import type { Build } from '../../geometry/build/build.ts';
import type { PoseName, WalkReport } from '../../geometry/cycle/walkReport.ts';
import type { EndId } from '../../geometry/limit/limit.ts';
import { CAUTIONS } from './cautions.ts';
import type { Screen } from './io.ts';
import { labeled, type Style, styleOf, table, wrap } from './layout.ts';
import { labelOf } from './measureText.ts';
import type { FindingReport, FullWalkReport, Walked } from './walk.ts';
import { walkPicture } from './walkPicture.ts';
import { fixed, limitLabel, listed, poseWords, quantity, seat, several, tape } from './words.ts';

export function walkText(
  report: FullWalkReport,
  walked: readonly Walked[],
  build: Build,
  screen: Screen,
): string {
  const style = styleOf(screen);
  const name = report.variant === null ? report.build : `${report.build}, ${report.variant}`;
  const lines: string[] = [];
  for (const each of walked) {
    const { counts, axle } = each.report;
    const lost = [
      ...(counts.unreachable > 0 ? [`${counts.unreachable} out of reach`] : []),
      ...(counts.undecided > 0 ? [`${counts.undecided} undecided`] : []),
    ];
    const poses = listed([several(counts.solved, 'pose'), ...lost]);
    if (lines.length > 0) lines.push('');
    lines.push(style.heading(`${name}: ${axle} axle, ${poses} in the range`));
    lines.push(...rangeLines(each, build, style));
    const picture = walkPicture(each.walk, screen);
    if (picture.length > 0) lines.push('', ...picture);
  }
  lines.push('', ...findingLines(report.findings, build, style, report.axles.length > 1));
  for (const { report: axle } of walked) {
    lines.push(
      '',
      style.heading(`extremes of the ${axle.axle} axle`),
      ...extremeLines(axle, build),
    );
  }
  lines.push('', ...wrap(CAUTIONS).map(style.aside));
  return `${lines.join('\n')}\n`;
}

type Edge = WalkReport['range']['edge'];

/** Where a ray from ride height leaves the edge, furthest out. */
export function edgeAlong(edge: Edge, direction: readonly [number, number]): Edge[number] | null {
  const [dl, dr] = direction;
  let found: { t: number; at: Edge[number] } | null = null;
  for (const [i, a] of edge.entries()) {
    const b = edge[(i + 1) % edge.length];
    if (!b) continue;
    // across the ray: c of both ends; the crossing lies at the share s of the chord
    const ca = a.right_in * dl - a.left_in * dr;
    const cb = b.right_in * dl - b.left_in * dr;
    if (ca === cb || ca * cb > 0) continue;
    const s = ca / (ca - cb);
    const left_in = a.left_in + s * (b.left_in - a.left_in);
    const right_in = a.right_in + s * (b.right_in - a.right_in);
    const t = left_in * dl + right_in * dr;
    if (t > 0 && (!found || t > found.t)) found = { t, at: { ...a, left_in, right_in } };
  }
  return found?.at ?? null;
}

function rangeLines({ report, walk }: Walked, build: Build, style: Style): string[] {
  const { edge, assumed, holdsRide, pieces } = report.range;
  if (!holdsRide) {
    const first = report.range.ends[0];
    const why = first ? ` (${endWords(first, build)})` : '';
    return wrap(
      `The stops do not even allow ride height${why}: there is nothing to walk.`,
      '  ',
    ).map(style.wrong);
  }
  const driverUp: [number, number] = build.driverSide === 'left' ? [1, -1] : [-1, 1];
  const ways: [string, [number, number]][] = [
    ['both wheels up', [1, 1]],
    ['both wheels down', [-1, -1]],
    ['driver side flexed up', driverUp],
    ['passenger side flexed up', [-driverUp[0], -driverUp[1]]],
  ];
  const rows = ways.flatMap(([label, direction]): [string, string][] => {
    const at = edgeAlong(edge, direction);
    if (!at) return [];
    const size = tape(Math.abs(at.left_in), build.unit);
    const far = direction[0] === direction[1] ? size : `${size} up and as much down`;
    return [[label, `${far}: ${endWords(at, build)}`]];
  });
  const interval = walk.axle.steered ? walk.reach.steering(walk.model.ride) : null;
  if (interval) {
    for (const [label, end] of [
      ['steered left', interval.greatest],
      ['steered right', interval.least],
    ] as const) {
      rows.push([
        `${label}, at ride`,
        `${steerWords(end.value, walk, build)}: ${endWords(end, build)}`,
      ]);
    }
  }
  const whole = endsWords(report.range.ends, build);
  rows.push(['what ends travel', whole]);
  const lines = labeled(rows);
  for (const { side, direction, travel_in } of assumed) {
    const whose = seat(build, side === 'left' ? 'left' : 'right');
    lines.push(
      ...wrap(
        `Nothing stops the ${whose} wheel going ${direction}: ${tape(travel_in, build.unit)} is assumed.`,
        '  ',
        '    ',
      ),
    );
  }
  if (pieces > 1) {
    lines.push(
      ...wrap(
        `What the stops allow falls into ${pieces} pieces; the one with ride height in it is walked.`,
        '  ',
        '    ',
      ),
    );
  }
  return lines;
}

function steerWords(value: number, { model }: Walked['walk'], build: Build): string {
  const size = Math.abs(value);
  return model.mechanism.steering?.unit === 'in'
    ? `${tape(size, build.unit)} of ram rod`
    : `${fixed((size * 180) / Math.PI, 1)}° of pitman arm`;
}

/** 'shock topped out, left shock'. */
function endWords(
  end: { by: EndId; part: string | null; side: 'left' | 'right' | null },
  build: Build,
): string {
  if (end.by === 'assumedTravel') return limitLabel(end.by);
  const side = end.side === null ? '' : ` (${seat(build, end.side)} side)`;
  return end.part === null ? limitLabel(end.by) : `${limitLabel(end.by)}, ${end.part}${side}`;
}

/** The ends in their order, the parts of one kind together. */
function endsWords(ends: WalkReport['range']['ends'], build: Build): string {
  const kinds = [...new Set(ends.map(end => end.by))];
  return kinds
    .map(by => {
      if (by === 'assumedTravel') return limitLabel(by);
      const parts = ends
        .filter(end => end.by === by && end.part !== null)
        .map(end => end.part ?? '');
      const names = [...new Set(parts)];
      const own = ends.find(end => end.by === by);
      if (names.length === 1 && own) return endWords(own, build);
      return names.length === 0 ? limitLabel(by) : `${limitLabel(by)} (${listed(names)})`;
    })
    .join('; ');
}

const SEVERITIES: readonly (readonly [FindingReport['severity'], string])[] = [
  ['mustFix', 'MUST FIX'],
  ['watch', 'watch'],
  ['note', 'note'],
];

function findingLines(
  findings: readonly FindingReport[],
  build: Build,
  style: Style,
  isNamed: boolean,
): string[] {
  const lines = [style.heading('findings, worst first')];
  if (findings.length === 0) return [...lines, '  none'];
  for (const [severity, label] of SEVERITIES) {
    for (const finding of findings.filter(each => each.severity === severity)) {
      const indent = ' '.repeat(12);
      const axle = isNamed ? `${finding.axle} axle: ` : '';
      const text = wrap(`${axle}${finding.text}`, `  ${label.padEnd(10)}`, indent);
      lines.push(...(severity === 'mustFix' ? text.map(style.wrong) : text));
      const more = [
        ...(finding.pose ? [`at ${poseOf(finding.pose, build)}`] : []),
        ...(finding.assumed ? ['hangs on something assumed'] : []),
      ];
      if (more.length > 0) lines.push(...wrap(more.join('; '), indent).map(style.aside));
    }
  }
  return lines;
}

function poseOf(pose: PoseName, build: Build): string {
  return poseWords(build, {
    travel_in: { left: rounded(pose.left_in), right: rounded(pose.right_in) },
    steer: pose.steer,
  });
}

/** A travel that was found, not entered: to a sixteenth. */
const rounded = (inches: number): number => Math.round(inches * 16) / 16;

function extremeLines({ extremes }: WalkReport, build: Build): string[] {
  const driver = build.driverSide;
  const rows: string[][] = [['', 'least', 'there', 'greatest', 'there']];
  let lastParts = '';
  for (const { id, part, side, unit, least, greatest } of extremes) {
    const of = side === null ? null : seat(build, side === 'left' ? 'left' : 'right');
    if (part !== null && id !== lastParts) {
      rows.push([labelOf(id)]);
      lastParts = id;
    }
    const name = part === null ? labelOf(id) : `  ${part}`;
    const row = [of === null ? name : `${name}, ${of}`];
    if (least.value !== null && isSame(least.value, greatest.value)) {
      rows.push([...row, quantity(least.value, unit, build.unit), 'everywhere']);
      continue;
    }
    for (const end of [least, greatest]) {
      row.push(end.value === null ? '–' : quantity(end.value, unit, build.unit));
      row.push(end.pose === null ? '' : shortPose(end.pose, driver));
    }
    rows.push(row);
  }
  const reasons = new Map<string, string[]>();
  for (const { id, least } of extremes) {
    if (least.value !== null) continue;
    const reason = least.reason ?? 'no value';
    reasons.set(reason, [...new Set([...(reasons.get(reason) ?? []), labelOf(id)])]);
  }
  return [
    ...table(rows),
    ...[...reasons].flatMap(([reason, labels]) =>
      wrap(`– ${labels.join(', ')}: ${reason}`, '  ', '    '),
    ),
    ...wrap(
      'there: travel of the driver and of the passenger wheel in inches, + up; L or R, the steering input',
      '  ',
    ),
  ];
}

/** Values that differ by no more than a solver's last digits. */
function isSame(least: number, greatest: number | null): boolean {
  return greatest !== null && greatest - least <= 1e-9 * Math.max(1, Math.abs(least));
}

/** '+8.9/-9.4 L 36.9°'. */
function shortPose({ left_in, right_in, steer }: PoseName, driver: Build['driverSide']): string {
  const signed = (inches: number): string => {
    const text = fixed(inches, 1);
    return Number(text) > 0 ? `+${text}` : text;
  };
  const [first, second] = driver === 'left' ? [left_in, right_in] : [right_in, left_in];
  const travel = `${signed(first)}/${signed(second)}`;
  const turn = steer ? fixed(Math.abs(steer.value), 1) : '0.0';
  if (!steer || Number(turn) === 0) return travel;
  return `${travel} ${steer.value > 0 ? 'L' : 'R'} ${turn}${steer.unit === 'deg' ? '°' : ''}`;
}
