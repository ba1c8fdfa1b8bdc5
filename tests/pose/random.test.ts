import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Axle } from '../../geometry/build/build.ts';
import type { Problem } from '../../geometry/build/problem.ts';
import { assemble } from '../../geometry/mechanism/assemble.ts';
import { type AxleModel, settle } from '../../geometry/pose/model.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import { number, plausible, wild } from './arbitrary.ts';
import { Elastic, isExact, residual, size } from './witness.ts';

/** Held, so that a run is the same everywhere; fast-check prints it with a failure. */
const seed = 8855;

const told = (problems: Problem[]): void => {
  expect(problems.length).toBeGreaterThan(0);
  for (const problem of problems) {
    expect(problem.path).toMatch(/^axles\["(front|rear)"\]/);
    expect(problem.wanted).not.toBe('');
    expect(Object.values(problem).join(' ')).not.toMatch(/NaN|undefined|Infinity|\[object/);
  }
};

const finite = (numbers: Iterable<number>, what: string): void => {
  for (const x of numbers) if (!Number.isFinite(x)) throw new Error(`${what}: ${x}`);
};

function everyNumberFinite(pose: Pose): void {
  for (const { name, on, at } of pose.mechanism.named) finite(pose.point(on, at), name);
  finite(pose.margins, 'margins');
  const { o, R, yaw, roll, pitch } = pose.axleJets();
  for (const jet of [...o, ...R, yaw, roll, pitch]) finite(jet, 'derivatives of the axle');
  const steering = pose.steeringJets();
  if (!steering) return;
  const { tau, margins } = steering;
  for (const jet of [tau.left, tau.right, ...margins]) finite(jet, 'derivatives of the steering');
}

/** The model, or null where the axle was refused with a problem that says what would be right. */
function modelOrProblem(axle: Axle): AxleModel | null {
  const assembly = assemble(axle);
  if (!assembly.ok) {
    told(assembly.problems);
    return null;
  }
  const settled = settle(assembly.mechanism);
  if (!settled.ok) {
    told(settled.problems);
    return null;
  }
  return settled.model;
}

/** Largest distance between two things of the axle, in: what rounding is measured by. */
const extent = (axle: Axle): number =>
  Math.max(
    ...axle.links.flatMap(l => [size(l.axle.at), size(l.chassis.at), l.length ?? 0]),
    ...[axle.steering?.dragLink, ...(axle.steering?.tieRods ?? [])].flatMap(r =>
      r ? [size(r.from.at), size(r.to.at), r.length ?? 0] : [],
    ),
    100,
  );

function check(axle: Axle, left: number, right: number, steer: number): string {
  const model = modelOrProblem(axle);
  if (!model) return 'refused';
  everyNumberFinite(model.ride);
  const verdict = model.pose(left, right, steer);
  const { status, part, pose } = verdict;
  expect(['solved', 'unreachable', 'undecided']).toContain(status);
  expect(pose !== null).toBe(status === 'solved');
  if (status === 'unreachable') expect(part).toBeTruthy();
  if (status === 'solved') expect(part).toBeNull();
  if (!pose) return status;
  everyNumberFinite(pose);
  // an error of a length is step²/length: 1e-10/length, and rounding: 1e-16 × size² / length
  const shortest = Math.min(
    1,
    ...axle.links.map(l =>
      Math.hypot(...[0, 1, 2].map(c => (l.axle.at[c] as number) - (l.chassis.at[c] as number))),
    ),
  );
  expect(residual(axle, pose)).toBeLessThan((1e-9 * (extent(axle) / 100) ** 2) / shortest);
  return status;
}

describe(`random axles, seed ${seed}`, () => {
  const travels = [number(10), number(10), number(0.9)] as const;

  test('plausible ones: settled, and solved or told why not', () => {
    const seen: Record<string, number> = {};
    fc.assert(
      fc.property(plausible, ...travels, (axle, left, right, steer) => {
        const status = check(axle, left, right, steer);
        seen[status] = (seen[status] ?? 0) + 1;
      }),
      { seed, numRuns: 2000 },
    );
    expect(seen.solved).toBeGreaterThan(1800);
    expect(seen.undecided ?? 0).toBe(0);
    expect(seen.refused ?? 0).toBeLessThan(10);
  });

  test('plausible compliant ones: the energy is least', () => {
    let checked = 0;
    fc.assert(
      fc.property(plausible, number(8), number(8), (axle, left, right) => {
        if (isExact(axle)) return;
        const pose = modelOrProblem(axle)?.pose(left, right).pose;
        if (!pose) return;
        const { problem, unknowns } = Elastic.at(axle, pose);
        expect(Math.max(...problem.gradient(unknowns).map(Math.abs))).toBeLessThan(1e-6);
        checked++;
      }),
      { seed, numRuns: 600 },
    );
    expect(checked).toBeGreaterThan(150);
  });

  test('wild ones: refused, or a verdict; never a throw, never NaN', () => {
    const seen: Record<string, number> = {};
    fc.assert(
      fc.property(wild, number(12), number(12), number(3), (axle, left, right, steer) => {
        const status = check(axle, left, right, steer);
        seen[status] = (seen[status] ?? 0) + 1;
      }),
      { seed, numRuns: 1500 },
    );
    // all four are met
    for (const status of ['refused', 'solved', 'unreachable']) {
      expect(seen[status], status).toBeGreaterThan(100);
    }
    expect(seen.undecided).toBeLessThan(150);
  });
});
