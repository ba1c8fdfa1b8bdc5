import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { MOST_LISTED, problemLines, readBuild } from '../../geometry/build/read.ts';
import { edited, sample, type Written } from './sample.ts';

const folder = fileURLToPath(new URL('broken/', import.meta.url));

const front = 'axles["front"]';
const wall = `${front}.links["lower link"].tube.wall`;

/** Every broken file with its problems: the path of the field, and words that the line has to hold. */
const table: Record<string, [path: string, ...words: string[]][]> = {
  'text-empty': [['the file', 'an empty file', 'a build file']],
  'text-blank': [['the file', 'an empty file', 'a build file']],
  'text-prose': [['the file', 'line 1, column 1']],
  'text-cut-off': [[`${front}.links["track bar"]`, 'end of the line', 'line 18']],
  'text-cut-in-word': [[`${front}.steering.dragLink.from.on`, 'end of the line', 'line 23']],
  'text-trailing-comma': [[`${front}.steering.box`, 'line 22', 'no comma before }']],
  'text-comment': [['the file', 'line 4', 'no comments']],
  'text-single-quotes': [['the file', 'line 3', 'double quotes']],
  'text-repeated-key': [['wheelbase', 'line 6 again', 'line 5', 'once']],
  'text-repeated-key-inside': [[`${front}.shocks["shock"].axle`, 'again', 'once']],
  'text-list-on-top': [['the file', 'a list', 'a build file']],
  'text-number-on-top': [['the file', '42', 'a build file']],
  'text-binary': [['the file', 'UTF-8']],
  'text-latin': [['the file', 'line 3', 'UTF-8']],
  'text-utf16': [['the file', 'UTF-16', 'UTF-8']],
  'text-number-too-large': [['wheelbase', '1e999', '1.8e308']],
  'text-proto': [['__proto__', 'line 4']],

  'type-wheelbase-list': [['wheelbase', 'a list', 'a length such as']],
  'type-name-number': [['name', '7', 'a name of 1 to 80 characters']],
  'type-unit-cubit': [['unit', '"cubit"', '"in" or "mm"']],
  'type-axles-object': [['axles', 'an object', 'a list of one or two axles']],
  'type-steered-text': [[`${front}.steered`, '"yes"', 'true or false']],
  'type-link-null': [[`${front}.links[0]`, 'null', 'a link {']],
  'type-point-of-two': [
    [`${front}.links["lower link"].chassis.at`, 'a list', '[x, y, z], three lengths'],
  ],
  'type-point-text': [
    [`${front}.links["lower link"].chassis.at`, '"behind the axle"', '[x, y, z], or { "from"'],
  ],
  'type-tube-number': [[`${front}.links["lower link"].tube`, '2', 'a tube {']],
  'type-direction-of-four': [
    [`${front}.steering.box.axis.direction`, 'it has 4 items', '[x, y, z], three numbers'],
  ],
  'type-value-true': [[`${front}.tire.width`, 'true', 'a length such as']],
  'type-value-object': [
    [`${front}.tire.width.from`, '"guessed"', '"measured", "drawing" or "assumed"'],
    [`${front}.tire.width.plusMinus`, 'no such field', 'value, from, tolerance'],
  ],
  'type-kind-unknown': [
    [`${front}.links["track bar"].kind`, '"trackbar"', '"link", "track bar" or "radius arm"'],
  ],
  'type-two-shapes': [['solids["rail box"]', 'exactly one shape: sphere, capsule']],
  'type-no-shape': [['solids["rail box"]', 'exactly one shape: sphere, capsule']],

  'unit-mass-for-length': [[wall, '"3 kg"', 'is a mass', 'a length such as']],
  'unit-length-for-angle': [
    [`${front}.joints["rod end"].limit`, '"3 in"', 'is a length', 'an angle such as'],
  ],
  'unit-unknown': [[wall, 'furlongs', 'a length such as']],
  'unit-misspelled': [[wall, '"1/4 inc"', 'inc is no unit', 'in']],
  'unit-angle-for-length': [['wheelbase', '"12 deg"', 'is an angle', 'a length such as']],
  'unit-area': [[wall, 'comes to an area', 'a length such as']],
  'unit-tolerance': [[`${front}.tire.width.tolerance`, '"1 deg"', 'is an angle', 'a length']],
  'unit-ratio-with-unit': [
    [`${front}.steering.box.ratio`, '"16 in"', 'is a length', 'a plain number'],
  ],

  'expression-zero-division': [[wall, '"1/0"', 'divides by zero']],
  'expression-call': [[wall, 'import(', 'wanted']],
  'expression-property': [[wall, '(1).constructor.constructor(', 'wanted']],
  'expression-power': [[wall, '"9^9^9^9"', 'wanted']],
  'expression-huge-exponent': [[wall, '"1e400"', 'too large']],
  'expression-assignment': [[wall, '"x = 3"', 'an assignment']],
  'expression-list': [[wall, '"[1, 2, 3]"', 'a list']],
  'expression-several': [[wall, '"1; 2"', 'several expressions']],
  'expression-two-readings': [[wall, '"10-3"', 'two readings', '10 - 3', '10-3/8']],
  'expression-empty': [[wall, '""', 'empty', 'a length such as']],
  'expression-unknown-name': [[wall, 'railFase is no dimension', 'railFace']],
  'expression-open-parenthesis': [[wall, '"(1 + 2"', 'parenthesis that is not closed']],
  'expression-condition': [[wall, '"1 < 2 ? 3 : 4"', 'a condition']],
  'expression-percent-of-nothing': [[wall, '"%"', 'no number before it']],
  'expression-circle': [
    ['dimensions["railFace"].value', '"frameWidth/2"', 'railFace → frameWidth → railFace'],
  ],
  'expression-self': [['dimensions["railFace"].value', 'railFace → railFace']],
  'expression-unit-as-name': [['dimensions["mm"].name', '"mm"', 'mm is a unit']],

  'name-twice': [[`${front}.links[2].name`, '"track bar"', 'links[1] is called track bar too']],
  'name-twice-mirrored': [
    [`${front}.links["left lower link"].name`, 'links["lower link"] is called left lower link too'],
  ],
  'name-of-the-tool': [[`${front}.links["tie rod"].name`, 'the tool itself', 'a name of its own']],
  'name-with-dot': [[`${front}.links["upper.link"].name`, '"upper.link"', 'without . # [ ]']],
  'name-missing': [[`${front}.links[1].name`, 'missing', 'a name of 1 to 80 characters']],
  'name-empty': [[`${front}.links[1].name`, '""', 'a name of 1 to 80 characters']],
  'name-datum-twice': [['datums[1].name', '"rail"', 'datums[0] is called rail too']],
  'name-axle-twice': [['axles[1].name', '"front"', '"front" and "rear"']],
  'key-misspelled': [
    ['wheelbase', 'missing', 'a length such as'],
    ['wheelbse', '100', 'no such field', 'the field "wheelbase"'],
  ],
  'key-misspelled-inside': [
    [`${front}.links["track bar"].chassis`, 'missing', 'a link end {'],
    [`${front}.links["track bar"].chasis`, 'no such field', 'the field "chassis"'],
  ],
  'key-misspelled-in-knuckles': [
    [`${front}.knuckles.kingpin`, 'missing', 'a kingpin axis {'],
    [`${front}.knuckles.kingpins`, 'no such field', 'the field "kingpin"'],
  ],
  'key-inherited': [
    [`${front}.steering.box.toString`, 'no such field', 'axis, ratio, sweep, wheelsLeft'],
    [`${front}.steering.box.constructor`, 'no such field', 'axis, ratio, sweep, wheelsLeft'],
  ],
  'key-unknown': [
    [`${front}.steering.box.brand`, 'no such field', 'axis, ratio, sweep, wheelsLeft'],
  ],
  'reference-joint': [
    [`${front}.links["lower link"].axle.joint`, '"rod ends"', 'no such joint', '"rod end"'],
  ],
  'reference-place': [
    [`${front}.links["upper link"].chassis.at.from`, '"rial"', 'no such place', '"rail"'],
  ],
  'reference-circle': [
    [
      `${front}.links["upper link"].chassis.at.from`,
      '"rail"',
      'circle: rail → upper link.chassis → rail',
      'a place that does not hang on this one',
    ],
  ],
  'reference-body': [['solids["rail box"].on', '"left nuckle"', 'no such body', '"left knuckle"']],
  'missing-end-point': [
    [`${front}.links["track bar"].axle.at`, 'missing', 'a point, or a "joint"'],
  ],
  'missing-tire': [[`${front}.tire`, 'missing', 'a tire {']],
  'missing-tie-rod': [[`${front}.steering.tieRod`, 'missing', 'a tie rod']],
  'misfit-drag-link': [
    [
      `${front}.steering.dragLink.to.on`,
      '"ram rod"',
      '"left knuckle", "right knuckle" or "tie rod"',
    ],
  ],
  'misfit-not-steered': [
    [`${front}.knuckles`, 'the axle does not steer', '"steered": true'],
    [`${front}.steering`, 'the axle does not steer', '"steered": true'],
  ],
  'misfit-two-inputs': [
    [`${front}.steering.dragLink`, 'the double-ended ram "ram" steers', 'no drag link'],
    [`${front}.steering.box`, 'the double-ended ram "ram" steers', 'no steering box'],
    [`${front}.steering.tieRod`, 'the double-ended ram "ram" steers', 'a tie rod on either side'],
    [`${front}.steering.tieRod.from.on`, '"left knuckle"', '"ram rod"'],
  ],

  'geometry-link-without-length': [
    [`${front}.links["track bar"]`, 'the ends of this track bar coincide at [4, 18, 28] in'],
  ],
  'geometry-kingpin-without-length': [
    [`${front}.knuckles.kingpin`, 'the ends of the kingpin axis coincide', 'two different points'],
  ],
  'geometry-kingpin-on-the-wrong-side': [
    [`${front}.knuckles.kingpin.lower`, 'the left knuckle lies at [0.5, -31, 16] in', 'y above 0'],
  ],
  'geometry-negative-width': [[`${front}.tire.width`, '-13', 'a length above 0']],
  'geometry-no-diameter': [[`${front}.links["lower link"].tube.od`, 'found 0', 'a length above 0']],
  'geometry-wheelbase-negative': [['wheelbase', '"-100"', 'a length above 0']],
  'geometry-direction-zero': [
    [`${front}.steering.box.axis.direction`, '[0, 0, 0]', 'it points nowhere', 'not zero'],
  ],
  'geometry-wall': [
    [wall, 'twice the wall (1.25 in) is more than the outer diameter (2 in)', 'at most half'],
  ],
  'geometry-shock-inside-out': [
    [`${front}.shocks["shock"].longest`, '18 in', 'not more than "shortest" (30 in)'],
  ],
  'geometry-loaded-radius': [
    [`${front}.tire.loadedRadius`, '24 in', 'half the diameter is 21 in', 'at most half'],
  ],
  'geometry-tie-rod-without-length': [
    [`${front}.steering.tieRod`, 'the ends of the tie rod coincide', 'two different points'],
  ],
  'geometry-box-flat': [['solids["rail box"].box.size[1]', 'found 0', 'a length above 0']],
  'geometry-box-parallel': [['solids["rail box"].box.up', 'parallel to "forward"']],
  'geometry-far-away': [
    [`${front}.links["track bar"].chassis.at[2]`, '1e+300', 'at most 100,000 either way'],
  ],
  'geometry-limit-too-wide': [
    [`${front}.joints["rod end"].limit`, '"300 deg"', 'above 0, at most 90 deg'],
  ],

  'version-next': [['axlewalk', 'found 2', 'later version', 'a newer Axlewalk']],
  'version-far': [['axlewalk', 'found 1000000', 'later version', 'a newer Axlewalk']],
  'version-text': [['axlewalk', '"1"', '1, the version of this format']],
  'version-half': [['axlewalk', '0.5', '1, the version of this format']],
  'version-missing': [['axlewalk', 'missing', '1, the version of this format']],
  'version-negative': [['axlewalk', '-1', '1, the version of this format']],
};

/** Lines that a person can act on: one line each, no traces, nothing unprintable, no NaN. */
function expectPlain(lines: readonly string[]): void {
  expect(lines.length).toBeGreaterThan(0);
  for (const line of lines) {
    expect(line).toMatch(/^\S.*: .*\S$/u);
    expect(line).not.toMatch(/\p{Cc}|NaN|undefined|\[object|Invalid input|at .*\.ts/u);
    expect(line.length).toBeLessThan(600);
  }
}

function linesOf(bytes: Uint8Array | string): string[] {
  const read = readBuild(bytes);
  return read.ok ? [] : problemLines(read.problems);
}

describe('broken files', () => {
  test('the table holds every file of the folder, and each class four times or more', () => {
    const files = readdirSync(folder).map(file => file.replace(/\.json$/, ''));
    expect(files.toSorted()).toEqual(Object.keys(table).toSorted());
    expect(files.length).toBeGreaterThanOrEqual(60);
    for (const kind of [
      'text',
      'type',
      'unit',
      'expression',
      'name|key|reference|missing',
      'geometry',
      'version',
    ]) {
      expect(files.filter(file => file.match(`^(${kind})-`)).length, kind).toBeGreaterThanOrEqual(
        4,
      );
    }
  });

  test.each(Object.entries(table))('%s', (file, expected) => {
    const lines = linesOf(readFileSync(`${folder}${file}.json`));
    expectPlain(lines);
    expect(lines.map(line => line.split(': ')[0])).toEqual(expected.map(([path]) => path));
    lines.forEach((line, i) => {
      for (const word of (expected[i] ?? []).slice(1)) expect(line).toContain(word);
    });
  });
});

describe('absurd sizes', () => {
  const mebibyte = 2 ** 20;
  const link = { name: 'x', axle: { at: [0, 0, 0] }, chassis: { at: [1, 1, 1] } };
  const withLinks = (count: number, one: unknown) =>
    JSON.stringify(edited(sample(), { 'axles.0.links': Array(count).fill(one) }));
  const withNumbers = (lists: number) =>
    edited(sample(), {
      solids: Array(lists).fill({ hull: { points: Array(400).fill([1, 2, 3]) } }),
    });

  test.each<[what: string, bytes: () => Uint8Array | string, line: RegExp]>([
    [
      'a million links',
      () => withLinks(1e6, {}),
      /^axles\["front"\]\.links: found a list of 1,000,000 items; wanted: at most 2,000 items/,
    ],
    [
      '201 links',
      () => withLinks(201, link),
      /^axles\["front"\]\.links: found a list: it has 201 items; wanted: at most 200 items/,
    ],
    ['lists in lists, 100,000 deep', () => '['.repeat(100_000), /at most 64/],
    ['objects in objects, 100,000 deep', () => '{"notes":'.repeat(100_000), /at most 64/],
    [
      'a file over 8 MiB',
      () => new Uint8Array(8 * mebibyte + 1).fill(32),
      /^the file: found 8\.0 MiB; wanted: at most 8 MiB/,
    ],
    [
      'a text over 8 MiB',
      () => JSON.stringify({ notes: 'x'.repeat(9 * mebibyte) }),
      /at most 8 MiB/,
    ],
    [
      'more values than any build has',
      () => JSON.stringify(withNumbers(100)),
      /^the file: found more than 100,000 values/,
    ],
    [
      '2,001 solids',
      () => JSON.stringify(edited(sample(), { solids: Array(2001).fill({ name: 's' }) })),
      /^solids: .*at most 2,000 items/,
    ],
    [
      'an entry of a million characters',
      () => JSON.stringify(edited(sample(), { wheelbase: '1+'.repeat(5e5) })),
      /^wheelbase: .*1000000 characters.*at most 200 characters/,
    ],
    [
      'a name of a million characters',
      () => JSON.stringify(edited(sample(), { name: 'n'.repeat(1e6) })),
      /^name: .*a name of 1 to 80 characters/,
    ],
    [
      'a key of a million characters',
      () => JSON.stringify({ ...sample(), ['k'.repeat(1e6)]: 1 }),
      /^kkkk.*no such field/,
    ],
    [
      'a circle of 2,000 dimensions',
      () =>
        JSON.stringify({
          ...sample(),
          dimensions: Array.from({ length: 2000 }, (_, i) => ({
            name: `d${i}`,
            value: `d${(i + 1) % 2000}`,
          })),
        }),
      /^dimensions\["d0"\]\.value: .*circle/,
    ],
    [
      'a chain of 2,000 datums to nowhere',
      () =>
        JSON.stringify({
          ...sample(),
          datums: Array.from({ length: 2000 }, (_, i) => ({
            name: `d${i}`,
            point: { from: `d${i + 1}`, by: [0, 0, 0] },
          })),
        }),
      /^datums\["d63"\]\.point\.from: found "d64"/,
    ],
  ])('%s', (_, bytes, line) => {
    const lines = linesOf(bytes());
    expectPlain(lines);
    expect(lines[0]).toMatch(line);
  });

  test('a chain of 60 datums is taken, one of 2,000 is not', () => {
    const chain = (count: number) =>
      JSON.stringify({
        ...sample(),
        datums: Array.from({ length: count }, (_, i) => ({
          name: `d${i}`,
          point: i === count - 1 ? [-33, -11, 28] : { from: `d${i + 1}`, by: [0, 0, '1/64'] },
        })),
      });
    expect(linesOf(chain(60))).toEqual([]);
    expect(linesOf(chain(2000))[0]).toMatch(
      /^datums\["d63"\]\.point\.from: found "d64": 64 places hang on each other/,
    );
  });
});

describe('many problems', () => {
  test('all of a stage are told at once, 50 and then a count', () => {
    const links = Array.from({ length: 120 }, (_, i) => ({
      name: `link ${i}`,
      axle: {},
      chassis: {},
    }));
    const lines = linesOf(JSON.stringify(edited(sample(), { 'axles.0.links': links })));
    expect(lines).toHaveLength(MOST_LISTED + 1);
    expect(lines.at(-1)).toBe('and 190 more');
  });

  test('no stage is entered after one with problems', () => {
    const stages: Written[] = [
      { 'axles.0.links.1.axle.at': [-33, -11, 30] },
      { 'axles.0.links.2.axle': { joint: 'nowhere', at: [0, 0, 0] } },
      { 'axles.0.tire.width': '3 kg', 'axles.0.steered': 7 },
    ];
    const told = stages.map((_, i) =>
      linesOf(JSON.stringify(edited(sample(), Object.assign({}, ...stages.slice(0, i + 1))))),
    );
    expect(told.map(lines => lines.length)).toEqual([1, 1, 2]);
    expect(told[0]?.[0]).toMatch(/coincide/);
    expect(told[1]?.[0]).toMatch(/no such joint/);
    expect(told[2]?.join()).toMatch(/steered: found 7.*width: found "3 kg"/);
  });
});
