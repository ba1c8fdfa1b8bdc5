import { describe, expect, it } from 'vitest';
import {
  carryPoint,
  carrySegment,
  placement,
  problemOfPlacement,
  relativePlacement,
  turnVector,
  unmoved,
} from '../../geometry/solid/placement.ts';

/** A turn by 90° about Z, then 1, 2, 3. */
const turned = placement([0, -1, 0, 1, 0, 0, 0, 0, 1], [1, 2, 3]);

describe('placements', () => {
  it('carry points by rotation and translation, vectors by rotation alone', () => {
    const out = new Float64Array(6);
    carryPoint(turned, Float64Array.of(9, 4, 0, 0), 1, out, 0);
    expect([...out.subarray(0, 3)]).toEqual([1, 6, 3]);
    turnVector(turned, Float64Array.of(4, 0, 5), 0, out, 3);
    expect([...out.subarray(3)]).toEqual([0, 4, 5]);
    carrySegment(turned, Float64Array.of(4, 0, 0, 0, 1, 1), out, 0);
    expect([...out]).toEqual([1, 6, 3, 0, 2, 4]);
  });

  it('relative ones lead from b to a', () => {
    const b = placement([1, 0, 0, 0, 0, -1, 0, 1, 0], [-4, 0, 7]);
    const aFromB = unmoved();
    relativePlacement(aFromB, turned, b);
    const p = Float64Array.of(1, -2, 5);
    const inA = new Float64Array(3);
    carryPoint(aFromB, p, 0, inA, 0);
    const [one, other] = [new Float64Array(3), new Float64Array(3)];
    carryPoint(turned, inA, 0, one, 0);
    carryPoint(b, p, 0, other, 0);
    expect([...one]).toEqual([...other]);
  });

  it.each([
    [[1, 0, 0], 'a placement has 12 numbers; this one has 3'],
    [
      [1, 0, 0, 0, 1, 0, 0, 0, 1, 0, Number.NaN, 0],
      'number 11 of the placement is NaN; it must be finite',
    ],
    [
      [1, 0, 0, 0, 1, 0, 0, 0, 2, 0, 0, 0],
      'the axes of the placement are not square to each other and of length 1',
    ],
    [
      [1, 0, 0, 0, 1, 0, 0, 0, -1, 0, 0, 0],
      'the axes of the placement are left-handed; they must be right-handed',
    ],
  ])('that are none say why: %#', (numbers, problem) => {
    expect(problemOfPlacement(numbers)).toBe(problem);
    expect(problemOfPlacement(turned)).toBeNull();
  });
});
