import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { BuildFile } from '../../geometry/build/schema/file.ts';
import { canGo, fitted, takenOut } from '../../geometry/build/takeOut.ts';
import { withNewPart } from '../../geometry/build/withNewPart.ts';
import { writeBuild } from '../../geometry/build/write.ts';
import { read } from '../../src/app/files/read.ts';

const example = (name: string): BuildFile =>
  JSON.parse(
    readFileSync(new URL(`../../examples/${name}.axlewalk.json`, import.meta.url), 'utf8'),
  );

const out = (file: BuildFile, path: string, variant: string | null = null) =>
  takenOut({ file, variant }, path, changed => {
    const opened = read(writeBuild(changed), variant);
    return opened.ok ? [] : opened.problems;
  });

/** What goes with it, as `what path`; the reason where it stays. */
const goes = (file: BuildFile, path: string, variant: string | null = null): string[] | string => {
  const taken = out(file, path, variant);
  return taken.ok ? taken.hanging.map(each => `${each.what} ${each.path}`) : taken.message;
};

const front = 'axles["front"]';

describe('what hangs on a part goes with it', () => {
  const file = example('long-arm-front');

  test('nothing on a canister', () => {
    const taken = out(file, 'solids["tool canister"]');
    expect(taken.ok && taken.hanging).toEqual([]);
    expect(taken.ok && taken.file.solids?.some(({ name }) => name === 'tool canister')).toBe(false);
  });

  test('the options of alternatives of a ram', () => {
    const ram = `${front}.steering.rams["assist ram"]`;
    expect(goes(file, ram)).toEqual(['option alternatives["assist ram"]']);
  });

  test('a joint: its ends stay, as plain rod ends', () => {
    const named = file.axles[0]?.joints?.[0]?.name ?? '';
    const path = `${front}.joints[${JSON.stringify(named)}]`;
    const taken = out(file, path);
    if (!taken.ok) throw new Error(taken.message);
    expect(taken.hanging.length).toBeGreaterThan(0);
    expect(taken.hanging.every(({ what }) => what === 'joint')).toBe(true);
    expect(taken.file.axles[0]?.links.length).toBe(file.axles[0]?.links.length);
    expect(JSON.stringify(taken.file.axles[0]?.links)).not.toContain(JSON.stringify(named));
  });

  test('a rod that the axle steers by: all of the steering, and hoses at the knuckles', () => {
    const taken = out(file, `${front}.steering.tieRod`);
    if (!taken.ok) throw new Error(`${taken.message} ${JSON.stringify(taken.problem)}`);
    const paths = taken.hanging.map(({ path }) => path);
    expect(paths).toContain(`${front}.steering`);
    expect(paths.some(path => path.startsWith(`${front}.lines[`))).toBe(true);
    expect(paths.some(path => path.includes('rams'))).toBe(false);
    const [axle] = taken.file.axles;
    expect(axle?.steered).toBe(false);
    expect(axle && 'steering' in axle).toBe(false);
    expect(axle && 'knuckles' in axle).toBe(false);
  });

  test('what the axle cannot stand without stays, and says why', () => {
    const taken = out(file, `${front}.links["track bar"]`);
    expect(taken.ok).toBe(false);
    expect(taken.ok ? '' : taken.message).not.toBe('');
    // the options of its alternative would have gone
    expect(taken.ok ? '' : taken.problem?.path).not.toContain('alternatives');
  });

  test('wishes for a pair go with one of it', () => {
    const wishing: BuildFile = {
      ...file,
      wanted: {
        ...file.wanted,
        gaps: [{ pair: ['oil pan', 'tie rod'], required: '3/4', why: 'it moves' }] as never,
        muted: [
          { pair: ['exhaust', 'driveshaft'], why: 'moved' },
          { pair: ['oil pan', 'driveshaft'], why: 'moved' },
        ],
      },
    };
    expect(goes(wishing, 'solids["oil pan"]')).toEqual([
      'wish wanted.gaps[0]',
      'wish wanted.muted[1]',
    ]);
    const taken = out(wishing, 'solids["oil pan"]');
    expect(taken.ok && taken.file.wanted?.muted?.length).toBe(1);
  });

  test('in a variant it is the variant that lacks it', () => {
    const taken = out(file, 'solids["tool canister"]', 'short arms');
    if (!taken.ok) throw new Error(taken.message);
    expect(taken.file.solids).toEqual(file.solids);
    expect(taken.file.variants?.[0]?.remove).toContain('solids.tool canister');
  });

  test('what a variant changes of it goes from the variant', () => {
    const changed: BuildFile = {
      ...file,
      wanted: {},
      variants: [
        { name: 'lower', changes: [{ part: 'solids.oil pan', field: 'give', value: '1/2' }] },
      ],
    };
    expect(goes(changed, 'solids["oil pan"]')).toEqual(['change variants["lower"].changes[0]']);
  });
});

test('other steering lets go of what hung on the old one', () => {
  const file = example('long-arm-front');
  const opened = read(writeBuild(file));
  const [axle] = opened.ok ? opened.build.axles : [];
  if (!opened.ok || !axle) throw new Error('it opens');
  const part = { kind: 'steering', layout: 'doubleRam' } as const;
  const edit = withNewPart({ file, variant: null }, part, opened.build, axle);
  const fit = fitted({ file, variant: null }, edit, `${front}.steering`, changed => {
    const again = read(writeBuild(changed));
    return again.ok ? [] : again.problems;
  });
  if (!fit.ok) throw new Error(`${fit.message} ${JSON.stringify(fit.problem)}`);
  expect(fit.hanging.map(({ path }) => path)).toContain('alternatives["drag link"]');
  expect(fit.file.axles[0]?.steering?.rams?.map(({ name }) => name)).toEqual(['steering ram']);
  // hoses at the knuckles have nothing to do with it
  expect(fit.file.axles[0]?.lines).toEqual(file.axles[0]?.lines);
});

test('a sway bar and a driveshaft go by themselves', () => {
  const file = example('whole-vehicle');
  const taken = out(file, 'axles["rear"].swayBar');
  if (!taken.ok) throw new Error(taken.message);
  expect(taken.hanging).toEqual([]);
  expect(taken.file.axles[1] && 'swayBar' in taken.file.axles[1]).toBe(false);
});

test('a datum that something is taped from stays', () => {
  const long = example('long-arm-front');
  const datum = { name: 'tray corner', point: [20, 0, 40] } as never;
  const file: BuildFile = { ...long, datums: [...(long.datums ?? []), datum] };
  const tray = file.solids?.find(({ name }) => name === 'winch tray');
  const box = { ...tray?.box, center: { from: 'tray corner', by: [0, 0, 2] } };
  const taped = {
    ...file,
    solids: file.solids?.map(each => (each === tray ? { ...tray, box } : each)),
  } as BuildFile;
  const taken = out(taped, 'datums["tray corner"]');
  expect(taken.ok).toBe(false);
  expect(taken.ok ? '' : taken.problem?.path).toContain('winch tray');
});

test.each([
  ['solids["rail"]', true],
  [`${front}.links["lower link"]`, true],
  [`${front}.steering.dragLink`, true],
  [`${front}.swayBar`, true],
  [`${front}.tire`, false],
  [`${front}.wheelCenters`, false],
  ['wheelbase', false],
  ['wanted.gaps[0]', false],
])('%s can go: %s', (path, can) => expect(canGo(path)).toBe(can));
