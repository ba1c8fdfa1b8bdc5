import { expect, test } from 'vitest';
import { entered, fixed, quantity, several, steering, travel } from '../../src/cli/words.ts';

test.each([
  [2.015625, 'in', '2 1/64'],
  [2.33, 'in', '2.33'],
  [1 / 3, 'in', '0.333'],
  [1, 'mm', '25.4 mm'],
] as const)('%d in as entered in %s', (inches, unit, text) => {
  expect(entered(inches, unit)).toBe(text);
});

test('travel by the side that the driver sits on', () => {
  const build = { driverSide: 'left', unit: 'in' } as const;
  expect(travel(build, { left: 6, right: -5.1875 })).toBe(
    'driver wheel 6 up, passenger wheel 5 3/16 down',
  );
  expect(travel({ ...build, driverSide: 'right' }, { left: 6, right: 0 })).toBe(
    'driver wheel at ride height, passenger wheel 6 up',
  );
  expect(travel(build, { left: -2, right: -2 })).toBe('both wheels 2 down');
  expect(travel(build, { left: 0, right: 0 })).toBe('both wheels at ride height');
});

test('steering input in words', () => {
  expect(steering({ value: 20, unit: 'deg' }, 'in')).toBe('pitman arm 20° to the left');
  expect(steering({ value: -36.949, unit: 'deg' }, 'in')).toBe('pitman arm 36.95° to the right');
  expect(steering({ value: 1.5, unit: 'in' }, 'in')).toBe('ram rod 1 1/2 to the left');
  expect(steering({ value: 0, unit: 'deg' }, 'in')).toBe('wheels straight ahead');
});

test('quantities carry their unit, and nothing reads -0', () => {
  expect(quantity(-0.001, 'deg', 'in')).toBe('0.00°');
  expect(quantity(-1.234, 'deg', 'in')).toBe('-1.23°');
  expect(quantity(0.5, 'in', 'mm')).toBe('12.7 mm');
  expect(quantity(-199.674, 'in', 'in')).toBe('-199.67 in');
  expect(quantity(5.9e9, 'ft', 'in')).toBe('5.9e+9 ft');
  expect(quantity(-421345018.72, 'in', 'in')).toBe('-4.2e+8 in');
  expect(quantity(0.118, 'deg/deg', 'in')).toBe('0.118 °/°');
  expect(quantity(47.06, '%', 'in')).toBe('47.1 %');
  expect(quantity(-341.2, 'lbf', 'in')).toBe('-341 lbf');
  expect(quantity(0.95, 'in/in', 'in')).toBe('0.950 in/in');
  expect(fixed(-0.0004, 3)).toBe('0.000');
});

test('counts', () => {
  expect(several(1, 'link')).toBe('1 link');
  expect(several(0, 'entry', 'entries')).toBe('0 entries');
});
