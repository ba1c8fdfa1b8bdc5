/** Things of a build file: every part of every example hangs on one, and every entry of its axle stands in one. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { openBuild } from '../../../geometry/cycle/open.ts';
import { partsOf } from '../../../geometry/gap/parts.ts';
import { thingsOf } from '../../../src/app/answers/parts/things.ts';

const EXAMPLES = new URL('../../../examples/', import.meta.url);

describe('thingsOf', () => {
  const files = readdirSync(EXAMPLES).filter(each => each.endsWith('.axlewalk.json'));
  it.each(files)('%s', file => {
    const opened = openBuild(readFileSync(new URL(file, EXAMPLES), 'utf8'));
    if (!opened.ok) throw new Error(`${file} does not open`);
    const { build } = opened;
    for (const axle of build.axles) {
      // meshes are left out here: they need their files
      const { parts } = partsOf(build, axle, () => ({ problem: 'solids: no mesh in this test' }));
      const things = thingsOf(build, axle.name, parts);
      const held = things.flatMap(thing => thing.parts.map(({ name }) => name)).sort();
      expect(held).toEqual(parts.map(({ name }) => name).sort());
      const own = build.entries.filter(
        ({ path }) => !path.startsWith('axles[') || path.startsWith(`axles["${axle.name}"]`),
      );
      expect(things.flatMap(({ entries }) => entries)).toHaveLength(own.length);
    }
  });
});
