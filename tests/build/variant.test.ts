import { describe, expect, test } from 'vitest';
import { readBuild } from '../../geometry/build/read.ts';
import { axleOf, built, edited, linkEnds, refused, sample, type Written } from './sample.ts';

const short = {
  name: 'short arms',
  remove: ['axles.front.links.upper link'],
  add: [
    {
      to: 'axles.front.links',
      part: {
        name: 'upper arm',
        sides: 'mirror',
        axle: { at: [-1, 17, 24] },
        chassis: { at: [-17, 15, 27] },
      },
    },
    {
      to: 'axles.front.straps',
      part: { name: 'strap', axle: [0, 15, 20], chassis: [0, 15, 36], length: 20 },
    },
  ],
  changes: [
    {
      part: 'axles.front.links.lower link',
      field: 'chassis.at',
      value: [-24, '15 1/2', { value: '21 1/4', from: 'assumed', tolerance: '1/8' }],
    },
    { part: 'axles.front.links.lower link', field: 'axle.at[2]', value: 17 },
    { part: 'axles.front.links.track bar', field: 'tube.od', value: '1 1/2' },
    { part: 'axles.front.tire', field: 'diameter', value: 41 },
    { part: 'build', field: 'name', value: 'sample, short' },
  ],
};

const withVariants = (...variants: unknown[]): Written => edited(sample(), { variants });

describe('a variant', () => {
  test('takes out, adds and changes parts by name; the base stays as it is', () => {
    const file = withVariants(short);
    const variant = built(file, 'short arms');
    expect(variant.variant).toBe('short arms');
    expect(variant.name).toBe('sample, short');
    expect(axleOf(variant).links.map(({ name }) => name)).toEqual([
      'left lower link',
      'right lower link',
      'track bar',
      'left upper arm',
      'right upper arm',
    ]);
    expect(linkEnds(variant, 'right lower link')).toEqual({
      axle: [-2, -17, 17],
      chassis: [-24, -15.5, 21.25],
    });
    expect(axleOf(variant).links[2]?.tube).toEqual({ od: 1.5, wall: null });
    expect(axleOf(variant).straps).toHaveLength(1);
    expect(axleOf(variant).tire.diameter).toBe(41);
    const entry = variant.entries.find(
      ({ path }) => path === 'axles["front"].links["lower link"].chassis.at[2]',
    );
    expect(entry).toMatchObject({ from: 'assumed', tolerance: 0.125, value: 21.25 });
    // The base is another build: nothing of it changed.
    const base = built(file);
    expect({ ...base, entries: [] }).toEqual({ ...built(sample()), entries: [] });
    expect(base.variant).toBeNull();
  });

  test('gives the Build of the file that it describes', () => {
    const file = edited(sample(), {
      name: 'sample, short',
      'axles.0.tire.diameter': 41,
      'axles.0.links.0.axle.at': [-2, 17, 17],
      'axles.0.links.0.chassis.at': [-24, 15.5, 21.25],
      'axles.0.links.2.tube': { od: 1.5 },
      'axles.0.links.1': short.add[0]?.part,
      'axles.0.straps': [short.add[1]?.part],
    });
    const links = (file.axles as { links: unknown[] }[])[0]?.links ?? [];
    const ordered = edited(file, { 'axles.0.links': [links[0], links[2], links[1]] });
    const variant = built(withVariants(short), 'short arms');
    expect({ ...variant, variant: null, entries: [] }).toEqual({ ...built(ordered), entries: [] });
  });

  test('that does not fit its base is refused with the change named, also when the base alone is read', () => {
    const file = withVariants({
      name: 'odd',
      remove: ['axles.front.links.upper lnk', 'axles.front.tire'],
      add: [{ to: 'axles.front.links', part: { name: 'track bar' } }],
      changes: [
        { part: 'axles.front.links.left lower link', field: 'chassis.at', value: [0, 0, 0] },
        { part: 'axles.rear.tire', field: 'width', value: 12 },
        { part: 'axles.front.links.track bar', field: 'chassis.at[7]', value: 12 },
        { part: 'axles.front.links.track bar', field: 'chassis..at', value: 12 },
        { part: 'build', field: 'axlewalk', value: 2 },
      ],
    });
    const lines = [
      /^variants\["odd"\]\.remove\[0\]: .*"upper lnk" of axles\.front\.links\.upper lnk is not there; wanted: "upper link"/,
      /^variants\["odd"\]\.remove\[1\]: found "axles\.front\.tire": it is no part of a list/,
      /^variants\["odd"\]\.add\[0\]\.to: .*"track bar" is there already/,
      /^variants\["odd"\]\.changes\[0\]\.part: .*wanted: "lower link", which is written once for both sides/,
      /^variants\["odd"\]\.changes\[1\]\.part: .*"rear" of axles\.rear\.tire is not there; wanted: .*front/,
      /^variants\["odd"\]\.changes\[2\]\.field: found "chassis\.at\[7\]": there is no such field/,
      /^variants\["odd"\]\.changes\[3\]\.field: found "chassis\.\.at"/,
      /^variants\["odd"\]\.changes\[4\]\.field: found "axlewalk": no change may touch it/,
    ].map(line => expect.stringMatching(line));
    expect(refused(file)).toEqual(lines);
    expect(refused(file, 'odd')).toEqual(lines);
  });

  test('whose values are wrong is refused when it is read, and says that it is the variant', () => {
    const file = withVariants({
      name: 'heavy',
      changes: [{ part: 'axles.front.tire', field: 'width', value: '3 kg' }],
    });
    expect(refused(file, 'heavy')).toEqual([
      expect.stringMatching(/^axles\["front"\]\.tire\.width: found "3 kg": .*in variant "heavy"/),
    ]);
    expect(readBuild(JSON.stringify(file)).ok).toBe(true);
  });

  test('adds to a list whose elements have no names', () => {
    const muted = (a: string, b: string) => ({ pair: [a, b], why: 'made to meet' });
    const file = edited(
      withVariants({
        name: 'one more',
        add: [{ to: 'wanted.muted', part: muted('track bar', 'upper link') }],
      }),
      { wanted: { muted: [muted('left lower link', 'upper link')] } },
    );
    expect(built(file, 'one more').wanted.muted).toHaveLength(2);
  });

  test('that is unknown is refused with the nearest name', () => {
    expect(refused(withVariants(short), 'short arm')).toEqual([
      'variants: found "short arm": there is no such variant; wanted: "short arms"',
    ]);
    expect(refused(sample(), 'x')).toEqual([
      'variants: found "x": there is no such variant; wanted: no variant, since the build has none',
    ]);
  });
});

describe('alternatives', () => {
  const file = edited(sample(), {
    alternatives: [
      {
        name: 'track bar',
        part: 'axles.front.links.track bar',
        options: [
          {
            name: 'raised',
            changes: [{ part: 'axles.front.links.track bar', field: 'axle.at[2]', value: 27 }],
          },
          {
            name: 'raised and bent',
            changes: [
              { part: 'axles.front.links.track bar', field: 'through', value: [[3, 0, 30]] },
            ],
            needs: [{ alternative: 'tires', option: 'narrow' }],
          },
        ],
      },
      {
        name: 'tires',
        part: 'axles.front.tire',
        options: [
          { name: 'narrow', changes: [{ part: 'axles.front.tire', field: 'width', value: 11 }] },
        ],
      },
    ],
    variants: [
      { name: 'raised', choose: [{ alternative: 'track bar', option: 'raised' }] },
      {
        name: 'both',
        choose: [
          { alternative: 'track bar', option: 'raised and bent' },
          { alternative: 'tires', option: 'narrow' },
        ],
        changes: [{ part: 'axles.front.tire', field: 'width', value: '11 1/2' }],
      },
    ],
  });

  test('a variant takes options, then does what it says itself', () => {
    expect(linkEnds(built(file, 'raised'), 'track bar').axle).toEqual([3, -20, 27]);
    const both = axleOf(built(file, 'both'));
    expect(both.links[3]?.through).toEqual([[3, 0, 30]]);
    expect(both.tire.width).toBe(11.5);
  });

  test('an option without what it needs, and unknown ones, are refused', () => {
    const wrong = edited(file, {
      variants: [
        { name: 'half', choose: [{ alternative: 'track bar', option: 'raised and bent' }] },
        {
          name: 'odd',
          choose: [
            { alternative: 'track bar', option: 'raisd' },
            { alternative: 'tyres', option: 'x' },
          ],
        },
      ],
    });
    expect(refused(wrong)).toEqual([
      'variants["half"].choose[0]: found "raised and bent": it needs "narrow" of "tires"; wanted: that choice beside it',
      'variants["odd"].choose[0].option: found "raisd": there is no such option; wanted: "raised"',
      'variants["odd"].choose[1].alternative: found "tyres": there is no such alternative; wanted: "tires"',
    ]);
  });
});
