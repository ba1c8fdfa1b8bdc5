import { describe, expect, it } from 'vitest';
import { brokenEdges, partsOf, weld } from '../../geometry/solid/weld.ts';
import { meshes, randomFrom } from '../oracle/solidCases.ts';

/** Each triangle with corners of its own, as STL has them. */
function loose(mesh: { positions: readonly number[]; triangles: readonly number[] }) {
  const positions = mesh.triangles.flatMap(i => mesh.positions.slice(3 * i, 3 * i + 3));
  return {
    positions: Float64Array.from(positions),
    triangles: Uint32Array.from(mesh.triangles, (_, i) => i),
  };
}

describe('welding', () => {
  it('makes equal corners one vertex: Euler says 2 for a ball, 0 for a ring', () => {
    // vertices − edges + triangles, with 3/2 edges a triangle where the surface is closed
    const euler = [0, 1, 2].map(i => {
      const { positions, triangles } = loose(meshes[i] as (typeof meshes)[number]);
      const welded = weld(positions, triangles);
      return welded.positions.length / 3 - welded.triangles.length / 3 / 2;
    });
    expect(euler).toEqual([2, 2, 0]);
  });

  it('takes 0 and −0 for the same, and nothing else that is not equal', () => {
    // 300 vertices, each with both zeros in every axis
    const positions: number[] = [];
    for (let i = 1; i <= 100; i++) {
      for (const zero of [0, -0]) positions.push(i, zero, zero, zero, i, zero, zero, zero, i);
    }
    const triangles = Uint32Array.from({ length: 600 }, (_, i) => i);
    const welded = weld(Float64Array.from(positions), triangles);
    expect(welded.positions.length / 3).toBe(300);
    const near = weld(
      Float64Array.of(0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0, 1e-300),
      Uint32Array.of(0, 1, 2, 3, 1, 2),
    );
    expect(near.positions.length / 3).toBe(4);
  });

  it('leaves out triangles with two corners in one place, and counts them', () => {
    const positions = Float64Array.of(0, 0, 0, 1, 0, 0, 0, 1, 0, 1, 0, 0);
    const welded = weld(positions, Uint32Array.of(0, 1, 2, 0, 1, 3, 2, 2, 1));
    expect(welded.dropped).toBe(2);
    expect([...welded.triangles]).toEqual([0, 1, 2]);
  });

  it('keeps every triangle where it was (seed 6)', () => {
    const random = randomFrom(6);
    const positions = Float64Array.from({ length: 3000 }, () => Math.floor(8 * random()));
    const triangles = Uint32Array.from({ length: 6000 }, () => Math.floor(1000 * random()));
    const welded = weld(positions, triangles);
    const corners = (p: Float64Array, t: Uint32Array) =>
      Array.from({ length: t.length / 3 }, (_, i) =>
        [0, 1, 2].map(k => p.slice(3 * (t[3 * i + k] ?? 0), 3 * (t[3 * i + k] ?? 0) + 3).join()),
      );
    const want = corners(positions, triangles).filter(each => new Set(each).size === 3);
    expect(corners(welded.positions, welded.triangles)).toEqual(want);
    expect(new Set(want.flat()).size).toBe(welded.positions.length / 3);
  });
});

describe('broken edges', () => {
  const closed = meshes[0] as (typeof meshes)[number];
  const of = (triangles: number[]) => brokenEdges(Uint32Array.from(triangles), 8);

  it('are none in a closed mesh', () => {
    expect(of(closed.triangles)).toEqual({ open: 0, crowded: 0, turned: 0 });
  });

  it('are three round a hole of one triangle', () => {
    expect(of(closed.triangles.slice(3))).toEqual({ open: 3, crowded: 0, turned: 0 });
  });

  it('are three round a triangle that is turned over', () => {
    const [a = 0, b = 0, c = 0, ...rest] = closed.triangles;
    expect(of([b, a, c, ...rest])).toEqual({ open: 0, crowded: 0, turned: 3 });
  });

  it('are three round a triangle that is there twice', () => {
    expect(of([...closed.triangles, ...closed.triangles.slice(0, 3)])).toEqual({
      open: 0,
      crowded: 3,
      turned: 0,
    });
  });

  it('are found in a fan of 100,000 triangles about one vertex at once', () => {
    const triangles: number[] = [];
    for (let i = 1; i < 100_000; i++) triangles.push(0, i, i + 1);
    const started = performance.now();
    const broken = brokenEdges(Uint32Array.from(triangles), 100_001);
    expect(broken).toEqual({ open: 100_001, crowded: 0, turned: 0 });
    // the square of the spokes would be minutes
    expect(performance.now() - started).toBeLessThan(5000);
  });
});

it('parts: one vertex of each', () => {
  expect(partsOf(Uint32Array.of(0, 1, 2, 3, 4, 5, 5, 6, 3), 7).length).toBe(2);
});
