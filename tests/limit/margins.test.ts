import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Axle, JointEnd } from '../../geometry/build/build.ts';
import type { LimitId } from '../../geometry/limit/limit.ts';
import { limits } from '../../geometry/limit/list.ts';
import type { MeasureContext } from '../../geometry/measure/measure.ts';
import { rollingOf } from '../../geometry/measure/rolling.ts';
import { unit, type V3 } from '../../geometry/vector.ts';
import { Vehicle } from '../measure/vehicles.ts';
import { adjusted } from '../pose/families.ts';
import { longArms } from '../pose/layouts.ts';
import { limited } from './limited.ts';

const degrees = Math.PI / 180;

function margin(context: MeasureContext, id: LimitId, part: string, end = 0): number | null {
  const limit = limits.find(each => each.id === id);
  const target = limit
    ?.targets(context.axle, context.build)
    .find(each => each.part === part && each.end === end);
  if (!limit || !target) throw new Error(`no ${id} of ${part}`);
  return limit.margin(context, target);
}

describe('margins at ride height are plain arithmetic', () => {
  const axle = limited(longArms());
  const left = axle.shocks[0];
  const strap = axle.straps[0];
  const hose = axle.lines[0];
  if (!left || !strap || !hose) throw new Error('the axle has these');
  // right triangles whose hypotenuse is whole: 3² + 4² + 12² = 13², 2² + 3² + 6² = 7², 1² + 2² + 2² = 3²
  const made: Axle = {
    ...axle,
    shocks: [{ ...left, axle: [0, 20, 17], chassis: [3, 16, 29], shortest: 10, longest: 15 }],
    straps: [{ ...strap, axle: [0, 16, 20], chassis: [2, 13, 26], length: 7.5 }],
    lines: [
      {
        ...hose,
        from: { on: 'left knuckle', at: [0, 28, 22] },
        to: { on: 'chassis', at: [1, 26, 24] },
        length: 2.75,
      },
    ],
    coils: axle.coils.map(coil => ({ ...coil, axle: [0, 16, 24], chassis: [0, 16, 34], free: 11 })),
    bumpStops: axle.bumpStops.slice(0, 1).map(stop => ({
      ...stop,
      pad: { on: 'axle', at: [0, 17, 24] },
      strike: { on: 'chassis', at: [0.5, 17, 29], normal: [0, 0, -1], radius: 0.6 },
      solidHeight: 0.25,
    })),
  };
  const ride = new Vehicle(made).at(0, 0);

  // coordinates are short decimals: what is left is the rounding of a solve, under 1e-9
  test.each<[LimitId, string, -1 | 0 | 1, number]>([
    ['shockShort', 'left shock', 0, 13 - 10],
    ['shockLong', 'left shock', 0, 15 - 13],
    ['strap', 'left strap', 0, 7.5 - 7],
    ['lineLength', 'left brake hose', 0, 2.75 - 3],
    ['coilSolid', 'left coil', 0, 10 - 7.5],
    ['coilUnseated', 'left coil', 0, 11 - 10],
    ['bumpStop', 'left bump stop', 0, 5 - 0.25],
    ['steeringStop', 'left knuckle', 1, 33 * degrees],
    ['steeringStop', 'left knuckle', -1, 31 * degrees],
    ['steeringStop', 'right knuckle', -1, 33 * degrees],
    ['boxSweep', 'steering box', 1, 44 * degrees],
    ['boxSweep', 'steering box', -1, 45 * degrees],
    ['driveshaftSlip', 'driveshaft', -1, 2],
    ['driveshaftSlip', 'driveshaft', 1, 2],
  ])('%s of %s, end %i', (id, part, end, wanted) => {
    expect(margin(ride, id, part, end)).toBeCloseTo(wanted, 9);
  });

  test('a pad that has slid off its plane stops nothing', () => {
    const stops = made.bumpStops.map(stop => ({
      ...stop,
      strike: { ...stop.strike, radius: 0.4 },
    }));
    expect(
      margin(new Vehicle({ ...made, bumpStops: stops }).at(0, 0), 'bumpStop', 'left bump stop'),
    ).toBe(null);
  });

  test('a line of vertical joints: U-joint angles are differences of slopes in side view', () => {
    const level: Axle = {
      ...made,
      driveline: made.driveline && {
        ...made.driveline,
        pinion: {
          joint: [-10, 8, 21],
          axis: [-Math.cos(7 * degrees), 0, Math.sin(7 * degrees)],
          kind: 'single',
          limit: 10 * degrees,
        },
        transferCase: {
          joint: [-50, 8, 28],
          axis: [Math.cos(4 * degrees), 0, -Math.sin(4 * degrees)],
          kind: 'single',
          limit: 10 * degrees,
        },
      },
    };
    const at = new Vehicle(level).at(0, 0);
    const shaft = Math.atan2(7, 40);
    expect(margin(at, 'driveshaftJoint', 'driveshaft.pinion')).toBeCloseTo(
      10 * degrees - Math.abs(shaft - 7 * degrees),
      9,
    );
    expect(margin(at, 'driveshaftJoint', 'driveshaft.transfer case')).toBeCloseTo(
      10 * degrees - Math.abs(shaft - 4 * degrees),
      9,
    );
  });
});

test('slip is counted from the drawing, also where given lengths move ride height away from it', () => {
  const drawn = new Vehicle(limited(longArms()));
  const moved = new Vehicle(limited(adjusted(longArms(), 'upper link', 0.5)));
  const joint = moved.axle.driveline?.pinion.joint as V3;
  const other = moved.axle.driveline?.transferCase.joint as V3;
  const now = moved.model.ride.point('axle', joint);
  const longer =
    Math.hypot(...now.map((v, i) => v - (other[i] as number))) -
    Math.hypot(...joint.map((v, i) => v - (other[i] as number)));
  expect(Math.abs(longer)).toBeGreaterThan(0.05);
  // lengths of about 37 in, solved to 1e-11
  expect(margin(moved.at(0, 0), 'driveshaftSlip', 'driveshaft', 1)).toBeCloseTo(2 - longer, 9);
  expect(margin(drawn.at(0, 0), 'driveshaftSlip', 'driveshaft', 1)).toBeCloseTo(2, 9);
});

test('a joint of a link is broken just where no roll of it is within both limits', () => {
  const direction = fc
    .tuple(
      fc.double({ min: -1, max: 1, noNaN: true }),
      fc.double({ min: -1, max: 1, noNaN: true }),
      fc.double({ min: -1, max: 1, noNaN: true }),
    )
    .filter(v => Math.hypot(...v) > 0.2)
    .map(v => unit(v));
  const limit = fc.double({ min: 2, max: 40, noNaN: true }).map(v => v * degrees);
  const plain = longArms();
  const [first, ...others] = plain.links;
  if (!first) throw new Error('the axle has links');
  let broken = 0;
  let kept = 0;
  fc.assert(
    fc.property(
      direction,
      limit,
      direction,
      limit,
      fc.double({ min: -3, max: 3, noNaN: true }),
      (a, m, b, n, clocking) => {
        const joint = (end: JointEnd, bolt: V3, most: number): JointEnd => ({
          ...end,
          bolt,
          limit: most,
        });
        const link = {
          ...first,
          axle: { ...joint(first.axle, a, m), clocking },
          chassis: joint(first.chassis, b, n),
        };
        const vehicle = new Vehicle({ ...plain, links: [link, ...others] });
        const context = vehicle.at(3, -2);
        const window = rollingOf(context, link.name).window;
        const margins = [link.axle.name, link.chassis.name].map(
          name => margin(context, 'jointMisalignment', name) as number,
        );
        const least = Math.min(...margins);
        if (Math.abs(least) < 1e-9) return;
        if (window.kind === 'empty') broken++;
        else kept++;
        expect(least < 0).toBe(window.kind === 'empty');
      },
    ),
    { seed: 4, numRuns: 300 },
  );
  // both cases were met
  expect(Math.min(broken, kept)).toBeGreaterThan(30);
});

test('a joint that holds the roll is asked at the roll that it holds', () => {
  const axle = limited(longArms());
  const tight = (holdsRoll: boolean): MeasureContext =>
    new Vehicle({
      ...axle,
      links: axle.links.map(link =>
        link.name === 'upper link'
          ? {
              ...link,
              axle: { ...link.axle, holdsRoll },
              chassis: { ...link.chassis, limit: 3 * degrees },
            }
          : link,
      ),
    }).at(4, -4);
  const at = (context: MeasureContext, end: string): number =>
    margin(context, 'jointMisalignment', `upper link.${end}`) as number;
  // free, the link rolls to spare its tight joint; held by the other one, the tight joint takes all of it
  expect(at(tight(true), 'axle')).toBeGreaterThan(at(tight(false), 'axle'));
  expect(at(tight(true), 'chassis')).toBeLessThan(at(tight(false), 'chassis'));
});

test('each must-not-reach limit tells the measure at whose extreme it is nearest', () => {
  const vehicle = new Vehicle(limited(longArms()));
  const poses = [
    vehicle.at(1, 1),
    vehicle.at(3, -2, 0.2),
    vehicle.at(-4, 2, -0.3),
    vehicle.at(-1, -3, 0.1),
  ];
  for (const limit of limits.filter(each => each.role === 'mustNot')) {
    for (const target of limit.targets(vehicle.axle, vehicle.build)) {
      const at = limit.nearestAt?.(vehicle.axle, target);
      expect(at, limit.id).toBeDefined();
      if (!at) continue;
      const order = (value: (context: MeasureContext) => number): number[] =>
        poses.map(value).map((v, i, all) => all.filter(other => other < v).length * 10 + (i && 0));
      const margins = order(context => limit.margin(context, target) as number);
      const readings = order(context => {
        const reading = at.measure.value(context, at.target) as number;
        return at.extreme === 'least' ? reading : -reading;
      });
      expect(readings, `${limit.id} ${target.part}`).toEqual(margins);
    }
  }
});
