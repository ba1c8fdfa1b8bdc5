import type { BufferGeometry } from 'three';
import { describe, expect, it } from 'vitest';
import { distance, dot, norm, scale, sub, unit, type V3 } from '../../geometry/vector.ts';
import { rounded } from '../../src/viewer/shapes/bend.ts';
import { Shaper } from '../../src/viewer/shapes/shaper.ts';
import { disposeShapes, shapesOf } from '../../src/viewer/shapes/shapes.ts';
import { winding } from '../../src/viewer/shapes/springs.ts';
import { EXAMPLES, open } from './opened.ts';

/** Single precision of buffers: 24 bits at 150 in are 1e-5 in. */
const SINGLE = 5e-5;

function corners(geometry: BufferGeometry): V3[] {
  const at = geometry.getAttribute('position');
  return Array.from({ length: at.count }, (_, i): V3 => [at.getX(i), at.getY(i), at.getZ(i)]);
}

/** Six times the volume within a closed surface whose triangles face outward, by the divergence theorem. */
function volume(geometry: BufferGeometry): number {
  const points = corners(geometry);
  const index = geometry.getIndex();
  let sum = 0;
  for (let i = 0; i < (index?.count ?? points.length); i += 3) {
    const [a, b, c] = [0, 1, 2].map(k => points[index ? index.getX(i + k) : i + k] as V3) as [
      V3,
      V3,
      V3,
    ];
    sum +=
      a[0] * (b[1] * c[2] - b[2] * c[1]) +
      a[1] * (b[2] * c[0] - b[0] * c[2]) +
      a[2] * (b[0] * c[1] - b[1] * c[0]);
  }
  return sum / 6;
}

describe('simple bodies', () => {
  // closed forms of solid geometry; n-sided prisms and cones in place of round ones lose (2π²/3n²) of the area
  const sides = 64;
  const flat = 1 - (2 * Math.PI ** 2) / (3 * sides ** 2);

  it('holds the volume of a bar, outside facing out', () => {
    const bar = new Shaper().bar([1, 2, 3], [1, 2, 13], 2, 2, sides).geometry();
    expect(volume(bar)).toBeCloseTo(Math.PI * 4 * 10 * flat, 1);
  });

  it('holds the volume of a straight tube and of a block', () => {
    const tube = new Shaper()
      .tube(
        [
          [0, 0, 0],
          [3, 4, 12],
        ],
        1.5,
        sides,
      )
      .geometry();
    expect(volume(tube)).toBeCloseTo(Math.PI * 2.25 * 13 * flat, 1);
    const axes = [
      [0, 1, 0],
      [0, 0, 1],
      [1, 0, 0],
    ] as const;
    const block = new Shaper().block([5, -2, 1], axes, [1, 2, 3]).geometry();
    expect(volume(block)).toBeCloseTo(48, 3);
  });

  it('holds the volume of a ring and of a ball', () => {
    const ring = new Shaper().ring([0, 0, 0], [0, 1, 0], 3, 2, 1, sides, 0).geometry();
    expect(volume(ring)).toBeCloseTo(Math.PI * 5 * flat, 1);
    const ball = new Shaper().ball([7, 0, 0], 2, sides).geometry();
    expect(volume(ball) / ((4 / 3) * Math.PI * 8)).toBeGreaterThan(0.99);
  });

  it('bends a corner by an arc that is tangent to both legs', () => {
    const bent = rounded(
      [
        [0, 0, 0],
        [10, 0, 0],
        [10, 10, 0],
      ],
      2,
    );
    expect(bent[0]).toEqual([0, 0, 0]);
    expect(bent.at(-1)).toEqual([10, 10, 0]);
    for (const point of bent.slice(1, -1)) expect(distance(point, [8, 2, 0])).toBeCloseTo(2, 9);
  });
});

describe.each(EXAMPLES)('parts of %s', example => {
  const { build, axle, parts } = open(example);
  const shapes = shapesOf(build, axle, parts);

  it('draws every part', () => {
    expect(shapes.map(({ part }) => part.name)).toEqual(parts.map(({ name }) => name));
    for (const { part, shapes: own } of shapes) {
      expect(own.length, part.name).toBeGreaterThan(0);
      for (const { geometry } of own) {
        const numbers = geometry.getAttribute('position').array;
        expect(numbers.length, part.name).toBeGreaterThan(0);
        expect(numbers.every(Number.isFinite), part.name).toBe(true);
        const normals = geometry.getAttribute('normal').array;
        expect(normals.every(Number.isFinite), part.name).toBe(true);
      }
    }
    disposeShapes(shapes);
  });

  it('gives links the radius of their tubes', () => {
    for (const link of axle.links) {
      if (link.through.length > 0 || !link.tube) continue;
      const own = shapes.find(({ part }) => part.name === link.name)?.shapes ?? [];
      const look = link.kind === 'track bar' ? 'trackBar' : 'link';
      const tube = own.find(each => each.look === look);
      const u = unit(sub(link.chassis.at, link.axle.at));
      const middle = scale(sub(link.chassis.at, link.axle.at), 0.5);
      // corners of the tube away from the eyes at its ends
      const off = corners(tube?.geometry as BufferGeometry)
        .map(point => sub(point, link.axle.at))
        .filter(point => Math.abs(dot(sub(point, middle), u)) < norm(middle) - 4)
        .map(point => norm(sub(point, scale(u, dot(point, u)))));
      for (const radius of off) expect(radius).toBeCloseTo(link.tube.od / 2, 3);
    }
  });

  it('keeps tires within the tire that the proof knows', () => {
    const { diameter, width } = axle.tire;
    for (const { part, shapes: own } of shapes) {
      if (part.kind !== 'tire') continue;
      const axis = part.hollow?.axis as V3;
      const out = part.name.startsWith('left') ? 1 : -1;
      const center: V3 = [axle.origin[0], (out * axle.wheelCenters) / 2, axle.origin[2]];
      let largest = 0;
      for (const { geometry, copies } of own) {
        for (const point of corners(geometry)) {
          for (let i = 0; i < (copies?.length ?? 16); i += 16) {
            const m = copies?.subarray(i, i + 16);
            const placed: V3 = m
              ? ([0, 1, 2].map(
                  r =>
                    (m[r] as number) * point[0] +
                    (m[4 + r] as number) * point[1] +
                    (m[8 + r] as number) * point[2] +
                    (m[12 + r] as number),
                ) as unknown as V3)
              : point;
            const from = sub(placed, center);
            const along = dot(from, axis);
            const radius = norm(sub(from, scale(axis, along)));
            largest = Math.max(largest, radius);
            expect(Math.abs(along)).toBeLessThanOrEqual(width / 2 + SINGLE);
          }
        }
      }
      expect(largest).toBeLessThanOrEqual(diameter / 2 + SINGLE);
      // the lugs stand as high as the tire: tops are chamfered by an eighth at most
      expect(largest).toBeGreaterThan(diameter / 2 - 0.15);
    }
  });
});

describe('a wound coil', () => {
  const { axle } = open('long-arm-front');
  const coil = axle.coils[0];
  if (!coil) throw new Error('the example has coils');
  const { geometry, wind } = winding(coil);
  const axis = unit(sub(coil.chassis, coil.axle));
  const extent = (): [number, number] => {
    const along = corners(geometry).map(point => dot(sub(point, coil.axle), axis));
    return [Math.min(...along), Math.max(...along)];
  };

  it('reaches from seat to seat at any length', () => {
    for (const length of [7, 12.5, 19]) {
      wind?.(length);
      const [low, high] = extent();
      expect(low).toBeCloseTo(0, 3);
      expect(high).toBeCloseTo(length, 3);
    }
  });

  it('keeps its diameter and its wire', () => {
    wind?.(9);
    const wire = (coil.wire as number) / 2;
    const mean = (coil.diameter as number) / 2;
    for (const point of corners(geometry)) {
      const from = sub(point, coil.axle);
      const off = norm(sub(from, scale(axis, dot(from, axis))));
      expect(off).toBeGreaterThanOrEqual(mean - wire - SINGLE);
      expect(off).toBeLessThanOrEqual(mean + wire + SINGLE);
    }
  });
});
