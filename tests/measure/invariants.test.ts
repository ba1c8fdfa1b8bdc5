/**
 * What the values of every measure must do when the whole vehicle is mirrored left and right, or scaled:
 * relations that need no reference.
 */
import { expect, test } from 'vitest';
import type { Axle, Build, Vec3 } from '../../geometry/build/build.ts';
import { measures } from '../../geometry/measure/list.ts';
import type { Measure, Target } from '../../geometry/measure/measure.ts';
import { FAMILIES } from '../pose/families.ts';
import { equipped, Vehicle, weights } from './vehicles.ts';

/** Residuals of solved poses, 1e-11 in, magnified in rates by travel: as against the oracle. */
const TOLERANCE = 1e-8;

const swapped = (name: string): string =>
  name.replace(/left|right/g, side => (side === 'left' ? 'right' : 'left'));

const isVec = (value: unknown): value is Vec3 =>
  Array.isArray(value) && value.length === 3 && value.every(v => typeof v === 'number');

/**
 * Points and directions with y negated, left and right swapped in every name, clocking and phase negated. Toe and
 * camber have no hand: toe-in stays toe-in.
 */
function mirrored<T>(value: T): T {
  if (typeof value === 'string') return swapped(value) as T;
  if (isVec(value)) return [value[0], -value[1], value[2]] as T;
  if (Array.isArray(value)) return value.map(mirrored) as T;
  if (typeof value !== 'object' || value === null) return value;
  const out: Record<string, unknown> = {};
  for (const [key, item] of Object.entries(value)) {
    const turn = key === 'clocking' || key === 'phase';
    out[swapped(key)] = turn ? -(item as number) : mirrored(item);
  }
  return out as T;
}

/** Values that turn their sign with the mirror. */
const ODD = new Set([
  'lateralShift',
  'lateralShiftArc',
  'lateralShiftRoll',
  'lateralShiftGround',
  'meanSteer',
  'axleSteer',
  'knuckleSteer',
  'bumpSteer',
  'steeringWheelToStraight',
  'steer',
]);

const POSES: [number, number, number][] = [
  [1, 1, 0.1],
  [3, -2, -0.2],
];

function eachValue(
  axle: Axle,
  build: Build,
  check: (measure: Measure, target: Target) => void,
): void {
  for (const measure of measures) {
    for (const target of measure.targets(axle, build)) check(measure, target);
  }
}

const close = (a: unknown, b: unknown, what: string): void => {
  if (typeof a !== 'number' || typeof b !== 'number') {
    expect.soft(typeof a, what).toBe(typeof b);
    return;
  }
  expect
    .soft(Math.abs(a - b) / Math.max(1, Math.abs(b)), `${what}: ${a} against ${b}`)
    .toBeLessThan(TOLERANCE);
};

for (const [name, make] of Object.entries(FAMILIES)) {
  const axle = equipped(make());
  const scaleOf = axle.steering?.box === null ? 5 : 1;

  test(`mirrored left and right: ${name}`, () => {
    const vehicle = new Vehicle(axle);
    const other = new Vehicle(mirrored(axle));
    for (const [left, right, steer] of POSES) {
      const input = axle.steered ? steer * scaleOf : 0;
      const here = vehicle.at(left, right, input);
      const there = other.at(right, left, -input);
      eachValue(axle, vehicle.build, (measure, { part, side }) => {
        const a = measure.value(here, { part, side });
        const b = measure.value(there, {
          part: part && swapped(part),
          side: side && (swapped(side) as 'left' | 'right'),
        });
        // a double-ended ram's share counts from its left end
        const flipped = measure.id === 'ramStrokeShare' && part === 'steering ram';
        const expected = typeof a !== 'number' ? a : flipped ? 1 - a : ODD.has(measure.id) ? -a : a;
        close(b, expected, `${measure.id} ${part ?? side ?? ''} at ${left}/${right}`);
      });
    }
  });

  test(`scaled: ${name}`, () => {
    const s = 1.75;
    const vehicle = new Vehicle(axle);
    const other = new Vehicle(scaled(axle, s), {
      wheelbase: vehicle.build.wheelbase * s,
      weights: weights({ centerOfGravity: [-50 * s, 0, 31 * s] }),
    });
    for (const [left, right, steer] of POSES) {
      const input = axle.steered ? steer * scaleOf : 0;
      const here = vehicle.at(left, right, input);
      const there = other.at(left * s, right * s, axle.steering?.box === null ? input * s : input);
      eachValue(axle, vehicle.build, (measure, target) => {
        const a = measure.value(here, target);
        const power = { in: 1, ft: 1, in·lbf: 2 }[measure.unit as 'in'] ?? 0;
        const expected = typeof a === 'number' ? a * s ** power : a;
        close(
          measure.value(there, target),
          expected,
          `${measure.id} ${target.part ?? target.side ?? ''} at ${left}/${right}`,
        );
      });
    }
  });
}

/** Keys that hold a length, in; torsional and conical rates grow by the square, so that energies stay alike. */
const LENGTHS = new Set([
  'wheelCenters',
  'diameter',
  'width',
  'loadedRadius',
  'shoulder',
  'give',
  'length',
  'closed',
  'stroke',
  'shortest',
  'longest',
  'free',
  'contactHeight',
  'solidHeight',
  'radius',
  'od',
  'wall',
  'tubeOd',
  'bore',
  'rodDiameter',
]);
const DIRECTIONS = new Set(['bolt', 'bore', 'stud', 'direction', 'axis', 'normal']);

function scaled<T>(value: T, s: number, key = ''): T {
  if (typeof value === 'number') {
    if (LENGTHS.has(key)) return (value * s) as T;
    // EA/L of an entered modulus: the area grows by the square, the length by one, rates are kept
    if (key === 'modulus') return (value / s) as T;
    return (key === 'torsional' || key === 'conical' ? value * s * s : value) as T;
  }
  if (isVec(value)) {
    return (DIRECTIONS.has(key) ? value : value.map(v => v * s)) as T;
  }
  if (Array.isArray(value)) return value.map(item => scaled(item, s, key)) as T;
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([k, item]) => [k, scaled(item, s, k)])) as T;
}

test('the mirror of a mirror is the vehicle, and scaling touches lengths', () => {
  const axle = equipped((FAMILIES['triangulated four links'] as () => Axle)());
  expect(mirrored(mirrored(axle))).toEqual(axle);
  expect(scaled(axle, 2).wheelCenters).toBe(2 * axle.wheelCenters);
  expect(scaled(axle, 2).links[0]?.axle.bolt).toEqual(axle.links[0]?.axle.bolt);
});
