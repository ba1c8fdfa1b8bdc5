/** The section against closed forms: a cylinder's cut is an ellipse, a ball's a circle, a box's a rectangle. */
import { describe, expect, it } from 'vitest';
import { box } from '../../geometry/solid/box.ts';
import { capsule } from '../../geometry/solid/capsule.ts';
import { placement, unmoved } from '../../geometry/solid/placement.ts';
import type { Made } from '../../geometry/solid/solid.ts';
import { sphere } from '../../geometry/solid/sphere.ts';
import { dot } from '../../geometry/vector.ts';
import { contours, type Outline } from '../../src/charts/contours.ts';
import { type Placed, sectionOf } from '../../src/charts/section.ts';

function placed(made: Made, place = unmoved()): Placed {
  if ('problem' in made) throw new Error(made.problem);
  return { solid: made.solid, place };
}

/** Area of an outline by the shoelace formula; positive with the inside on its left. */
function areaOf(outline: Outline): number {
  let sum = 0;
  for (const [i, [x, y]] of outline.entries()) {
    const [u, v] = outline[(i + 1) % outline.length] ?? [0, 0];
    sum += x * v - u * y;
  }
  return sum / 2;
}

const radii = (outline: Outline, [x, y]: readonly [number, number]): number[] =>
  outline.map(([u, v]) => Math.hypot(u - x, v - y));

/**
 * Linear interpolation along an edge of length h errs by up to h²/(8 r) on a circle of radius r: half = 2 in 64 cells
 * gives h = 1/16, and 5e-4 at r = 1. Twice of it is asked.
 */
const ON_LINE = 1e-3;

describe('sectionOf', () => {
  it('cuts two parallel tubes as circles, and finds their gap', () => {
    const rod = (y: number) => placed(capsule({ from: [0, y, 0], to: [30, y, 0], radius: 1 }));
    const { a, b, gap, pointA, pointB, plane } = sectionOf(rod(0), rod(2.5), { half: 2 });
    expect(gap).toBeCloseTo(0.5, 9);
    expect(pointB[0] - pointA[0]).toBeCloseTo(0.5, 9);
    // the plane is square to both tubes: it holds neither's axis
    expect(Math.abs(dot(plane.across, [1, 0, 0]))).toBeLessThan(1e-9);
    expect(Math.abs(dot(plane.along, [1, 0, 0]))).toBeLessThan(1e-9);
    expect(a).toHaveLength(1);
    expect(b).toHaveLength(1);
    for (const r of radii(a[0] ?? [], [-1.25, 0])) {
      // what runs out of the square is closed along its rim
      if (r < 1 - ON_LINE) expect(r).toBeGreaterThan(0.7);
      expect(r).toBeLessThan(1 + ON_LINE);
    }
  });

  it('cuts crossing tubes as equal ellipses: 1/cos of half their angle', () => {
    // tubes crossed at 60°, one over the other: the plane most square to both is 30° off each
    const turn = Math.PI / 6;
    const rod = (sign: number, z: number) =>
      placed(
        capsule({
          from: [-20 * Math.cos(turn), -sign * 20 * Math.sin(turn), z],
          to: [20 * Math.cos(turn), sign * 20 * Math.sin(turn), z],
          radius: 0.5,
        }),
      );
    const section = sectionOf(rod(1, 0), rod(-1, 1.2), { half: 2 });
    expect(section.gap).toBeCloseTo(0.2, 9);
    for (const [outline, x] of [
      [section.a[0], -0.6],
      [section.b[0], 0.6],
    ] as const) {
      // ellipse: (x/r)² + (y cos 30°/r)² = 1
      for (const [u, v] of outline ?? []) {
        const on = Math.hypot((u - x) / 0.5, (v * Math.cos(turn)) / 0.5);
        expect(Math.abs(on - 1)).toBeLessThan(4 * ON_LINE);
      }
      expect(areaOf(outline ?? [])).toBeCloseTo((Math.PI * 0.25) / Math.cos(turn), 2);
    }
  });

  it('cuts a ball over a box: a circle and a rectangle, square to the touch', () => {
    const rail = placed(box({ center: [0, 0, 0], half: [20, 1, 1.5] }));
    // raised by 2.4 through its placement: the same as made there
    const ball = placed(
      sphere({ center: [3, 0, 0], radius: 1 }),
      placement([1, 0, 0, 0, 1, 0, 0, 0, 1], [0, 0, 2.4]),
    );
    const { a, b, gap, plane, up } = sectionOf(rail, ball, { half: 4 });
    expect(gap).toBeCloseTo(-0.1, 9);
    expect(Math.abs(plane.across[2])).toBeCloseTo(1, 6);
    expect(Math.abs(up[0])).toBeCloseTo(1, 6);
    // corners are cut off by up to half a cell's square: 4 · (1/8)²/2
    expect(areaOf(a[0] ?? [])).toBeGreaterThan(6 - 0.04);
    expect(areaOf(a[0] ?? [])).toBeLessThan(6 + 1e-6);
    expect(areaOf(b[0] ?? [])).toBeCloseTo(Math.PI, 1);
    const overlap =
      Math.max(...(a[0] ?? []).map(([x]) => x)) - Math.min(...(b[0] ?? []).map(([x]) => x));
    expect(overlap).toBeCloseTo(0.1, 2);
  });

  it('shows as much as the overlap needs', () => {
    const tire = (x: number) => placed(sphere({ center: [x, 0, 0], radius: 20 }));
    const { half, gap } = sectionOf(tire(0), tire(39));
    expect(gap).toBeCloseTo(-1, 9);
    // two circles of 20 that overlap by 1: their lens is √(20² − 19.5²) high on either side
    expect(half).toBeGreaterThan(Math.sqrt(20 ** 2 - 19.5 ** 2));
    expect(half).toBeLessThan(1.5 * Math.sqrt(20 ** 2 - 19.5 ** 2));
  });
});

describe('contours', () => {
  it('finds a hole in a ring, and turns it the other way', () => {
    const ring = contours((x, y) => Math.abs(Math.hypot(x, y) - 1) - 0.25, 2, 64);
    expect(ring).toHaveLength(2);
    const areas = ring.map(areaOf).sort((p, q) => q - p);
    expect(areas[0]).toBeCloseTo(Math.PI * 1.25 ** 2, 2);
    expect(areas[1]).toBeCloseTo(-Math.PI * 0.75 ** 2, 2);
  });

  it('closes along the rim what goes on beyond it', () => {
    const [half = []] = contours(x => x, 1, 16);
    // x < 0 within the square of side 2, and up to half a cell around it
    expect(areaOf(half)).toBeGreaterThan(2 - 1e-9);
    expect(areaOf(half)).toBeLessThan(2.5);
  });

  it('asks few points where the surface is not', () => {
    let asked = 0;
    contours(
      (x, y) => {
        asked++;
        return Math.hypot(x, y) - 0.5;
      },
      4,
      64,
    );
    expect(asked).toBeLessThan(65 * 65 * 0.3);
  });
});
