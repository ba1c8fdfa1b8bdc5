import { describe, expect, test } from 'vitest';
import type { Axle, Rod, Steering, Vec3 } from '../../geometry/build/build.ts';
import { problemLine } from '../../geometry/build/problem.ts';
import { assembleSteering, attachment } from '../../geometry/mechanism/steering.ts';
import { rodsTurnedRound } from '../pose/changes.ts';
import { triangulated } from '../pose/families.ts';
import { frontSteering, longArms, rod } from '../pose/layouts.ts';
import { STEERINGS } from '../pose/steerings.ts';
import { distance, dot, minus, plus, times, unit } from '../pose/witness.ts';

const assembled = (steering: Steering | null, axle: Axle = longArms()) =>
  assembleSteering({ ...axle, steering });

const taken = (steering: Steering) => {
  const assembly = assembled(steering);
  if (!assembly.ok || !assembly.steering) throw new Error('not assembled');
  return assembly.steering;
};

const refusal = (steering: Steering | null, axle?: Axle) => {
  const assembly = assembled(steering, axle);
  if (assembly.ok) throw new Error('not refused');
  expect(assembly.problems.length).toBe(1);
  const [problem] = assembly.problems;
  if (!problem) throw new Error('no problem');
  expect(problemLine(problem)).not.toMatch(/undefined|NaN|\[object/);
  return problem;
};

describe('which kind a build draws', () => {
  test.each([
    ['drag link to the right knuckle', 'knuckle', 'right', false],
    ['drag link to the left knuckle, arm in side view', 'knuckle', 'left', false],
    ['drag link to the tie rod', 'tieRod', 'left', true],
    ['drag link beside the tie rod', 'tieRod', 'left', true],
    ['tie rod to the drag link', 'dragLink', 'right', true],
    ['tie rod beside the drag link', 'dragLink', 'right', true],
    ['double-ended ram', 'ram', 'left', false],
  ] as const)('%s', (name, kind, first, holds) => {
    const steering = (STEERINGS[name] as () => Steering)();
    for (const written of [steering, rodsTurnedRound({ ...longArms(), steering }).steering]) {
      const m = taken(written as Steering);
      expect(m.kind).toBe(kind);
      expect(m.unit).toBe(kind === 'ram' ? 'in' : 'rad');
      // of two knuckles that one tie rod joins either may come first
      if (kind !== 'tieRod') expect(m.first).toBe(first);
      expect(m.held !== null).toBe(holds);
      expect(m.pitman === null).toBe(kind === 'ram');
      expect(m.ramAxis === null).toBe(kind !== 'ram');
    }
  });

  test('rods run from the driver’s hand outward, whichever end is written first', () => {
    for (const make of Object.values(STEERINGS)) {
      const steering = make();
      const turned = rodsTurnedRound({ ...longArms(), steering }).steering as Steering;
      const [a, b] = [taken(steering), taken(turned)];
      if (a.kind === 'tieRod') continue;
      for (const [i, one] of a.rods.entries()) {
        const other = b.rods[i];
        expect(other).toMatchObject({ name: one.name, kind: one.kind, length: one.length });
        expect(other?.from.on).toBe(one.from.on);
        expect(other?.to.at).toEqual(one.to.at);
        // the points keep the names that they have in the file, and the body its end
        expect(other?.from.name).not.toBe(one.from.name);
        expect(other?.anchor).not.toBe(one.anchor);
        expect((other?.rollAt as number) + one.rollAt).toBeCloseTo(0, 15);
      }
    }
  });

  test('axle frame for all but the pitman arm’s ball; kingpin axes point up', () => {
    const m = taken(frontSteering());
    expect(m.pitman?.ball).toEqual([7.25, 18, 27.25]);
    expect(m.rods[m.dragLink]?.from).toMatchObject({ on: 'pitman arm', at: [7.25, 18, 27.25] });
    expect(m.rods[m.dragLink]?.to).toMatchObject({ on: 'right knuckle', at: [7, -29.5, 3.75] });
    expect(m.left.axis[2]).toBeGreaterThan(0.9);
    const axle = longArms();
    const { left, right } = axle.knuckles as NonNullable<Axle['knuckles']>;
    const upsideDown = { lower: left.kingpin.upper, upper: left.kingpin.lower };
    const assembly = assembleSteering({
      ...axle,
      knuckles: { left: { ...left, kingpin: upsideDown }, right },
    });
    if (!assembly.ok || !assembly.steering) throw new Error('not assembled');
    expect(distance(assembly.steering.left.axis, m.left.axis)).toBeLessThan(1e-15);
  });

  test('an axle that does not steer has none, whatever else stands there', () => {
    expect(assembleSteering(triangulated())).toEqual({ ok: true, steering: null });
    expect(assembleSteering({ ...longArms(), steered: false })).toEqual({
      ok: true,
      steering: null,
    });
  });
});

describe('what is refused', () => {
  const box = frontSteering().box;
  const tie = (from: Rod['from']['on'], to: Rod['from']['on'], name = 'tie rod'): Rod =>
    rod(name, [from, [6.75, 30.75, 17.75]], [to, [6.75, -30.75, 17.75]]);
  const drag = (from: Rod['from']['on'], to: Rod['from']['on']): Rod =>
    rod('drag link', [from, [7.25, 18, 27.25]], [to, [7, -29.5, 23.75]]);
  const steer = (more: Partial<Steering>): Steering => ({ ...frontSteering(), box, ...more });

  test.each([
    ['no steering', null, /steering$/, /"steered": false/],
    ['no box', steer({ box: null }), /steering$/, /a box, a drag link and one tie rod/],
    ['no drag link', steer({ dragLink: null }), /steering$/, /a box, a drag link and one tie rod/],
    ['no tie rod', steer({ tieRods: [] }), /steering$/, /one tie rod/],
    [
      'two tie rods beside a drag link',
      steer({
        tieRods: [
          tie('left knuckle', 'right knuckle'),
          tie('left knuckle', 'right knuckle', 'other'),
        ],
      }),
      /steering$/,
      /one tie rod/,
    ],
    [
      'a drag link without the pitman arm',
      steer({ dragLink: drag('left knuckle', 'right knuckle') }),
      /dragLink\.from\.on$/,
      /"pitman arm" at one end/,
    ],
    [
      'a drag link from the pitman arm to itself',
      steer({ dragLink: drag('pitman arm', 'pitman arm') }),
      /dragLink\.to\.on$/,
      /"left knuckle", "right knuckle" or "tie rod"/,
    ],
    [
      'a drag link to the tie rod, which holds one knuckle only',
      steer({
        dragLink: drag('pitman arm', 'tie rod'),
        tieRods: [tie('left knuckle', 'drag link')],
      }),
      /tieRod$/,
      /from one knuckle to the other/,
    ],
    [
      'a tie rod between one knuckle and itself',
      steer({ tieRods: [tie('right knuckle', 'right knuckle')] }),
      /tieRod$/,
      /to the left knuckle/,
    ],
    [
      'a tie rod from the drag link to the knuckle that the drag link turns',
      steer({ tieRods: [tie('drag link', 'right knuckle')] }),
      /tieRod$/,
      /to the left knuckle, since the drag link turns the right knuckle/,
    ],
  ] as [string, Steering | null, RegExp, RegExp][])('%s', (_, steering, path, wanted) => {
    const problem = refusal(steering);
    expect(problem.path).toMatch(/^axles\["front"\]\.steering/);
    expect(problem.path).toMatch(path);
    expect(problem.wanted).toMatch(wanted);
  });

  const ram = (): Steering => (STEERINGS['double-ended ram'] as () => Steering)();

  test('a double-ended ram with one tie rod, two to one knuckle, or on the chassis', () => {
    const { tieRods, rams } = ram();
    const [left, right] = tieRods as [Rod, Rod];
    expect(refusal({ ...ram(), tieRods: [left] }).wanted).toMatch(/two tie rods/);
    expect(refusal({ ...ram(), tieRods: [left, { ...left, name: 'other' }] }).path).toMatch(
      /tieRod$/,
    );
    const onChassis = rams.map(r => ({ ...r, body: { ...r.body, on: 'chassis' as const } }));
    expect(refusal({ ...ram(), tieRods: [left, right], rams: onChassis })).toMatchObject({
      path: 'axles["front"].steering.rams["steering ram"].body.on',
      found: '"chassis"',
    });
  });

  test('a ram’s tie rod from one knuckle to the other', () => {
    const [left, right] = ram().tieRods as [Rod, Rod];
    const across = { ...left, from: { ...right.from, on: 'right knuckle' as const } };
    expect(refusal({ ...ram(), tieRods: [across, right] }).path).toMatch(/tieRod$/);
    const noRam = { ...left, from: { ...left.from, on: 'drag link' as const } };
    expect(refusal({ ...ram(), tieRods: [noRam, right] }).path).toMatch(/tieRod$/);
  });
});

describe('a point on a rod: along its line and off it', () => {
  const origin: Vec3 = [0, 0, 20];
  const of = (length: number, anchor: 'from' | 'to') => ({
    ...(taken(frontSteering()).rods[1] as ReturnType<typeof taken>['rods'][0]),
    from: { name: 'a', on: 'left knuckle' as const, at: [6, 30, -2] as Vec3 },
    to: { name: 'b', on: 'right knuckle' as const, at: [6, -30, -2] as Vec3 },
    length,
    anchor,
  });

  test('on the line there is nothing off it', () => {
    const held = attachment(0, of(60, 'from'), [6, -15, -2], origin);
    expect(held).toEqual({ rod: 0, fraction: 0.75, off: [0, 0, 0] });
    // a hair of rounding is on the line
    expect(attachment(0, of(60, 'from'), [6 + 1e-10, -15, -2], origin).off).toEqual([0, 0, 0]);
    expect(attachment(0, of(60, 'from'), [6 + 1e-8, -15, -2], origin).off).not.toEqual([0, 0, 0]);
  });

  test('beside the line: the rest is square to it', () => {
    const rodOf = of(60, 'from');
    const p: Vec3 = [7, -15.5, -0.5];
    const held = attachment(0, rodOf, p, origin);
    const line = minus(rodOf.to.at, rodOf.from.at);
    expect(dot(held.off, unit(line))).toBeCloseTo(0, 14);
    expect(
      distance(plus(plus(rodOf.from.at, times(line, held.fraction)), held.off), p),
    ).toBeLessThan(1e-13);
  });

  test('a given length keeps the distance from the end written first', () => {
    // 45 in from `from`, 15 in from `to`
    expect(attachment(0, of(61, 'from'), [6, -15, -2], origin).fraction).toBeCloseTo(45 / 61, 14);
    expect(attachment(0, of(61, 'to'), [6, -15, -2], origin).fraction).toBeCloseTo(46 / 61, 14);
  });
});
