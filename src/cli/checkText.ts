/** The report of `check` for a person. */
import type { Build } from '../../geometry/build/build.ts';
import type { AxleCheck, CheckReport, CountName } from '../../geometry/cycle/checkReport.ts';
import { lengthWords, listed } from '../../geometry/finding/words.ts';
import { CAUTIONS } from './cautions.ts';
import type { Screen } from './io.ts';
import { labeled, styleOf, table, wrap } from './layout.ts';
import { fixed, several } from './words.ts';

/** Assumed fields that are listed; --json lists all. */
const MOST_LISTED = 20;

export function checkText(report: CheckReport, build: Build, screen: Screen): string {
  const style = styleOf(screen);
  const { counts, assumed, warnings } = report;
  const name = report.variant === null ? report.build : `${report.build}, ${report.variant}`;
  const unit = build.unit === 'in' ? 'inches' : 'millimeters';
  const lines = [
    style.heading(`${name}: the build can be read, and its axles hold together`),
    ...labeled([
      ['units', `a bare number is in ${unit}`],
      ['driver', `on the ${build.driverSide} side`],
      ['parts', partsInWords(counts)],
      [
        'numbers',
        `${several(counts.entries, 'entry', 'entries')}: ${counts.measured} measured, ` +
          `${counts.drawing} from a drawing or set as what is wanted, ${counts.assumed} assumed`,
      ],
    ]),
  ];
  for (const axle of report.axles) {
    lines.push('', style.heading(`${axle.axle} axle`), ...axleLines(axle, build));
  }
  if (assumed.length > 0) {
    lines.push(
      '',
      style.heading('assumed, so that whatever hangs on it is no better than a guess'),
    );
    lines.push(...assumed.slice(0, MOST_LISTED).flatMap(path => wrap(path, '  ', '      ')));
    const more = assumed.length - MOST_LISTED;
    if (more > 0) lines.push(`  and ${more} more (--json lists all)`);
  }
  if (warnings.length > 0) {
    lines.push('', style.heading('to know'));
    lines.push(...warnings.flatMap(warning => wrap(warning, '  ', '    ')));
  }
  lines.push('', ...wrap(CAUTIONS).map(style.aside));
  return `${lines.join('\n')}\n`;
}

const STEERING: Readonly<Record<NonNullable<AxleCheck['steering']>, string>> = {
  knuckle: 'drag link to a knuckle, tie rod from there to the other one',
  tieRod: 'drag link to the tie rod between both knuckles',
  dragLink: 'drag link to a knuckle, tie rod from the drag link to the other one',
  ram: 'double-ended ram with a tie rod to each knuckle, no drag link',
};

function axleLines(axle: AxleCheck, build: Build): string[] {
  const { lengths, radiusArms, rank, freedoms, exact, steering } = axle;
  const arms = radiusArms > 0 ? ` and ${several(radiusArms, 'radius arm')}` : '';
  const rows: [string, string][] = [
    ['held by', `${several(lengths, 'length')}${arms}, rank ${rank} of 4`],
    ['free to move', freedoms === 2 ? 'two ways: up and down at each wheel' : `${freedoms} ways`],
    [
      'solved',
      exact
        ? 'exactly: four lengths, so that nothing has to give'
        : 'by least elastic energy: links, bushings and brackets give, which is shown as bind',
    ],
    ['steering', steering === null ? 'none' : STEERING[steering]],
    ['ride height', rideWords(axle, build)],
  ];
  const lines = labeled(rows);
  if (axle.bracketRates.length > 0) {
    lines.push(
      '',
      '  rates in lbf/in, and what they come to if the brackets are half or twice as stiff:',
      ...table([
        ['', 'as entered', 'half', 'twice'],
        ...axle.bracketRates.map(rate => [
          rate.name,
          fixed(rate.rate_lbf_per_in, 0),
          fixed(rate.half_lbf_per_in, 0),
          fixed(rate.twice_lbf_per_in, 0),
        ]),
      ]),
    );
  }
  return lines;
}

/** Smallest shift and turn that are told: what rounds to nothing in the words below. */
const STILL_in = 0.0005;
const STILL_deg = 0.005;

function rideWords({ ride }: AxleCheck, build: Build): string {
  const [x, y, z] = ride.shift_in;
  const moves = (inches: number, plus: string, minus: string): string[] =>
    Math.abs(inches) < STILL_in
      ? []
      : [`${lengthWords(build, Math.abs(inches))} ${inches > 0 ? plus : minus}`];
  const turns = (degrees: number, plus: string, minus: string): string[] =>
    Math.abs(degrees) < STILL_deg
      ? []
      : [`${fixed(Math.abs(degrees), 2)}° ${degrees > 0 ? plus : minus}`];
  const moved = [
    ...moves(x, 'forward', 'rearward'),
    ...moves(y, 'to the left', 'to the right'),
    ...moves(z, 'up', 'down'),
    ...turns(ride.yaw_deg, 'turned left', 'turned right'),
    ...turns(ride.pitch_deg, 'tipped forward', 'tipped rearward'),
    ...turns(
      ride.knuckles?.left.turn_deg ?? 0,
      'left wheel turned left',
      'left wheel turned right',
    ),
    ...turns(
      ride.knuckles?.right.turn_deg ?? 0,
      'right wheel turned left',
      'right wheel turned right',
    ),
  ];
  if (moved.length === 0) return 'as drawn';
  const { stretch_in, stretchOf, force_lbf, forceOf } = ride;
  const bind =
    stretchOf === null
      ? ''
      : `; bind: ${stretchOf} gives ${lengthWords(build, Math.abs(stretch_in))}, ${forceOf} carries ` +
        `${fixed(Math.abs(force_lbf), 0)} lbf`;
  return `moved by the given lengths: ${listed(moved)}${bind}`;
}

const PARTS: readonly (readonly [name: CountName, one: string, many?: string])[] = [
  ['axles', 'axle'],
  ['links', 'link'],
  ['trackBars', 'track bar'],
  ['radiusArms', 'radius arm'],
  ['dragLinks', 'drag link'],
  ['tieRods', 'tie rod'],
  ['rams', 'ram'],
  ['shocks', 'shock'],
  ['coils', 'coil'],
  ['bumpStops', 'bump stop'],
  ['straps', 'limit strap'],
  ['lines', 'line'],
  ['swayBars', 'sway bar'],
  ['driveshafts', 'driveshaft'],
  ['solids', 'solid drawn by hand', 'solids drawn by hand'],
];

function partsInWords(counts: CheckReport['counts']): string {
  const there = PARTS.filter(([name]) => counts[name] > 0);
  return listed(there.map(([name, one, many]) => several(counts[name], one, many)));
}
