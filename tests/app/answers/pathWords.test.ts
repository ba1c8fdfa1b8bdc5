/** Paths of a build file in words: every entry of every example has a name, and the common ones read as they should. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { openBuild } from '../../../geometry/cycle/open.ts';
import { PART_GROUPS, pathWords } from '../../../src/app/words/pathWords.ts';

const EXAMPLES = new URL('../../../examples/', import.meta.url);

describe('pathWords', () => {
  it.each([
    ['axles["front"].links["lower link"].tube.od', 'Lower link', 'tube OD'],
    ['axles["front"].links["lower link"].chassis.at[2]', 'Lower link', 'frame end, height'],
    [
      'axles["front"].links["lower link"].chassis.at.by[0]',
      'Lower link',
      'frame end, from its datum, fore and aft',
    ],
    ['axles["front"].links["track bar"].through[1][2]', 'Track bar', 'bend 2, height'],
    ['axles["front"].steering.dragLink.from.at[1]', 'Drag link', 'first end, sideways'],
    ['axles["front"].steering.box.sweep[0]', 'Steering box', 'turn of the arm, to the right'],
    ['axles["front"].steering.rams["assist ram"].bore', 'Assist ram', 'bore'],
    ['axles["front"].tire.rim.diameter', 'Tire', 'wheel diameter'],
    ['axles["front"].knuckles.steeringStop.inward', 'Knuckles', 'steering stop, as the inner tire'],
    ['axles["front"].bumpStops["bump stop"].curve[1][0]', 'Bump stop', 'load curve 2, height'],
    ['dimensions["railFace"].value', 'Named dimensions', 'railFace'],
    ['datums["rail bottom"].point[2]', 'Rail bottom', 'height'],
    ['solids["fender"].box.size[1]', 'Fender', 'width'],
    ['solids["oil pan"].hull.points[3][1]', 'Oil pan', 'point 4, sideways'],
    ['wanted.gaps[0].required', 'Wanted gap 1', 'wanted'],
    ['weights.frontShare', 'Weights', 'share on the front'],
  ])('%s', (path, name, field) => {
    expect(pathWords(path)).toMatchObject({ name, field });
  });

  it('names every entry of the examples, each field of a thing once', () => {
    const groups = new Set(PART_GROUPS.map(([group]) => group));
    for (const file of readdirSync(EXAMPLES).filter(each => each.endsWith('.axlewalk.json'))) {
      const opened = openBuild(readFileSync(new URL(file, EXAMPLES), 'utf8'));
      if (!opened.ok) throw new Error(`${file} does not open`);
      const seen = new Map<string, string>();
      for (const { path } of opened.build.entries) {
        const { group, thing, name, field } = pathWords(path);
        expect(groups).toContain(group);
        expect(path.startsWith(thing), path).toBe(true);
        expect(name).not.toBe('');
        const key = `${thing}: ${field}`;
        expect(seen.get(key), `${path} and ${seen.get(key)} read alike: ${key}`).toBeUndefined();
        seen.set(key, path);
      }
    }
  });
});
