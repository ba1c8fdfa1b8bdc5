import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { problemLines, readBuild } from '../../geometry/build/read.ts';
import { axleOf, built, edited, refused, sample, steered, type Written } from './sample.ts';

const plain = readFileSync(new URL('fixtures/plain.axlewalk.json', import.meta.url));

describe('entries', () => {
  const file = edited(sample(), {
    dimensions: [{ name: 'track', value: { value: '70 1/2', from: 'measured', tolerance: '1/8' } }],
    'axles.0.wheelCenters': 'track - 1/2 in',
    'axles.0.tire.width': { value: '330 mm', from: 'assumed', tolerance: '5 mm' },
  });
  const entry = (path: string) => built(file).entries.find(one => one.path === path);

  test('a plain entry counts as a drawing; the long form says where it is from and how sure it is', () => {
    expect(entry('wheelbase')).toEqual({
      path: 'wheelbase',
      typed: '100',
      value: 100,
      dimension: 'length',
      from: 'drawing',
      tolerance: null,
      uses: [],
    });
    // 330 mm and 5 mm in inches of 25.4 mm exactly.
    expect(entry('axles["front"].tire.width')).toMatchObject({
      typed: '330 mm',
      value: 330 / 25.4,
      from: 'assumed',
      tolerance: 5 / 25.4,
    });
  });

  test('a named dimension is an entry of its own, and those that use it say so', () => {
    expect(entry('dimensions["track"].value')).toMatchObject({
      value: 70.5,
      from: 'measured',
      tolerance: 0.125,
    });
    expect(entry('axles["front"].wheelCenters')).toMatchObject({
      typed: 'track - 1/2 in',
      value: 70,
      uses: ['dimensions["track"].value'],
    });
  });

  test('every number of a file is an entry, once', () => {
    const { entries } = built(JSON.parse(plain.toString()));
    const paths = entries.map(({ path }) => path);
    expect(new Set(paths).size).toBe(paths.length);
    expect(paths).toContain('axles["front"].bumpStops["bump stop"].curve[1][0]');
    expect(paths).toContain('axles["front"].links["lower link"].chassis.at[1]');
    expect(paths).toContain('wanted.bands[0].least');
    expect(paths.filter(path => path.startsWith('notes'))).toEqual([]);
  });
});

describe('units', () => {
  test('a build in mm gives the Build of the same one in inches', () => {
    const inches = sample();
    const mm = JSON.parse(JSON.stringify(inches), (_, value) =>
      typeof value === 'number' ? value * 25.4 : value,
    ) as Written;
    const scaled = built(edited(mm, { axlewalk: 1, unit: 'mm' }));
    const strip = (build: ReturnType<typeof built>) => ({ ...build, entries: [], unit: '' });
    const [one, other] = [strip(scaled), strip(built(inches))].map(build =>
      JSON.stringify(build, (_, v) => (typeof v === 'number' ? Number(v.toFixed(9)) : v)),
    );
    expect(one).toBe(other);
  });

  test('a bound of a band is in the unit of its measure unless it has its own', () => {
    const bands = [
      { measure: 'bumpSteer', least: -1, greatest: '1 deg' },
      { measure: 'antiSquat', axle: 'front', least: '60 %' },
    ];
    expect(built(edited(sample(), { wanted: { bands } })).wanted.bands).toEqual([
      {
        measure: 'bumpSteer',
        axle: null,
        part: null,
        least: -1,
        greatest: Math.PI / 180,
        inUnitOfMeasure: { least: true, greatest: false },
      },
      {
        measure: 'antiSquat',
        axle: 'front',
        part: null,
        least: 0.6,
        greatest: null,
        inUnitOfMeasure: { least: true, greatest: false },
      },
    ]);
  });
});

describe('defaults', () => {
  test('a joint kind reaches the ends that name it, and an end may say otherwise', () => {
    const file = edited(sample(), {
      'axles.0.joints': [
        { name: 'eye', kind: 'bushing', bolt: [0, 2, 0], limit: '20 deg', rates: { radial: 9000 } },
        { name: 'tin', kind: 'rodEnd', holdsRoll: true },
      ],
      'axles.0.links.1.axle': { at: [-1, -8, 27], joint: 'eye', limit: '10 deg', bolt: [0, 0, 4] },
      'axles.0.links.1.chassis.joint': 'tin',
    });
    const link = axleOf(built(file)).links[2];
    expect(link?.axle).toMatchObject({ kind: 'bushing', holdsRoll: true, bolt: [0, 0, 1] });
    expect(link?.axle.limit).toBeCloseTo(Math.PI / 18, 14);
    expect(link?.axle.rates.radial).toBe(9000);
    expect(link?.chassis).toMatchObject({
      kind: 'rodEnd',
      holdsRoll: true,
      bolt: null,
      limit: null,
    });
    expect(link?.modulus).toBe(29e6);
  });

  test('a bump stop strikes straight on; a tire is told what it was not given', () => {
    const stop = (pad: string, strike: string) => ({
      name: `${pad} pad`,
      kind: 'rubber',
      pad: { on: pad, at: [0, 15, 25] },
      strike: { on: strike, at: [0, 15, 30] },
      contactHeight: 2,
      solidHeight: 0,
    });
    const build = built(
      edited(sample(), {
        'axles.0.bumpStops': [stop('axle', 'chassis'), stop('chassis', 'axle')],
        'axles.0.tire.shoulder': undefined,
      }),
    );
    expect(axleOf(build).bumpStops.map(({ strike, side }) => [strike.normal, side])).toEqual([
      [[0, 0, -1], 'left'],
      [[0, 0, 1], 'left'],
    ]);
    // 15 % of 13 in.
    expect(axleOf(build).tire.shoulder).toBeCloseTo(1.95, 14);
    expect(build.warnings).toEqual([expect.stringMatching(/shoulder is taken as 15 %/)]);
  });

  test('an axis of the driveline points out of its flange, its turn is to the left seen from above', () => {
    const read = readBuild(plain);
    if (!read.ok) throw new Error(problemLines(read.problems).join('\n'));
    const file = edited(JSON.parse(plain.toString()), {
      'axles.0.driveline.pinion.axis': { up: '30 deg', aside: '90 deg' },
      'axles.0.driveline.transferCase.axis': { up: 0, aside: '45 deg' },
    });
    const lines = refused(file);
    expect(lines).toEqual([
      expect.stringMatching(/aside: found "90 deg"; wanted: an angle from -89/),
    ]);
    const { driveline } = axleOf(
      built(edited(file, { 'axles.0.driveline.pinion.axis': { up: '30 deg', aside: '60 deg' } })),
    );
    // Rearward (-1, 0, 0) turned left by 60 deg, seen from above: (-cos 60, -sin 60); raised by 30 deg.
    const [x, y, z] = driveline?.pinion.axis ?? [];
    expect(x).toBeCloseTo(-0.5 * Math.sqrt(0.75), 12);
    expect(y).toBeCloseTo(-0.75, 12);
    expect(z).toBeCloseTo(0.5, 12);
    // Forward (1, 0, 0) turned left by 45 deg: (1, 1, 0)/√2.
    expect(driveline?.transferCase.axis[1]).toBeCloseTo(Math.SQRT1_2, 12);
  });
});

describe('steering whose parts do not fit', () => {
  const with_ = (changes: Record<string, unknown>) =>
    refused(
      edited(
        steered(),
        Object.fromEntries(
          Object.entries(changes).map(([path, value]) => [`axles.0.steering.${path}`, value]),
        ),
      ),
    );
  const ram = (on: string) => ({
    name: 'ram',
    kind: 'single',
    body: { on: 'axle', at: [4, 0, 20] },
    rod: { on, at: [7, -20, 18] },
  });

  test.each<[what: string, changes: Record<string, unknown>, line: RegExp]>([
    [
      'no input at all',
      { box: undefined },
      /steering\.box: missing; wanted: a steering box, or a ram/,
    ],
    [
      'no drag link',
      { dragLink: undefined },
      /steering\.dragLink: missing; wanted: a drag link, or/,
    ],
    [
      'a drag link that begins on a knuckle',
      { 'dragLink.from.on': 'left knuckle' },
      /from\.on: found "left knuckle": a drag link begins at the pitman arm/,
    ],
    [
      'a tie rod from a knuckle to itself',
      { 'tieRod.to.on': 'left knuckle' },
      /tieRod\.to\.on: found "left knuckle": both ends are on it; wanted: the other knuckle/,
    ],
    [
      'two rods that hang on each other',
      { 'tieRod.to.on': 'drag link', 'dragLink.to.on': 'tie rod' },
      /dragLink\.to\.on: found "tie rod": the tie rod itself hangs on the drag link/,
    ],
    [
      'a knuckle that nothing turns',
      { 'tieRod.to.on': 'drag link', 'tieRod.from.on': 'right knuckle' },
      /tieRod\.from\.on: found "right knuckle": the drag link turns it already/,
    ],
    [
      'a mirrored tie rod without a double-ended ram',
      { 'tieRod.sides': 'mirror' },
      /steering\.tieRod: there is no double-ended ram between two tie rods/,
    ],
  ])('%s', (_, changes, line) => {
    expect(with_(changes)).toEqual([expect.stringMatching(line)]);
  });

  test('a ram pushes what is there', () => {
    expect(
      axleOf(built(edited(steered(), { 'axles.0.steering.rams': [ram('tie rod')] }))).steering
        ?.rams,
    ).toHaveLength(1);
    const double = { name: 'input', kind: 'double', body: { on: 'axle', at: [7, 0, 18] } };
    const tieRod = {
      sides: 'mirror',
      from: { on: 'ram rod', at: [7, 10, 18] },
      to: { on: 'left knuckle', at: [7, 31, 18] },
    };
    expect(
      with_({ box: undefined, dragLink: undefined, tieRod, rams: [double, ram('tie rod')] }),
    ).toEqual([
      expect.stringMatching(/rams\["ram"\]\.rod\.on: found "tie rod": there is no single tie rod/),
    ]);
    expect(
      with_({
        box: undefined,
        dragLink: undefined,
        tieRod,
        rams: [double, { ...double, name: 'other' }],
      }),
    ).toEqual([
      expect.stringMatching(/rams\["other"\]\.kind: found "double": "input" steers already/),
    ]);
  });
});

describe('bodies that solids and lines ride on', () => {
  const solid = (on: string, axle?: string) => ({
    name: 'tab',
    on,
    axle,
    sphere: { center: [0, 0, 0], radius: 1 },
  });
  const two = () => {
    const file = sample();
    const [front] = file.axles as Written[];
    const rear = edited(front ?? {}, {
      name: 'rear',
      links: [{ name: 'rear link', axle: { at: [-99, 17, 16] }, chassis: { at: [-70, 15, 22] } }],
    });
    return edited(file, { axles: [front, rear] });
  };

  test('a part says which axle; a body that both have needs it said', () => {
    const file = two();
    expect(built(edited(file, { solids: [solid('rear link')] })).solids[0]).toMatchObject({
      on: 'rear link',
      axle: 'rear',
    });
    expect(built(edited(file, { solids: [solid('axle', 'rear')] })).solids[0]).toMatchObject({
      on: 'axle',
      axle: 'rear',
    });
    expect(built(edited(file, { solids: [solid('chassis')] })).solids[0]).toMatchObject({
      on: 'chassis',
      axle: null,
    });
    expect(refused(edited(file, { solids: [solid('axle')] }))).toEqual([
      'solids["tab"].on: found "axle": both axles have such a body; wanted: "axle": "front" or "rear" beside it',
    ]);
    expect(refused(edited(file, { solids: [solid('rear link', 'front')] }))).toEqual([
      expect.stringMatching(/the front axle has no such body/),
    ]);
  });

  test('a shock and a ram are two bodies each', () => {
    const shock = {
      name: 'shock',
      axle: [0, 20, 17],
      chassis: [0, 18, 40],
      shortest: 18,
      longest: 30,
    };
    const file = edited(sample(), { 'axles.0.shocks': [shock] });
    expect(built(edited(file, { solids: [solid('shock.body')] })).solids[0]?.on).toBe('shock.body');
    expect(refused(edited(file, { solids: [solid('shock')] }))).toEqual([
      'solids["tab"].on: found "shock": there is no such body; wanted: "shock.body"',
    ]);
  });
});
