/** Bands of measures that a build asks for: values out of them, and bands that name nothing. */
import type { Axle, Build, Wanted } from '../build/build.ts';
import { nearest } from '../build/nearest.ts';
import { type Problem, shown } from '../build/problem.ts';
import type { Extreme, Extremes } from '../cycle/extremes.ts';
import type { AxleWalk } from '../cycle/walkReport.ts';
import { measures } from '../measure/list.ts';
import { type Measure, type MeasureContext, SHOWN, type Target } from '../measure/measure.ts';
import { extentOf } from './extent.ts';
import { type FieldsOf, LENGTHS, locating } from './fields.ts';
import type { Draft, Rule } from './finding.ts';
import { amountWords, partWords, seat, sentence } from './words.ts';

type Band = Wanted['bands'][number];

/** A bound of a band in the measure's internal unit; null where there is none. */
export function boundOf(
  build: Build,
  band: Band,
  index: number,
  end: 'least' | 'greatest',
): number | null {
  const value = band[end];
  const measure = measures.find(each => each.id === band.measure);
  if (value === null || !measure) return null;
  if (!band.inUnitOfMeasure[end]) return value;
  const typed = build.entries.find(({ path }) => path === pathOf(index, end))?.typed ?? '';
  return typed.includes('%') ? value : value / SHOWN[measure.unit];
}

const pathOf = (index: number, field: string): string => `wanted.bands[${index}].${field}`;

const covers = (band: Band, axle: Axle, target: Target): boolean =>
  (band.axle === null || band.axle === axle.name) &&
  (band.part === null || band.part === target.part || band.part === target.side);

/** A band in the measure's internal unit; null where it has no such bound. */
export interface Bounds {
  least: number | null;
  greatest: number | null;
}

/** The bands that a build asks of a measure of this target. */
export const boundsOf = (build: Build, axle: Axle, measure: Measure, target: Target): Bounds[] =>
  build.wanted.bands.flatMap((band, index) =>
    band.measure === measure.id && covers(band, axle, target)
      ? [
          {
            least: boundOf(build, band, index, 'least'),
            greatest: boundOf(build, band, index, 'greatest'),
          },
        ]
      : [],
  );

/**
 * What is wrong with the wanted bands, which the schema can't know: measures and parts that don't exist, bounds
 * of another dimension than the measure's. Empty where all is well.
 */
export function problemsOfWanted(build: Build): Problem[] {
  return build.wanted.bands.flatMap((band, index) => {
    const measure = measures.find(each => each.id === band.measure);
    if (!measure) {
      const ids = measures.map(each => each.id);
      const near = nearest(band.measure, ids);
      return [
        {
          path: pathOf(index, 'measure'),
          found: shown(band.measure),
          message: 'there is no such measure',
          wanted: near === null ? `one of ${ids.join(', ')}` : `"${near}"`,
        },
      ];
    }
    return [
      ...problemsOfPart(build, band, index, measure),
      ...problemsOfBounds(build, band, index, measure),
    ];
  });
}

/** What a band asks for on the axles of a build. */
function askedOf(build: Build, band: Band, measure: Measure): { axle: Axle; target: Target }[] {
  return build.axles
    .filter(axle => band.axle === null || band.axle === axle.name)
    .flatMap(axle => measure.targets(axle, build).map(target => ({ axle, target })));
}

function problemsOfPart(build: Build, band: Band, index: number, measure: Measure): Problem[] {
  const asked = askedOf(build, band, measure);
  if (band.part === null || asked.some(({ axle, target }) => covers(band, axle, target))) return [];
  const has = asked
    .map(({ target }) => target.part ?? target.side)
    .filter((part): part is string => part !== null);
  const near = nearest(band.part, has);
  return [
    {
      path: pathOf(index, 'part'),
      found: shown(band.part),
      message: `${measure.id} is not measured of it`,
      wanted:
        has.length === 0
          ? 'no "part" here'
          : near === null
            ? `one of ${has.join(', ')}`
            : `"${near}"`,
    },
  ];
}

/** Dimensions in which a bound may be typed, by the measure's unit; a bare number always may. */
const DIMENSION: Record<Measure['unit'], { name: string; such: string }> = {
  deg: { name: 'angle', such: 'an angle such as 2 deg' },
  in: { name: 'length', such: 'a length such as 3/8 or 10 mm' },
  ft: { name: 'length', such: 'a length such as 45 ft' },
  lbf: { name: 'force', such: 'a force such as 500 lbf' },
  '%': { name: 'ratio', such: 'a share such as 60 %' },
  in·lbf: { name: '', such: 'a plain number, in in·lbf' },
  'in/in': { name: '', such: 'a plain number, in in/in' },
  'deg/deg': { name: '', such: 'a plain number, in deg/deg' },
  '1': { name: '', such: 'a plain number' },
};

function problemsOfBounds(build: Build, band: Band, index: number, measure: Measure): Problem[] {
  const problems = (['least', 'greatest'] as const).flatMap((end): Problem[] => {
    const path = pathOf(index, end);
    const entry = build.entries.find(each => each.path === path);
    if (!entry) return [];
    const isShare = entry.typed.includes('%');
    const { name, such } = DIMENSION[measure.unit];
    const isRight =
      entry.dimension === 'ratio' ? !isShare || name === 'ratio' : entry.dimension === name;
    if (isRight) return [];
    return [
      {
        path,
        found: shown(entry.typed),
        message: `${measure.id} is in ${measure.unit}`,
        wanted: such,
      },
    ];
  });
  const least = boundOf(build, band, index, 'least');
  const greatest = boundOf(build, band, index, 'greatest');
  if (problems.length === 0 && least !== null && greatest !== null && least > greatest) {
    problems.push({
      path: pathOf(index, 'least'),
      found: shown(band.least),
      message: 'it is above "greatest"',
      wanted: 'a band from "least" up to "greatest"',
    });
  }
  return problems;
}

export const wanted: Rule = {
  kinds: ['outOfBand', 'bandNotChecked'],
  find: walk =>
    walk.build.wanted.bands.flatMap((band, index) => {
      const measure = measures.find(each => each.id === band.measure);
      if (!measure || !walk.finder) return [];
      const asked = askedOf(walk.build, band, measure);
      if (asked.length === 0) return notChecked(walk, band, index, measure);
      return asked
        .filter(({ axle, target }) => axle === walk.axle && covers(band, axle, target))
        .flatMap(({ target }) => {
          const extremes = walk.finder?.extremes(measure, target);
          return extremes ? draftOf(walk, band, index, extremes) : [];
        });
    }),
};

/** A band of a measure that the build has nothing of; told of one axle. */
function notChecked(walk: AxleWalk, band: Band, index: number, { label }: Measure): Draft[] {
  const told = walk.build.axles.find(axle => band.axle === null || band.axle === axle.name);
  if (walk.axle !== (told ?? walk.build.axles[0])) return [];
  return [
    {
      kind: 'bandNotChecked',
      severity: 'note',
      parts: [],
      pose: walk.model.ride,
      amount: { value: 0, unit: '1' },
      fields: [],
      paths: [`wanted.bands[${index}]`],
      text: () =>
        `A band is wanted for ${label}${band.axle ? ` of the ${band.axle} axle` : ''}, which has none of it: nothing is checked.`,
    },
  ];
}

/** Values as far out as this part of the band, or of the value, count as inside: they are found to 1e-6. */
const INSIDE = 1e-6;

function draftOf(walk: AxleWalk, band: Band, index: number, extremes: Extremes): Draft[] {
  const { build, axle } = walk;
  const { measure, target, least, greatest } = extremes;
  const [low, high] = [
    boundOf(build, band, index, 'least'),
    boundOf(build, band, index, 'greatest'),
  ];
  const out = (at: Extreme | null, bound: number | null, way: 1 | -1) => {
    if (!at || bound === null) return null;
    const by = way * (at.value - bound);
    return by > INSIDE * Math.max(Math.abs(bound), Math.abs(at.value))
      ? { at, bound, way, by }
      : null;
  };
  const [worst, other] = [out(least, low, -1), out(greatest, high, 1)]
    .filter(each => each !== null)
    .sort((a, b) => b.by - a.by);
  if (!worst) return [];
  const words = (value: number): string =>
    amountWords(build, value * SHOWN[measure.unit], measure.unit);
  const of = target.part
    ? ` of the ${partWords(build, axle, target.part)}`
    : target.side
      ? ` on the ${seat(build, target.side)} side`
      : '';
  const { at, bound, way, by } = worst;
  const beyond = (context: MeasureContext): number | null => {
    const reading = measure.value(context, target);
    return typeof reading === 'number' ? way * (reading - bound) : null;
  };
  const extent = extentOf(walk, build, at.pose, beyond);
  const limits = [
    low === null ? '' : `at least ${words(low)}`,
    high === null ? '' : `at most ${words(high)}`,
  ];
  const both = other ? ` At the other end it comes to ${words(other.at.value)}.` : '';
  const begins = extent ? ` It leaves the band at ${extent.fromWords}.` : '';
  return [
    {
      kind: 'outOfBand',
      severity: 'watch',
      parts: target.part === null ? [] : [target.part],
      pose: at.pose,
      amount: { value: by * SHOWN[measure.unit], unit: measure.unit },
      side: target.side,
      others: { value: { value: at.value * SHOWN[measure.unit], unit: measure.unit } },
      extent,
      fields: fieldsOfMeasure(axle, measure, target),
      paths: [
        pathOf(index, 'least'),
        pathOf(index, 'greatest'),
        ...(WEIGHTS.test(measure.id) ? ['weights'] : []),
      ],
      text: where =>
        `${sentence(measure.label)}${of} comes to ${words(at.value)}, where ${limits.filter(Boolean).join(' and ')} is wanted: ${where}.${both}${begins}`,
    },
  ];
}

/** Measures that hang on the steering, on the driveline and on the weights, beside what locates the axle. */
const STEERED = /steer|toe|turning|ackermann|trail|scrub|camber|dragLink|axleShaft/i;
const DRIVEN = /pinion|transferJoint|driveshaft/;
const WEIGHTS = /^(anti|brakeAnti|driveAnti)/;

function fieldsOfMeasure(axle: Axle, { id }: Measure, { part }: Target): FieldsOf[] {
  const { steering } = axle;
  const rods = [steering?.dragLink, ...(steering?.tieRods ?? [])].flatMap(rod =>
    rod ? [rod.name] : [],
  );
  const steered = [
    ...rods.map(rod => ({ part: rod, only: /^\.((from|to)\.at|length)/ })),
    { part: 'steering box', only: /^\.axis/ },
    ...['left knuckle', 'right knuckle'].map(each => ({
      part: each,
      only: /^\.(kingpin|toe|camber|steeringStop)/,
    })),
  ];
  return [
    ...(part === null ? [] : [{ part, only: LENGTHS }]),
    ...locating(axle),
    ...(axle.steered && STEERED.test(id) ? steered : []),
    ...(DRIVEN.test(id) ? [{ part: 'driveshaft', only: /^\.(pinion|transferCase|phase)/ }] : []),
  ];
}
