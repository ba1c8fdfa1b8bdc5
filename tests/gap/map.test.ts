/** The coarse map against every pair at every pose, and its bounds against what they bound. */
import { describe, expect, test } from 'vitest';
import { CoarseMap } from '../../geometry/gap/map.ts';
import { placed } from '../../geometry/gap/place.ts';
import { PlacedGrid } from '../../geometry/gap/placedGrid.ts';
import { Stage } from '../../geometry/gap/stage.ts';
import { DistanceSolver } from '../../geometry/solid/distance.ts';
import { cycled } from './cycled.ts';

/** The search for a distance ends at bounds 1e-9 in apart; two starts may end at either of them. */
const SEARCHED_in = 3e-9;

describe.each(['long-arm-front', 'triangulated-rear', 'whole-vehicle'] as const)('%s', name => {
  const { parts, pairs, walk } = cycled(name);
  // of the richest one every third place will do
  const places = walk.grid.places.filter((_, i) => name !== 'whole-vehicle' || i % 3 === 0);
  const map = new CoarseMap(parts, pairs);
  const grid = new PlacedGrid(map.motions, { places });
  map.run(grid);

  // every pair at every pose, without a cutoff, a start or a bound
  const solver = new DistanceSolver();
  const gaps = grid.poses.map(pose => {
    const at = new Map(parts.map(part => [part, placed(part, pose)]));
    return pairs.map(({ a, b, solidA, solidB }) => {
      const [placeA, placeB] = [at.get(a), at.get(b)];
      if (!placeA || !placeB) throw new Error('every part has a place');
      solver.run(solidA, placeA, solidB, placeB);
      return solver.gap;
    });
  });

  test('the tightest gap of each place, its pair and pose are those of all pairs', () => {
    expect(grid.cells.length).toBeGreaterThan(10);
    for (let c = 0; c < grid.cells.length; c++) {
      let least = Number.POSITIVE_INFINITY;
      for (let k = grid.first[c] as number; k < (grid.first[c + 1] as number); k++) {
        for (const [p, gap] of (gaps[k] as number[]).entries()) {
          if (!pairs[p]?.still) least = Math.min(least, gap);
        }
      }
      expect(Math.abs((map.gap[c] as number) - least)).toBeLessThan(SEARCHED_in);
      const own = gaps[map.pose[c] as number]?.[map.pair[c] as number] as number;
      expect(Math.abs(own - least)).toBeLessThan(SEARCHED_in);
      expect(grid.cellOf[map.pose[c] as number]).toBe(c);
    }
  });

  test('no pair comes under its lower bound, nor under those of the stage, at any pose', () => {
    const stage = new Stage(parts, pairs);
    stage.place(grid);
    let close = 0;
    for (const [k, atPose] of gaps.entries()) {
      const c = grid.cellOf[k] as number;
      for (const [p, gap] of atPose.entries()) {
        if (pairs[p]?.still) continue;
        // rounding of sums at 150 in
        const most = gap + 1e-9;
        if (
          !(
            (map.lower[p] as number) <= most &&
            stage.bound(c, p) <= most &&
            stage.capsules(p, k) <= most
          )
        ) {
          expect.fail(
            `${pairs[p]?.a.name} / ${pairs[p]?.b.name}: ${gap} under ${[map.lower[p], stage.bound(c, p), stage.capsules(p, k)]}`,
          );
        }
        if (gap < 2) {
          // with a cutoff above it the gap itself, with one below it nothing under the cutoff
          expect(Math.abs(stage.gap(p, k, gap + 0.5) - gap)).toBeLessThan(SEARCHED_in);
          expect(stage.gap(p, k, gap - 0.1)).toBeGreaterThanOrEqual(gap - 0.1);
          close++;
        }
      }
    }
    expect(close).toBeGreaterThan(100);
  });

  test('the least gap of each pair over the grid is that of all poses', () => {
    for (const p of pairs.keys()) {
      const all = gaps.map(atPose => atPose[p] as number);
      const least = Math.min(...all);
      const found = map.least(p);
      expect(Math.abs((found?.gap ?? 0) - least)).toBeLessThan(SEARCHED_in);
      expect(Math.abs((all[found?.pose ?? -1] ?? 0) - least)).toBeLessThan(SEARCHED_in);
    }
  });

  test('by shares, the tightest of each place has the least of what its pair wants', () => {
    const byShare = new CoarseMap(parts, pairs, 'share');
    const said = byShare.run(grid);
    let differs = 0;
    for (let c = 0; c < grid.cells.length; c++) {
      let least = Number.POSITIVE_INFINITY;
      for (let k = grid.first[c] as number; k < (grid.first[c + 1] as number); k++) {
        for (const [p, gap] of (gaps[k] as number[]).entries()) {
          const pair = pairs[p] as (typeof pairs)[0];
          // what wants nothing counts where it touches, as a rod would
          if (pair.still || (pair.required === 0 && gap >= 0)) continue;
          least = Math.min(least, gap / (pair.required || 0.5));
        }
      }
      // what is wanted is 1/4 in or more
      expect(Math.abs((said.share[c] as number) - least)).toBeLessThan(4 * SEARCHED_in);
      if (said.pair[c] !== map.pair[c]) differs++;
    }
    expect(differs).toBeGreaterThan(0);
    for (const [p, pair] of pairs.entries()) {
      if (pair.still) continue;
      const least = Math.min(...gaps.map(atPose => atPose[p] as number));
      expect(said.lower[p] as number).toBeLessThan(least + 1e-9);
    }
  });

  test('a run in steps is not disturbed by another one in between', () => {
    const whole = map.run(grid);
    const steps = map.steps(grid);
    for (let c = 0; c < grid.cells.length / 2; c++) steps.next();
    map.run(new PlacedGrid(map.motions, { places: places.slice(0, 40) }));
    for (;;) {
      const { done, value } = steps.next();
      if (!done) continue;
      for (const [c, gap] of value.gap.entries()) {
        expect(Math.abs(gap - (whole.gap[c] as number))).toBeLessThan(SEARCHED_in);
      }
      expect(value.pair).toEqual(whole.pair);
      break;
    }
  });

  test('a second run over the same grid gives the same map', () => {
    const before = map.gap.slice();
    map.run(grid);
    for (const [c, gap] of map.gap.entries()) {
      expect(Math.abs(gap - (before[c] as number))).toBeLessThan(SEARCHED_in);
    }
  });
});
