import { Line3, Triangle, Vector3 } from 'three';
import { ExtendedTriangle } from 'three-mesh-bvh';
import { describe, expect, it } from 'vitest';
import { numbers } from '../../geometry/solid/numbers.ts';
import { segmentToTriangle } from '../../geometry/solid/triangleDistance.ts';
import { randomFrom } from '../oracle/solidCases.ts';

function measured(segment: readonly number[], triangle: readonly number[]) {
  const s = numbers(18);
  const t = numbers(17);
  s.set(segment);
  t.set(triangle);
  segmentToTriangle(s, t);
  return {
    distance: Math.sqrt(t[9]),
    along: t[10],
    point: [t[11], t[12], t[13]],
    way: [t[14], t[15], t[16]],
  };
}

const flat = [0, 0, 0, 4, 0, 0, 0, 4, 0];

describe('distance of a segment from a triangle', () => {
  // by hand
  it.each([
    ['pierces it', [1, 1, -1, 1, 1, 3], 0, 0.25],
    ['ends over its inside', [1, 1, 2, 1, 1, 5], 2, 0],
    ['is over an edge', [2, -3, 1, 2, -1, 1], Math.SQRT2, 1],
    ['is over a corner', [-3, -4, 0, -6, -8, 0], 5, 0],
    ['lies in its plane, outside', [5, 5, 0, 3, 3, 0], Math.SQRT2, 1],
    ['crosses it in its plane', [-1, 1, 0, 5, 1, 0], 0, null],
    ['is a point over it', [1, 2, 3, 1, 2, 3], 3, null],
  ] as const)('that %s', (_, segment, distance, along) => {
    const found = measured(segment, flat);
    expect(found.distance).toBeCloseTo(distance, 14);
    if (along !== null) expect(found.along).toBeCloseTo(along, 14);
  });

  it('leaves a triangle without area to its edges', () => {
    expect(measured([1, 1, 0, 1, 5, 0], [0, 0, 0, 2, 0, 0, 4, 0, 0]).distance).toBeCloseTo(1, 14);
    expect(measured([1, 1, 0, 1, 5, 0], [1, 0, 0, 1, 0, 0, 1, 0, 0]).distance).toBeCloseTo(1, 14);
  });

  it("is that of three-mesh-bvh's triangle on 2,000 random pairs (seed 3)", () => {
    const random = randomFrom(3);
    const vector = () => new Vector3(8 * random() - 4, 8 * random() - 4, 8 * random() - 4);
    for (let k = 0; k < 2000; k++) {
      const [p, q, a, b, c] = [vector(), vector(), vector(), vector(), vector()] as const;
      const want = new ExtendedTriangle(a, b, c).closestPointToSegment(new Line3(p, q));
      const found = measured(
        [...p.toArray(), ...q.toArray()],
        [...a.toArray(), ...b.toArray(), ...c.toArray()],
      );
      // 1e-7: where the segment pierces the triangle, the package is off by the root of its rounding
      expect(Math.abs(found.distance - want), `pair ${k}`).toBeLessThan(1e-7);
      const point = new Vector3().fromArray(found.point);
      const foot = new Triangle(a, b, c).closestPointToPoint(point, new Vector3());
      expect(foot.distanceTo(point), `pair ${k}: on the triangle`).toBeLessThan(1e-12);
      const start = p.clone().lerp(q, found.along);
      expect(start.add(new Vector3().fromArray(found.way)).distanceTo(point)).toBeLessThan(1e-12);
    }
  });
});
