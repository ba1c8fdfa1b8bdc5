/**
 * What a difference of least gaps is worth: against a closed form, where the pose lies on stops, and against seeded
 * draws of all taped values of an example with its poses found again on their stops.
 */
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import { Shifts } from '../../geometry/build/shift.ts';
import { axlePairsOf, comparisonOf } from '../../geometry/compare/compare.ts';
import type { GapRow } from '../../geometry/compare/gapRows.ts';
import type { Of } from '../../geometry/compare/places.ts';
import { tapedOf } from '../../geometry/compare/worth.ts';
import { type OpenedAxle, openAxle } from '../../geometry/cycle/openAxle.ts';
import { gapsOf } from '../../geometry/gap/gapReport.ts';
import { SAME_GAP_in } from '../../geometry/gap/pairGap.ts';
import { type Pair, pairsOf } from '../../geometry/gap/pairs.ts';
import type { Part } from '../../geometry/gap/part.ts';
import { partsOf } from '../../geometry/gap/parts.ts';
import { placePart } from '../../geometry/gap/place.ts';
import { limits } from '../../geometry/limit/list.ts';
import { dotted, inverted, multiplied } from '../../geometry/matrix.ts';
import { MeasureContext } from '../../geometry/measure/measure.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import { DistanceSolver } from '../../geometry/solid/distance.ts';
import { unmoved } from '../../geometry/solid/placement.ts';
import { parallelogram } from './parallelogram.ts';
import { deviation, normal } from './random.ts';
import { type OpenedSide, sideOf, worthOf } from './sides.ts';

/** A side with the gaps of these pairs alone: all of them take seconds. */
function withGaps(side: OpenedSide, isAsked: (one: string, two: string) => boolean): OpenedSide {
  const { readMesh, walks } = side;
  const only = ({ a, b }: Pair): boolean => isAsked(a.name, b.name);
  return { ...side, gaps: walks.map(walk => gapsOf(walk, { readMesh, only })) };
}

/** Names and worth of the gaps that both have. */
function told(a: OpenedSide, b: OpenedSide): Map<string, GapRow> {
  const pairs = axlePairsOf(a.walks, b.walks);
  const { gaps } = comparisonOf(a, b, pairs, worthOf(a, b, pairs));
  return new Map(gaps.map(row => [[...row.pair].sort().join(' / '), row]));
}

/**
 * A ball on an axle that rises level, under a flat pan: the gap is least where both bump stops are solid,
 *
 *     gap = pan − ball − rise,   rise = 4 − pad                                                             (1)
 *
 * with the pan's underside 2.8 + 2 lift over the ball's center, a ball of radius 1 and stops 4 apart at ride. Flexed the
 * ball is lower: it stands in the middle, and the pads inside of the wheels. Derived here.
 */
const LIFT = { value: 1, tolerance: 1 / 8 };
const PAD = { value: 1, tolerance: 1 / 16 };
const gapAt = ({ lift, pad }: { lift: number; pad: number }): number =>
  2.8 + 2 * lift - 1 - (4 - pad);

type Taped = typeof LIFT;

/** The same vehicle; as variant `other` with these values taped for themselves. */
function pan(other: { lift?: Taped; pad?: Taped }): [OpenedSide, OpenedSide] {
  const measured = (each: Taped) => ({ ...each, from: 'measured' });
  const file = JSON.parse(
    parallelogram({
      armRun: { value: 36 },
      armRise: { value: 5 },
      barRun: { value: 37 },
      barRise: { value: 2.75 },
    }),
  );
  file.dimensions.push(
    { name: 'lift', value: measured(LIFT) },
    { name: 'pad', value: measured(PAD) },
  );
  file.axles[0].bumpStops = [
    {
      name: 'bump stop',
      sides: 'mirror',
      kind: 'rubber',
      pad: { on: 'axle', at: [0, 17, 24] },
      strike: { on: 'chassis', at: [0, 17, 28] },
      contactHeight: 2,
      solidHeight: 'pad',
    },
  ];
  file.solids = [
    { name: 'ball', on: 'axle', axle: 'front', sphere: { center: [0, 0, 40], radius: 1 } },
    { name: 'pan', on: 'chassis', box: { center: [0, 0, '43.8 + 2 * lift'], size: [30, 20, 2] } },
  ];
  file.variants[0].changes = Object.entries(other).map(([name, each]) => ({
    part: `dimensions.${name}`,
    field: 'value',
    value: measured(each),
  }));
  const text = JSON.stringify(file);
  const isAsked = (one: string, two: string): boolean => one === 'ball' || two === 'ball';
  return [withGaps(sideOf(text), isAsked), withGaps(sideOf(text, { variant: 'other' }), isAsked)];
}

/** Gradients of the stops are differences over 0.02 in of travel: roll leaves them off by less than this part. */
const GRADIENTS = 1e-3;

describe('a ball under a pan, its pose on both stops', () => {
  test.each<[string, { lift?: Taped; pad?: Taped }, number[]]>([
    // more than what gaps are searched to, and less than what the two pads are known to
    ['pads taped each for itself', { pad: { value: 1.08, tolerance: 1 / 8 } }, [1 / 16, 1 / 8]],
    ['pans taped each for itself', { lift: { value: 1.5, tolerance: 3 / 16 } }, [2 / 8, 6 / 16]],
    [
      'both',
      { pad: { value: 1.25, tolerance: 1 / 8 }, lift: { value: 1.5, tolerance: 1 / 16 } },
      [1 / 16, 1 / 8, 2 / 8, 2 / 16],
    ],
  ])('%s: |slope| t of each, as squares; what both share cancels', (_, other, effects) => {
    const [a, b] = pan(other);
    const row = told(a, b).get('ball / pan');
    const inA = { lift: LIFT.value, pad: PAD.value };
    const inB = {
      lift: other.lift?.value ?? LIFT.value,
      pad: other.pad?.value ?? PAD.value,
    };
    // poses are drawn inside of the range by the last digits of the search
    expect(row?.a?.gap_in).toBeCloseTo(gapAt(inA), 4);
    expect(row?.difference).toBeCloseTo(gapAt(inB) - gapAt(inA), 4);
    const exact = Math.hypot(...effects);
    expect(Math.abs((row?.tolerance ?? 0) / exact - 1)).toBeLessThan(GRADIENTS);
    expect(row?.isNone).toBe(Math.abs(gapAt(inB) - gapAt(inA)) <= exact);
    expect(Math.abs(row?.difference ?? 0)).toBeGreaterThan(SAME_GAP_in);
  });

  test('against itself: no difference, and nothing is left of any tolerance', () => {
    const [a, b] = pan({});
    const rows = [...told(a, b).values()];
    expect(rows.map(({ pair }) => pair.join())).toContain('ball,pan');
    for (const { difference, tolerance, isNone, toward } of rows) {
      expect({ difference, tolerance, isNone, toward }).toEqual({
        difference: 0,
        tolerance: 0,
        isNone: true,
        toward: null,
      });
    }
  });

  test('without the tolerances: a difference counts over what gaps are searched to', () => {
    const [a, b] = pan({ pad: { value: 1.08, tolerance: 1 / 8 } });
    const { gaps } = comparisonOf(a, b, axlePairsOf(a.walks, b.walks), null);
    const row = gaps.find(({ pair }) => pair.includes('pan') && pair.includes('ball'));
    expect(row).toMatchObject({ tolerance: null, isNone: false });
  });
});

/** The example, but for the bump stops' solid height of 0 ± 1/4: it can not be drawn on both sides of nothing. */
const TEXT = readFileSync(
  new URL('../../examples/long-arm-front.axlewalk.json', import.meta.url),
  'utf8',
).replace(/("solidHeight": { "value": 0, "from": "assumed"), "tolerance": "1\/4"/, '$1');

const SEED = 71_993;
const DRAWS = 300;
/** Pairs of the long arms and their variant with short ones that are least where stops alone make the pose, in both. */
const PAIRS = [
  // a bump stop and a shock
  ['left frame step', 'left lower link'],
  // a shock each side, and the steering stop
  ['left lower link', 'left tire'],
] as const;

describe(`long arms against short arms, ${DRAWS} draws of all taped values (seed ${SEED})`, () => {
  const isAsked = (one: string, other: string): boolean =>
    PAIRS.some(pair => pair.every(name => name === one || name === other));
  const side = (variant: string | null): OpenedSide =>
    withGaps(sideOf(TEXT, variant === null ? {} : { variant }), isAsked);
  const drawn = new Map<string, number[]>(PAIRS.map(names => [names.join(' / '), []]));
  let rows = new Map<string, GapRow>();

  beforeAll(() => {
    const sides = { a: side(null), b: side('short arms') };
    rows = told(sides.a, sides.b);
    const taped = tapedOf(sides.a.build.entries, sides.b.build.entries);
    const next = normal(SEED);
    const shifts = {
      a: new Shifts(sides.a.file, sides.a.build.variant),
      b: new Shifts(sides.b.file, sides.b.build.variant),
    };
    const asked = PAIRS.map(names => ({
      names,
      a: onStops(sides.a, names),
      b: onStops(sides.b, names),
    }));
    for (let n = 0; n < DRAWS; n++) {
      const errors = taped.map(({ entry: { path, tolerance }, of }) => ({
        path,
        of,
        by: next() * (tolerance ?? 0),
      }));
      const opened = (of: Of): OpenedAxle => {
        const build = shifts[of].together(errors.filter(each => each.of.includes(of)));
        const axle = build?.axles[0];
        const own = build && axle && openAxle(build, axle);
        if (!own?.ok) throw new Error(`a drawn build is refused: ${JSON.stringify(errors)}`);
        return own.axle;
      };
      const [inA, inB] = [withParts(opened('a')), withParts(opened('b'))];
      for (const { names, a, b } of asked) {
        drawn.get(names.join(' / '))?.push(gapOnStops(inB, names, b) - gapOnStops(inA, names, a));
      }
    }
  }, 300_000);

  test.each([...drawn.keys()])('%s: the draws spread as much as is told', name => {
    const tolerance = rows.get(name)?.tolerance ?? Number.NaN;
    // the deviation of n normal values is known to 1/√(2n); three times that is allowed
    const own = 1 / Math.sqrt(2 * DRAWS);
    expect(drawn.get(name)).toHaveLength(DRAWS);
    expect(Math.abs(deviation(drawn.get(name) ?? []) / tolerance - 1)).toBeLessThan(3 * own);
  });
});

interface OnStops {
  pose: Pose;
  /** The stops that hold the pose: as many as it has inputs, or it is not made by them alone. */
  margins: ((opened: OpenedAxle, pose: Pose) => number)[];
}

interface WithParts {
  opened: OpenedAxle;
  parts: Part[];
}

const withParts = (opened: OpenedAxle): WithParts => ({
  opened,
  parts: partsOf(opened.build, opened.axle, () => ({ problem: 'no mesh is read' })).parts,
});

/** A stop holds where less than this is left of it, in or rad: poses are drawn inside of the range. */
const LEFT = 1e-3;

/** The pose where a pair was found, and its stops. @throws where it is not made by stops alone */
function onStops(side: OpenedSide, names: readonly string[]): OnStops {
  const [walk] = side.walks;
  const gap = side.gaps[0]?.gaps.find(
    ({ pair }) => names.includes(pair.a.name) && names.includes(pair.b.name),
  );
  if (!walk || !gap) throw new Error(`${names.join(' and ')} are not compared`);
  const { pose } = gap;
  const margins = limits
    .filter(({ role }) => role !== 'mustNot')
    .flatMap(limit =>
      limit.targets(walk.axle, walk.build).map(target => (opened: OpenedAxle, at: Pose) => {
        const { build, axle, model } = opened;
        const margin = limit.margin(new MeasureContext(build, axle, model, at), target);
        return margin ?? Number.POSITIVE_INFINITY;
      }),
    )
    .filter(margin => Math.abs(margin(walk, pose)) < LEFT);
  const inputs = pose.input.steer === 0 ? 2 : 3;
  if (margins.length !== inputs) throw new Error(`${names.join(' and ')} are not on stops alone`);
  return { pose, margins };
}

/** The gap of a pair where the stops of its pose hold in this axle: the pose is found by Newton's method. */
function gapOnStops(
  { opened, parts }: WithParts,
  names: readonly string[],
  { pose, margins }: OnStops,
): number {
  const { left, right, steer } = pose.input;
  const poseAt = ([l = left, r = right, s = steer]: readonly number[]): Pose => {
    const there = opened.model.pose(l, r, s).pose;
    if (!there) throw new Error('a drawn axle is out of reach');
    return there;
  };
  let x = margins.length === 2 ? [left, right] : [left, right, steer];
  const step = 1e-4;
  for (let n = 0; n < 3; n++) {
    const here = poseAt(x);
    const g = margins.map(margin => margin(opened, here));
    const beside = x.map((each, i) => poseAt(x.with(i, each + step)));
    const slopes = margins.map((margin, k) =>
      beside.map(there => (margin(opened, there) - (g[k] ?? 0)) / step),
    );
    // JᵀJ is symmetric and positive: Jᵀ J d = Jᵀ g
    const turned = x.map((_, i) => slopes.map(row => row[i] ?? 0));
    const normals = turned.map(row => turned.map(column => dotted(row, column)));
    const d = multiplied(inverted(normals), multiplied(turned, g));
    x = x.map((each, i) => each - (d[i] ?? 0));
  }
  const here = poseAt(x);
  const [pair] = pairsOf(
    opened.build,
    opened.axle.name,
    parts.filter(({ name }) => names.includes(name)),
  ).pairs;
  if (!pair) throw new Error(`${names.join(' and ')} are not compared`);
  const solver = new DistanceSolver();
  const [a, b] = [unmoved(), unmoved()];
  placePart(pair.a, here, a);
  placePart(pair.b, here, b);
  solver.run(pair.solidA, a, pair.solidB, b);
  return solver.gap;
}
