import { describe, expect, test } from 'vitest';
import { add, dot, scale, sub, unit, type V3 } from '../../geometry/vector.ts';
import { type Axes, drag, onAxis, onPlane, type Ray } from '../../src/viewer/grips/dragged.ts';

const AXES: Axes = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];
const EYE: V3 = [250, -78, 112];
const AT: V3 = [4, 18, 27.75];

/** The ray from the eye through a point. */
const through = (point: V3): Ray => ({ from: EYE, way: unit(sub(point, EYE)) });

// closed form: the ray is made to pass through a place that is known beforehand
describe('a pointer', () => {
  test.each([0, 1, 2] as const)('that points at a place on axis %i is told so', axis => {
    const place = add(AT, scale(AXES[axis], 3.125));
    expect(onAxis(through(place), AT, AXES[axis])).toBeCloseTo(3.125, 9);
  });
  test('beside an axis means the place of the common perpendicular', () => {
    const ray = through(add(AT, [2, 0.5, -0.25]));
    const t = onAxis(ray, AT, AXES[0]) ?? Number.NaN;
    const place = add(AT, scale(AXES[0], t));
    const off = sub(place, ray.from);
    const foot = add(ray.from, scale(ray.way, dot(off, ray.way)));
    expect(dot(sub(place, foot), AXES[0])).toBeCloseTo(0, 9);
  });
  test('along an axis means no place on it', () => {
    expect(onAxis({ from: EYE, way: [1, 0, 0] }, AT, [1, 0, 0])).toBeNull();
    expect(onPlane({ from: EYE, way: [1, 0, 0] }, AT, [0, 0, 1])).toBeNull();
  });
});

describe('a drag', () => {
  test('by an arrow goes along its axis alone', () => {
    const now = drag(2, through(add(AT, [0, 0, 5])), AT, AXES)(through(add(AT, [0, 0, 7.5])));
    expect(now?.[0]).toBe(0);
    expect(now?.[1]).toBe(0);
    expect(now?.[2]).toBeCloseTo(2.5, 9);
  });
  test('by the ring goes in the plane that is seen most squarely', () => {
    // from ahead: fore and aft is the sight
    const to: V3 = [0, -1.5, 2];
    const by = drag('point', through(AT), AT, AXES)(through(add(AT, to)));
    for (const axis of [0, 1, 2] as const) expect(by?.[axis]).toBeCloseTo(to[axis], 9);
    expect(by?.[0]).toBe(0);
  });
  test('where the hand took hold is no move', () => {
    const hold = through(add(AT, [0, 0.4, -0.3]));
    const by = drag('point', hold, AT, AXES)(hold);
    for (const axis of [0, 1, 2] as const) expect(by?.[axis]).toBeCloseTo(0, 12);
  });
  test('runs along turned axes of a body that is rolled', () => {
    const c = Math.cos(0.25);
    const s = Math.sin(0.25);
    const rolled: Axes = [
      [1, 0, 0],
      [0, c, s],
      [0, -s, c],
    ];
    const by = drag(1, through(AT), AT, rolled)(through(add(AT, scale(rolled[1], -2))));
    expect(by?.[1]).toBeCloseTo(-2, 9);
  });
});
