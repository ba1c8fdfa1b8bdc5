import { describe, expect, test } from 'vitest';
import { FAMILIES, sevenLengths } from './families.ts';
import { modelOf, shortArms } from './layouts.ts';
import { Elastic, isExact, lengthsOf, seriesRate } from './witness.ts';

const compliant = Object.entries(FAMILIES).filter(([, make]) => !isExact(make()));

/** Left, right: with everything from no bind to some thousands of pounds. */
const POSES: [number, number][] = [
  [0, 0],
  [5, 5],
  [-7, -7],
  [6, -6],
  [-8, 8],
  [8, 1],
];

describe('bind, against a minimization of the test’s own', () => {
  test.each(compliant)('%s', (_, make) => {
    const axle = make();
    const model = modelOf(axle);
    for (const [left, right] of POSES) {
      const { pose } = model.pose(left, right);
      if (!pose) throw new Error(`no pose at ${left}, ${right}`);
      // from the axle raised straight up, as nobody would find it
      const problem = new Elastic(axle, left, right);
      const start = new Float64Array(problem.count);
      start.set([axle.origin[0] + 0.3, axle.origin[1] - 0.3, 0.01, 0.01]);
      const q = problem.minimize(start);
      const { unknowns } = Elastic.at(axle, pose);
      for (const [i, want] of q.entries()) {
        // arms' turns are told from another base: their points say it all and are compared below
        if (problem.isAngle(i) && i > 3) continue;
        // the test ends at steps of 1e-9
        expect(Math.abs((unknowns[i] as number) - want), `unknown ${i}`).toBeLessThan(2e-8);
      }
      const own = problem.residuals(q);
      for (const [i, l] of axle.links.entries()) {
        const held = lengthsOf(axle, pose).links[i];
        const stretch = (held?.now ?? 0) - (held?.free ?? 0);
        const rate = seriesRate(axle, l);
        // 2e-8 in at up to 1e5 lbf/in
        expect(Math.abs(rate * stretch - Math.sqrt(rate) * (own[i] as number))).toBeLessThan(2e-3);
      }
      // the energy is flat at its least value: its error is of second order
      const energy = Elastic.at(axle, pose).problem.energy(unknowns);
      expect(Math.abs(energy - problem.energy(q))).toBeLessThan(1e-9 * Math.max(1, energy));
    }
  });
});

describe('the gradient of the energy vanishes', () => {
  test.each(compliant)('%s: under 1e-6 lbf over ±8 in at each wheel', (_, make) => {
    const axle = make();
    const model = modelOf(axle);
    for (let left = -8; left <= 8; left += 4) {
      for (let right = -8; right <= 8; right += 4) {
        const { pose } = model.pose(left, right);
        if (!pose) throw new Error(`no pose at ${left}, ${right}`);
        const { problem, unknowns } = Elastic.at(axle, pose);
        expect(Math.max(...problem.gradient(unknowns).map(Math.abs))).toBeLessThan(1e-6);
      }
    }
  });

  test('also where a pose is solved from one next to it', () => {
    // a single step without the forces' share would leave force/length × step: 1e-5 lbf and more
    const axle = shortArms();
    const model = modelOf(axle);
    const { pose } = model.pose(-8, -6);
    if (!pose) throw new Error('no pose');
    for (const by of [1e-3, 1e-5, 3e-6, 1e-6, 1e-7, 1e-9, 0]) {
      const near = model.near(pose, -8 + by, -6 - by).pose;
      if (!near) throw new Error('no pose');
      const { problem, unknowns } = Elastic.at(axle, near);
      expect(Math.max(...problem.gradient(unknowns).map(Math.abs)), `${by}`).toBeLessThan(1e-6);
    }
  });
});

describe('far under load', () => {
  test.each([
    ['four links and track bar', -16, -12, shortArms],
    ['four links and track bar', -20, -4, shortArms],
    ['four links and track bar', -12, -16, shortArms],
    ['seven lengths', -16, -12, sevenLengths],
  ] as const)('%s at %d/%d', (_, left, right, make) => {
    // where a force over its length outweighs the weakest stiffness, a path must go on all the same
    const axle = make();
    const { pose, status } = modelOf(axle).pose(left, right);
    expect(status).toBe('solved');
    if (!pose) return;
    const { problem, unknowns } = Elastic.at(axle, pose);
    const q = problem.minimize(unknowns, true);
    for (const [i, want] of q.entries()) expect(unknowns[i]).toBeCloseTo(want, 7);
  });

  test('past a quarter of stretch the elastic model says nothing, and the member is named', () => {
    const axle = shortArms();
    const verdict = modelOf(axle).pose(-24, -20);
    expect(verdict).toMatchObject({ status: 'unreachable', pose: null });
    expect(verdict.part).toMatch(/upper link$/);
    const problem = new Elastic(axle, -24, -20);
    const start = new Float64Array(4);
    start.set([axle.origin[0], axle.origin[1], 0, 0]);
    const r = problem.residuals(problem.minimize(start, true));
    const shares = axle.links.map((l, i) => {
      const rate = seriesRate(axle, l);
      const free = Math.hypot(
        ...[0, 1, 2].map(c => (l.axle.at[c] as number) - (l.chassis.at[c] as number)),
      );
      return Math.abs((r[i] as number) / Math.sqrt(rate)) / free;
    });
    expect(Math.max(...shares)).toBeGreaterThan(0.25);
  });

  test('a travel beyond all reason ends soon', () => {
    for (const make of [shortArms, sevenLengths]) {
      const verdict = modelOf(make()).pose(1e7, 1e7);
      expect(verdict.status).toBe('unreachable');
      expect(verdict.part).not.toBeNull();
    }
  });
});
