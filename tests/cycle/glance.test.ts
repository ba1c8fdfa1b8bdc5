/** The range at a glance against the range as it is found: on the same stops, with its corners cut. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { GLANCE_in } from '../../geometry/cycle/edge.ts';
import { openBuild } from '../../geometry/cycle/open.ts';
import { findRange, glanceAtRange } from '../../geometry/cycle/range.ts';
import { GLANCE_STEER_END } from '../../geometry/cycle/reach.ts';

/** Points of the edge stand 0.4 in apart: a corner between two of them is at most so far from the chord, in. */
const CUT_in = 0.4;

test.each(['long-arm-front', 'whole-vehicle', 'wishbone-rear'])('%s', example => {
  const opened = openBuild(readFileSync(`examples/${example}.axlewalk.json`));
  if (!opened.ok) throw new Error('it does not open');
  for (const { build, axle, model } of opened.axles) {
    const glance = glanceAtRange(build, axle, model);
    const exact = findRange(build, axle, model);
    expect(glance.range.holdsRide).toBe(exact.range.holdsRide);
    expect(glance.range.unstopped).toEqual(exact.range.unstopped);
    expect(glance.reach.box).toEqual(exact.reach.box);
    for (const { left, right } of glance.range.edge) {
      const { margin } = exact.reach.travel(left, right);
      // inside, and so near to the edge that the steepest stop (a shock or pad at some 45°) is nearly there
      expect(margin).toBeGreaterThanOrEqual(0);
      expect(margin).toBeLessThan(3 * GLANCE_in);
    }
    for (const p of exact.range.edge) {
      const away = glance.range.edge.map(q => Math.hypot(p.left - q.left, p.right - q.right));
      expect(Math.min(...away)).toBeLessThan(CUT_in);
    }
    const [near, far] = [glance, exact].map(({ reach }) => reach.steering(model.ride));
    for (const end of ['least', 'greatest'] as const) {
      const off = Math.abs((near?.[end].value ?? 0) - (far?.[end].value ?? 0));
      // both ends are found from within
      expect(off).toBeLessThanOrEqual(GLANCE_STEER_END);
      expect(near?.[end].by).toBe(far?.[end].by);
    }
  }
});
