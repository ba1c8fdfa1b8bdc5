import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import type { Build } from '../../geometry/build/build.ts';
import { problemLines, readBuild } from '../../geometry/build/read.ts';
import { currentVersion } from '../../geometry/build/schema/file.ts';
import { upgrade } from '../../geometry/build/upgrade.ts';
import { built, edited, sample } from './sample.ts';

const fixtures = fileURLToPath(new URL('fixtures/', import.meta.url));
const older = readFileSync(`${fixtures}version-0.axlewalk.json`, 'utf8');

test('there is a fixture of every older version', () => {
  const files = readdirSync(fixtures);
  for (let version = 0; version < currentVersion; version++) {
    expect(files).toContain(`version-${version}.axlewalk.json`);
  }
});

test('a file of version 0 gives the Build of the same vehicle in the current version', () => {
  const read = readBuild(older);
  if (!read.ok) throw new Error(problemLines(read.problems).join('\n'));
  const current = built(
    edited(sample(), {
      name: 'older file',
      datums: [
        { name: 'rail bottom', point: [-30, '13 1/2', 22] },
        { name: 'rail end', point: { from: 'rail bottom', by: [45, 0, 0] } },
      ],
      'axles.0.links.0.chassis.at': { from: 'rail bottom', by: [-8, '1 1/2', 0] },
    }),
  );
  // Entries stand in the order of the file, and the fixture's fields stand in another one.
  const sorted = (build: Build) => ({
    ...build,
    entries: build.entries.toSorted((a, b) => (a.path < b.path ? -1 : 1)),
  });
  expect(sorted(read.build)).toEqual(sorted(current));
  expect(read.file.axlewalk).toBe(currentVersion);
});

test('an upgrade leaves the older file, and files of the current version, as they are', () => {
  const file = JSON.parse(older);
  upgrade(file);
  expect(file).toEqual(JSON.parse(older));
  const current = sample();
  expect(upgrade(current)).toEqual({ ok: true, file: current, from: currentVersion });
});

test('an older file that is broken is told in words of the current version', () => {
  const file = edited(JSON.parse(older), { datums: 7, 'axles.0.links': 'none', units: 'cubits' });
  const read = readBuild(JSON.stringify(file));
  expect(read.ok ? [] : problemLines(read.problems)).toEqual([
    expect.stringMatching(/^unit: found "cubits"; wanted: "in" or "mm"$/),
    expect.stringMatching(/^datums: found 7; wanted: a list/),
    expect.stringMatching(/^axles\["front"\]\.links: found "none"; wanted: a list/),
  ]);
});
