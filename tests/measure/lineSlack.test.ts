/** Slack and bend radius of lines: the arc over its chord against closed forms of the circle. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { arcOverChord } from '../../geometry/measure/arcOverChord.ts';
import { lineBendRadius, lineSlack } from '../../geometry/measure/lineSlack.ts';
import { longArms } from '../pose/layouts.ts';
import { equipped, Vehicle } from './vehicles.ts';

// arcs of circles: chord = 2 r sin θ, length = 2 r θ, θ half of the angle (any handbook; from memory)
test.each([
  ['half a circle', Math.PI / 2],
  ['a quarter of a circle', Math.PI / 4],
  ['three quarters of a circle', (3 * Math.PI) / 4],
  ['a sixth of a circle, whose chord is the radius', Math.PI / 6],
])('%s has the radius that it was drawn with', (_, half) => {
  const r = 7.25;
  const arc = arcOverChord(2 * r * half, 2 * r * Math.sin(half));
  // a few roundings
  expect(arc?.radius).toBeCloseTo(r, 12);
  expect(arc?.halfAngle).toBeCloseTo(half, 12);
});

test('any arc gives its radius back, nearly straight ones to what rounding leaves of the slack (seed 12)', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -7, max: Math.log10(Math.PI), noNaN: true }),
      fc.double({ min: 0.1, max: 100, noNaN: true }),
      (exponent, r) => {
        const half = 10 ** exponent;
        const length = 2 * r * half;
        const chord = 2 * r * Math.sin(half);
        const arc = arcOverChord(length, chord);
        // length − chord ≈ L θ²/6 is known to an ulp of L: of r that is 3e-16 · 3/θ²; over π/2 sin loses as much
        const share = 1e-14 + (1e-15 * 3) / half ** 2;
        if (!arc) {
          expect(half ** 2 / 6).toBeLessThan(1e-15);
          return;
        }
        expect(Math.abs(arc.radius / r - 1)).toBeLessThan(10 * share);
      },
    ),
    { seed: 12, numRuns: 2000 },
  );
});

test('the radius shrinks as the ends come together, down to that of the closed circle', () => {
  const length = 24;
  let last = Number.POSITIVE_INFINITY;
  for (let chord = 23.99; chord >= 0; chord -= 0.05) {
    const radius = arcOverChord(length, chord)?.radius ?? 0;
    expect(radius).toBeLessThan(last);
    last = radius;
  }
  expect(arcOverChord(length, 0)?.radius).toBeCloseTo(length / (2 * Math.PI), 12);
  expect(arcOverChord(length, length)).toBeNull();
  expect(arcOverChord(length, length + 1)).toBeNull();
});

test('its derivative by the chord is that of differences', () => {
  const length = 24;
  for (const chord of [0.5, 5, 15, 21, 23.5]) {
    const h = 1e-4;
    const radius = (c: number): number => arcOverChord(length, c)?.radius ?? Number.NaN;
    const slope = (radius(chord + h) - radius(chord - h)) / (2 * h);
    const found = arcOverChord(length, chord)?.byChord ?? Number.NaN;
    // the error of differences is h² r‴/6: near the straight line r goes as (L − c)^−½
    expect(Math.abs(found / slope - 1)).toBeLessThan(1e-6);
  }
});

test('a hose has the slack of Pythagoras, and is pulled straight where it has none', () => {
  const axle = equipped(longArms());
  axle.lines = [3, 4.9, 5, 5.2].map(length => ({
    name: `hose of ${length}`,
    from: { on: 'chassis', at: [0, 0, 20] },
    to: { on: 'chassis', at: [3, 4, 20] },
    length,
    leastBendRadius: null,
    diameter: null,
  }));
  const context = new Vehicle(axle).at(0, 0);
  const read = (length: number) => {
    const target = { part: `hose of ${length}`, side: null };
    return [lineSlack.value(context, target), lineBendRadius.value(context, target)];
  };
  expect(read(5.2)[0]).toBeCloseTo(0.2, 12);
  expect(read(5.2)[1]).toBeCloseTo(arcOverChord(5.2, 5)?.radius ?? 0, 12);
  for (const length of [3, 4.9, 5]) {
    expect(read(length)[0]).toBeCloseTo(length - 5, 12);
    expect(read(length)[1]).toEqual({ missing: 'it is pulled straight here' });
  }
});
