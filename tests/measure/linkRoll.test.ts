/**
 * Roll of a link: formulas (1) and (2) against the angle itself, windows and the easiest roll against a scan of
 * the circle that knows nothing of them. Random cases hold their seed.
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  easiestRoll,
  jointWindow,
  largestMisalignment,
  misalignmentAt,
  type RollJoint,
  type RollWindow,
  rollCenter,
  rollParts,
  rollWindow,
  shareAt,
  wrapped,
} from '../../geometry/measure/linkRoll.ts';
import { anySquare, dot, norm, scale, sub, turned, unit, type V3 } from '../../geometry/vector.ts';
import { rad } from './closedForms.ts';

const LINE: V3 = unit([0.9, -0.3, 0.2]);

/** A joint whose bolt and bore lean by α and β along the line, the bore turned back by φ₀ about it. */
function joint(alpha: number, beta: number, center: number, limit: number | null): RollJoint {
  const across = anySquare(LINE);
  const lean = (angle: number): V3 => {
    const along = scale(LINE, Math.sin(angle));
    return sub(along, scale(across, -Math.cos(angle)));
  };
  return {
    bolt: turned(lean(alpha), LINE, Math.cos(center), Math.sin(center)),
    bore: lean(beta),
    line: LINE,
    limit,
  };
}

const joints = fc
  .record({
    alpha: fc.double({ min: -1.2, max: 1.2, noNaN: true }),
    beta: fc.oneof(fc.constant(0), fc.double({ min: -0.5, max: 0.5, noNaN: true })),
    center: fc.double({ min: -3.1, max: 3.1, noNaN: true }),
    limit: fc.double({ min: 0.05, max: 1.5, noNaN: true }),
  })
  .map(({ alpha, beta, center, limit }) => joint(alpha, beta, center, limit));

const SEED = { seed: 20_240_611, numRuns: 400 };

test('the misalignment is the angle between the axes, and follows the spherical cosine law', () => {
  fc.assert(
    fc.property(joints, fc.double({ min: -4, max: 4, noNaN: true }), (of, roll) => {
      const { sines, cosines, center } = rollParts(of);
      const cos = sines + cosines * Math.cos(roll - center);
      expect(Math.cos(misalignmentAt(of, roll))).toBeCloseTo(cos, 12);
      const bore = turned(of.bore, LINE, Math.cos(roll), Math.sin(roll));
      expect(dot(of.bolt, bore)).toBeCloseTo(cos, 12);
      expect(norm(bore)).toBeCloseTo(1, 12);
    }),
    SEED,
  );
});

test('a small misalignment keeps its digits', () => {
  for (const angle of [1e-9, 1e-6, 1e-3]) {
    expect(misalignmentAt(joint(angle, 0, 0.4, null), 0.4) / angle).toBeCloseTo(1, 6);
  }
});

const N = 3600;
const circle = Array.from({ length: N }, (_, i) => -Math.PI + (2 * Math.PI * (i + 0.5)) / N);

/** True where a roll lies in a window, up to the step of the scan at its ends (null: too near to tell). */
function holds(window: RollWindow, roll: number): boolean | null {
  if (window.kind !== 'arc') return window.kind === 'full';
  const middle = (window.from + window.to) / 2;
  const away = Math.abs(wrapped(roll - middle)) - (window.to - window.from) / 2;
  return Math.abs(away) < 1e-9 ? null : away < 0;
}

test('a window of one joint holds the rolls at which its limit is kept, and no others', () => {
  fc.assert(
    fc.property(joints, of => {
      const window = jointWindow(of);
      for (const roll of circle.filter((_, i) => i % 40 === 0)) {
        const inside = holds(window, roll);
        const excess = misalignmentAt(of, roll) - (of.limit as number);
        if (inside === null || Math.abs(excess) < 1e-9) continue;
        expect(inside).toBe(excess < 0);
      }
    }),
    SEED,
  );
});

test('where two windows meet once, the window of both is where both limits are kept', () => {
  fc.assert(
    fc.property(joints, joints, (a, b) => {
      const window = rollWindow([a, b]);
      const allowed = circle.map(
        roll =>
          misalignmentAt(a, roll) < (a.limit as number) &&
          misalignmentAt(b, roll) < (b.limit as number),
      );
      const pieces = allowed.filter((now, i) => now && !allowed[(i + N - 1) % N]).length;
      const width = (2 * Math.PI * allowed.filter(Boolean).length) / N;
      const told =
        window.kind === 'full'
          ? 2 * Math.PI
          : window.kind === 'empty'
            ? 0
            : window.to - window.from;
      // the scan misses up to one step at each end of each piece
      const steps = (2 * Math.PI * 2.5) / N;
      if (pieces <= 1) expect(Math.abs(told - width)).toBeLessThan(steps);
      else expect(told).toBeLessThan(width + 2 * steps);
      if (window.kind === 'arc') {
        expect(window.from).toBeLessThanOrEqual(window.to);
        // it holds the drawn roll, or no whole turn brings it nearer
        expect(Math.abs(window.from + window.to) / 2).toBeLessThanOrEqual(Math.PI + 1e-12);
      }
    }),
    SEED,
  );
});

test('two windows that meet twice: the meeting that holds the drawn roll', () => {
  // bores that lean along the line leave each joint more than half of the circle
  const wide = (center: number): RollJoint => joint(0.9, 0.9, center, 1.1);
  const half = (jointWindow(wide(0)) as { to: number }).to;
  expect(half).toBeGreaterThan(Math.PI / 2);
  const window = rollWindow([wide(1.5), wide(-1.5)]);
  expect(window.kind).toBe('arc');
  expect(holds(window, 0)).toBe(true);
  expect(holds(window, Math.PI)).toBe(false);
  expect((window as { to: number }).to).toBeCloseTo(half - 1.5, 12);
});

test('closed forms: full, empty, and joints that do not feel the roll', () => {
  expect(jointWindow(joint(0.3, 0, 0, 0.2)).kind).toBe('empty');
  expect(jointWindow(joint(1.4, 1.4, 0, 0.6)).kind).toBe('full');
  expect(jointWindow(joint(0.3, 0, 0, null)).kind).toBe('full');
  // the bolt along the line: the misalignment is 90° − β at every roll
  const along = joint(Math.PI / 2, 0.4, 0, null);
  expect(rollCenter(along)).toBe(0);
  const right = Math.PI / 2 - 0.4;
  expect(jointWindow({ ...along, limit: right + 1e-6 }).kind).toBe('full');
  expect(jointWindow({ ...along, limit: right - 1e-6 }).kind).toBe('empty');
  // bolt square to the line, bore too: ± the limit about φ₀
  const square = jointWindow(joint(0, 0, 0.7, 0.25));
  expect(square).toMatchObject({ kind: 'arc' });
  expect((square as { from: number }).from).toBeCloseTo(0.45, 12);
  expect((square as { to: number }).to).toBeCloseTo(0.95, 12);
});

test('two alike, clocked apart by 2γ: γ each at the easiest roll, a window of 2 (limit − γ)', () => {
  const [gamma, limit] = [rad(8), rad(20)];
  const both = [joint(0, 0, 0.3 - gamma, limit), joint(0, 0, 0.3 + gamma, limit)];
  const { roll } = easiestRoll(both);
  expect(roll).toBeCloseTo(0.3, 12);
  for (const of of both) expect(misalignmentAt(of, roll)).toBeCloseTo(gamma, 12);
  const window = rollWindow(both);
  expect((window as { to: number }).to - (window as { from: number }).from).toBeCloseTo(
    2 * (limit - gamma),
    12,
  );
});

test('the easiest roll: no roll of a scan has a lesser larger share', () => {
  fc.assert(
    fc.property(joints, joints, (a, b) => {
      const larger = (roll: number): number => Math.max(shareAt(a, roll), shareAt(b, roll));
      const { roll, by } = easiestRoll([a, b]);
      const told = larger(roll);
      expect(Math.min(...circle.map(larger))).toBeGreaterThan(told - 1e-12);
      if (by === 'both') expect(shareAt(a, roll)).toBeCloseTo(shareAt(b, roll), 12);
    }),
    SEED,
  );
});

test('a joint without a limit has no share', () => {
  const limited = joint(0.2, 0, 0.5, 0.4);
  const free = joint(0.1, 0, -0.9, null);
  expect(easiestRoll([free, limited])).toEqual({ roll: rollCenter(limited), by: 1 });
  // and where none has one, the misalignments stand for the shares
  const { roll } = easiestRoll([free, { ...limited, limit: null }]);
  expect(misalignmentAt(free, roll)).toBeCloseTo(misalignmentAt(limited, roll), 12);
});

test('the largest misalignment over a window: none of a scan of it is larger', () => {
  fc.assert(
    fc.property(joints, joints, (a, b) => {
      const window = rollWindow([a, b]);
      if (window.kind === 'empty') return;
      for (const of of [a, b]) {
        const told = misalignmentAt(of, largestMisalignment(of, window).roll);
        const [from, to] = window.kind === 'full' ? [-Math.PI, Math.PI] : [window.from, window.to];
        let scanned = 0;
        for (let i = 0; i <= 200; i++) {
          scanned = Math.max(scanned, misalignmentAt(of, from + ((to - from) * i) / 200));
        }
        expect(told).toBeGreaterThan(scanned - 1e-12);
        // within an arc the limit is kept
        if (window.kind === 'arc') expect(told).toBeLessThan((of.limit as number) + 1e-9);
      }
    }),
    SEED,
  );
});

test('angles less whole turns', () => {
  expect(wrapped(Math.PI)).toBe(Math.PI);
  expect(wrapped(-Math.PI)).toBe(Math.PI);
  expect(wrapped(7)).toBeCloseTo(7 - 2 * Math.PI, 12);
});
