/** Which pairs are compared, outside which zones, with which gap asked for, and which are left out and why. */
import { describe, expect, test } from 'vitest';
import type { Build, Solid as Drawn, Vec3 } from '../../geometry/build/build.ts';
import { GapSearch } from '../../geometry/gap/leastGaps.ts';
import { namesOfParts, problemsOfPairs } from '../../geometry/gap/pairNames.ts';
import { DEFAULT_GAPS, pairsOf } from '../../geometry/gap/pairs.ts';
import { ZONE } from '../../geometry/gap/partSizes.ts';
import { partsOf } from '../../geometry/gap/parts.ts';
import { SEGMENT } from '../../geometry/solid/piece.ts';
import { buildOf, cycled, EXAMPLES, pairOf } from './cycled.ts';

describe.each(EXAMPLES)('%s', name => {
  test.each(buildOf(name).axles.map(axle => axle.name))(
    'all pairs of the %s axle are compared or left out, each once, for one of three reasons',
    which => {
      const { parts, pairs, excluded } = cycled(name, which);
      const n = parts.length;
      expect(pairs.length + excluded.length).toBe((n * (n - 1)) / 2);
      const names = [
        ...pairs.map(({ a, b }) => [a.name, b.name].sort().join(' / ')),
        ...excluded.map(({ a, b }) => [a, b].sort().join(' / ')),
      ];
      expect(new Set(names).size).toBe(names.length);
      const bodyOf = new Map(parts.map(part => [part.name, part.body]));
      for (const { a, b, why } of excluded) {
        if (why.startsWith('muted: ')) expect(why.length).toBeGreaterThan(7);
        else {
          expect(why).toBe('ride on the same body');
          expect(bodyOf.get(a)).toBe(bodyOf.get(b));
        }
      }
      expect(pairs.length).toBeGreaterThanOrEqual(10);
    },
  );
});

test('the richest example has a hundred pairs and more, twenty of them of convex solids that are no rods', () => {
  const { pairs } = cycled('whole-vehicle');
  const convex = pairs.filter(({ solidA, solidB }) => !solidA.rods && !solidB.rods);
  expect(pairs.length).toBeGreaterThanOrEqual(100);
  expect(convex.length).toBeGreaterThanOrEqual(20);
});

test('track bar against drag link and differential cover, and ram against tie rod, are always compared', () => {
  for (const name of ['long-arm-front', 'short-arm-front', 'whole-vehicle'] as const) {
    const example = cycled(name);
    pairOf(example, 'track bar', 'drag link');
    pairOf(example, 'track bar', 'differential cover');
    pairOf(example, 'assist ram body', 'tie rod');
    pairOf(example, 'assist ram rod', 'tie rod');
  }
});

describe('zones', () => {
  const example = cycled('long-arm-front');

  test('of a joint: 1.25 times its housing, cut from the rod that hangs there', () => {
    const link = example.axle.links.find(each => each.name === 'left lower link');
    if (!link) throw new Error('the example has lower links');
    const { solidA, solidB, a } = pairOf(example, 'left lower link', 'axle tubes');
    const cut = a.name === 'left lower link' ? solidA : solidB;
    const radius = (ZONE * (link.axle.housing as number)) / 2;
    let nearest = Number.POSITIVE_INFINITY;
    for (const { core, data } of cut.pieces) {
      expect(core).toBe(SEGMENT);
      for (const i of [0, 3]) nearest = Math.min(nearest, away(data, i, link.axle.at));
    }
    expect(nearest).toBeCloseTo(radius, 9);
    // the other end hangs on the chassis, and stays whole
    const whole = cut.pieces.some(({ data }) => away(data, 3, link.chassis.at) < 1e-9);
    expect(whole).toBe(true);
  });

  test('what stands at the joint is joined to it, and asks for nothing beyond', () => {
    expect(pairOf(example, 'track bar', 'track bar bracket').required).toBe(0);
    expect(pairOf(example, 'driveshaft', 'pinion').required).toBe(0);
    // the axle tube does not stand at the link's joint: it asks for as much as ever
    expect(pairOf(example, 'left lower link', 'axle tubes').required).toBe(DEFAULT_GAPS.rod);
  });

  test('a link that strikes its own bracket away from the bolt is found', () => {
    const link = example.axle.links.find(each => each.name === 'left lower link');
    if (!link) throw new Error('the example has lower links');
    const [x, y, z] = link.axle.at;
    // a hull from beside the bolt to a gusset that reaches back over the link, clear of it as drawn
    const plate = drawn('link bracket', 'axle', {
      kind: 'hull',
      points: [-1.5, 1.5].flatMap((side): Vec3[] => [
        [x, y + side, z + 1.6],
        [x, y + side, z + 3.2],
        [x - 11, y + side, z + 3.1],
        [x - 11, y + side, z + 3.3],
      ]),
      radius: 0,
    });
    const { parts, pairs } = withSolids(plate);
    const pair = pairOf({ pairs, excluded: [] }, 'left lower link', 'link bracket');
    expect(pair.required).toBe(0);
    const search = new GapSearch(example.walk, parts, [pair]);
    expect(search.gapAt(pair, example.walk.model.ride)).toBeGreaterThan(0.1);
    const { status, alongA, alongB } = search.least(0);
    expect(status).toBe('touches');
    // far behind the bolt, whose zone ends 1 3/4 in along the link of 37 in
    const along = pair.a.name === 'left lower link' ? alongA : alongB;
    expect((along ?? 0) * 37).toBeGreaterThan(3);
  });
});

describe('what a build asks for', () => {
  const base = cycled('long-arm-front');

  test('a gap by name, with its reason, and the parts may give', () => {
    const pair = pairOf(base, 'drag link', 'differential');
    expect(pair.required).toBe(0.5);
    expect(pair.why).toBe('room for the housing to wind up');
    const tire = pairOf(base, 'left tire', 'left fender');
    // 1 asked for, 1/2 that the tire and 1/4 that the fender may give
    expect(tire.required).toBe(1.75);
    expect(pairOf(base, 'left tire', 'bumper').required).toBe(DEFAULT_GAPS.tire + 0.5);
  });

  test('a name stands for its pieces, and may have its axle before it', () => {
    const asked = (pair: [string, string]): number => {
      const build = {
        ...base.build,
        wanted: { ...base.build.wanted, gaps: [{ pair, required: 3, why: '' }] },
      };
      const { pairs } = pairsOf(build, 'front', base.parts);
      return pairs.filter(each => each.asked === 0).length;
    };
    // body, shaft and reservoir of the shock; one of them rides on the chassis as the fender does
    expect(asked(['left shock', 'left fender'])).toBe(2);
    expect(asked(['front left shock shaft', 'left fender'])).toBe(1);
    expect(asked(['rear left shock shaft', 'left fender'])).toBe(0);
  });

  test('a muted pair is left out with its reason', () => {
    const muted = { pair: ['bumper', 'left tire'] as [string, string], why: 'the bumper goes' };
    const build = { ...base.build, wanted: { ...base.build.wanted, muted: [muted] } };
    const { pairs, excluded } = pairsOf(build, 'front', base.parts);
    expect(excluded.find(({ why }) => why === 'muted: the bumper goes')).toMatchObject({
      a: 'left tire',
      b: 'bumper',
    });
    expect(pairs.some(({ a, b }) => a.name === 'left tire' && b.name === 'bumper')).toBe(false);
    // what the example muted is compared now
    expect(pairs.some(({ a, b }) => a.name === 'pitman arm' && b.name === 'gear housing')).toBe(
      true,
    );
  });

  test('names that no part has are told with the nearest one', () => {
    const build = structuredClone(base.build);
    build.wanted.gaps.push({ pair: ['drag lnk', 'track bar'], required: 1, why: '' });
    build.wanted.muted.push({ pair: ['left tire', 'left fendr'], why: '' });
    const problems = problemsOfPairs(build);
    const at = base.build.wanted;
    expect(problems.map(({ path, wanted }) => [path, wanted])).toEqual([
      [`wanted.gaps[${at.gaps.length}].pair[0]`, `a part's name, such as "drag link"`],
      [`wanted.muted[${at.muted.length}].pair[1]`, `a part's name, such as "left fender"`],
    ]);
    expect(problemsOfPairs(base.build)).toEqual([]);
    expect(namesOfParts(base.build)).toContain('front left shock');
  });
});

describe('parts on one body', () => {
  test('are compared where one of them is new, and not again with the other axle', () => {
    const { pairs, excluded } = withSolids(
      { ...drawn('new gusset', 'chassis', ball([0, 0, 60])), isNew: true },
      drawn('old gusset', 'chassis', ball([3, 0, 60])),
    );
    const gussets = pairs.filter(pair => pair.still);
    expect(gussets.some(({ a, b }) => [a.name, b.name].includes('old gusset'))).toBe(true);
    expect(excluded.some(({ a, b }) => a === 'old gusset' || b === 'old gusset')).toBe(true);
    const base = cycled('long-arm-front');
    const again = pairsOf(base.build, 'front', base.parts, { still: false });
    expect(again.pairs.some(pair => pair.still)).toBe(false);
    expect(again.pairs.length + again.excluded.length).toBe(
      (base.parts.length * (base.parts.length - 1)) / 2,
    );
  });

  test('a solid drawn on a link, on half a shock or on the driveshaft rides with it', () => {
    const { parts, pairs } = withSolids(
      drawn('link skid', 'left lower link', ball([-20, 16, 18])),
      drawn('stone guard', 'left shock.body', ball([-6, 19, 36])),
      drawn('balance weight', 'driveshaft', ball([-30, 9, 25])),
    );
    for (const [name, body, own] of [
      ['link skid', 'left lower link', 'left lower link'],
      ['stone guard', 'left shock body', 'left shock body'],
      ['balance weight', 'driveshaft', 'driveshaft'],
    ] as const) {
      const part = parts.find(each => each.name === name);
      expect(part?.body).toBe(body);
      const names = pairs.map(({ a, b }) => [a.name, b.name]);
      expect(names.some(each => each.includes(name) && each.includes(own))).toBe(false);
      expect(names.some(each => each.includes(name) && each.includes('axle tubes'))).toBe(true);
    }
  });
});

function away(data: Float64Array, i: number, [x, y, z]: Vec3): number {
  return Math.hypot(
    (data[i] as number) - x,
    (data[i + 1] as number) - y,
    (data[i + 2] as number) - z,
  );
}

const ball = (center: Vec3): Drawn['shape'] => ({ kind: 'sphere', center, radius: 1 });

function drawn(name: string, on: string, shape: Drawn['shape']): Drawn {
  const axle = on === 'chassis' ? null : 'front';
  return { name, on, axle, shape, isNew: false, mayBeCut: false, give: 0 };
}

function withSolids(...more: Drawn[]) {
  const { build, axle } = cycled('long-arm-front');
  const changed: Build = { ...build, solids: [...build.solids, ...more] };
  const { parts, problems } = partsOf(changed, axle, () => ({ problem: 'none' }));
  expect(problems).toEqual([]);
  return { parts, ...pairsOf(changed, axle.name, parts) };
}
