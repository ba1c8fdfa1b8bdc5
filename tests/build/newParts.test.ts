import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { withoutPart, withPart } from '../../geometry/build/edit.ts';
import { NEW_PARTS, type NewPart, newPart } from '../../geometry/build/newParts.ts';
import type { BuildFile } from '../../geometry/build/schema/file.ts';
import { writeBuild } from '../../geometry/build/write.ts';
import { openBuild } from '../../geometry/cycle/open.ts';

const folder = new URL('../../examples/', import.meta.url);
const examples = readdirSync(folder).filter(name => name.endsWith('.axlewalk.json'));

describe.each(examples)('%s', example => {
  const file: BuildFile = JSON.parse(readFileSync(new URL(example, folder), 'utf8'));
  const before = openBuild(writeBuild(file));
  if (!before.ok) throw new Error('the example is not read');
  test.each(Object.keys(NEW_PARTS) as NewPart[])(
    'a new %s stands, all of it assumed, and goes again',
    kind => {
      for (const { axle } of before.axles) {
        const { to, part } = newPart(kind, 'a new thing', axle);
        const added = withPart({ file, variant: null }, to, part);
        if (!added.ok) throw new Error(added.message);
        const opened = openBuild(writeBuild(added.file));
        expect(opened.ok ? [] : opened.problems).toEqual([]);
        if (!opened.ok) return;
        const own = opened.build.entries.filter(({ path }) => path.includes('"a new thing"'));
        expect(own.length).toBeGreaterThan(3);
        expect(own.every(({ from }) => from === 'assumed')).toBe(true);
        const gone = withoutPart({ file: added.file, variant: null }, `${to}.a new thing`);
        if (!gone.ok) throw new Error(gone.message);
        const again = openBuild(writeBuild(gone.file));
        expect(again.ok && again.build.entries.length).toBe(before.build.entries.length);
      }
    },
  );
});
