/**
 * Every recorded pose of the oracle (tests/oracle): scipy's optimizer on rotation vectors, finished by Newton in
 * extended precision. Its own conditions hold to 1e-15 in, its gradients to 1e-9 lbf.
 */
import { describe, expect, test } from 'vitest';
import type { Axle, Vec3 } from '../../geometry/build/build.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import { type RecordedPose, recordedCases, recordFiles } from '../measure/records.ts';
import { modelOf } from './layouts.ts';
import { distance, isExact, lengthsOf, pointsOf, seriesRate } from './witness.ts';

interface Recorded extends RecordedPose {
  origin_in: Vec3;
  chassisFromAxle: [Vec3, Vec3, Vec3];
  knuckleTurn_rad: { left: number; right: number } | null;
  stretch_in: Record<string, number>;
  force_lbf: Record<string, number>;
  joints: Record<string, { offset_in: number; force_lbf: number }>;
  lengths_in: Record<string, number>;
  /** Unreachable: which part of the mechanism has no solution near where the branch ended. */
  ends?: 'axle' | 'steering';
}

/** Poses agree to this, in and rad: what our Newton leaves (1e-11 in) times conditions; 1e-10 passed too. */
const POSE = 1e-9;
/** Forces, lbf: that at up to 1e5 lbf/in. */
const FORCE = 1e-4;

/** All that is compared, by name. */
function told(axle: Axle, pose: Pose): Map<string, { value: number; bound: number }> {
  const out = new Map<string, { value: number; bound: number }>();
  const put = (name: string, value: number, bound = POSE): void =>
    void out.set(name, { value, bound });
  const o = pose.point('axle', axle.origin);
  for (let c = 0; c < 3; c++) put(`origin ${c}`, o[c] as number);
  for (let c = 0; c < 3; c++) {
    const e: Vec3 = [c === 0 ? 1 : 0, c === 1 ? 1 : 0, c === 2 ? 1 : 0];
    const column = pose.direction('axle', e);
    for (let r = 0; r < 3; r++) put(`chassisFromAxle ${r} ${c}`, column[r] as number);
  }
  for (const side of ['left', 'right'] as const) {
    const turn = pose.knuckleTurn(side);
    if (turn !== null) put(`turn of the ${side} knuckle`, turn);
  }
  const { links, rods } = lengthsOf(axle, pose);
  for (const [i, { name, now, free }] of links.entries()) {
    put(`length of ${name}`, now);
    const stretch = isExact(axle) ? 0 : now - free;
    const rate = isExact(axle) ? 0 : seriesRate(axle, axle.links[i] as Axle['links'][0]);
    put(`stretch of ${name}`, stretch);
    put(`force of ${name}`, rate * stretch, FORCE);
  }
  for (const { name, now } of rods) put(`length of ${name}`, now);
  for (const { name, from, to } of pose.mechanism.spans) {
    put(`length of ${name}`, distance(pose.point(from.on, from.at), pose.point(to.on, to.at)));
  }
  for (const joint of isExact(axle) ? [] : axle.sharedJoints) {
    if (joint.rates.radial === null) continue;
    const offset = distance(pose.point(joint.name, joint.at), pose.point(joint.on, joint.at));
    put(`offset of ${joint.name}`, offset);
    put(`force of ${joint.name}`, offset * joint.rates.radial, FORCE);
  }
  for (const arm of axle.radiusArms) {
    for (const e of [...arm.axle, arm.chassis]) {
      const body = e === arm.chassis ? 'chassis' : 'axle';
      const half = pose.point(arm.name, e.at);
      put(`offset of ${e.name}`, distance(half, pose.point(body, e.at)));
    }
  }
  return out;
}

/** The same of a record. */
function recorded(pose: Recorded): Map<string, number> {
  const out = new Map<string, number>();
  for (const [c, x] of pose.origin_in.entries()) out.set(`origin ${c}`, x);
  for (const [r, row] of pose.chassisFromAxle.entries()) {
    for (const [c, x] of row.entries()) out.set(`chassisFromAxle ${r} ${c}`, x);
  }
  for (const [side, x] of Object.entries(pose.knuckleTurn_rad ?? {})) {
    out.set(`turn of the ${side} knuckle`, x);
  }
  for (const [name, x] of Object.entries(pose.lengths_in)) out.set(`length of ${name}`, x);
  for (const [name, x] of Object.entries(pose.stretch_in)) out.set(`stretch of ${name}`, x);
  for (const [name, x] of Object.entries(pose.force_lbf)) out.set(`force of ${name}`, x);
  for (const [name, joint] of Object.entries(pose.joints)) {
    out.set(`offset of ${name}`, joint.offset_in);
    out.set(`force of ${name}`, joint.force_lbf);
  }
  return out;
}

/**
 * The oracle takes a radius arm's joint without a rate as rigid, the mechanism gives it an assumed one. With
 * such a joint two stiff ones stand for it, and the limit: p∞ = 2 p(2k) − p(k) but for 1/k².
 */
const stiffened = (axle: Axle, rate: number): Axle => ({
  ...axle,
  radiusArms: axle.radiusArms.map(arm => {
    const firm = (e: typeof arm.chassis): typeof arm.chassis =>
      e.rates.radial === null ? { ...e, rates: { ...e.rates, radial: rate, axial: rate } } : e;
    return {
      ...arm,
      axle: [firm(arm.axle[0]), firm(arm.axle[1])] as typeof arm.axle,
      chassis: firm(arm.chassis),
    };
  }),
});

const isFirm = (axle: Axle): boolean =>
  axle.radiusArms.some(arm => [...arm.axle, arm.chassis].some(e => e.rates.radial === null));

const STIFF = 1e8;

function solvers(
  axle: Axle,
): (left: number, right: number, steer: number) => Map<string, { value: number; bound: number }> {
  const solve = (from: Axle) => {
    const model = modelOf(from);
    return (left: number, right: number, steer: number) => {
      const { pose, status, part } = model.pose(left, right, steer);
      if (!pose) throw new Error(`${status} at ${left}, ${right}, ${steer}: ${part}`);
      return told(from, pose);
    };
  };
  if (!isFirm(axle)) return solve(axle);
  const once = solve(stiffened(axle, STIFF));
  const twice = solve(stiffened(axle, 2 * STIFF));
  return (...at) => {
    const first = once(...at);
    return new Map(
      [...twice(...at)].map(([name, { value, bound }]) => [
        name,
        // an offset of the stiff joint itself is a size, which 1/k brings to nothing
        { value: 2 * value - (first.get(name)?.value ?? 0), bound: 5 * bound },
      ]),
    );
  };
}

describe.each(recordFiles())('%s', file => {
  test.each(recordedCases(file).map(one => ({ ...one, title: one.name })))(
    '$title',
    ({ axle, poses }) => {
      const model = modelOf(axle);
      const solve = solvers(axle);
      const unit = axle.steering?.box ? Math.PI / 180 : 1;
      const firmJoints = new Set(
        axle.radiusArms.flatMap(arm =>
          [...arm.axle, arm.chassis].filter(e => e.rates.radial === null).map(e => e.name),
        ),
      );
      expect(poses.length).toBeGreaterThan(0);
      for (const pose of poses as Recorded[]) {
        const at = [pose.left_in, pose.right_in, (pose.steer ?? 0) * unit] as const;
        if (pose.status !== 'solved') {
          const verdict = model.pose(...at);
          expect(verdict.status, `${at}`).toBe(pose.status);
          const rods = model.mechanism.steering?.rods.map(({ name }) => name) ?? [];
          expect(rods.includes(verdict.part as string), `${at}: ${verdict.part}`).toBe(
            pose.ends === 'steering',
          );
          continue;
        }
        const have = solve(...at);
        const want = recorded(pose);
        for (const [name, value] of want) {
          const own = have.get(name);
          // a rigid joint of an arm has no force of its own in ours; an arm's joint tells its offset alone
          if (!own && /^force of /.test(name)) {
            expect(
              axle.radiusArms.some(arm => name.includes(arm.name)),
              name,
            ).toBe(true);
            continue;
          }
          expect(own, `${at}: ${name} is not told`).toBeDefined();
          if (own) expect(Math.abs(own.value - value), `${at}: ${name}`).toBeLessThan(own.bound);
        }
        for (const name of have.keys()) {
          if ([...firmJoints].some(joint => name.endsWith(joint))) continue;
          expect(want.has(name), `${at}: ${name} is not recorded`).toBe(true);
        }
      }
    },
  );
});

test('the records are of all kinds, and some poses are out of reach', () => {
  const all = recordFiles().flatMap(recordedCases);
  expect(all.length).toBeGreaterThan(60);
  const poses = all.flatMap(one => one.poses);
  expect(poses.length).toBeGreaterThan(400);
  expect(poses.filter(pose => pose.status === 'unreachable').length).toBeGreaterThan(10);
  expect(all.some(one => isFirm(one.axle))).toBe(true);
  expect(pointsOf(modelOf(all[0]?.axle as Axle).ride).size).toBeGreaterThan(10);
});
