import { describe, expect, test } from 'vitest';
import type { Axle, Rod, Steering, Vec3 } from '../../geometry/build/build.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import { rodsTurnedRound } from './changes.ts';
import { triangulated } from './families.ts';
import { longArms, modelOf } from './layouts.ts';
import { lock, STEERINGS } from './steerings.ts';
import {
  about,
  distance,
  dot,
  minus,
  plus,
  residual,
  smallestTurn,
  times,
  unit,
} from './witness.ts';

/** Left, right, share of lock. */
const POSES: [number, number, number][] = [
  [0, 0, 0],
  [0, 0, 1],
  [0, 0, -1],
  [5, 5, 0.6],
  [-6, -6, -0.7],
  [7, -5, 0.8],
  [-4, 8, -0.8],
];

const kinds = Object.entries(STEERINGS).map(([name, make]) => ({ name, make }));
const withSteering = (steering: Steering): Axle => ({ ...longArms(), steering });

function poses(axle: Axle): Pose[] {
  const model = modelOf(axle);
  return POSES.map(([l, r, share]) => {
    const { pose, status, part } = model.pose(l, r, share * lock(axle.steering));
    if (!pose) throw new Error(`${status} at ${l}, ${r}, ${share} of lock: ${part}`);
    return pose;
  });
}

const rodsOf = (steering: Steering): Rod[] =>
  [steering.dragLink, ...steering.tieRods].filter(rod => rod !== null);

/** The same steering with something done to each rod. */
const eachRod = (steering: Steering, change: (rod: Rod) => Rod): Steering => ({
  ...steering,
  dragLink: steering.dragLink && change(steering.dragLink),
  tieRods: steering.tieRods.map(change),
});

/** A point of the axle's frame where the pose has it. */
const inAxle = (pose: Pose, p: Vec3): Vec3 => {
  const o = pose.point('axle', [0, 0, 0]);
  const d = minus(p, o);
  return (
    [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ] as Vec3[]
  ).map(e => dot(pose.direction('axle', e), d)) as unknown as Vec3;
};

describe.each(kinds)('$name', ({ make }) => {
  const variants: [string, (steering: Steering) => Steering][] = [
    ['as drawn', s => s],
    [
      'rods 1/4 longer',
      s => eachRod(s, r => ({ ...r, length: distance(r.from.at, r.to.at) + 0.25 })),
    ],
    ['rods rolled', s => eachRod(s, r => ({ ...r, roll: { ...r.roll, at: 0.3 } }))],
    [
      'rods 1/4 shorter, rolled and written from their other ends',
      s => {
        const changed = eachRod(s, r => ({
          ...r,
          length: distance(r.from.at, r.to.at) - 0.25,
          roll: { ...r.roll, at: -0.4 },
        }));
        return rodsTurnedRound(withSteering(changed)).steering as Steering;
      },
    ],
  ];

  test.each(variants)('%s: rods keep their lengths', (_, change) => {
    const axle = withSteering(change(make()));
    for (const pose of poses(axle)) expect(residual(axle, pose)).toBeLessThan(1e-9);
  });

  test.each(variants)(
    '%s: a rod takes the smallest turn of its line, then its roll',
    (_, change) => {
      const steering = change(make());
      const axle = withSteering(steering);
      for (const pose of poses(axle)) {
        for (const rod of rodsOf(steering)) {
          // ends where their own bodies have them, axle frame
          const a = inAxle(pose, pose.point(rod.from.on, rod.from.at));
          const b = inAxle(pose, pose.point(rod.to.on, rod.to.at));
          const drawn = unit(minus(rod.to.at, rod.from.at));
          // a point of the rod's body: half-way, and beside the line
          const arm = plus(times(minus(rod.to.at, rod.from.at), 0.5), [0.5, 0.25, -1]);
          const rolled = about(drawn, rod.roll.at, arm);
          const want = plus(a, smallestTurn(drawn, unit(minus(b, a)), rolled));
          const have = inAxle(pose, pose.point(rod.name, plus(rod.from.at, arm)));
          // two ways to the same rotation, 30 in from the axle's origin: rounding
          expect(distance(have, want), rod.name).toBeLessThan(1e-11);
        }
      }
    },
  );

  test('knuckles turn about their kingpin axes', () => {
    const axle = withSteering(make());
    for (const pose of poses(axle)) {
      for (const side of ['left', 'right'] as const) {
        const { lower, upper } = (axle.knuckles as NonNullable<Axle['knuckles']>)[side].kingpin;
        const on = `${side} knuckle`;
        for (const p of [lower, upper]) {
          expect(distance(pose.point(on, p), pose.point('axle', p))).toBeLessThan(1e-12);
        }
        const turn = pose.knuckleTurn(side) as number;
        const want = about(unit(minus(upper, lower)), turn, [1, 0, 0]);
        expect(
          distance(
            inAxle(
              pose,
              plus(
                pose.point(on, [1, 0, 0]),
                minus(pose.point('axle', [0, 0, 0]), pose.point(on, [0, 0, 0])),
              ),
            ),
            want,
          ),
        ).toBeLessThan(1e-12);
      }
    }
  });

  test('an input to the left turns both wheels left, whichever way the axis points', () => {
    const steering = make();
    const axle = withSteering(steering);
    const turned = withSteering({
      ...steering,
      box: steering.box && {
        ...steering.box,
        axis: { ...steering.box.axis, direction: times(steering.box.axis.direction, -1) },
      },
      rams: steering.rams.map(ram => ({ ...ram, axis: ram.axis && times(ram.axis, -1) })),
    });
    const there = poses(turned);
    for (const [i, pose] of poses(axle).entries()) {
      const { steer } = pose.input;
      for (const side of ['left', 'right'] as const) {
        if (pose.input.left === 0 && steer !== 0) {
          expect(Math.sign(pose.knuckleTurn(side) as number)).toBe(Math.sign(steer));
        }
        expect(there[i]?.knuckleTurn(side)).toBeCloseTo(pose.knuckleTurn(side) as number, 12);
      }
    }
  });

  test('the margin is how fast a rod’s length would change, as a part of the most it could', () => {
    const steering = make();
    const axle = withSteering(steering);
    const model = modelOf(axle);
    for (const [l, r, share] of POSES) {
      const { pose } = model.pose(l, r, share * lock(steering));
      if (!pose) throw new Error('no pose');
      for (const [i, rod] of (model.mechanism.steering?.rods ?? []).entries()) {
        const side = rod.to.on.startsWith('left') ? 'left' : 'right';
        if (rod.to.on === 'tie rod') continue; // drives no circle of its own: checked by the measure
        const { lower, upper } = (axle.knuckles as NonNullable<Axle['knuckles']>)[side].kingpin;
        const pivot = inAxle(pose, pose.point('axle', lower));
        const axis = unit(minus(upper, lower));
        const written = rodsOf(steering).find(({ name }) => name === rod.name) as Rod;
        const [near, far] =
          written.to.on === rod.to.on ? [written.to, written.from] : [written.from, written.to];
        const end = inAxle(pose, pose.point(near.on, near.at));
        const start = inAxle(pose, pose.point(far.on, far.at));
        // squared distance of the start from the end as it goes round is m0 + m cos(t − t0)
        const square = (t: number): number =>
          distance(plus(pivot, about(axis, t, minus(end, pivot))), start) ** 2;
        const slope = (square(Math.PI / 2) - square(-Math.PI / 2)) / 2;
        const even = (square(0) - square(Math.PI)) / 2;
        expect(pose.margins[i]).toBeCloseTo(Math.abs(slope) / Math.hypot(slope, even), 10);
      }
    }
  });

  test('at the end of a rod’s reach the verdict names a rod, and the margin has gone to nothing', () => {
    const axle = withSteering(make());
    const model = modelOf(axle);
    for (const sign of [1, -1]) {
      let inside = 0;
      let outside = sign * 4 * lock(axle.steering);
      const verdict = model.pose(0, 0, outside);
      if (verdict.status === 'solved') continue;
      expect(verdict.status).toBe('unreachable');
      expect(rodsOf(axle.steering as Steering).map(({ name }) => name)).toContain(verdict.part);
      for (let i = 0; i < 60; i++) {
        const middle = (inside + outside) / 2;
        if (model.pose(0, 0, middle).status === 'solved') inside = middle;
        else outside = middle;
      }
      const last = model.pose(0, 0, inside).pose as Pose;
      // square root law: 1e-8 and less within 1e-16 of the end; Newton gives up some 1e-9 before it
      expect(Math.min(...last.margins)).toBeLessThan(2e-3);
    }
  });
});

describe('a rod that holds another keeps the place where it holds it', () => {
  test.each([
    ['drag link beside the tie rod', 'tie rod', 'drag link.to'],
    ['tie rod beside the drag link', 'drag link', 'tie rod.to'],
  ] as const)('%s', (name, holder, held) => {
    const steering = eachRod((STEERINGS[name] as () => Steering)(), r =>
      r.name === holder ? { ...r, length: distance(r.from.at, r.to.at) + 0.5 } : r,
    );
    const axle = withSteering(steering);
    const rod = rodsOf(steering).find(r => r.name === holder) as Rod;
    const point = rodsOf(steering).find(r => held.startsWith(r.name))?.to.at as Vec3;
    for (const pose of poses(axle)) {
      const at = pose.point(holder, point);
      // measured from the rod's `from`, as far along and as far off as drawn: half of a turn of its adjuster
      // at the other end moves nothing here
      expect(distance(at, pose.point(rod.from.on, rod.from.at))).toBeCloseTo(
        distance(point, rod.from.at),
        9,
      );
      expect(residual(axle, pose)).toBeLessThan(1e-9);
    }
  });
});

test('given rod lengths turn the knuckles at ride height and leave the pitman arm', () => {
  const steering = eachRod(STEERINGS['drag link to the right knuckle']?.() as Steering, r =>
    r.name === 'tie rod' ? { ...r, length: distance(r.from.at, r.to.at) - 0.5 } : r,
  );
  const { ride } = modelOf(withSteering(steering));
  expect(ride.knuckleTurn('right')).toBeCloseTo(0, 12);
  // the tie rod lies ahead: shorter turns the left wheel in, 1/2 in over an arm of some 6.9 in
  expect(ride.knuckleTurn('left')).toBeLessThan(-0.06);
  expect(ride.knuckleTurn('left')).toBeGreaterThan(-0.09);
});

test('a rear axle that does not steer has no knuckles, no margins and no steering jets', () => {
  const { pose } = modelOf(triangulated()).pose(3, -2);
  expect(pose?.turn).toBeNull();
  expect(pose?.knuckleTurn('left')).toBeNull();
  expect(pose?.margins.length).toBe(0);
  expect(pose?.steeringJets()).toBeNull();
});
