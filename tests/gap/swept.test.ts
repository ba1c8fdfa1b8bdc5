/** Swept volumes hold the part at poses that were not looked at, and stay near to what it sweeps. */
import { describe, expect, test } from 'vitest';
import { carried, placed } from '../../geometry/gap/place.ts';
import { sweptVolume } from '../../geometry/gap/swept.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import { DistanceSolver } from '../../geometry/solid/distance.ts';
import { SEGMENT } from '../../geometry/solid/piece.ts';
import { unmoved } from '../../geometry/solid/placement.ts';
import { sphere } from '../../geometry/solid/sphere.ts';
import { add, anySquare, cross, scale, sub, unit, type V3 } from '../../geometry/vector.ts';
import { turnsAround } from '../solid/enclosed.ts';
import { type CycledExample, cycled, draws, partOf } from './cycled.ts';

/** Poses of the range, anywhere in it and at its ends, full lock included. */
function randomPoses({ walk }: CycledExample, random: () => number, count: number): Pose[] {
  const { reach, range } = walk;
  const out: Pose[] = [];
  while (out.length < count) {
    const p = range.edge[Math.floor(random() * range.edge.length)];
    const q = range.edge[Math.floor(random() * range.edge.length)];
    if (!p || !q) continue;
    // two of three on the edge, where most is missed
    const t = out.length % 3 > 0 ? 0 : random();
    const { pose: straight, margin } = reach.travel(
      p.left + t * (q.left - p.left),
      p.right + t * (q.right - p.right),
    );
    if (!straight || margin < 0) continue;
    const interval = reach.steering(straight);
    const share = out.length % 4 === 0 ? Math.sign(random() - 0.5) : 2 * random() - 1;
    const pose = interval && reach.steered(straight, interval, share);
    if (pose) out.push(pose);
  }
  return out;
}

/** Points on the surface of a rod as drawn: around both of its ends, and somewhere between. */
function surfaceOf(part: ReturnType<typeof partOf>, random: () => number): V3[] {
  const segments = part.solid.pieces.filter(({ core, from, to }) => core === SEGMENT && from < to);
  return [0, Math.floor(random() * segments.length), segments.length - 1].map((n, k) => {
    const piece = segments[n];
    if (!piece) throw new Error('no rod');
    const d = piece.data as unknown as [number, number, number, number, number, number];
    const [p, q]: [V3, V3] = [
      [d[0], d[1], d[2]],
      [d[3], d[4], d[5]],
    ];
    const line = unit(sub(q, p));
    const u = anySquare(line);
    const angle = 2 * Math.PI * random();
    const around = add(scale(u, Math.cos(angle)), scale(cross(line, u), Math.sin(angle)));
    const share = k === 1 ? random() : k / 2;
    return add(add(p, scale(sub(q, p), share)), scale(around, piece.radius));
  });
}

const solver = new DistanceSolver();

describe.each([
  ['long-arm-front', 'drag link', 'chassis', 2.5],
  ['long-arm-front', 'track bar', 'axle', 1.5],
  ['hung-tie-rod-front', 'tie rod', 'axle', 2.5],
  ['wishbone-rear', 'left upper wishbone leg', 'chassis', 1.5],
] as const)('%s: the %s, seen from the %s', (name, part, from, tolerance) => {
  const example = cycled(name);
  const rod = partOf(example, part);
  const swept = sweptVolume(example.walk, rod, { tolerance, from, mostPlaces: 1500 });
  const random = draws(17);
  const seen = (pose: Pose, p: V3): V3 => {
    if (from === 'chassis') return p;
    const { R, t } = pose.displacement('axle');
    const d = sub(p, t as unknown as V3);
    return [0, 1, 2].map(
      c => (R[c] as number) * d[0] + (R[3 + c] as number) * d[1] + (R[6 + c] as number) * d[2],
    ) as unknown as V3;
  };

  test('holds the part at random poses (seed 17)', () => {
    for (const pose of randomPoses(example, random, 14)) {
      const place = placed(rod, pose);
      for (const point of surfaceOf(rod, random)) {
        expect(turnsAround(swept, seen(pose, carried(place, point)))).toBeCloseTo(1, 3);
      }
    }
  });

  test('and no vertex of it is further from the part than its tolerance', () => {
    expect(swept.tolerance).toBeLessThan(4);
    // poses dense enough to come near to the nearest one: half a step of the coarse cycle, at most 1 in 1
    const poses = [
      ...example.walk.grid.places.flatMap(({ steered }) => steered.map(({ pose }) => pose)),
      ...randomPoses(example, random, 300),
    ];
    const made = sphere({ center: [0, 0, 0], radius: 1e-6 });
    if ('problem' in made) throw new Error(made.problem);
    const at = unmoved();
    const count = swept.positions.length / 3;
    for (let k = 0; k < 40; k++) {
      const v = 3 * Math.floor(random() * count);
      const vertex = [...swept.positions.subarray(v, v + 3)] as unknown as V3;
      let least = Number.POSITIVE_INFINITY;
      for (const pose of poses) {
        const { R, t } = pose.displacement('axle');
        const there: V3 =
          from === 'chassis'
            ? vertex
            : ([0, 1, 2].map(
                r =>
                  (R[3 * r] as number) * vertex[0] +
                  (R[3 * r + 1] as number) * vertex[1] +
                  (R[3 * r + 2] as number) * vertex[2] +
                  (t[r] as number),
              ) as unknown as V3);
        at.set(there, 9);
        solver.run(rod.solid, placed(rod, pose), made.solid, at);
        least = Math.min(least, solver.gap);
      }
      expect(least).toBeLessThan(swept.tolerance + 1);
    }
  });
});

test('what does not move sweeps itself, and a finer tolerance sweeps less', () => {
  const example = cycled('wishbone-rear');
  const link = partOf(example, 'left upper wishbone leg');
  const coarse = sweptVolume(example.walk, link, { tolerance: 2 });
  const fine = sweptVolume(example.walk, link, { tolerance: 1 });
  expect(fine.tolerance).toBeLessThan(coarse.tolerance);
  expect(fine.places).toBeGreaterThan(coarse.places);
  const tubes = sweptVolume(example.walk, partOf(example, 'axle tubes'), { from: 'axle' });
  expect(tubes.places).toBe(1);
});
