/**
 * The planar four-bar: cranks and a rocker from the chassis to the axle as coupler.
 * Freudenstein: K1 cos t4 − K2 cos t2 + K3 = cos(t2 − t4); K1 = d/a, K2 = d/c, K3 = (a² − b² + c² + d²)/(2ac);
 * a crank, b coupler, c rocker, d ground. Form retrieved with the dimensions of Norton, Design of Machinery,
 * example 4-1; the book's printed angles from memory, the table's recomputed in double precision.
 */
import { describe, expect, test } from 'vitest';
import { modelOf } from '../pose/layouts.ts';
import { axleAt, bar, DEG, MM, pair, poseAt, single } from './planar.ts';

interface FourBar {
  a: number;
  b: number;
  c: number;
  d: number;
}

/** Coupler and rocker angle for a crank angle, rad: the quadratic in tan(t4/2). */
function freudenstein(
  { a, b, c, d }: FourBar,
  t2: number,
  open: boolean,
): { t3: number; t4: number } {
  const K1 = d / a;
  const K2 = d / c;
  const K3 = (a * a - b * b + c * c + d * d) / (2 * a * c);
  const A = Math.cos(t2) - K1 - K2 * Math.cos(t2) + K3;
  const B = -2 * Math.sin(t2);
  const C = K1 - (K2 + 1) * Math.cos(t2) + K3;
  const root = Math.sqrt(B * B - 4 * A * C);
  const t4 = 2 * Math.atan2(-B + (open ? -root : root), 2 * A);
  const x = d + c * Math.cos(t4) - a * Math.cos(t2);
  const z = c * Math.sin(t4) - a * Math.sin(t2);
  return { t3: Math.atan2(z, x), t4 };
}

/** Drawn at crank angle `drawn`, with the ground turned by `ground` so that the crank's pin rises all the way. */
function built(bars: FourBar, drawn: number, open: boolean, ground: number) {
  const { t4 } = freudenstein(bars, drawn, open);
  const turned = (x: number, z: number): readonly [number, number] => [
    x * Math.cos(ground) - z * Math.sin(ground),
    x * Math.sin(ground) + z * Math.cos(ground),
  ];
  const { a, c, d } = bars;
  const A = turned(a * Math.cos(drawn), a * Math.sin(drawn));
  const B = turned(d + c * Math.cos(t4), c * Math.sin(t4));
  const axle = axleAt(A, [
    ...pair('crank', A, [0, 0], 450),
    single('rocker', B, turned(d, 0)),
    bar([A[0], -500, A[1]]),
  ]);
  return modelOf(axle);
}

const NORTON_4_1: FourBar = { a: 40, b: 120, c: 80, d: 100 };
const NORTON_P4_7_A: FourBar = { a: 20, b: 70, c: 90, d: 60 };

/** Coupler angle at a crank angle, as the pose has it: pitch turns the coupler the other way in side view. */
function couplerAt(bars: FourBar, drawn: number, t2: number, open: boolean, ground: number) {
  const model = built(bars, drawn, open, ground);
  const rise = bars.a * (Math.sin(t2 + ground) - Math.sin(drawn + ground));
  const pose = poseAt(model, rise);
  const from = freudenstein(bars, drawn, open).t3;
  return { t3: from - pose.pitch, pose };
}

const near = (have: number, want: number, bound: number): void => {
  const turns = Math.round((have - want) / (2 * Math.PI));
  expect(Math.abs(have - want - turns * 2 * Math.PI)).toBeLessThan(bound);
};

describe('Norton, example 4-1: a 40, b 120, c 80, d 100', () => {
  // printed with four places of a degree
  const PRINTED = 6e-5 * DEG;
  const OPEN: [number, number, number][] = [
    [0, 36.3361, 62.7204],
    [30, 22.409, 55.2678],
    [40, 20.2979, 57.3249],
    [60, 18.376, 64.9435],
    [90, 18.8879, 80.2569],
    [120, 21.9643, 96.2504],
    [150, 27.2547, 110.4594],
  ];
  const OPEN_BELOW: [number, number, number][] = [
    [180, 34.7719, 121.1886],
    [240, 54.1685, 128.4547],
    [300, 65.2025, 111.7699],
  ];

  test.each(OPEN)('open, crank at %d: coupler at %d, rocker at %d', (t2, t3, t4) => {
    const closed = freudenstein(NORTON_4_1, t2 * DEG, true);
    near(closed.t3, t3 * DEG, PRINTED);
    near(closed.t4, t4 * DEG, PRINTED);
    for (const drawn of [20, 80]) {
      const { t3: have } = couplerAt(NORTON_4_1, drawn * DEG, t2 * DEG, true, -75 * DEG);
      near(have, t3 * DEG, PRINTED);
      near(have, closed.t3, 1e-9); // what Newton leaves, and the bar's 1e-12
    }
  });

  test.each(OPEN_BELOW)('open, crank at %d: coupler at %d, rocker at %d', (t2, t3, t4) => {
    near(freudenstein(NORTON_4_1, t2 * DEG, true).t4, t4 * DEG, PRINTED);
    near(couplerAt(NORTON_4_1, 250 * DEG, t2 * DEG, true, -240 * DEG).t3, t3 * DEG, PRINTED);
  });

  test.each([
    [40, -60.978, -98.005],
    [30, -56.4375, -89.2962],
  ])('crossed, crank at %d: coupler at %d, rocker at %d', (t2, t3, t4) => {
    near(freudenstein(NORTON_4_1, t2 * DEG, false).t4, t4 * DEG, PRINTED);
    near(couplerAt(NORTON_4_1, 70 * DEG, t2 * DEG, false, -50 * DEG).t3, t3 * DEG, PRINTED);
  });

  test('crossed is open in the mirror', () => {
    for (const t2 of [20, 75, 130]) {
      const crossed = couplerAt(NORTON_4_1, 70 * DEG, t2 * DEG, false, -75 * DEG).t3;
      near(-crossed, freudenstein(NORTON_4_1, (360 - t2) * DEG, true).t3, 1e-9);
    }
  });

  test('the rocker’s pin goes round its own pivot', () => {
    const { pose } = couplerAt(NORTON_4_1, 40 * DEG, 110 * DEG, true, -75 * DEG);
    const rocker = pose.mechanism.named.find(({ name }) => name === 'rocker.axle');
    const pivot = pose.mechanism.named.find(({ name }) => name === 'rocker.chassis');
    if (!rocker || !pivot) throw new Error('no rocker');
    const p = pose.point(rocker.on, rocker.at);
    expect(Math.hypot(p[0] - pivot.at[0], p[2] - pivot.at[2]) / MM).toBeCloseTo(80, 8);
  });
});

describe('Norton, problem 4-7 row a: a 2, b 7, c 9, d 6 (from memory), ten times as large', () => {
  test.each([
    ['open', true, 88.8372, 117.2861],
    ['crossed', false, -115.2108, -143.6596],
  ] as const)('%s', (_, open, t3, t4) => {
    near(freudenstein(NORTON_P4_7_A, 30 * DEG, open).t4, t4 * DEG, 6e-5 * DEG);
    near(couplerAt(NORTON_P4_7_A, 55 * DEG, 30 * DEG, open, -30 * DEG).t3, t3 * DEG, 6e-5 * DEG);
  });
});
