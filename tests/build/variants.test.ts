import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { type Edit, entryAt, withEntry } from '../../geometry/build/edit.ts';
import type { BuildFile } from '../../geometry/build/schema/file.ts';
import {
  withNewVariant,
  withoutVariant,
  withVariantCalled,
} from '../../geometry/build/variants.ts';

const file: BuildFile = JSON.parse(
  readFileSync(new URL('../../examples/wishbone-rear.axlewalk.json', import.meta.url), 'utf8'),
);
const done = (edit: Edit): BuildFile => {
  if (!edit.ok) throw new Error(edit.message);
  return edit.file;
};
const WIDTH = 'axles["rear"].wheelCenters';

test('a new variant is the base until something of it is changed, and the base stays', () => {
  const made = done(withNewVariant({ file, variant: null }, 'wide'));
  const wide = { file: made, variant: 'wide' };
  expect(entryAt(wide, WIDTH)).toEqual(entryAt({ file, variant: null }, WIDTH));
  const changed = done(withEntry(wide, WIDTH, { value: '70' }));
  expect(entryAt({ file: changed, variant: 'wide' }, WIDTH)?.value).toBe('70');
  expect(entryAt({ file: changed, variant: null }, WIDTH)).toEqual(
    entryAt({ file, variant: null }, WIDTH),
  );
  // made of the one that is shown, it has its changes
  const copy = done(withNewVariant({ file: changed, variant: 'wide' }, 'wider'));
  expect(entryAt({ file: copy, variant: 'wider' }, WIDTH)?.value).toBe('70');
});

test('a name that is taken is refused, and one that is not there too', () => {
  const made = done(withNewVariant({ file, variant: null }, 'wide'));
  expect(withNewVariant({ file: made, variant: null }, 'wide').ok).toBe(false);
  expect(withVariantCalled(made, 'narrow', 'x').ok).toBe(false);
  expect(withoutVariant(made, 'narrow').ok).toBe(false);
});

test('made, named anew and taken out again the file is as before', () => {
  const made = done(withNewVariant({ file, variant: null }, 'wide'));
  const named = done(withVariantCalled(made, 'wide', 'broad'));
  expect(named.variants?.map(({ name }) => name)).toContain('broad');
  expect(done(withoutVariant(named, 'broad'))).toEqual(file);
});
