import { expect, test } from 'vitest';
import type { CheckReport } from '../../geometry/cycle/checkReport.ts';
import { axleIn, axlewalk, TRUCK, withFile } from './terminal.ts';

test('check --json tells lengths, rank, freedoms, counts and what is assumed', async () => {
  const { code, out, err } = await axlewalk(['check', TRUCK, '--json']);
  expect({ code, err }).toEqual({ code: 0, err: '' });
  const report = JSON.parse(out) as CheckReport;
  expect(report).toMatchObject({
    build: 'fence truck',
    variant: null,
    valid: true,
    axles: [
      { axle: 'front', lengths: 4, rank: 4, freedoms: 2, exact: true, steering: 'knuckle' },
      { axle: 'rear', lengths: 5, rank: 4, freedoms: 2, exact: false, steering: null },
    ],
    counts: { axles: 2, links: 7, trackBars: 2, shocks: 4, straps: 2, assumed: 2, measured: 1 },
    warnings: [],
  });
  expect(report.assumed).toEqual([
    'axles["front"].straps["strap"].length',
    'axles["rear"].joints["link bushing"].rates.bracket',
  ]);
});

test('check as text says it in words', async () => {
  const { code, out } = await axlewalk(['check', TRUCK]);
  expect(code).toBe(0);
  expect(out).toMatch(/^fence truck: the build can be read, and its axles hold together$/m);
  expect(out).toMatch(/^ {2}held by +4 lengths, rank 4 of 4$/m);
  expect(out).toMatch(/^ {2}solved +exactly/m);
  expect(out).toMatch(/^ {2}solved +by least elastic energy/m);
  expect(out).toMatch(/^ {2}ride height +as drawn$/m);
  expect(out).toMatch(/^ {2}axles\["front"\]\.straps\["strap"\]\.length$/m);
  expect(out).not.toMatch(/\bsafe/i);
});

// 1/k = L/EA + 2 (1/60,000 + 1/50,000): the bolt of both bushings is square to Y only as drawn, so that θ is
// near 90° and the axial rate (12,000) adds a little. Twice and half the bracket move the 2/50,000 alone.
test('rates with half and twice the brackets differ by the brackets alone', async () => {
  const { out } = await axlewalk(['check', TRUCK, '--json']);
  const [, rear] = (JSON.parse(out) as CheckReport).axles;
  const link = rear?.bracketRates.find(({ name }) => name === 'left rear lower link');
  const compliance = 1 / (link?.rate_lbf_per_in ?? 1);
  expect(1 / (link?.half_lbf_per_in ?? 1) - compliance).toBeCloseTo(2 / 25_000 - 2 / 50_000, 12);
  expect(compliance - 1 / (link?.twice_lbf_per_in ?? 1)).toBeCloseTo(2 / 50_000 - 2 / 100_000, 12);
  const bar = rear?.bracketRates.find(({ name }) => name === 'rear track bar');
  expect([bar?.rate_lbf_per_in, bar?.half_lbf_per_in]).toEqual([24_000, 24_000]);
});

test('a variant is read by its name, and what its given length does is told', async () => {
  const { code, out } = await axlewalk(['check', `${TRUCK}#long upper`]);
  expect(code).toBe(0);
  expect(out).toMatch(/^fence truck, long upper: /);
  // a longer upper link pushes the top of the axle forward
  expect(out.replace(/\s+/g, ' ')).toMatch(/moved by the given lengths: .* tipped forward/);
  const wrong = await axlewalk(['check', `${TRUCK}#short upper`]);
  expect(wrong).toMatchObject({ code: 2, out: '', err: expect.stringContaining('"long upper"') });
});

test('problems of all axles come at once', async () => {
  // no track bar in front leaves it free sideways; the rear axle loses both upper links as well
  const change = (truck: Record<string, unknown>): void => {
    for (const [index, keep] of [
      [0, ['lower link', 'upper link']],
      [1, ['rear lower link', 'rear track bar']],
    ] as const) {
      const axle = axleIn(truck, index);
      const links = axle.links as { name: string }[];
      axle.links = links.filter(({ name }) => (keep as readonly string[]).includes(name));
    }
    truck.variants = [];
  };
  await withFile(change, async path => {
    const { code, out, err } = await axlewalk(['check', path]);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(/^axles\["front"\]\.links: .*sideways/m);
    expect(err).toMatch(/^axles\["rear"\]\.links: /m);
  });
});
