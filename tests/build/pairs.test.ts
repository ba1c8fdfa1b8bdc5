import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Build } from '../../geometry/build/build.ts';
import type { Edit, Edited } from '../../geometry/build/edit.ts';
import { pairingOf } from '../../geometry/build/pairPlaces.ts';
import { withSidesAlike, withSidesApart } from '../../geometry/build/pairs.ts';
import { readValue } from '../../geometry/build/read.ts';
import type { BuildFile } from '../../geometry/build/schema/file.ts';
import { edited, sample, type Written } from './sample.ts';

const folder = new URL('../../examples/', import.meta.url);
const examples = readdirSync(folder).filter(name => name.endsWith('.axlewalk.json'));
const fileOf = (name: string): BuildFile =>
  JSON.parse(readFileSync(new URL(name, folder), 'utf8')) as BuildFile;

function done(edit: Edit): BuildFile {
  if (!edit.ok) throw new Error(edit.message);
  return edit.file;
}

function built(file: BuildFile, variant: string | null = null): Build {
  const read = readValue(file as unknown as Record<string, unknown>, { variant });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.build;
}

/** What a Build holds beside what was typed and where, without negative zeros. */
function vehicle({ entries: _, jointPaths: __, places, ...build }: Build): unknown {
  const where = places.map(({ path: ___, ...place }) => place);
  return JSON.parse(
    JSON.stringify({ ...build, places: where.sort((a, b) => (a.name < b.name ? -1 : 1)) }),
  );
}

/** Addresses of all that a file writes once for both sides. */
function mirrored(value: unknown, words: string[] = []): string[] {
  if (typeof value !== 'object' || value === null) return [];
  if (Array.isArray(value)) {
    const named = value.flatMap(item => mirrored(item, [...words, String(item?.name ?? '')]));
    return named.map(each => each.replace(/\.(arms|endLinks)\.$/, ''));
  }
  const own = (value as { sides?: unknown }).sides === 'mirror' ? [words.join('.')] : [];
  return [
    ...own,
    ...Object.entries(value).flatMap(([key, field]) =>
      key === 'variants' || key === 'alternatives' ? [] : mirrored(field, [...words, key]),
    ),
  ];
}

/** Where the halves of a part stand. */
function halvesOf(address: string): readonly [string, string] {
  const words = address.split('.');
  const last = words.pop() ?? '';
  const isListed = LISTS.includes(words.at(-1) ?? '');
  const half = (side: string): string => [...words, `${side} ${last}`].join('.');
  return isListed ? [half('left'), half('right')] : [address, address];
}

const LISTS = [
  'joints',
  'links',
  'shocks',
  'coils',
  'bumpStops',
  'straps',
  'lines',
  'rams',
  'solids',
  'datums',
];

/** Taped with one wheel higher than the other. */
const leaning = 'wishbone-rear.axlewalk.json';

test.each(examples.filter(name => name !== leaning))(
  '%s with all its pairs taken apart is the same vehicle, and so it is made alike again',
  name => {
    const file = fileOf(name);
    const all = [...new Set(mirrored(file))];
    expect(all.length).toBeGreaterThan(10);
    const variants = [null, ...(file.variants ?? []).map(each => each.name)];
    const before = variants.map(variant => vehicle(built(file, variant)));
    const base: Edited = { file, variant: null };
    for (const address of all) expect(pairingOf(base, address)).toBe('alike');
    const apart: Edited = { ...base, file: done(withSidesApart(base, all)) };
    for (const half of all.flatMap(halvesOf)) expect(pairingOf(apart, half)).toBe('apart');
    const { variants: _, alternatives: __, ...alone } = apart.file;
    expect(JSON.stringify(alone)).not.toContain('"mirror"');
    // some after their left half, some after their right one, called by either
    const half = (address: string, i: number): string =>
      halvesOf(address)[i % 3 === 0 ? 1 : 0] ?? '';
    const some = (rest: number): string[] => all.map(half).filter((___, i) => i % 2 === rest);
    const mixed = { ...base, file: done(withSidesAlike(apart, some(0), 'left')) };
    const again = { ...base, file: done(withSidesAlike(mixed, some(1), 'right')) };
    for (const address of all) expect(pairingOf(again, address)).toBe('alike');
    for (const [i, variant] of variants.entries()) {
      expect(vehicle(built(apart.file, variant))).toEqual(before[i]);
      expect(vehicle(built(again.file, variant))).toEqual(before[i]);
    }
  },
);

const link = 'axles.front.links.lower link';
const inBase = (file: Written): Edited => ({ file: file as unknown as BuildFile, variant: null });
const apart = (file: Written, address: string): BuildFile =>
  done(withSidesApart(inBase(file), [address]));
const refusal = (edit: Edit): string => (edit.ok ? 'taken' : edit.message);
const linksOf = (file: BuildFile) => file.axles[0]?.links ?? [];

describe('what the halves say', () => {
  const file = edited(sample(), {
    dimensions: [{ name: 'railFace', value: '13 1/2' }],
    datums: [{ name: 'hole', sides: 'mirror', point: [-30, 'railFace + 1', 30] }],
    'axles.0.joints': [
      { name: 'bush', kind: 'bushing', bolt: [0.1, 1, 0], clocking: '4 deg' },
      { name: 'eye', kind: 'rodEnd', sides: 'mirror', bolt: [0, 1, 0.2] },
    ],
    'axles.0.links.0': {
      name: 'lower link',
      sides: 'mirror',
      axle: {
        at: [-2, { value: '17 1/2', from: 'measured', tolerance: '1/16' }, '16 1/4'],
        joint: 'bush',
      },
      chassis: { at: { from: 'hole', by: [0, '-3/4', -6] }, joint: 'eye', clocking: '-7 deg' },
      through: [{ from: 'hole', length: 20, angle: '10 deg', plane: 'plan' }],
      tube: { od: 2 },
      notes: 'as cut',
    },
  });
  const [left, right] = linksOf(apart(file, link));

  test('entries stay as typed; across, they change their sign and keep where they came from', () => {
    expect(left).toEqual({
      name: 'left lower link',
      axle: {
        at: [-2, { value: '17 1/2', from: 'measured', tolerance: '1/16' }, '16 1/4'],
        joint: 'bush',
      },
      chassis: {
        at: { from: 'left hole', by: [0, '-3/4', -6] },
        joint: 'left eye',
        clocking: '-7 deg',
      },
      through: [{ from: 'left hole', length: 20, angle: '10 deg', plane: 'plan' }],
      tube: { od: 2 },
      notes: 'as cut',
    });
    expect(right).toEqual({
      name: 'right lower link',
      axle: {
        at: [-2, { value: '-17 1/2', from: 'measured', tolerance: '1/16' }, '16 1/4'],
        joint: 'bush',
        // the kind of joint is turned with a mirrored link only
        bolt: [0.1, -1, 0],
        clocking: '-4 deg',
      },
      chassis: {
        at: { from: 'right hole', by: [0, '3/4', -6] },
        joint: 'right eye',
        clocking: '7 deg',
      },
      through: [{ from: 'right hole', length: 20, angle: '-10 deg', plane: 'plan' }],
      tube: { od: 2 },
      notes: 'as cut',
    });
  });

  test('made alike again after either side, it is written as it was', () => {
    const halves = inBase(apart(file, link) as unknown as Written);
    for (const side of ['left', 'right'] as const) {
      const again = done(withSidesAlike(halves, ['axles.front.links.right lower link'], side));
      expect(linksOf(again)).toEqual(linksOf(file as unknown as BuildFile));
    }
  });

  test('after a side that was changed, the other follows it', () => {
    const halves = apart(file, link);
    const moved = edited(halves as unknown as Written, { 'axles.0.links.1.axle.at.1': '-18 1/8' });
    const again = done(
      withSidesAlike(inBase(moved), ['axles.front.links.left lower link'], 'right'),
    );
    expect(built(again).axles[0]?.links[0]?.axle.at[1]).toBe(18.125);
    expect(linksOf(again)[0]?.axle.at).toEqual([-2, '18 1/8', '16 1/4']);
  });

  test('joints and datums taken apart are still those of the mirrored part', () => {
    const was = vehicle(built(file as unknown as BuildFile));
    for (const address of ['datums.hole', 'axles.front.joints.eye']) {
      expect(vehicle(built(apart(file, address)))).toEqual(was);
    }
  });
});

test('arms and end links of a sway bar are a pair at once', () => {
  const bar = {
    axis: { at: [-10, 0, 30], direction: [0, 1, 0] },
    arms: [{ sides: 'mirror', tip: [2, 16, 30] }],
    endLinks: [{ sides: 'mirror', axle: [2, 16, '20 1/2'] }],
  };
  const file = edited(sample(), { 'axles.0.swayBar': bar });
  const halves = apart(file, 'axles.front.swayBar');
  expect(halves.axles[0]?.swayBar).toMatchObject({
    arms: [
      { side: 'left', tip: [2, 16, 30] },
      { side: 'right', tip: [2, -16, 30] },
    ],
    endLinks: [
      { side: 'left', axle: [2, 16, '20 1/2'] },
      { side: 'right', axle: [2, -16, '20 1/2'] },
    ],
  });
  const back = withSidesAlike(
    inBase(halves as unknown as Written),
    ['axles.front.swayBar'],
    'right',
  );
  expect(done(back).axles[0]?.swayBar).toEqual(bar);
});

describe('variants', () => {
  const variants = [
    {
      name: 'wide',
      changes: [
        { part: link, field: 'chassis.at[1]', value: '16 1/2' },
        { part: link, field: 'tube', value: { od: 2 } },
      ],
    },
    { name: 'without', remove: ['axles.front.links.upper link'] },
  ];
  const file = edited(sample(), { variants });

  test('what changes the part changes both halves, and one again when they are alike', () => {
    const halves = apart(file, link);
    const [left, right] = ['left', 'right'].map(side => `axles.front.links.${side} lower link`);
    expect(halves.variants?.[0]?.changes).toEqual([
      { part: left, field: 'chassis.at[1]', value: '16 1/2' },
      { part: right, field: 'chassis.at[1]', value: '-16 1/2' },
      { part: left, field: 'tube', value: { od: 2 } },
      { part: right, field: 'tube', value: { od: 2 } },
    ]);
    const again = withSidesAlike(inBase(halves as unknown as Written), [left ?? ''], 'left');
    expect(done(again)).toEqual(file);
  });

  test('one that changes the sides differently is in the way, and is named', () => {
    const halves = edited(apart(file, link) as unknown as Written, {
      'variants.0.changes.1.value': '-17',
    });
    const edit = withSidesAlike(inBase(halves), ['axles.front.links.left lower link'], 'left');
    expect(refusal(edit)).toBe('variant "wide" changes the left and the right one differently');
  });

  test('with a variant shown, only the variant takes them apart', () => {
    const shown: Edited = { file: file as unknown as BuildFile, variant: 'wide' };
    const halves = done(withSidesApart(shown, [link]));
    expect(halves.axles).toEqual(file.axles);
    expect(built(halves, 'wide').axles[0]?.links.map(({ name }) => name)).toContain(
      'right lower link',
    );
    expect(pairingOf({ file: halves, variant: 'wide' }, 'axles.front.links.left lower link')).toBe(
      'apart',
    );
    expect(pairingOf({ file: halves, variant: null }, link)).toBe('alike');
  });
});

describe('what has no mirror image in writing', () => {
  test('a point taped from what stands on one side only', () => {
    const file = edited(sample(), {
      datums: [{ name: 'tank corner', point: [-30, 4, 30] }],
      'axles.0.links.0.chassis.at': { from: 'tank corner', by: [0, 11, -8] },
    });
    expect(refusal(withSidesApart(inBase(file), [link]))).toBe(
      'a point is taped from "tank corner", which is not alike on both sides',
    );
    // its height and how far back it is are alike
    const heights = edited(file, {
      'axles.0.links.0.chassis.at.from': ['tank corner', 'centerline', 'tank corner'],
    });
    const halves = apart(heights, link);
    expect(linksOf(halves)[1]?.chassis.at).toEqual({
      from: ['tank corner', 'centerline', 'tank corner'],
      by: [0, -11, -8],
    });
  });

  test('readings of an axle that was taped leaning', () => {
    const edit = withSidesApart({ file: fileOf(leaning), variant: null }, [
      'axles.rear.links.lower wishbone leg',
    ]);
    expect(refusal(edit)).toMatch(/leans \(see roll and wheel heights\)/);
  });

  test('a part of one side only', () => {
    expect(refusal(withSidesApart(inBase(sample()), ['axles.front.links.upper link']))).toMatch(
      /not written once/,
    );
    expect(pairingOf(inBase(sample()), 'axles.front.links.upper link')).toBeNull();
    expect(pairingOf(inBase(sample()), 'axles.front.knuckles')).toBeNull();
  });
});
