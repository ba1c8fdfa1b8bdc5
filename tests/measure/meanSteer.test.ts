/** Steer and its parts: sums and signs on the worked fronts and on a rear axle. */
import { expect, test } from 'vitest';
import { measures } from '../../geometry/measure/list.ts';
import { triangulated } from '../pose/families.ts';
import { longArms } from '../pose/layouts.ts';
import { deg, rad, read } from './closedForms.ts';
import { Vehicle } from './vehicles.ts';

test('the worked long arms, from an independent least-squares solver (two decimals printed)', () => {
  const vehicle = new Vehicle(longArms());
  for (const [left, right, mean] of [
    [5, 5, -0.55],
    [-5, -5, -0.38],
    [5, -5, -1.24],
    [-5, 5, 1.0],
  ] as const) {
    expect(deg(read(vehicle.at(left, right), 'meanSteer'))).toBeCloseTo(mean, 2);
  }
  expect(deg(read(vehicle.at(5, -5), 'axleSteer'))).toBeCloseTo(-0.99, 2);
  expect(deg(read(vehicle.at(-5, 5), 'axleSteer'))).toBeCloseTo(0.96, 2);
  // pitman −40.4° to +36.9° turns the wheels 32.3° mean each way
  expect(deg(read(vehicle.at(0, 0, rad(-40.4)), 'meanSteer'))).toBeCloseTo(-32.3, 1);
  expect(deg(read(vehicle.at(0, 0, rad(36.9)), 'meanSteer'))).toBeCloseTo(32.3, 1);
});

test('mean steer is half of both, and axle and knuckles add up to it', () => {
  const context = new Vehicle(longArms()).at(3, -4, 0.3);
  const of = (id: string, side?: 'left' | 'right'): number =>
    read(context, id, side ? { side } : {});
  expect(of('meanSteer')).toBeCloseTo((of('steer', 'left') + of('steer', 'right')) / 2, 14);
  expect(of('axleSteer') + of('knuckleSteer')).toBeCloseTo(of('meanSteer'), 14);
  expect(of('toe', 'left')).toBe(-of('steer', 'left'));
  expect(of('toe', 'right')).toBe(of('steer', 'right'));
});

test('total toe changes from ride height at the same steering input', () => {
  const vehicle = new Vehicle(longArms());
  const total = (left: number, right: number, steer: number): number => {
    const context = vehicle.at(left, right, steer);
    return read(context, 'toe', { side: 'left' }) + read(context, 'toe', { side: 'right' });
  };
  expect(read(vehicle.at(4, -2, 0.3), 'totalToeChange')).toBeCloseTo(
    total(4, -2, 0.3) - total(0, 0, 0.3),
    12,
  );
  expect(read(vehicle.at(0, 0, 0.3), 'totalToeChange')).toBeCloseTo(0, 12);
});

test('a rear axle has wheels that point somewhere, and nothing that steers them', () => {
  const axle = triangulated();
  const context = new Vehicle(axle).at(3, -3);
  expect(read(context, 'meanSteer')).toBeCloseTo(read(context, 'axleSteer'), 9);
  expect(read(context, 'camber', { side: 'left' })).toBeCloseTo(0, 12);
  const told = measures.filter(m => m.targets(axle, context.build).length > 0).map(m => m.id);
  for (const id of ['knuckleSteer', 'bumpSteer', 'totalToeChange', 'caster', 'turningCircle']) {
    expect(told).not.toContain(id);
  }
});
