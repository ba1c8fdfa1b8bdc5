/** `axlewalk gaps`, and the meshes that a build names. */
import { symlinkSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { FullGapReport } from '../../src/cli/gaps.ts';
// read in with the test file, so that the first test does not wait for it
import '../../src/cli/gaps.ts';
import { axlewalk, TRUCK, withFile } from './terminal.ts';

const BAR = ['gaps', TRUCK, '--axle', 'front', '--pair', 'track bar', 'differential'];
/** For what does not hang on how far the axle goes or how finely gaps are proved. */
const QUICK = ['--travel', '1,1', '--resolution', '1'];
const ONE_PAIR = ['--axle', 'front', '--pair', 'track bar', 'drag link'];

describe('one run over the fixture', async () => {
  const ran = await axlewalk(['gaps', TRUCK, '--axle', 'front', '--json']);
  const report = JSON.parse(ran.out) as FullGapReport;

  test('--json: pairs, what is left out, findings, and the exit code that follows from them', () => {
    const [axle] = report.axles;
    if (!axle) throw new Error('the fixture has a front axle');
    expect(axle.axle).toBe('front');
    const left = axle.excluded.reduce((sum, { count }) => sum + count, 0);
    expect(axle.pairs.length + left).toBe((axle.parts * (axle.parts - 1)) / 2);
    expect(report.resolution_in).toBe(0.02);
    const isBad = report.findings.some(({ severity }) => severity === 'mustFix');
    expect(ran.code).toBe(isBad ? 1 : 0);
    expect(ran.out).not.toMatch(/NaN|Infinity|\bsafe\b/);
    for (const { a, b, status, gap_in, lower_in, required_in } of axle.pairs) {
      const what = `${a} / ${b}`;
      const settled = gap_in < 0 ? 'touches' : gap_in < required_in ? 'close' : 'clear';
      // those of the bent track bar that is free to roll too
      expect(status, what).toBe(settled);
      expect(lower_in, what).toBeLessThanOrEqual(gap_in);
    }
  });

  test('the same run gives the same bytes', async () => {
    const [once, again] = [await axlewalk([...BAR, '--json']), await axlewalk([...BAR, '--json'])];
    expect(again.out).toBe(once.out);
  });
});

test('as text: pairs by what is left of the gap asked for, what was left out, clearance, cautions', async () => {
  const { out } = await axlewalk(['gaps', TRUCK, '--axle', 'front', ...QUICK]);
  expect(out).toMatch(/front axle, least gaps of \d+ pairs of \d+ parts, \d+ left out/);
  expect(out).toContain('Parts taken as rigid. Proved over the whole range');
  expect(out).not.toContain('not settled yet');
  // always named, however far
  expect(out).toMatch(/^ {2}track bar \/ drag link {2}/m);
  expect(out).toContain('findings, worst first');
  expect(out).toContain('ground clearance, front axle, lowest first');
  expect(out).toContain('kill');
  for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(110);
});

test('--pair: these two alone, with points on both and how far along', async () => {
  const { code, out } = await axlewalk(['gaps', TRUCK, ...ONE_PAIR, ...QUICK]);
  expect(code).toBe(0);
  expect(out).toMatch(/front axle, least gaps of 1 pair$/m);
  expect(out).toMatch(/^ {2}track bar: \(-?[\d.]+, -?[\d.]+, -?[\d.]+\), \d+ % along$/m);
  expect(out).toMatch(/^ {2}drag link: \(-?[\d.]+, -?[\d.]+, -?[\d.]+\), \d+ % along$/m);
});

test('--pair of two parts that are not compared says why', async () => {
  const { code, out } = await axlewalk([
    'gaps',
    TRUCK,
    '--pair',
    'left tire',
    'left knuckle',
    '--axle',
    'front',
  ]);
  expect(code).toBe(0);
  expect(out).toContain('left tire / left knuckle is not compared: ride on the same body');
});

test('--csv: pose first, then the pair', async () => {
  const { out } = await axlewalk(['gaps', TRUCK, ...ONE_PAIR, ...QUICK, '--csv']);
  const [head, row, ...more] = out.trimEnd().split('\n');
  expect(head).toBe(
    'left (in),right (in),steer (deg),a,b,status,required (in),gap (in),lower (in),' +
      'pointA [x] (in),pointA [y] (in),pointA [z] (in),pointB [x] (in),pointB [y] (in),pointB [z] (in),' +
      'alongA (1),alongB (1),axle',
  );
  expect(row?.split(',')).toHaveLength(18);
  expect(row).toMatch(/,track bar,drag link,clear,/);
  expect(more).toEqual([]);
});

test('less travel gives more room', async () => {
  const gap = async (...words: string[]): Promise<number> => {
    const { out } = await axlewalk([
      'gaps',
      TRUCK,
      ...ONE_PAIR,
      '--resolution',
      '0.1',
      '--json',
      ...words,
    ]);
    const report = JSON.parse(out) as FullGapReport;
    return report.axles[0]?.pairs[0]?.gap_in as number;
  };
  expect(await gap('--travel', '1,1')).toBeGreaterThan(await gap());
});

test('walk tells what touches too', async () => {
  const block = { name: 'block', box: { center: [2, 0, 36], size: [10, 10, 10] } };
  const { code, out } = await withFile(
    truck => {
      truck.solids = [...((truck.solids as unknown[]) ?? []), block];
    },
    path => axlewalk(['walk', path, '--axle', 'front', '--path', 'both', '--travel', '1,1']),
  );
  expect(code).toBe(1);
  expect(out).toMatch(/MUST FIX {2}The track bar hits the block by/);
});

test('names in what is wanted that no part has are refused', async () => {
  const { code, out, err } = await withFile(
    truck => {
      truck.wanted = { gaps: [{ pair: ['drag link', 'trak bar'], required: 1 }] };
    },
    path => axlewalk(['gaps', path]),
  );
  expect({ code, out }).toEqual({ code: 2, out: '' });
  expect(err).toBe(
    `wanted.gaps[0].pair[1]: found "trak bar": no part is called that; wanted: a part's name, such as "track bar"\n`,
  );
});

describe('meshes', () => {
  /** An STL of a triangle over the axle, in text. */
  const STL = `solid one
facet normal 0 0 1
outer loop
vertex 0 -5 60
vertex 10 -5 60
vertex 0 5 60
endloop
endfacet
endsolid one
`;

  /** Runs gaps on the fixture with a mesh in it; `put` writes files into the build's folder. */
  function withMesh(mesh: Record<string, unknown>, put: (folder: string) => void = () => {}) {
    return withFile(
      truck => {
        truck.solids = [{ name: 'engine scan', mesh }];
        delete truck.wanted;
      },
      path => {
        put(dirname(path));
        return axlewalk(['gaps', path, ...ONE_PAIR, ...QUICK]);
      },
    );
  }

  test('one from the folder of the build is read, and an open one says that it is a surface', async () => {
    const { code, err } = await withMesh({ file: 'a.stl' }, folder =>
      writeFileSync(join(folder, 'a.stl'), STL),
    );
    expect(code).toBe(0);
    expect(err).toMatch(/^to know: engine scan: not closed \(3 edges with one triangle only\)/);
  });

  test('units and place: a scan in mm about a mark stands where that mark is', async () => {
    const ran = await withFile(
      truck => {
        const mesh = { file: 'a.stl', scale: '1/25.4', at: [10, 0, 30], forward: [0, 1, 0] };
        truck.solids = [{ name: 'engine scan', mesh }];
        delete truck.wanted;
      },
      path => {
        const millimeters = STL.replace(/vertex (\S+) (\S+) (\S+)/g, (_, x, y, z) =>
          ['vertex', x, y, z].map((c, i) => (i === 0 ? c : String(25.4 * Number(c)))).join(' '),
        );
        writeFileSync(join(dirname(path), 'a.stl'), millimeters);
        return axlewalk([
          'gaps',
          path,
          '--axle',
          'front',
          '--pair',
          'track bar',
          'engine scan',
          '--json',
          ...QUICK,
        ]);
      },
    );
    const report = JSON.parse(ran.out) as FullGapReport;
    const { pointB } = report.axles[0]?.pairs[0] ?? {};
    // its own X points to the left now: (x, y, z) in stands at (10 − y, x, 30 + z)
    expect(pointB?.[2]).toBeCloseTo(90, 3);
    expect(pointB?.[0]).toBeGreaterThanOrEqual(5 - 1e-3);
    expect(pointB?.[0]).toBeLessThanOrEqual(15 + 1e-3);
    expect(pointB?.[1]).toBeGreaterThanOrEqual(-1e-3);
    expect(pointB?.[1]).toBeLessThanOrEqual(10 + 1e-3);
  });

  test('a file that is not the one of the checksum is read, and told', async () => {
    const { code, err } = await withMesh({ file: 'a.stl', sha256: '0'.repeat(64) }, folder =>
      writeFileSync(join(folder, 'a.stl'), STL),
    );
    expect(code).toBe(0);
    expect(err).toMatch(/^to know: engine scan: a\.stl is not the file that it was/);
  });

  test.each<[what: string, file: string, put: (folder: string) => void, why: RegExp]>([
    ['climbs out', '../a.stl', () => {}, /climbs out of the folder/],
    ['climbs out from below', 'b/../../a.stl', () => {}, /climbs out of the folder/],
    ['is absolute', '/etc/passwd', () => {}, /does not stand in the folder/],
    ['has a drive letter', 'C:/a.stl', () => {}, /does not stand in the folder/],
    ['has backslashes', '..\\a.stl', () => {}, /does not stand in the folder/],
    ['is not there', 'none.stl', () => {}, /no file of that name/],
    ['is the folder', '.', () => {}, /climbs out|no file/],
    [
      'leads out by a link',
      'link.stl',
      folder => symlinkSync('/etc/hostname', join(folder, 'link.stl')),
      /leads out of the folder/,
    ],
    ['is empty', 'a.stl', folder => writeFileSync(join(folder, 'a.stl'), ''), /a\.stl: /],
    [
      'is cut off',
      'a.stl',
      folder => {
        const bytes = new Uint8Array(200);
        new DataView(bytes.buffer).setUint32(80, 20, true);
        writeFileSync(join(folder, 'a.stl'), bytes);
      },
      /a\.stl: /,
    ],
    [
      'says that it has 10 GB',
      'a.stl',
      folder => {
        const bytes = new Uint8Array(134);
        new DataView(bytes.buffer).setUint32(80, 200_000_000, true);
        writeFileSync(join(folder, 'a.stl'), bytes);
      },
      /a\.stl: /,
    ],
    [
      'holds no number',
      'a.stl',
      folder => writeFileSync(join(folder, 'a.stl'), STL.replace('60', 'NaN')),
      /a\.stl: /,
    ],
    [
      'is of no known kind',
      'a.step',
      folder => writeFileSync(join(folder, 'a.step'), STL),
      /\.stl, \.obj and \.glb/,
    ],
    [
      'is a bad GLB',
      'a.glb',
      folder => writeFileSync(join(folder, 'a.glb'), 'glTF....'),
      /a\.glb: /,
    ],
  ])('one that %s: a line with the field, and the rest goes on', async (_, file, put, why) => {
    const { code, out, err } = await withMesh({ file }, put);
    expect(err).toMatch(/^solids\["engine scan"\]\.mesh\.file: /);
    expect(err).toMatch(why);
    expect(err).toMatch(/; it is left out, the rest goes on\n$/);
    expect(err.trimEnd().split('\n')).toHaveLength(1);
    expect(err).not.toMatch(/\bat .*:\d+:\d+/);
    expect(code).toBe(0);
    expect(out).toContain('track bar / drag link');
    // nobody shall think that it was compared
    expect(out).toMatch(/watch {5}The engine scan could not be made and is compared with nothing/);
  });
});
