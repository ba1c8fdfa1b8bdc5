import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { crossings, importsOf, lintOverrides, reach, roomOf, rooms } from './borders.ts';

const top = fileURLToPath(new URL('..', import.meta.url));

function sources(): string[] {
  return ['geometry', 'src', 'tests'].flatMap(folder => {
    if (!existsSync(top + folder)) return [];
    return readdirSync(top + folder, { recursive: true, encoding: 'utf8' })
      .filter(path => /\.tsx?$/.test(path))
      .map(path => `${folder}/${path.replaceAll('\\', '/')}`)
      .sort();
  });
}

test('no file imports across a border', () => {
  const files = sources();
  expect(files).toContain('geometry/build/nearest.ts');
  const crossed = files.flatMap(file =>
    crossings(file, importsOf(file, readFileSync(top + file, 'utf8'))),
  );
  expect(crossed, crossed.join('\n')).toEqual([]);
});

test('the lint rules state the same borders (after a change of the table: vitest -u)', async () => {
  const rules = `${JSON.stringify({ overrides: lintOverrides() }, null, 2)}\n`;
  await expect(rules).toMatchFileSnapshot('borders.biome.json');
});

test('each planted bad import is refused, with its reason', () => {
  const bad: [file: string, specifier: string, reason: RegExp][] = [
    ['geometry/pose/axle.ts', '../gap/pairs.ts', /data goes one way/],
    ['geometry/build/units.ts', '../mechanism/bodies.ts', /data goes one way/],
    ['geometry/pose/axle.ts', '../../src/app/colors.ts', /geometry\/ is pure/],
    ['geometry/pose/axle.ts', '../../package.json', /geometry\/ is pure/],
    ['geometry/pose/axle.ts', 'node:fs', /no module of Node/],
    ['geometry/pose/axle.ts', 'react', /takes no package/],
    ['geometry/pose/axle.ts', 'zod', /takes no package/],
    ['geometry/pose/axle.ts', 'mathjs/number', /takes no package/],
    ['geometry/build/schema.ts', 'three', /zod and mathjs alone/],
    ['geometry/build/schema.ts', 'zodiac', /zod and mathjs alone/],
    ['geometry/solid/capsule.ts', 'three', /only geometry\/solid\/mesh\.ts/],
    ['geometry/solid/capsule.ts', '../build/build.ts', /know nothing of axles/],
    ['geometry/compare/rows.ts', '../advice/search.ts', /data goes one way/],
    ['geometry/vector.ts', './build/build.ts', /common ground/],
    ['src/worker/worker.ts', '../../geometry/build/tape.ts', /no zod and no mathjs/],
    ['src/cli/main.ts', '../app/colors.ts', /nothing of the page/],
    ['src/cli/main.ts', 'react', /nothing of the page/],
    ['src/app/screen.tsx', 'node:fs', /run in a browser/],
    ['src/app/screen.tsx', '../cli/main.ts', /nothing of the command line/],
    ['src/viewer/scene.tsx', '../charts/strip.ts', /function of results/],
    ['tests/oracle/axle.ts', '../../geometry/pose/axle.ts', /no witness/],
    ['tests/oracle/axle.ts', '../../geometry/vector.ts', /no witness/],
    ['tests/oracle/axle.ts', '../../src/cli/main.ts', /no witness/],
    ['geometry/attic/old.ts', './x.ts', /no room of the table/],
  ];
  for (const [file, specifier, reason] of bad) {
    const [line = '', ...more] = crossings(file, [specifier]);
    expect(line, `${file} ← ${specifier}`).toMatch(reason);
    expect(line).toContain(file);
    expect(more).toEqual([]);
  }
});

test('good imports pass', () => {
  const good: [file: string, specifier: string][] = [
    ['geometry/pose/axle.ts', './newton.ts'],
    ['geometry/pose/axle.ts', '../mechanism/bodies.ts'],
    ['geometry/pose/axle.ts', '../build/build.ts'],
    ['geometry/pose/axle.ts', '../vector.ts'],
    ['geometry/measure/steering/bumpSteer.ts', '../../pose/axle.ts'],
    ['geometry/build/tape.ts', 'mathjs'],
    ['geometry/solid/mesh.ts', 'three-mesh-bvh'],
    ['geometry/solid/mesh.ts', 'three/examples/jsm/loaders/STLLoader.js'],
    ['geometry/advice/search.ts', '../solid/capsule.ts'],
    ['src/cli/main.ts', 'node:fs/promises'],
    ['src/cli/main.ts', '../../package.json'],
    ['src/app/screen.tsx', '../worker/worker.ts?worker'],
    ['src/worker/worker.ts', '../../geometry/cycle/grid.ts'],
    ['tests/oracle/axle.ts', '../../geometry/build/build.ts'],
    ['tests/pose/axle.test.ts', '../oracle/axle.ts'],
  ];
  for (const [file, specifier] of good) expect(crossings(file, [specifier])).toEqual([]);
});

test('every way to write an import is seen, and nothing else', () => {
  const source = `
    // import a from './comment.ts'
    const text = "import b from './string.ts'";
    import c, { type C } from './value.ts';
    import type { D } from './type.ts';
    import './effect.ts';
    export * from './all.ts';
    export { e } from './named.ts';
    export const own = 1;
    export { own as other };
    const f = () => import('./dynamic.ts');
    type G = import('./inType.ts').G;
    const h = () => import('./' + text);
    const source = { type: 'x', source: './field.ts' };
  `;
  expect(importsOf('x.ts', source).sort()).toEqual([
    '(computed)',
    './all.ts',
    './dynamic.ts',
    './effect.ts',
    './inType.ts',
    './named.ts',
    './type.ts',
    './value.ts',
  ]);
  expect(importsOf('x.tsx', "import a from './a.ts'; const b = <a.Part />;")).toEqual(['./a.ts']);
  expect(() => importsOf('x.ts', 'import from from from')).toThrow('x.ts');
});

test('rooms are told by folder, and reach runs leftward along the chain only', () => {
  expect(roomOf('geometry/vector.ts')).toBe('geometry');
  expect(roomOf('geometry/measure/steering/toe.ts')).toBe('geometry/measure');
  expect(roomOf('tests/oracle/axle.ts')).toBe('tests/oracle');
  expect(roomOf('tests/oracle.test.ts')).toBe('tests');
  expect([...reach('geometry/measure')].sort()).toEqual([
    'geometry',
    'geometry/build',
    'geometry/measure',
    'geometry/mechanism',
    'geometry/pose',
  ]);
  expect([...reach('tests/oracle')].sort()).toEqual(['geometry/build', 'tests/oracle']);
  for (const room of Object.values(rooms)) {
    for (const next of [...room.imports, ...(room.except ?? [])])
      expect(rooms).toHaveProperty([next]);
  }
});
