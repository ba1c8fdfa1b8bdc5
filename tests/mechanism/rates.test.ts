import { describe, expect, test } from 'vitest';
import type { JointEnd, Vec3 } from '../../geometry/build/build.ts';
import { assemble } from '../../geometry/mechanism/assemble.ts';
import {
  ASSUMED_TUBE,
  endCompliance,
  linkRate,
  STEEL_MODULUS,
  tubeArea,
} from '../../geometry/mechanism/rates.ts';
import { bushedArms, FAMILIES, radiusArms, rates, wishbone } from '../pose/families.ts';
import { end, link } from '../pose/layouts.ts';
import { seriesRate } from '../pose/witness.ts';

const rigid = { axle: false, chassis: false };
const level = (length = 40, more = {}) => link('link', [0, 0, 0], [length, 0, 0], more);
const ended = (bolt: Vec3 | null, given: Parameters<typeof rates>[0]): JointEnd =>
  end('e', [0, 0, 0], { bolt, rates: rates(given) });

describe('tube', () => {
  test('area: π/4 (od² − id²), a rod where no wall is given', () => {
    // Shigley 9th ed., link of the check values (10.4): 2.0 × 0.250 in has 1.37445 in² (derived)
    expect(tubeArea({ od: 2, wall: 0.25 })).toBeCloseTo(1.37445, 5);
    expect(tubeArea({ od: 1, wall: null })).toBeCloseTo(Math.PI / 4, 12);
    expect(tubeArea({ od: 2, wall: 1 })).toBeCloseTo(Math.PI, 12);
    // a wall past the middle is a rod, not a larger one
    expect(tubeArea({ od: 2, wall: 1.5 })).toBeCloseTo(Math.PI, 12);
  });

  test('k = EA/L (Shigley, axial stiffness; from memory)', () => {
    const tube = { od: 2, wall: 0.25 };
    expect(linkRate(level(40, { tube }), rigid)).toBeCloseTo((29e6 * 1.3744467859) / 40, 1);
    // twice as long half as stiff; aluminum 10e6 against steel 29e6
    const long = linkRate(level(80, { tube }), rigid);
    expect(linkRate(level(40, { tube }), rigid) / long).toBeCloseTo(2, 12);
    expect(linkRate(level(80, { tube, modulus: 10e6 }), rigid) / long).toBeCloseTo(10 / 29, 12);
    expect(STEEL_MODULUS).toBe(29e6);
  });

  test('a link without a tube takes the assumed one, so that nothing is stiff without end', () => {
    expect(linkRate(level(), rigid)).toBe(linkRate(level(40, { tube: ASSUMED_TUBE }), rigid));
  });
});

describe('joints, in series along the line', () => {
  const along: Vec3 = [1, 0, 0];

  test('across the bolt the radial rate, along it the axial one', () => {
    const given = { radial: 30_000, axial: 5000 };
    expect(endCompliance(ended([0, 1, 0], given), along, true)).toBeCloseTo(1 / 30_000, 15);
    expect(endCompliance(ended([1, 0, 0], given), along, true)).toBeCloseTo(1 / 5000, 15);
    expect(endCompliance(ended(null, given), along, true)).toBeCloseTo(1 / 30_000, 15);
  });

  test.each([15, 30, 45, 60, 80])(
    'at %d° between bolt and line: sin²θ/k_r + cos²θ/k_a (derived)',
    degrees => {
      const t = (degrees * Math.PI) / 180;
      const bolt: Vec3 = [Math.cos(t), Math.sin(t), 0];
      const have = endCompliance(ended(bolt, { radial: 30_000, axial: 5000 }), along, true);
      expect(have).toBeCloseTo(Math.sin(t) ** 2 / 30_000 + Math.cos(t) ** 2 / 5000, 15);
      // either way along the bolt
      const back: Vec3 = [-bolt[0], -bolt[1], 0];
      expect(endCompliance(ended(back, { radial: 30_000, axial: 5000 }), along, true)).toBe(have);
    },
  );

  test('no axial rate: the radial one; no radial one: stiff; a bracket adds its own', () => {
    expect(endCompliance(ended([1, 0, 0], { radial: 30_000 }), along, true)).toBeCloseTo(
      1 / 30_000,
      15,
    );
    expect(endCompliance(ended([1, 0, 0], {}), along, true)).toBe(0);
    expect(
      endCompliance(ended([0, 1, 0], { radial: 30_000, bracket: 60_000 }), along, true),
    ).toBeCloseTo(1 / 20_000, 15);
    expect(endCompliance(ended(null, { bracket: 60_000 }), along, true)).toBeCloseTo(
      1 / 60_000,
      15,
    );
  });

  test('torsional and conical rates give no compliance along the line', () => {
    const have = endCompliance(ended([0, 1, 0], { torsional: 900, conical: 4e4 }), along, true);
    expect(have).toBe(0);
  });

  test('a joint with a spring of its own is left out, its bracket is not', () => {
    const e = ended([0, 1, 0], { radial: 30_000, bracket: 60_000 });
    expect(endCompliance(e, along, false)).toBeCloseTo(1 / 60_000, 15);
  });

  test('a whole link: tube, two bushings, two brackets', () => {
    const made = level(40, { tube: { od: 1.5, wall: 0.1875 } });
    const bushing = rates({ radial: 30_000, axial: 5000, bracket: 100_000 });
    const whole = {
      ...made,
      axle: { ...made.axle, bolt: [0, 1, 0] as Vec3, rates: bushing },
      chassis: { ...made.chassis, bolt: [0.6, 0.8, 0] as Vec3, rates: bushing },
    };
    const tube = 40 / (29e6 * (Math.PI / 4) * (1.5 ** 2 - 1.125 ** 2));
    const want = 1 / (tube + 1 / 30_000 + 0.64 / 30_000 + 0.36 / 5000 + 2 / 100_000);
    expect(linkRate(whole, rigid)).toBeCloseTo(want, 6);
  });

  test('an entered total rate replaces the series', () => {
    const made = level(40, { rate: 12_345 });
    expect(linkRate({ ...made, axle: ended([0, 1, 0], { radial: 1 }) }, rigid, 2)).toBe(12_345);
  });
});

describe('brackets at half and twice their rate', () => {
  test('only their share of the compliance changes', () => {
    const axle = bushedArms();
    const rateAt = (bracketFactor: number): Float64Array => {
      const assembly = assemble(axle, { bracketFactor });
      if (!assembly.ok) throw new Error('not assembled');
      return assembly.mechanism.lengths.rates;
    };
    const [half, one, twice] = [rateAt(0.5), rateAt(1), rateAt(2)];
    for (const [i, l] of axle.links.entries()) {
      const compliance = 1 / seriesRate(axle, l);
      // two brackets of 200,000 lbf/in
      expect(1 / (one[i] as number)).toBeCloseTo(compliance, 15);
      expect(1 / (half[i] as number)).toBeCloseTo(compliance + 2 / 200_000, 15);
      expect(1 / (twice[i] as number)).toBeCloseTo(compliance - 1 / 200_000, 15);
    }
  });

  test('and of a radius arm’s joints, radial and axial alike', () => {
    const axle = radiusArms({ bracket: 100_000 });
    const joint = (bracketFactor: number) => {
      const assembly = assemble(axle, { bracketFactor });
      if (!assembly.ok) throw new Error('not assembled');
      return assembly.mechanism.arms[0]?.joints[0];
    };
    for (const factor of [0.5, 1, 2]) {
      const bracket = 1 / (100_000 * factor);
      expect(joint(factor)?.radial).toBeCloseTo(1 / (1 / 20_000 + bracket), 6);
      expect(joint(factor)?.axial).toBeCloseTo(1 / (1 / 6000 + bracket), 6);
      expect(joint(factor)?.conical).toBe(40_000);
    }
  });
});

describe('a joint that two links share', () => {
  test('gives as a point where it has a rate, and is left out of both series', () => {
    const axle = wishbone(35_000);
    const links = axle.links.map(l => ({
      ...l,
      rate: null,
      axle: l.axle.shared
        ? { ...l.axle, rates: rates({ radial: 35_000, bracket: 150_000 }) }
        : l.axle,
    }));
    const assembly = assemble({ ...axle, links });
    if (!assembly.ok) throw new Error('not assembled');
    const { lengths, points } = assembly.mechanism;
    expect(points).toMatchObject([{ name: 'upper ball', on: 'axle', rate: 35_000 }]);
    for (const [i, l] of links.entries()) {
      expect(lengths.axleShared[i]).toBe(l.axle.shared ? 0 : -1);
      expect(lengths.chassisShared[i]).toBe(-1);
      const length = Math.hypot(
        ...[0, 1, 2].map(c => (l.axle.at[c] as number) - (l.chassis.at[c] as number)),
      );
      const tube = length / (29e6 * tubeArea(ASSUMED_TUBE));
      const want = tube + (l.axle.shared ? 1 / 150_000 : 0);
      expect(1 / (lengths.rates[i] as number)).toBeCloseTo(want, 15);
    }
  });

  test('is one fixed point where it has none, and in a layout of four lengths', () => {
    for (const axle of [
      wishbone(null),
      { ...wishbone(35_000), links: wishbone(35_000).links.slice(0, 4) },
    ]) {
      const assembly = assemble(axle);
      if (!assembly.ok) throw new Error('not assembled');
      expect(assembly.mechanism.exact).toBe(true);
      expect(assembly.mechanism.points).toEqual([]);
    }
  });
});

test('every family: the rates are those of the definition, by other code', () => {
  for (const [name, make] of Object.entries(FAMILIES)) {
    const axle = make();
    const assembly = assemble(axle);
    if (!assembly.ok) throw new Error('not assembled');
    for (const [i, l] of axle.links.entries()) {
      expect(
        (assembly.mechanism.lengths.rates[i] as number) / seriesRate(axle, l),
        name,
      ).toBeCloseTo(1, 12);
    }
  }
});
