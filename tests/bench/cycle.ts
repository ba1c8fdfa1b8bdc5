/**
 * What a pose costs with everything asked of it, and what a cycle costs: measures and limits as a multiple of the
 * bare solve, the coarse cycle, the edge, all extremes.
 */
import { readFileSync } from 'node:fs';
import { columnsOf, findExtremes } from '../../geometry/cycle/extremes.ts';
import { coarseGrid } from '../../geometry/cycle/grid.ts';
import { openBuild } from '../../geometry/cycle/open.ts';
import type { OpenedAxle } from '../../geometry/cycle/openAxle.ts';
import { findRange } from '../../geometry/cycle/range.ts';
import { limits } from '../../geometry/limit/list.ts';
import { MeasureContext } from '../../geometry/measure/measure.ts';
import { ratioOfMedians, tableOf, timeInRounds } from './timing.ts';

function opened(name: string): OpenedAxle[] {
  const read = openBuild(
    readFileSync(new URL(`../../examples/${name}.axlewalk.json`, import.meta.url)),
  );
  if (!read.ok) throw new Error(`${name} can't be read`);
  return read.axles;
}

/** Prints the figures of measures, limits and cycles. */
export function benchCycle(): void {
  const [front] = opened('long-arm-front');
  if (!front) return;
  const { build, axle, model } = front;
  const { reach } = findRange(build, axle, model);
  const columns = columnsOf(reach);
  const bounds = limits.flatMap(limit =>
    limit.targets(axle, build).map(target => ({ limit, target })),
  );
  const poses = Array.from(
    { length: 60 },
    (_, i) => model.pose(-3 + i / 10, 3 - i / 10, 0.1).pose,
  ).filter(pose => pose !== null);
  const contexts = poses.map(pose => new MeasureContext(build, axle, model, pose));
  let values = 0;
  const solve = 'bare solve, as a Pose with its steering';
  const everything = `all ${columns.length} measures and ${bounds.length} limits`;
  const results = timeInRounds([
    {
      name: solve,
      items: poses.length,
      run: () => {
        let sum = 0;
        let last = poses[0] as (typeof poses)[0];
        for (const { input } of poses) {
          const { pose } = model.near(last, input.left, input.right, input.steer);
          if (pose) {
            last = pose;
            sum += pose.axle.o[0] as number;
          }
        }
        return sum;
      },
    },
    {
      name: everything,
      items: poses.length,
      run: () => {
        let sum = 0;
        values = 0;
        for (const known of contexts) {
          const context = new MeasureContext(build, axle, model, known.pose);
          for (const { measure, target } of columns) {
            const value = measure.value(context, target);
            if (typeof value === 'number') {
              sum += value;
              values++;
            }
          }
          for (const { limit, target } of bounds) sum += limit.margin(context, target) ?? 0;
        }
        return sum;
      },
      outcome: () => `${values / poses.length} values a pose`,
    },
  ]);
  console.log('\nMeasures and limits at one pose');
  console.log(tableOf(results, solve));
  console.log(
    `all of them cost ${(1 / ratioOfMedians(results, solve, everything)).toFixed(1)} × the solve (10 aimed at)`,
  );

  console.log('\nCycles, ms (one run each, after one to warm up)');
  for (const name of ['long-arm-front', 'short-arm-front', 'whole-vehicle']) {
    for (const each of opened(name)) {
      const clock = (work: () => unknown): string => {
        work();
        const started = performance.now();
        work();
        return (performance.now() - started).toFixed(0);
      };
      const found = findRange(each.build, each.axle, each.model);
      const grid = coarseGrid(found.range, found.reach);
      const edge = clock(() => findRange(each.build, each.axle, each.model));
      const coarse = clock(() => {
        const places = coarseGrid(found.range, found.reach).places;
        const asked = columnsOf(found.reach);
        for (const { steered } of places) {
          for (const { pose } of steered) {
            const context = new MeasureContext(each.build, each.axle, each.model, pose);
            for (const { measure, target } of asked) measure.value(context, target);
          }
        }
      });
      const extremes = clock(() => findExtremes(found.range, found.reach, grid));
      console.log(
        `  ${name}, ${each.axle.name}: edge ${edge} (${found.range.edge.length} points), 11 × 11 × 5 with all measures ${coarse} (${grid.counts.solved} poses), extremes ${extremes} (${columnsOf(found.reach).length} measures); edge and extremes under 1,000 wanted`,
      );
    }
  }
}
