/** Findings from gaps: one hit is one finding, told in shop words; it goes when what hits goes. */
import { describe, expect, test } from 'vitest';
import type { Build, Solid as Drawn, Vec3 } from '../../geometry/build/build.ts';
import { type Finding, findFindings } from '../../geometry/finding/finding.ts';
import { gapsOf } from '../../geometry/gap/gapReport.ts';
import { isCalled } from '../../geometry/gap/pairNames.ts';
import type { MeshReader } from '../../geometry/gap/parts.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import { cycled, draws, pairOf } from '../gap/cycled.ts';

const noMesh: MeshReader = () => ({ problem: 'no meshes here' });

/** The long arms with other solids, and the pairs between these two things alone. */
function findingsWith(change: (build: Build) => void, ...only: [string, string][]): Finding[] {
  const { build, walk } = cycled('long-arm-front');
  const changed = structuredClone(build);
  changed.wanted.muted = [];
  change(changed);
  const gaps = gapsOf(
    { ...walk, build: changed, axle: changed.axles[0] ?? walk.axle },
    {
      readMesh: noMesh,
      only: ({ a, b }) =>
        only.some(
          ([one, other]) =>
            (isCalled(a, 'front', one) && isCalled(b, 'front', other)) ||
            (isCalled(b, 'front', one) && isCalled(a, 'front', other)),
        ),
    },
  );
  return findFindings(changed, [], [gaps]);
}

const post = (name: string, from: Vec3, to: Vec3, radius: number): Drawn => ({
  name,
  on: 'chassis',
  axle: null,
  shape: { kind: 'capsule', from, to, radius },
  isNew: false,
  mayBeCut: false,
  give: 0,
});

describe('a post over the axle tube', () => {
  // straight over the end of the passenger side's tube; the tube's top stands at 21 3/4 and comes up
  const at = (z: number) => (build: Build) => {
    build.solids = [post('post', [0, -24, z + 1], [0, -24, 60], 1)];
  };
  const pair: [string, string] = ['axle tubes', 'post'];

  test('that the tube meets on the way up is one thing to fix, with pose, amount and where it is clear', () => {
    const [finding, ...more] = findingsWith(at(26), pair);
    expect(more).toEqual([]);
    expect(finding).toMatchObject({
      kind: 'partsTouch',
      severity: 'mustFix',
      axle: 'front',
      parts: ['axle tubes', 'post'],
      assumed: false,
    });
    expect(finding?.amount.unit).toBe('in');
    expect(finding?.text).toMatch(
      /^The axle tubes hit the post by [\d ]+(\/\d+)? in, parts rigid: .*passenger side [\d ]+(\/\d+)? up.*; clear below .* on the passenger side\.$/,
    );
    expect(finding?.hangsOn).toContain('axles["front"].housing.tube.od');
    expect(finding?.extent?.share).toBeGreaterThan(0.1);
  });

  test('below the bound that is told, no pose of the range touches (seed 5)', () => {
    const [finding] = findingsWith(at(26), pair);
    const bound = /clear below (?:(\d+) )?(?:(\d+)\/(\d+) )?(up|down)? ?on the passenger/.exec(
      finding?.text ?? '',
    );
    const [, whole = '0', over = '0', under = '1', way] = bound ?? [];
    const travel = (way === 'down' ? -1 : 1) * (Number(whole) + Number(over) / Number(under));
    const { walk, build } = cycled('long-arm-front');
    const changed = structuredClone(build);
    at(26)(changed);
    const gaps = gapsOf(
      { ...walk, build: changed },
      { readMesh: noMesh, only: each => each.b.name === 'post' },
    );
    const own = pairOf({ pairs: gaps.gaps.map(each => each.pair), excluded: [] }, ...pair);
    const random = draws(5);
    const touches = (low: number, high: number): number => {
      let count = 0;
      for (let k = 0; k < 400; k++) {
        const right = low + (high - low) * random();
        const { pose, margin } = walk.reach.travel(-10 + 20 * random(), right);
        if (pose && margin >= 0 && gaps.search.gapAt(own, pose as Pose) < 0) count++;
      }
      return count;
    };
    expect(travel).toBeGreaterThan(0);
    expect(touches(-10, travel)).toBe(0);
    // and it is no idle bound: a little further up some do
    expect(touches(travel, travel + 0.5)).toBeGreaterThan(0);
  });

  test('further up it is only to be watched, and further still it is none', () => {
    const hit = findingsWith(at(26), pair)[0];
    const deep = hit?.amount.value ?? 0;
    const [near, ...more] = findingsWith(at(26 + deep + 0.25), pair);
    expect(more).toEqual([]);
    expect(near).toMatchObject({ kind: 'gapShort', severity: 'watch' });
    // the depth is the shortest way out, which is not straight up: less than what the post has been raised by
    expect(near?.amount.value).toBeGreaterThan(0);
    expect(near?.amount.value).toBeLessThan(0.25);
    expect(near?.text).toMatch(
      /^The axle tubes come within [\d ]+(\/\d+)? in of the post, parts rigid: .*\. 1\/2 in is asked for \(common practice\)\.$/,
    );
    expect(findingsWith(at(26 + deep + 1), pair)).toEqual([]);
  });

  test('asked for by name, the field and its reason are told', () => {
    const [near] = findingsWith(build => {
      at(30)(build);
      build.wanted.gaps = [{ pair: ['post', 'axle tubes'], required: 40, why: 'for the jack' }];
    }, pair);
    expect(near?.text).toMatch(/40 in is asked for \(for the jack\)\.$/);
    expect(near?.others?.asked).toEqual({ value: 40, unit: 'in' });
  });
});

test('pieces of the same two things are one finding, at the worst of them', () => {
  const findings = findingsWith(() => {}, ['differential', 'drag link']);
  expect(findings).toHaveLength(1);
  const [finding] = findings;
  expect(finding?.parts).toEqual(['drag link', 'differential']);
  expect(finding?.text).toMatch(/^The drag link hits the differential by 9\/16 in, parts rigid: /);
  expect(finding?.text).not.toMatch(/safe/i);
  // the cover alone, the differential out of the way
  const cover = findingsWith(
    build => {
      const { differential } = build.axles[0]?.housing ?? {};
      if (differential) differential.radius = 3;
    },
    ['differential', 'drag link'],
  );
  expect(cover).toHaveLength(1);
  expect(cover[0]?.parts).toEqual(['drag link', 'differential cover']);
});

test('the other driver side turns the words round', () => {
  const [left] = findingsWith(() => {}, ['left tire', 'gear housing']);
  const [right] = findingsWith(
    build => {
      build.driverSide = 'right';
    },
    ['left tire', 'gear housing'],
  );
  expect(left?.text).toMatch(/^The driver tire hits the gear housing/);
  expect(right?.text).toMatch(/^The passenger tire hits the gear housing/);
  expect(right?.amount.value).toBeCloseTo(left?.amount.value ?? 0, 9);
});

test('new parts on one body are told as drawn into each other', () => {
  const [finding] = findingsWith(
    build => {
      build.solids = [
        post('old tube', [0, 0, 60], [10, 0, 60], 1),
        { ...post('new tube', [5, 0, 61.5], [5, 0, 70], 1), isNew: true },
      ];
    },
    ['old tube', 'new tube'],
  );
  expect(finding?.text).toBe(
    'The new tube and the old tube are drawn 1/2 in into each other; they ride on one body, and one of them is new.',
  );
});

test('a solid that could not be made is told, since it is compared with nothing', () => {
  const [finding, ...more] = findingsWith(build => {
    const mesh = {
      kind: 'mesh' as const,
      file: 'scan.stl',
      scale: 1,
      at: [0, 0, 0] as Vec3,
      axes: [
        [1, 0, 0],
        [0, 1, 0],
        [0, 0, 1],
      ] as [Vec3, Vec3, Vec3],
      sha256: null,
      size: null,
    };
    build.solids = [{ ...post('scan', [0, 0, 0], [0, 0, 1], 1), shape: mesh }];
  });
  expect(more).toEqual([]);
  expect(finding).toMatchObject({ kind: 'solidLeftOut', severity: 'watch', parts: ['scan'] });
});
