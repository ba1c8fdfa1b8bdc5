/** Bind: springs in series (derived), balance of forces at joints that give, and exact layouts without any. */
import { expect, test } from 'vitest';
import type { Axle } from '../../geometry/build/build.ts';
import { jointOffsets, stretchOf } from '../../geometry/measure/bind.ts';
import { add, norm, scale, sub, unit, type V3 } from '../../geometry/vector.ts';
import { bushedArms, chassisWishbone, radiusArms, wishbone } from '../pose/families.ts';
import { longArms, shortArms } from '../pose/layouts.ts';
import { parallelLinks, plainAxle, read, trackBar } from './closedForms.ts';
import { Vehicle } from './vehicles.ts';

test('two track bars in one place, one made longer by e: e k₂/(k₁ + k₂) and −e k₁/(k₁ + k₂)', () => {
  const [k1, k2, e] = [9000, 21_000, 0.6];
  const bar = trackBar(800);
  const links = parallelLinks(900).map(l => ({ ...l, rate: 15_000 }));
  const axle = plainAxle([
    ...links,
    { ...bar, rate: k1 },
    { ...bar, name: 'second bar', rate: k2, length: 800 + e },
  ]);
  const ride = new Vehicle(axle).at(0, 0);
  expect(read(ride, 'bind', { part: 'track bar' })).toBeCloseTo((e * k2) / (k1 + k2), 9);
  expect(read(ride, 'bind', { part: 'second bar' })).toBeCloseTo((-e * k1) / (k1 + k2), 9);
  expect(read(ride, 'bind', { part: 'upper link' })).toBeCloseTo(0, 9);
  const [first, second] = [stretchOf(ride.pose, 3), stretchOf(ride.pose, 4)];
  // + is tension; both bars pull against each other alone
  expect(first).toMatchObject({ name: 'track bar' });
  expect(first.force).toBeCloseTo((e * k1 * k2) / (k1 + k2), 4);
  expect(second.force).toBeCloseTo(-first.force, 4);
});

test('an exact layout has none, to the last bit', () => {
  const context = new Vehicle(longArms()).at(4, -3, 0.2);
  for (const link of longArms().links) {
    expect(read(context, 'bind', { part: link.name })).toBe(0);
  }
  expect(stretchOf(context.pose, 0)).toEqual({ name: 'left lower link', stretch: 0, force: 0 });
  expect(jointOffsets(context.pose)).toEqual([]);
});

test('drawn layouts are free of bind at ride height, and bind when flexed', () => {
  for (const axle of [shortArms(), bushedArms()]) {
    const vehicle = new Vehicle(axle);
    const most = (at: [number, number]): number =>
      Math.max(
        ...axle.links.map(({ name }) => Math.abs(read(vehicle.at(...at), 'bind', { part: name }))),
      );
    expect(most([0, 0])).toBeLessThan(1e-9);
    expect(most([5, -5])).toBeGreaterThan(1e-3);
  }
});

test('the worked short arms: 0.011 in and 129 lbf flexed, 0.014 in and 171 lbf at −5/−5', () => {
  // from an independent least-squares solver, as printed: three and no decimals
  const vehicle = new Vehicle(shortArms());
  const largest = (left: number, right: number): [stretch: number, force: number] => {
    const all = shortArms().links.map((_, i) => stretchOf(vehicle.pose(left, right), i));
    const one = (of: 'stretch' | 'force'): number => Math.max(...all.map(s => Math.abs(s[of])));
    return [one('stretch'), one('force')];
  };
  expect(largest(5, -5)[0]).toBeCloseTo(0.011, 3);
  expect(Math.abs(largest(5, -5)[1] - 129)).toBeLessThan(0.5);
  expect(largest(-5, -5)[0]).toBeCloseTo(0.014, 3);
  expect(Math.abs(largest(-5, -5)[1] - 171)).toBeLessThan(0.5);
});

test.each<[string, () => Axle, string]>([
  ['a ball on the axle', () => wishbone(35_000), 'upper ball'],
  ['a ball on the chassis', chassisWishbone, 'lower ball'],
])('%s that gives is pushed by as much as its links pull', (_, make, name) => {
  const axle = make();
  const { pose } = new Vehicle(axle).at(4, -3);
  const offset = jointOffsets(pose).find(j => j.name === name);
  let pull: V3 = [0, 0, 0];
  for (const [i, link] of axle.links.entries()) {
    if (link.axle.shared !== name && link.chassis.shared !== name) continue;
    const at = (end: 'axle' | 'chassis'): V3 =>
      pose.point(link[end].shared === name ? name : end, link[end].at);
    const away = link.axle.shared === name ? 1 : -1;
    const along = unit(sub(at('chassis'), at('axle')));
    pull = add(pull, scale(along, away * stretchOf(pose, i).force));
  }
  // the energy's gradient vanishes to 1e-6 lbf
  expect(offset?.force).toBeCloseTo(norm(pull), 5);
  expect(norm(pull)).toBeGreaterThan(1);
  expect(read(new Vehicle(axle).at(4, -3), 'bind', { part: name })).toBe(offset?.offset);
});

test('a radius arm is in balance: its three joints pull in one plane, and close a triangle', () => {
  const { pose } = new Vehicle(radiusArms()).at(4, -3);
  const forces = jointOffsets(pose)
    .filter(j => j.name.startsWith('left'))
    .map(j => j.force);
  expect(forces).toHaveLength(3);
  const [a, b, c] = forces as [number, number, number];
  // triangle inequality of three forces whose sum is none
  expect(c).toBeLessThan(a + b);
  expect(a).toBeLessThan(b + c);
  expect(b).toBeLessThan(a + c);
});
