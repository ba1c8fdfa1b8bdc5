import { expect, test } from 'vitest';
import type { Axle, Build } from '../../geometry/build/build.ts';
import { type OpenedAxle, openAxle } from '../../geometry/cycle/openAxle.ts';
import { type PoseReport, poseReport } from '../../geometry/cycle/poseReport.ts';
import { distance, dot, norm, scale, sub, type V3 } from '../../geometry/vector.ts';
import { built, sample } from '../build/sample.ts';
import { chassisWishbone, FAMILIES, radiusArms, triangulated, wishbone } from '../pose/families.ts';
import { end, link, longArms, shortArms } from '../pose/layouts.ts';

/** An axle in a build with nothing else in it. */
function opened(axle: Axle): OpenedAxle {
  const build: Build = { ...built(sample()), axles: [axle] };
  const result = openAxle(build, axle);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.axle;
}

const at = (axle: Axle, left: number, right: number, steer = 0): PoseReport =>
  poseReport(opened(axle), { left, right, steer });

const POSES = [
  [0, 0, 0],
  [3, -2, 0],
  [-2.5, 1.25, 0.3],
] as const;

// Lengths are solved to 1e-9 in; recomputing adds the rounding of coordinates near 100 in, 1e-14 each.
const LENGTH_in = 1e-9;

test.each(Object.entries(FAMILIES))(
  '%s: lengths, frame and residual agree with the points',
  (_, make) => {
    const model = opened(make());
    for (const [left, right, steer] of POSES) {
      const report = poseReport(model, { left, right, steer: model.axle.steered ? steer : 0 });
      expect(report.status).toBe('solved');
      expect(report.residual_in).toBeLessThan(LENGTH_in);
      for (const length of report.links) {
        const a = report.points[length.from] as V3;
        const b = report.points[length.to] as V3;
        expect(distance(a, b)).toBeCloseTo(length.length_in, 12);
      }
      const { origin_in, chassisFromAxle } = report.axle;
      const rows = chassisFromAxle as [V3, V3, V3];
      const { origin } = model.model.mechanism;
      for (const { name, on, at: drawn } of model.model.mechanism.named) {
        // ballInChassis = chassisFromAxle · ballInAxle + origin, the axle frame parallel as drawn
        if (on !== 'axle') continue;
        const inAxle = sub(drawn, origin);
        const wanted = rows.map((row, i) => dot(row, inAxle) + ((origin_in as V3)[i] as number));
        expect(distance(report.points[name] as V3, wanted as unknown as V3)).toBeLessThan(1e-11);
      }
      // travels are those of the straight-ahead wheel centers: ½ W beside the origin, in height
      const rise = (y: number): number =>
        dot(rows[2] as V3, [0, y, 0]) + (origin_in as V3)[2] - origin[2];
      expect(rise(model.axle.wheelCenters / 2)).toBeCloseTo(left, 11);
      expect(rise(-model.axle.wheelCenters / 2)).toBeCloseTo(right, 11);
      expect(JSON.stringify(report)).not.toMatch(/NaN|Infinity/);
    }
  },
);

test('a length that is held and off shows in the residual', () => {
  const model = opened(longArms());
  model.model.mechanism.lengths.free[0] = (model.model.mechanism.lengths.free[0] as number) + 0.01;
  expect(poseReport(model, { left: 0, right: 0, steer: 0 }).residual_in).toBeCloseTo(0.01, 9);
});

test('an exact axle carries nothing, and steer is null where nothing steers', () => {
  const report = at(longArms(), 4, -3, 0.2);
  for (const { stretch_in, force_lbf } of report.links)
    expect([stretch_in, force_lbf]).toEqual([0, 0]);
  expect(report.steer?.unit).toBe('deg');
  expect(report.steer?.value).toBeCloseTo((0.2 * 180) / Math.PI, 12);
  const rear = at(triangulated(), 1, 0);
  expect(rear.steer).toBeNull();
  expect(rear.knuckles).toBeNull();
});

/** Force of a length on the axle: tension pulls it towards the chassis end. */
function pull({ links, points }: PoseReport, name: string): V3 {
  const length = links.find(each => each.name === name);
  if (!length) throw new Error(name);
  const along = sub(points[length.to] as V3, points[length.from] as V3);
  return scale(along, length.force_lbf / norm(along));
}

// Newton's second law at rest: the driven travels hold the axle up and level and nothing else, so that all
// forces of links add up to zero fore and aft and sideways, and their moment about Z is zero.
test.each([
  [3, -3],
  [-4, -4],
])('forces of four links and a track bar are in balance at %d, %d', (left, right) => {
  const report = at(shortArms(), left, right);
  const names = report.links.filter(({ kind }) => /^(link|track bar)$/.test(kind)).map(l => l.name);
  let [x, y, moment] = [0, 0, 0];
  const [ox, oy] = report.axle.origin_in as V3;
  for (const name of names) {
    const force = pull(report, name);
    const [px, py] = report.points[`${name}.axle`] as V3;
    x += force[0];
    y += force[1];
    moment += (px - ox) * force[1] - (py - oy) * force[0];
  }
  // the solver ends at a gradient of 1e-6 lbf, moments divided by half the track
  expect(Math.abs(x)).toBeLessThan(1e-6);
  expect(Math.abs(y)).toBeLessThan(1e-6);
  expect(Math.abs(moment)).toBeLessThan(1e-6 * 35.5);
  const largest = Math.max(...names.map(name => norm(pull(report, name))));
  expect(largest).toBeGreaterThan(10);
});

test.each([
  ['upper ball', wishbone(20_000), ['left upper link', 'right upper link'], 20_000],
  ['lower ball', chassisWishbone(), ['left lower link', 'right lower link'], 25_000],
] as const)(
  'a shared %s carries what its two links bring, by its rate',
  (name, axle, links, rate) => {
    const report = at(axle, 4, -3);
    const joint = report.joints.find(each => each.name === name);
    const [a, b] = links.map(each => pull(report, each)) as [V3, V3];
    const sum = norm([a[0] + b[0], a[1] + b[1], a[2] + b[2]]);
    expect(sum).toBeGreaterThan(1);
    expect(joint?.force_lbf).toBeCloseTo(sum, 5);
    expect((joint?.offset_in ?? 0) * rate).toBeCloseTo(joint?.force_lbf ?? 0, 9);
  },
);

test("a radius arm's bushings carry between their axial and their radial rate", () => {
  const report = at(radiusArms(), 5, -5);
  expect(report.joints.map(({ name }) => name)).toEqual(
    ['left', 'right'].flatMap(side =>
      ['axle front', 'axle rear', 'chassis'].map(place => `${side} radius arm.${place}`),
    ),
  );
  for (const { offset_in, force_lbf } of report.joints) {
    expect(offset_in).toBeGreaterThan(1e-4);
    expect(force_lbf).toBeGreaterThan(6_000 * offset_in * (1 - 1e-12));
    expect(force_lbf).toBeLessThan(20_000 * offset_in * (1 + 1e-12));
  }
});

/** Long arms with shocks straight above their axle points, so that both wheels up by t closes them by about t. */
function withShocks(shortest: number): Axle {
  const shock = (side: 'left' | 'right', y: number) => ({
    name: `${side} shock`,
    side,
    axle: [0, y, 20] as V3,
    chassis: [0, y, 42] as V3,
    shortest,
    longest: 30,
    bodyEnd: 'chassis' as const,
    body: { od: null, length: null },
    shaft: { od: null },
    reservoir: null,
  });
  return { ...longArms(), shocks: [shock('left', 20), shock('right', -20)] };
}

test('a stop that is passed is told with its amount, and the pose is out of range', () => {
  const report = at(withShocks(20), 4, 4);
  const length = report.links.find(({ name }) => name === 'left shock')?.length_in ?? 0;
  const left = report.broken.find(({ part }) => part === 'left shock');
  expect(left).toEqual({
    limit: 'shockShort',
    part: 'left shock',
    side: 'left',
    amount: expect.closeTo(20 - length, 12),
    unit: 'in',
  });
  expect(left?.amount).toBeGreaterThan(1.9);
  expect(report.inRange).toBe(false);

  const kept = at(withShocks(17), 4, 4);
  expect(kept.broken).toEqual([]);
  expect(kept.inRange).toBe(true);
});

test('a stop that is met to the last digit is not passed', () => {
  const shocks = at(withShocks(17), 4, 4).links.filter(({ kind }) => kind === 'shock');
  const touching = Math.min(...shocks.map(({ length_in }) => length_in));
  expect(at(withShocks(touching), 4, 4).inRange).toBe(true);
  expect(at(withShocks(touching + 1e-6), 4, 4).inRange).toBe(false);
});

test('a pose that hangs together with ride height only outside the range is out of it', () => {
  const model = opened(longArms());
  const input = { left: 1, right: 1, steer: 0 };
  expect(poseReport(model, input).inRange).toBe(true);
  expect(poseReport(model, input, { connected: () => false }).inRange).toBe(false);
});

test('a pose that does not exist has its reason and no numbers', () => {
  const report = at(longArms(), 50, -50);
  expect(report).toMatchObject({
    status: 'unreachable',
    part: 'axle housing',
    reason: expect.stringContaining('axle housing'),
    residual_in: null,
    axle: { origin_in: null, chassisFromAxle: null },
    links: [],
    measures: [],
    inRange: false,
    broken: [],
  });
});

test('measures come in shown units, and a missing one with its reason', () => {
  const report = at(longArms(), 0, 0, 0.25);
  const steer = report.measures.find(({ id, side }) => id === 'steer' && side === 'left');
  expect(steer?.unit).toBe('deg');
  // the knuckle turns about a kingpin that leans 6° and 8.5°: within 2 % of the turn itself
  const turn = report.knuckles?.left.turn_deg ?? 0;
  expect(Math.abs((steer?.value ?? 0) / turn - 1)).toBeLessThan(0.02);
  for (const { value, reason } of report.measures) {
    if (value === null) expect(reason).toMatch(/\w/);
    else expect(Number.isFinite(value)).toBe(true);
  }
});

/** Short arms with bracket rates at both ends of each link. */
function withBrackets(bracket: number): Axle {
  const axle = shortArms();
  return {
    ...axle,
    links: axle.links.map(each => {
      const ends = {
        rates: { radial: 60_000, axial: null, torsional: null, conical: null, bracket },
      };
      return link(each.name, each.axle.at, each.chassis.at, {
        axle: end(each.axle.name, each.axle.at, ends),
        chassis: end(each.chassis.name, each.chassis.at, ends),
      });
    }),
  };
}

test('half and twice the brackets are the same pose of axles with those brackets', () => {
  const { bracketRates } = at(withBrackets(40_000), 5, -5);
  for (const [factor, result] of [
    [0.5, bracketRates?.half],
    [2, bracketRates?.twice],
  ] as const) {
    const other = at(withBrackets(40_000 * factor), 5, -5);
    const forces = other.links.map(({ force_lbf }) => Math.abs(force_lbf));
    const meanSteer =
      other.measures
        .filter(({ id }) => id === 'steer')
        .reduce((sum, { value }) => sum + (value ?? 0), 0) / 2;
    expect(Math.abs(result?.force_lbf ?? 0)).toBeCloseTo(Math.max(...forces), 6);
    expect(result?.meanSteer_deg).toBeCloseTo(meanSteer, 9);
  }
  expect(Math.abs(bracketRates?.half?.force_lbf ?? 0)).toBeLessThan(
    Math.abs(bracketRates?.twice?.force_lbf ?? 0),
  );
});

test('no bracket rates, nothing to halve', () => {
  expect(at(shortArms(), 5, -5).bracketRates).toBeNull();
  expect(at(longArms(), 5, -5).bracketRates).toBeNull();
});

test('the same pose gives the same bytes', () => {
  const once = JSON.stringify(at(shortArms(), 3, -1, 0.1));
  expect(JSON.stringify(at(shortArms(), 3, -1, 0.1))).toBe(once);
});
