/**
 * Drag link against track bar, pitman arm held, both level at ride height, kingpin upright, steering arm of
 * 150 mm ahead of it, track bar 800 mm. Derived, two ways (closed form and optimizer); first order
 * z²/(2r) (1/L_drag − 1/L_bar).
 */
import { describe, expect, test } from 'vitest';
import type { Axle, Vec3 } from '../../geometry/build/build.ts';
import { front, link, modelOf, rod } from '../pose/layouts.ts';
import { DEG, FAR, MM, pair, poseAt, single } from './planar.ts';

const mm = (p: Vec3): Vec3 => p.map(x => x * MM) as unknown as Vec3;
const ARM = 150;
const BAR = 800;

/** Frame ends to the left; the drag link `above` the bar by so much. */
function steered(dragLink: number, above = 0): Axle {
  const y = -400;
  const z = 600;
  const end: Vec3 = [ARM, y, z + above];
  const ball: Vec3 = [ARM, y + dragLink, z + above];
  const upright = (side: number) => ({
    lower: mm([0, side, 400]),
    upper: mm([0, side, 800]),
  });
  const axle = front(
    [
      ...pair('lower link', [0, 400], [-FAR / MM, 400], 450),
      single('upper link', [0, 650], [-FAR / MM, 650], 60),
      link('track bar', mm([0, y, z]), mm([0, y + BAR, z])),
    ],
    { origin: mm([0, 0, 500]), wheelCenters: 1600 * MM },
  );
  const { knuckles } = axle;
  if (!knuckles) throw new Error('a front axle has knuckles');
  return {
    ...axle,
    knuckles: {
      left: { ...knuckles.left, kingpin: upright(400) },
      right: { ...knuckles.right, kingpin: upright(y) },
    },
    steering: {
      box: {
        axis: { at: mm([ARM + 150, ball[1], ball[2]]), direction: [0, 0, 1] },
        ratio: 16,
        sweep: null,
        wheelsLeft: null,
      },
      pitmanArm: null,
      dragLink: rod('drag link', ['pitman arm', mm(ball)], ['right knuckle', mm(end)]),
      tieRods: [
        rod('tie rod', ['left knuckle', mm([ARM, 400, 450])], ['right knuckle', mm([ARM, y, 450])]),
      ],
      rams: [],
    },
  };
}

const turnAt = (axle: Axle, left: number, right = left): number =>
  (poseAt(modelOf(axle), left, right).knuckleTurn('right') as number) / DEG;

describe('bump steer, + where the drag link is the shorter one', () => {
  test.each([
    [700, 0.08555, 0.34571, 0.34105],
    [800, 0, 0, 0],
    [900, -0.06649, -0.26807, -0.26526],
    [1000, -0.11965, -0.48207, -0.47746],
  ])(
    'drag link %d mm: %d° at ±50 mm, %d° at ±100 mm, %d° to first order',
    (L, at50, at100, first) => {
      const axle = steered(L);
      for (const way of [1, -1]) {
        expect(Math.abs(turnAt(axle, way * 50) - at50)).toBeLessThan(6e-6); // printed with five places
        expect(Math.abs(turnAt(axle, way * 100) - at100)).toBeLessThan(6e-6);
      }
      const want = ((100 * 100) / (2 * ARM)) * (1 / L - 1 / BAR);
      expect(want / DEG).toBeCloseTo(first, 5);
      // first order is within 2 % of the whole
      expect(Math.abs(at100 - first)).toBeLessThan(0.02 * Math.abs(at100) + 1e-12);
      // the closed form: the arm's end reaches across ρ aside of where the bar has carried it
      const aside = (l: number): number => l - Math.sqrt(l * l - 100 * 100);
      const turn = turnAt(axle, 100) * DEG;
      const end = [ARM * Math.cos(turn), ARM * Math.sin(turn) + aside(BAR)];
      const reach = Math.hypot((end[0] as number) - ARM, L - (end[1] as number), 100);
      expect(reach).toBeCloseTo(L, 7);
    },
  );

  test('equal and parallel: none at any travel', () => {
    const axle = steered(800);
    for (let z = -200; z <= 200; z += 40) expect(turnAt(axle, z)).toBeCloseTo(0, 8);
  });
});

describe('no bump steer is not no roll steer: the same bars, one over the other', () => {
  // the axle rolled about the bar's end on it, which then stays: the travels that do so
  const rolled = (degrees: number): [number, number] => {
    const [y, z] = [-400, 600 - 500];
    const sine = Math.sin(degrees * DEG);
    const mean = z - (sine * y + Math.cos(degrees * DEG) * z);
    return [mean + 800 * sine, mean - 800 * sine];
  };
  test.each([
    [50, 2, 0.667],
    [50, 5, 1.6712],
    [50, 10, 3.3697],
    [50, -10, -3.3694],
    [100, 2, 1.334],
    [100, 5, 3.3438],
    [100, 10, 6.7516],
    [100, -10, -6.75],
    [0, 10, 0],
  ])('%d mm apart, rolled by %d°: %d°', (above, degrees, turn) => {
    const have = turnAt(steered(800, above), ...rolled(degrees));
    expect(Math.abs(have - turn)).toBeLessThan(6e-5); // printed with four places
  });
});
