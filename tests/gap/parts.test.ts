/** Every part of the mechanism has a solid from its own dimensions, and stands where its ends are. */
import { describe, expect, test } from 'vitest';
import type { Axle } from '../../geometry/build/build.ts';
import type { Part } from '../../geometry/gap/part.ts';
import { partsOf } from '../../geometry/gap/parts.ts';
import { carried, placed } from '../../geometry/gap/place.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import { DistanceSolver } from '../../geometry/solid/distance.ts';
import { unmoved } from '../../geometry/solid/placement.ts';
import { sphere } from '../../geometry/solid/sphere.ts';
import type { V3 } from '../../geometry/vector.ts';
import { buildOf, cycled, EXAMPLES, partOf } from './cycled.ts';

/** Solved poses carry ends to 1e-11 in; sums of a few turns at 150 in add to that. */
const PLACED_in = 1e-9;

/** What an axle has by itself, by the names of its parts. */
function mechanismOf(axle: Axle): string[] {
  const sides = ['left', 'right'];
  const s = axle.steering;
  const rods = [...(s?.dragLink ? [s.dragLink] : []), ...(s?.tieRods ?? [])];
  return [
    ...axle.links.map(({ name }) => name),
    ...axle.radiusArms.map(({ name }) => name),
    'axle tubes',
    ...(axle.housing.differential ? ['differential'] : []),
    ...(axle.housing.differential?.cover ? ['differential cover'] : []),
    ...(axle.housing.differential && axle.driveline ? ['pinion'] : []),
    ...sides.flatMap(side => [`${side} tire`, `${side} wheel`]),
    ...(axle.knuckles ? sides.flatMap(side => [`${side} knuckle`, `${side} yoke`]) : []),
    ...rods.map(({ name }) => name),
    ...(s?.pitmanArm || s?.box ? ['pitman arm'] : []),
    ...(s?.rams ?? []).flatMap(({ name }) => [`${name} body`, `${name} rod`]),
    ...axle.shocks.flatMap(({ name, reservoir }) => [
      `${name} body`,
      `${name} shaft`,
      ...(reservoir ? [`${name} reservoir`] : []),
    ]),
    ...axle.coils.map(({ name }) => name),
    ...axle.bumpStops.map(({ name }) => name),
    ...(axle.driveline ? ['driveshaft'] : []),
    ...(axle.swayBar ? ['sway bar'] : []),
  ];
}

describe.each(EXAMPLES)('%s', name => {
  const build = buildOf(name);

  test.each(build.axles.map(axle => axle.name))(
    'every part of the mechanism of the %s axle has a solid, each name once',
    which => {
      const { axle, parts } = cycled(name, which);
      const names = parts.map(part => part.name);
      expect(new Set(names).size).toBe(names.length);
      for (const each of mechanismOf(axle)) expect(names).toContain(each);
      const drawn = build.solids.filter(({ on, axle: of }) => on === 'chassis' || of === which);
      for (const each of drawn) expect(names).toContain(each.name);
      for (const { solid, name: part } of parts) {
        expect(solid.bound.every(Number.isFinite), part).toBe(true);
        expect(solid.bound[3], part).toBeGreaterThan(0.1);
      }
    },
  );
});

test('a ram that pushes a tie rod beside its line has a tab there, one that pushes in its line a clamp', () => {
  const long = cycled('long-arm-front');
  const tab = partOf(long, 'assist ram tab');
  expect(tab.body).toBe('tie rod');
  const { axle, build } = long;
  const { steering } = axle;
  const [ram] = steering?.rams ?? [];
  const rod = steering?.tieRods[0];
  if (!steering || !ram?.rod || !rod) throw new Error('the example has a ram on its tie rod');
  const inLine = { ...ram, rod: { ...ram.rod, at: rod.through[0] as V3 } };
  const changed = { ...axle, steering: { ...steering, rams: [inLine] } };
  const { parts } = partsOf(build, changed, () => ({ problem: 'none' }));
  expect(parts.find(part => part.kind === 'ramBracket')?.name).toBe('assist ram clamp');
});

/** Poses far from each other: corners of the grid, full left and full right. */
function farPoses(grid: ReturnType<typeof cycled>['walk']['grid']): Pose[] {
  const poses = grid.places.flatMap(({ steered }) => [
    ...steered.slice(0, 1).map(each => each.pose),
    ...steered.slice(-1).map(each => each.pose),
  ]);
  return poses.filter((_, i) => i % 7 === 0);
}

describe.each(['long-arm-front', 'radius-arm-front', 'wishbone-rear'] as const)(
  'parts of %s',
  name => {
    const example = cycled(name);
    const poses = farPoses(example.walk.grid);

    test('stand with their ends where the mechanism has them', () => {
      let looked = 0;
      for (const part of example.parts) {
        const { motion } = part;
        if (motion.kind === 'rigid') continue;
        const [first, second] =
          motion.kind === 'ends' ? [motion.from, motion.to] : [motion.at, motion.towards];
        for (const pose of poses) {
          const place = placed(part, pose);
          const at = pose.point(first.on, first.at);
          const to = pose.point(second.on, second.at);
          expectNear(carried(place, first.at), at, part);
          if (motion.kind === 'ends') expectNear(carried(place, second.at), to, part);
          else {
            // it points there, and keeps its length
            const there = carried(place, second.at);
            const [long, drawn] = [distance(to, at), distance(second.at, first.at)];
            expectNear(
              there,
              at.map((c, i) => c + ((to[i] as number) - c) * (drawn / long)),
              part,
            );
          }
          looked++;
        }
      }
      expect(looked).toBeGreaterThan(100);
    });

    test('have eyes and housings at their joints', () => {
      const solver = new DistanceSolver();
      const here = unmoved();
      for (const part of example.parts) {
        if (part.kind === 'coil' || part.kind === 'bumpStop' || part.kind === 'knuckle') continue;
        for (const joint of part.joints) {
          const spot = sphere({ center: joint.at, radius: 0.25 });
          if ('problem' in spot) throw new Error(spot.problem);
          solver.run(part.solid, here, spot.solid, here);
          expect(solver.gap, `${part.name} at ${joint.name}`).toBeLessThan(0);
        }
      }
    });
  },
);

test('a coil is open inside, and its ends stay on its seats', () => {
  const example = cycled('long-arm-front');
  const coil = partOf(example, 'left coil');
  const drawn = example.axle.coils.find(each => each.name === 'left coil');
  if (!drawn) throw new Error('the example has coils');
  const solver = new DistanceSolver();
  const spot = sphere({ center: [0, 0, 0], radius: 1e-3 });
  if ('problem' in spot) throw new Error(spot.problem);
  for (const pose of farPoses(example.walk.grid)) {
    const place = placed(coil, pose);
    const [low, high] = [pose.point('axle', drawn.axle), pose.point('chassis', drawn.chassis)];
    for (const share of [0.02, 0.5, 0.98]) {
      const at = unmoved();
      at.set(
        low.map((c, i) => c + share * ((high[i] as number) - c)),
        9,
      );
      solver.run(coil.solid, place, spot.solid, at);
      // mean radius less half of the wire, up to the staves' rounding
      const inner = (drawn.diameter ?? 0) / 2 - (drawn.wire ?? 0) / 2;
      expect(solver.gap).toBeGreaterThan(inner - 0.01);
      expect(solver.gap).toBeLessThan(inner + 0.25);
    }
  }
});

test('a drawn solid that has the name of a part is left out, and the rest goes on', () => {
  const { build, axle } = cycled('long-arm-front');
  const [first] = build.solids;
  if (!first) throw new Error('the example has solids');
  const clashing = { ...build, solids: [{ ...first, name: 'axle tubes' }, ...build.solids] };
  const { parts, problems } = partsOf(clashing, axle, () => ({ problem: 'none' }));
  expect(problems).toHaveLength(1);
  expect(problems[0]?.problem).toMatch(/^solids\["axle tubes"\]\.name: a part of the mechanism/);
  expect(parts).toHaveLength(cycled('long-arm-front').parts.length);
});

function distance(p: V3, q: V3): number {
  return Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
}

function expectNear(found: readonly number[], wanted: readonly number[], part: Part): void {
  for (const [i, c] of found.entries()) {
    expect(Math.abs(c - (wanted[i] as number)), `${part.name} ${found}`).toBeLessThan(PLACED_in);
  }
}
