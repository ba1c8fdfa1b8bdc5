import { describe, expect, it } from 'vitest';
import { box } from '../../geometry/solid/box.ts';
import { capsule } from '../../geometry/solid/capsule.ts';
import { DistanceSolver } from '../../geometry/solid/distance.ts';
import { mesh } from '../../geometry/solid/mesh.ts';
import { MeshInside } from '../../geometry/solid/meshInside.ts';
import { trianglesNear } from '../../geometry/solid/meshToSegment.ts';
import { numbers } from '../../geometry/solid/numbers.ts';
import { placement, unmoved } from '../../geometry/solid/placement.ts';
import { type Made, type Solid, solidOf } from '../../geometry/solid/solid.ts';
import { sphere } from '../../geometry/solid/sphere.ts';
import { tire } from '../../geometry/solid/tire.ts';
import { NODE_SIZE, type TriangleMesh } from '../../geometry/solid/triangleMesh.ts';
import { meshes, type PoolMesh, randomFrom } from '../oracle/solidCases.ts';
import { solidIn } from './made.ts';

const here = unmoved();
const at = (x: number, y: number, z: number) => placement([1, 0, 0, 0, 1, 0, 0, 0, 1], [x, y, z]);

function arrays({ positions, triangles }: Pick<PoolMesh, 'positions' | 'triangles'>) {
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}

const pool = (i: number): PoolMesh => meshes[i] as PoolMesh;
/** The closed box of half sizes 3, 2, 1. */
const block = solidIn(mesh(arrays(pool(0))));
const blob = solidIn(mesh(arrays(pool(1))));
const ring = solidIn(mesh(arrays(pool(2))));
const sheet = solidIn(mesh(arrays(pool(3))));

const treeOf = (solid: Solid) => solid.mesh as TriangleMesh;
const solver = new DistanceSolver();

function gapOf(a: Solid, b: Solid, placeB = here): number {
  solver.run(a, here, b, placeB);
  return solver.gap;
}

describe('a mesh', () => {
  it('knows whether it is closed, and says why not', () => {
    expect(meshes.map(each => treeOf(solidIn(mesh(arrays(each)))).closed)).toEqual(
      meshes.map(each => each.closed),
    );
    expect(treeOf(block).notes).toEqual([]);
    const holed = mesh(arrays({ ...pool(0), triangles: pool(0).triangles.slice(3) }));
    expect(treeOf(solidIn(holed)).notes).toEqual([
      'not closed (3 edges with one triangle only): it counts as a surface without inside, so a part wholly behind it is not found',
    ]);
  });

  it('has a tree whose bounds hold all that is below them', () => {
    for (const solid of [block, blob, ring, sheet]) {
      const { nodes, links, positions, triangles } = treeOf(solid);
      const seen = new Uint8Array(triangles.length / 3);
      const check = (node: number, above: number[]): void => {
        const chain = [...above, node];
        const [second = 0, count = 0] = links.subarray(2 * node, 2 * node + 2);
        if (count === 0) {
          check(node + 1, chain);
          check(second, chain);
          return;
        }
        for (let t = second; t < second + count; t++) {
          seen[t] = (seen[t] ?? 0) + 1;
          for (let k = 0; k < 3; k++) {
            const v = 3 * (triangles[3 * t + k] ?? 0);
            for (const each of chain) {
              const i = NODE_SIZE * each;
              const d = [0, 1, 2].map(axis => (positions[v + axis] ?? 0) - (nodes[i + axis] ?? 0));
              expect(Math.hypot(...d)).toBeLessThanOrEqual(nodes[i + 6] ?? 0);
              for (const [axis, x] of d.entries()) {
                expect(Math.abs(x)).toBeLessThanOrEqual(nodes[i + 3 + axis] ?? 0);
              }
            }
          }
        }
      };
      check(0, []);
      expect(seen.every(each => each === 1)).toBe(true);
    }
  });

  it('is scaled and placed', () => {
    const turned = placement([0, -1, 0, 1, 0, 0, 0, 0, 1], [100, 0, 0]);
    const solid = solidIn(mesh({ ...arrays(pool(0)), scale: 10, place: turned }));
    // half sizes 30, 20, 10, turned about Z: its face towards −X stands at 100 − 20
    const ball = solidIn(sphere({ center: [70, 0, 0], radius: 1 }));
    expect(gapOf(ball, solid)).toBeCloseTo(9, 12);
  });

  it('keeps double precision: 50 in away and 1e-9 apart', () => {
    const far = solidIn(mesh({ ...arrays(pool(0)), place: at(50.0000001234567, 0, 0) }));
    const ball = solidIn(sphere({ center: [45.5, 0, 0], radius: 1 }));
    expect(gapOf(ball, far)).toBeCloseTo(0.5000001234567, 11);
  });

  it.each<[string, Made, string]>([
    [
      'empty',
      mesh({ positions: new Float64Array(9), triangles: new Uint32Array(0) }),
      'the mesh is empty: it has no triangles',
    ],
    [
      'not of triangles',
      mesh({ positions: new Float64Array(9), triangles: Uint32Array.of(0, 1, 2, 0) }),
      'the mesh has 4 corners; three make a triangle',
    ],
    [
      'of unknown vertices',
      mesh({ positions: new Float64Array(9), triangles: Uint32Array.of(0, 1, 3) }),
      'triangle 1 names vertex 4; there are 3',
    ],
    [
      'with NaN',
      mesh({
        positions: Float64Array.of(0, 0, 0, 1, 0, 0, 0, Number.NaN, 0),
        triangles: Uint32Array.of(0, 1, 2),
      }),
      'y of vertex 3 is NaN; it must be a finite number',
    ],
    [
      'too large',
      mesh({ ...arrays(pool(0)), scale: 1e6 }),
      'x of vertex 1 is -3000000 in; at most 1000000 in is possible: is the unit right?',
    ],
    [
      'without size',
      mesh({ positions: new Float64Array(9), triangles: Uint32Array.of(0, 1, 2) }),
      'the mesh has no size: all of its triangles are points or lines',
    ],
    ['tiny', mesh({ ...arrays(pool(0)), scale: 1e-8 }), 'the mesh has no size: is the unit right?'],
    [
      'with a scale of 0',
      mesh({ ...arrays(pool(0)), scale: 0 }),
      "scale is 0; it must be above 0: the inches in one of the file's units",
    ],
    [
      'mirrored',
      mesh({ ...arrays(pool(0)), place: placement([1, 0, 0, 0, 1, 0, 0, 0, -1], [0, 0, 0]) }),
      'the axes of the placement are left-handed; they must be right-handed',
    ],
    [
      'with too many triangles',
      mesh({ positions: new Float64Array(9), triangles: new Uint32Array(3_000_003) }),
      'the mesh has 1000001 triangles; at most 1000000 are read: thin it out',
    ],
  ])('that is %s is refused', (_, made, problem) => {
    expect(made).toEqual({ problem });
  });

  it('with 100,000 triangles in one place has one leaf for them and is still measured', () => {
    const triangles = new Uint32Array(300_000).map((_, i) => i % 3);
    const heap = solidIn(
      mesh({ positions: Float64Array.of(0, 0, 0, 1, 0, 0, 0, 1, 0), triangles }),
    );
    expect(gapOf(solidIn(sphere({ center: [0.25, 0.25, 3], radius: 1 })), heap)).toBeCloseTo(2, 14);
  });
});

describe('inside a closed mesh', () => {
  const inside = new MeshInside();

  it('is told as by the shape it was made of (seed 8)', () => {
    const random = randomFrom(8);
    const point = numbers(3);
    for (let k = 0; k < 3000; k++) {
      // a quarter of them on round numbers, in planes of edges and faces
      for (let i = 0; i < 3; i++) {
        const x = 10 * random() - 5;
        point[i] = k % 4 === 0 ? Math.round(2 * x) / 2 : x;
      }
      const q = [Math.abs(point[0]) - 3, Math.abs(point[1]) - 2, Math.abs(point[2]) - 1];
      if (Math.max(...q) !== 0) {
        expect(inside.holds(treeOf(block), point), `${point}`).toBe(Math.max(...q) < 0);
      }
      const square = Math.max(Math.abs(point[0]), Math.abs(point[1]));
      const inRing = Math.abs(point[2]) < 1 && square > 2 && square < 4;
      const onRing = [2, 4].includes(square) || Math.abs(point[2]) === 1;
      if (!onRing) expect(inside.holds(treeOf(ring), point), `${point}`).toBe(inRing);
    }
  });

  it('is told whichever way its triangles face, and never for an open one', () => {
    const turned = pool(0).triangles.slice().reverse();
    const outside = treeOf(solidIn(mesh(arrays({ ...pool(0), triangles: turned }))));
    expect(inside.holds(outside, numbers(3))).toBe(true);
    expect(inside.holds(treeOf(sheet), numbers(3))).toBe(false);
  });

  it.each([
    // a ball is as deep as its own middle is, whatever the mesh's size
    ['ball', sphere({ center: [0.1, 0.1, 0], radius: 0.5 }), -0.5],
    ['capsule', capsule({ from: [-1, 0, 0], to: [1, 0, 0], radius: 0.25 }), -0.25],
    ['box', box({ center: [0, 0, 0], half: [1, 0.5, 0.75] }), -0.5],
    [
      'tire',
      tire({ center: [0, 0, 0], axis: [0, 0, 1], diameter: 2, width: 1, shoulder: 0.25 }),
      -0.5,
    ],
  ])('a %s that touches no surface overlaps', (_, made, want) => {
    expect(gapOf(solidIn(made), block)).toBeCloseTo(want, 9);
    // an open mesh is a surface: the way to it
    const open = solidIn(mesh(arrays({ ...pool(0), triangles: pool(0).triangles.slice(3) })));
    expect(gapOf(solidIn(made), open)).toBeGreaterThan(0);
  });

  it('a ball beside the hole of a ring is apart, and deep when it cuts the ring', () => {
    const ball = (x: number) => solidIn(sphere({ center: [x, 0, 0], radius: 0.5 }));
    expect(gapOf(ball(0), ring)).toBeCloseTo(1.5, 14);
    expect(gapOf(ball(1.75), ring)).toBeCloseTo(-0.25, 14);
    expect(gapOf(ball(2), ring)).toBeCloseTo(-0.5, 14);
  });

  it('overlap is found under a cutoff too', () => {
    solver.cutoff = -0.1;
    solver.run(solidIn(sphere({ center: [0, 0, 0], radius: 0.5 })), here, block, here);
    solver.cutoff = Infinity;
    expect(solver.beyond).toBe(false);
    expect(solver.gap).toBeCloseTo(-0.5, 14);
  });
});

describe('two meshes', () => {
  it.each([
    // by hand, of two boxes of half sizes 3, 2, 1
    ['face to face', [6.5, 1, 0.5], 0.5],
    ['corner to corner', [7, 6, 4], 3],
    ['faces that touch', [6, 0.5, 0.25], 0],
    ['overlapping at a corner: its vertex is 0.25 deep', [5.75, 3.5, 1.5], -0.25],
  ])('boxes %s', (_, [x, y, z], want) => {
    expect(gapOf(block, block, at(x as number, y as number, z as number))).toBeCloseTo(want, 12);
  });

  it('one wholly inside the other is as deep as its deepest vertex', () => {
    const small = solidIn(mesh({ ...arrays(pool(0)), scale: 0.25 }));
    // vertices at ±0.75, ±0.5, ±0.25: nearest to the faces at z = ±1
    expect(gapOf(block, small)).toBeCloseTo(-0.75, 12);
    expect(gapOf(small, block)).toBeCloseTo(-0.75, 12);
    expect(gapOf(small, block, at(0, 0, 5))).toBeCloseTo(3.75, 12);
  });

  it('surfaces that cross have gap 0 where neither is closed', () => {
    const half = Math.SQRT1_2;
    const upright = placement([1, 0, 0, 0, half, -half, 0, half, half], [0.3, 0.2, 0]);
    expect(gapOf(sheet, sheet, upright)).toBe(0);
  });
});

it('trianglesNear names every triangle within the distance of a segment', () => {
  const tree = treeOf(sheet);
  const segment = numbers(6);
  segment.set([-4, -3, 1, 4, 3, 1.5]);
  const out = new Int32Array(500);
  const count = trianglesNear(tree, segment, 0.8, out);
  expect(count).toBeGreaterThan(20);
  expect(count).toBeLessThan(tree.triangles.length / 3);
  const near = new Set(out.subarray(0, count));
  const rod = solidIn(capsule({ from: [-4, -3, 1], to: [4, 3, 1.5], radius: 0.8 }));
  for (let t = 0; t < tree.triangles.length / 3; t++) {
    const one = {
      positions: tree.positions,
      triangles: tree.triangles.slice(3 * t, 3 * t + 3),
    };
    const isNear = gapOf(rod, solidIn(mesh(one))) < 0;
    if (isNear) expect(near.has(t), `triangle ${t}`).toBe(true);
  }
  expect(trianglesNear(tree, segment, 0.8, new Int32Array(3))).toBe(count);
});

it('a mesh that is sent to a worker is the same there', () => {
  const sent = structuredClone(blob);
  const rod = solidIn(capsule({ from: [-6, 5, 1], to: [6, 5, 3], radius: 0.5 }));
  expect(gapOf(rod, sent)).toBe(gapOf(rod, blob));
  expect(solidOf('sphere', []).mesh).toBeNull();
});
