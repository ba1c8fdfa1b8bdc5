/** Arithmetic of jets that measures add: against closed forms of one variable and of a vector on a circle. */
import { expect, test } from 'vitest';
import {
  along,
  angleBetween3,
  arcsine,
  arctangent,
  length3,
  quotient,
  slopeOf,
} from '../../geometry/measure/derivative.ts';
import {
  constant,
  cosine,
  type Jet,
  type Jet3,
  product,
  sine,
  times,
} from '../../geometry/pose/jet.ts';

/** x = 0.3 by left travel, y = −0.7 by right travel, moving by 1 each. */
const variable = (value: number, place: 1 | 2 | 3): Jet => {
  const jet = constant(value);
  jet[place] = 1;
  return jet;
};

const close = (jet: Jet, expected: readonly number[]): void => {
  expect([...jet].map(v => Number(v.toFixed(12)) + 0)).toEqual(
    expected.map(v => Number(v.toFixed(12)) + 0),
  );
};

test('atan2: gradient (−y, x)/ρ² and its own derivatives, in every quadrant', () => {
  for (const [x, y] of [
    [0.3, -0.7],
    [-2, 0.1],
    [-0.4, -0.9],
    [0, 1.5],
  ] as const) {
    const q = x * x + y * y;
    const jet = arctangent(variable(y, 2), variable(x, 1));
    close(jet, [
      Math.atan2(y, x),
      -y / q,
      x / q,
      0,
      (2 * x * y) / q ** 2,
      (y * y - x * x) / q ** 2,
      0,
      (-2 * x * y) / q ** 2,
      0,
      0,
    ]);
  }
});

test('asin: 1/√(1 − a²) and a/(1 − a²)^(3/2)', () => {
  const a = 0.6;
  close(arcsine(variable(a, 1)), [Math.asin(a), 1.25, 0, 0, a / 0.8 ** 3, 0, 0, 0, 0, 0]);
});

test('quotient and length', () => {
  const jet = quotient(variable(3, 1), variable(2, 2));
  close(jet, [1.5, 0.5, -0.75, 0, 0, -0.25, 0, 0.75, 0, 0]);
  const v: Jet3 = [variable(3, 1), constant(4), constant(0)];
  close(length3(v), [5, 0.6, 0, 0, (1 - 0.36) / 5, 0, 0, 0, 0, 0]);
});

test('the angle between a fixed vector and one that goes round is the angle it has gone', () => {
  const turn = times(variable(0.4, 3), 1);
  const going: Jet3 = [
    cosine(turn, Math.cos(0.4), Math.sin(0.4)),
    sine(turn, Math.cos(0.4), Math.sin(0.4)),
    constant(0),
  ];
  const fixed: Jet3 = [constant(2), constant(0), constant(0)];
  close(angleBetween3(fixed, going), [0.4, 0, 0, 1, 0, 0, 0, 0, 0, 0]);
});

test('rates along a motion: of l²r by both wheels, and by equal and opposite travels', () => {
  const l = variable(1.5, 1);
  const r = variable(-2, 2);
  const f = product(product(l, l), r);
  const both = along(f, 1, 1);
  // 2lr + l², and its gradient (2r + 2l, 2l)
  expect(both[0]).toBeCloseTo(2 * 1.5 * -2 + 1.5 ** 2, 12);
  expect(slopeOf(both)).toEqual([2 * -2 + 2 * 1.5, 2 * 1.5, 0]);
  const crossed = along(f, 1, -1);
  // 2lr − l², and its gradient (2r − 2l, 2l)
  expect(crossed[0]).toBeCloseTo(2 * 1.5 * -2 - 1.5 ** 2, 12);
  expect(slopeOf(crossed, 2)).toEqual([2 * (2 * -2 - 2 * 1.5), 2 * 2 * 1.5, 0]);
  // what is not known is not a number
  expect(both[4]).toBeNaN();
});
