/** The sway bar as a moving body: its parts stand where the pose has them, and what its arm meets is found. */
import { expect, test } from 'vitest';
import { findFindings } from '../../geometry/finding/finding.ts';
import { gapsOf } from '../../geometry/gap/gapReport.ts';
import { carried, placed } from '../../geometry/gap/place.ts';
import { distance, type V3 } from '../../geometry/vector.ts';
import { cycled, partOf } from './cycled.ts';

const example = cycled('whole-vehicle', 'rear');
const { axle, walk } = example;
const bar = axle.swayBar;
if (!bar) throw new Error('the example has a sway bar on its rear axle');

test('arms turn about the bar, end links stay as long as they are, from arm to axle', () => {
  const poses = walk.grid.places.flatMap(({ steered }) => steered.map(({ pose }) => pose));
  let most = 0;
  for (const { side, tip, axle: end } of bar.arms) {
    const arm = partOf(example, `${side} sway bar arm`);
    const link = partOf(example, `${side} sway bar link`);
    expect([arm.of, link.of]).toEqual(['sway bar', 'sway bar']);
    for (const pose of poses.filter((_, i) => i % 7 === 0)) {
      const [arms, links] = [placed(arm, pose), placed(link, pose)];
      const now = carried(arms, tip);
      expect(distance(now, carried(links, tip))).toBeLessThan(1e-9);
      expect(distance(carried(links, end), pose.point('axle', end))).toBeLessThan(1e-9);
      expect(distance(now, carried(links, end))).toBeCloseTo(distance(tip, end), 9);
      // the foot of the tip on the bar stays, and so does the bar
      const foot: V3 = [bar.axis.at[0], tip[1], bar.axis.at[2]];
      expect(distance(carried(arms, foot), foot)).toBeLessThan(1e-9);
      most = Math.max(most, distance(now, tip));
    }
  }
  expect(most).toBeGreaterThan(4);
});

test('what an arm strikes as the axle comes up is one finding with its pose; bar and arm are one piece', () => {
  const [first] = bar.arms;
  if (!first) throw new Error('a bar has arms');
  const build = structuredClone(walk.build);
  build.wanted.muted = [];
  // 4 in over the driver's tip as drawn, which rises by more than 4 in
  build.solids = [
    {
      name: 'rack',
      on: 'chassis',
      axle: null,
      shape: {
        kind: 'sphere',
        center: [first.tip[0] + 1, first.tip[1], first.tip[2] + 5.5],
        radius: 0.75,
      },
      isNew: false,
      mayBeCut: false,
      give: 0,
    },
  ];
  const gaps = gapsOf(
    { ...walk, build },
    {
      readMesh: () => ({ problem: 'no meshes here' }),
      only: ({ a, b }) => [a.name, b.name].includes('rack') && [a.of, b.of].includes('sway bar'),
    },
  );
  const hits = findFindings(build, [], [gaps]).filter(({ kind }) => kind === 'partsTouch');
  expect(hits).toHaveLength(1);
  expect(hits[0]?.text).toMatch(/^The driver sway bar (arm|link) hits the rack by .* up/);
  expect(hits[0]?.hangsOn).toContain('axles["rear"].swayBar.axis.at[0]');
  const why = gaps.excluded.filter(({ a, b }) => [a, b].includes('sway bar')).map(each => each.why);
  expect(why).toContain('muted: arms and bar are one piece');
});
