/**
 * What is proposed from nothing clears itself over most of the travel: somebody who has taped nothing is not met by hits
 * of guessed parts on guessed parts.
 */
import { expect, test } from 'vitest';
import type { Answer, Start } from '../../../geometry/build/start/answers.ts';
import {
  axleChoice,
  linkLayouts,
  type StartLayout,
  steeringLayouts,
} from '../../../geometry/build/start/layouts.ts';
import { propose } from '../../../geometry/build/start/propose.ts';
import { coarseGrid } from '../../../geometry/cycle/grid.ts';
import { openBuild } from '../../../geometry/cycle/open.ts';
import { findRange } from '../../../geometry/cycle/range.ts';
import { CoarseMap } from '../../../geometry/gap/map.ts';
import { pairsOf } from '../../../geometry/gap/pairs.ts';
import { partsOf } from '../../../geometry/gap/parts.ts';
import { PlacedGrid } from '../../../geometry/gap/placedGrid.ts';

/** Least share of the travel map that touches nowhere over all steering: the corners of full flex at full lock may. */
const LEAST_CLEAR = 0.85;

const layouts = linkLayouts.flatMap(({ id: links }): [string, StartLayout][] => [
  ...steeringLayouts.map(({ id: steering }): [string, StartLayout] => {
    const front = axleChoice('front', { links, steering, assistRam: steering !== 'doubleRam' });
    return [`front, ${links}, ${steering}`, { axles: [front], driverSide: 'left' }];
  }),
  [`rear, ${links}`, { axles: [axleChoice('rear', { links })], driverSide: 'left' }],
]);

/** Share of the places of the coarse map where nothing touches, whatever the steering. */
function clearShare(start: Start): number {
  const opened = openBuild(JSON.stringify(propose(start).file));
  const one = opened.ok ? opened.axles[0] : undefined;
  if (!one) throw new Error('it opens');
  const { build, axle, model } = one;
  const { range, reach } = findRange(build, axle, model);
  const { parts } = partsOf(build, axle, () => {
    throw new Error('a proposal has no meshes');
  });
  const { pairs } = pairsOf(build, axle.name, parts, { still: true });
  const map = new CoarseMap(parts, pairs);
  // every other place will do
  const places = coarseGrid(range, reach).places.filter((_, i) => i % 2 === 0);
  const { gap } = map.run(new PlacedGrid(map.motions, { places }));
  return gap.filter(each => each >= 0).length / gap.length;
}

const started = (layout: StartLayout, answers: Record<string, Answer> = {}): Start => ({
  name: 'truck',
  unit: 'in',
  layout,
  answers,
});

test.each(layouts)('nothing taped: %s', (called, layout) => {
  const share = clearShare(started(layout));
  console.log(`${called}: clear over ${Math.round(100 * share)} % of the map`);
  expect(share).toBeGreaterThanOrEqual(LEAST_CLEAR);
});

test('the driver on the other side, and a tall axle with its bar taped', () => {
  const right = axleChoice('front', {}, 'right');
  expect(clearShare(started({ axles: [right], driverSide: 'right' }))).toBeGreaterThanOrEqual(
    LEAST_CLEAR,
  );
  const answers = {
    'front.wheelHeight': { value: '20' },
    'front.tireHeight': { value: '41 1/4' },
    'front.barAxleHeight': { value: '25' },
    'front.barFrameHeight': { value: '27 3/4' },
    'front.bumpGap': { value: '4' },
  };
  const left = axleChoice('front');
  expect(
    clearShare(started({ axles: [left], driverSide: 'left' }, answers)),
  ).toBeGreaterThanOrEqual(LEAST_CLEAR);
});
