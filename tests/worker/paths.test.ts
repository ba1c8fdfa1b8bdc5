/** Walks along the bottom of the page: closed, without jumps, inside the range, their marks at the poses they name. */
import { describe, expect, test } from 'vitest';
import type { Build } from '../../geometry/build/build.ts';
import { Reach } from '../../geometry/cycle/reach.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import { type Path, pathOf } from '../../src/worker/paths.ts';
import type { PathName, StripMark } from '../../src/worker/protocol.ts';
import { cycled, type Example } from '../gap/cycled.ts';

/** Travel between neighbors, in, and steering as a share of all that there is. */
const MOST = { travel: 0.76, steer: 1 / 20 };

const ALL: readonly PathName[] = ['both', 'crossed', 'driver', 'passenger', 'lock-to-lock', 'edge'];

function walked(example: Example, name: PathName): Path {
  const { walk } = cycled(example);
  return pathOf(name, walk.range, walk.reach, [0, 0]);
}

function expectNoJumps({ poses }: Path, whole: number): void {
  for (let i = 1; i < poses.length; i++) {
    const [a, b] = [(poses[i - 1] as Pose).input, (poses[i] as Pose).input];
    expect(Math.hypot(b.left - a.left, b.right - a.right)).toBeLessThan(MOST.travel);
    expect(Math.abs(b.steer - a.steer)).toBeLessThan(MOST.steer * whole);
  }
  // the end is the beginning
  const [first, last] = [poses[0] as Pose, poses.at(-1) as Pose];
  for (const key of ['left', 'right', 'steer'] as const) {
    expect(last.input[key]).toBeCloseTo(first.input[key], 9);
  }
}

describe.each(['long-arm-front', 'double-ram-front', 'triangulated-rear'] as const)(
  '%s',
  example => {
    const { walk } = cycled(example);
    const { reach } = walk;
    const ride = reach.steering(reach.model.ride);
    const whole = ride ? ride.greatest.value - ride.least.value || 1 : 1;

    test.each(['shop', ...ALL] as const)('%s goes on without a jump, inside the range', name => {
      const path = walked(example, name);
      // what does not steer stands still from lock to lock
      if (name === 'lock-to-lock' && !walk.axle.steered) return;
      expect(path.poses.length).toBeGreaterThan(10);
      expectNoJumps(path, whole);
      for (const { input } of path.poses) {
        // edges are found to 1e-3 in; the margin of a stop may run twice as fast as the travel
        expect(reach.travel(input.left, input.right).margin).toBeGreaterThan(-2e-3);
      }
    });

    test('the walk of the shop marks its poses, each between full left and full right', () => {
      const { poses, marks } = walked(example, 'shop');
      const names = ['ride', 'both up', 'both down', 'driver up', 'passenger up'];
      const at = ({ at: i }: StripMark): Pose => poses[i] as Pose;
      expect(marks.filter(({ kind }) => kind === 'pose').map(({ name }) => name)).toEqual(names);
      const of = (name: string): StripMark[] => marks.filter(mark => mark.name === name);
      for (const name of names) {
        const [first, straight, last] = of(name);
        if (!walk.axle.steered) {
          expect(of(name).length).toBe(1);
          continue;
        }
        expect([first, straight, last].map(mark => mark?.kind)).toEqual(['left', 'pose', 'right']);
        const [l, s, r] = [first, straight, last].map(mark => at(mark as StripMark));
        const interval = reach.steering(s as Pose);
        expect(s?.input.steer).toBe(0);
        expect(l?.input.steer).toBeCloseTo(interval?.greatest.value ?? 0, 9);
        expect(r?.input.steer).toBeCloseTo(interval?.least.value ?? 0, 9);
      }
      const pose = (name: string): Pose => at(of(name).find(m => m.kind === 'pose') as StripMark);
      expect(pose('both up').input.left).toBe(pose('both up').input.right);
      // the driver sits on the left
      expect(pose('driver up').input.left).toBeGreaterThan(3);
      expect(pose('driver up').input.right).toBeCloseTo(-pose('driver up').input.left, 9);
      expect(pose('passenger up').input.right).toBeGreaterThan(3);
    });
  },
);

test('a driver on the right goes up with the right wheel', () => {
  const { walk } = cycled('triangulated-rear');
  const build: Build = { ...walk.build, driverSide: 'right' };
  const reach = new Reach(build, walk.axle, walk.model);
  const { poses, marks } = pathOf('driver', walk.range, reach);
  const up = marks.find(({ name }) => name === 'driver up');
  expect(poses[up?.at ?? -1]?.input.right).toBeGreaterThan(3);
  expect(poses[up?.at ?? -1]?.input.left).toBeCloseTo(0, 9);
});

test('lock to lock happens where the axle stands', () => {
  const { walk } = cycled('long-arm-front');
  const { poses } = pathOf('lock-to-lock', walk.range, walk.reach, [2, -1]);
  expect(poses.every(({ input }) => input.left === 2 && input.right === -1)).toBe(true);
});

test('where the stops allow no range there is no path', () => {
  const { walk } = cycled('long-arm-front');
  expect(pathOf('shop', { ...walk.range, holdsRide: false }, walk.reach).poses).toEqual([]);
});
