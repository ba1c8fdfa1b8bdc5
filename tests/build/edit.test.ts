import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { partAndField, pathSteps } from '../../geometry/build/address.ts';
import {
  differsFromBase,
  type Edit,
  type Edited,
  entryAt,
  withEntry,
  withoutPart,
  withPart,
} from '../../geometry/build/edit.ts';
import { readValue } from '../../geometry/build/read.ts';
import type { BuildFile } from '../../geometry/build/schema/file.ts';

const example = new URL('../../examples/long-arm-front.axlewalk.json', import.meta.url);
const base: BuildFile = {
  ...JSON.parse(readFileSync(example, 'utf8')),
  variants: [{ name: 'trial' }],
};
const inBase: Edited = { file: base, variant: null };
const inVariant: Edited = { file: base, variant: 'trial' };

const end = 'axles["front"].links["lower link"].axle.at[1]';

function done(edit: Edit): BuildFile {
  if (!edit.ok) throw new Error(edit.message);
  return edit.file;
}

function built(file: BuildFile, variant: string | null = null) {
  const read = readValue(file as unknown as Record<string, unknown>, { variant });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.build;
}

/** y of the left lower link's axle end. */
const y = (file: BuildFile, variant: string | null = null): number | undefined =>
  built(file, variant).axles[0]?.links.find(({ name }) => name === 'left lower link')?.axle.at[1];

describe('paths and addresses', () => {
  test('a path leads where an entry stands, and its part and field lead there too', () => {
    const steps = pathSteps(base, end);
    expect(steps).toEqual(['axles', 0, 'links', 0, 'axle', 'at', 1]);
    expect(partAndField(base, steps ?? [])).toEqual({
      part: 'axles.front.links.lower link',
      field: 'axle.at[1]',
    });
    expect(partAndField(base, ['wheelbase'])).toEqual({ part: 'build', field: 'wheelbase' });
    expect(partAndField(base, ['axles', 0, 'tire', 'give'])).toEqual({
      part: 'axles.front',
      field: 'tire.give',
    });
  });

  test('every entry of the example is found and can be typed anew as it was', () => {
    for (const { path } of built(base).entries) {
      const entry = entryAt(inBase, path);
      if (!entry) throw new Error(path);
      expect(done(withEntry(inBase, path, {})), path).toEqual(base);
    }
  });

  test('a path that leads nowhere is told', () => {
    expect(entryAt(inBase, 'axles["front"].links["no link"].axle.at[1]')).toBeNull();
    expect(withEntry(inBase, 'axles["third"].tire', { value: 1 }).ok).toBe(false);
  });
});

describe('an entry typed anew', () => {
  test('keeps where it came from, and changes nothing else', () => {
    const file = done(withEntry(inBase, end, { value: '17 5/8' }));
    expect(entryAt({ file, variant: null }, end)).toEqual({
      value: '17 5/8',
      from: 'measured',
      tolerance: '1/16',
    });
    expect(y(file)).toBeCloseTo(17.625, 12);
    expect(y(base)).toBeCloseTo(17.5, 12);
    expect(done(withEntry({ file, variant: null }, end, { value: '17 1/2' }))).toEqual(base);
  });

  test('in a variant leaves the base as it is', () => {
    const file = done(withEntry(inVariant, end, { value: '17 5/8' }));
    expect(y(file)).toBeCloseTo(17.5, 12);
    expect(y(file, 'trial')).toBeCloseTo(17.625, 12);
    const edited = { file, variant: 'trial' };
    expect(differsFromBase(edited, end)).toBe(true);
    expect(differsFromBase(edited, 'wheelbase')).toBe(false);
    // typed back it is no change any more
    expect(done(withEntry(edited, end, { value: '17 1/2' }))).toEqual(base);
  });

  test('twice in a variant is one change', () => {
    const once = done(withEntry(inVariant, end, { value: '17 5/8' }));
    const twice = done(withEntry({ file: once, variant: 'trial' }, end, { value: 18 }));
    expect(twice.variants?.[0]?.changes).toHaveLength(1);
    expect(y(twice, 'trial')).toBe(18);
  });
});

describe('parts', () => {
  const rail = { name: 'new rail', on: 'chassis', shape: 'sphere', center: [0, 0, 40], radius: 1 };

  test('are added and taken out, in the base and in a variant', () => {
    const added = done(withPart(inBase, 'solids', rail));
    expect(added.solids).toHaveLength((base.solids ?? []).length + 1);
    expect(done(withoutPart({ file: added, variant: null }, 'solids.new rail'))).toEqual(base);

    const varied = done(withPart(inVariant, 'solids', rail));
    expect(varied.solids).toEqual(base.solids);
    expect(varied.variants?.[0]?.add).toEqual([{ to: 'solids', part: rail }]);
    const radius = done(
      withEntry({ file: varied, variant: 'trial' }, 'solids["new rail"].radius', { value: 2 }),
    );
    expect(radius.variants?.[0]?.add?.[0]?.part.radius).toBe(2);
    const gone = done(withoutPart({ file: radius, variant: 'trial' }, 'solids.new rail'));
    expect(gone.variants?.[0]?.add).toEqual([]);
  });

  test('of the base are taken out of a variant with their changes', () => {
    const changed = done(withEntry(inVariant, end, { value: 18 }));
    const gone = done(
      withoutPart({ file: changed, variant: 'trial' }, 'axles.front.links.lower link'),
    );
    expect(gone.variants?.[0]).toMatchObject({
      changes: [],
      remove: ['axles.front.links.lower link'],
    });
  });

  test('of a name that is taken are refused', () => {
    const taken = withPart(inBase, 'axles.front.links', { name: 'lower link' });
    expect(taken).toEqual({ ok: false, message: 'a part called "lower link" is there already' });
  });
});
