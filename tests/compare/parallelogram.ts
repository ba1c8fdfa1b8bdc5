/**
 * A build on three equal parallel links and a track bar, all from named dimensions, and its closed form.
 *
 * The links are equal and parallel, so the axle does not turn: it goes by d = (x, y, z). With u from an axle end of a
 * link to its chassis end and w the same of the bar, d lies on both spheres:
 *
 *     |u − d| = |u|   and   |w − d| = |w|                                                            (1)
 *
 * u = (−run, 0, rise), w = (0, barRun, barRise). Derived here; two quadratic equations in x and y at a given z.
 */

/** In inches; lengths from axle end to chassis end. */
export interface Sizes {
  armRun: number;
  armRise: number;
  barRun: number;
  barRise: number;
}

/** Shift of the axle at a level travel z, in: [x, y]. By Newton on (1) from 0; the root that hangs together with it. */
export function shiftOf({ armRun, armRise, barRun, barRise }: Sizes, z: number): [number, number] {
  let [x, y] = [0, 0];
  for (let n = 0; n < 30; n++) {
    // (1) squared out, halved: (x² + y² + z²)/2 − u·d = 0, and the same with w
    const half = (x * x + y * y + z * z) / 2;
    const f = half + armRun * x - armRise * z;
    const g = half - barRun * y - barRise * z;
    const [fx, fy, gx, gy] = [x + armRun, y, x, y - barRun];
    const det = fx * gy - fy * gx;
    const [dx, dy] = [(f * gy - g * fy) / det, (g * fx - f * gx) / det];
    [x, y] = [x - dx, y - dy];
    if (Math.hypot(dx, dy) < 1e-14) break;
  }
  return [x, y];
}

export interface Entry {
  value: number;
  /** Half-width, in; none unless given. */
  tolerance?: number;
}

/** The build file, with a variant that has other sizes where they are given. */
export function parallelogram(
  base: Record<keyof Sizes, Entry>,
  variant: Partial<Record<keyof Sizes, Entry>> = {},
): string {
  const entry = ({ value, tolerance }: Entry) =>
    tolerance === undefined ? value : { value, from: 'measured', tolerance };
  const arm = (x: number, y: number, z: number) => ({
    axle: { at: [x, y, z] },
    chassis: { at: [`${x} - armRun`, y, `${z} + armRise`] },
  });
  return JSON.stringify({
    axlewalk: 1,
    name: 'parallel links',
    unit: 'in',
    wheelbase: 100,
    dimensions: Object.entries(base).map(([name, each]) => ({ name, value: entry(each) })),
    axles: [
      {
        name: 'front',
        steered: false,
        wheelCenters: 70,
        tire: { diameter: 42, width: 13, loadedRadius: 20, shoulder: 2 },
        links: [
          { name: 'lower link', sides: 'mirror', ...arm(-2, 17, 16) },
          { name: 'upper link', ...arm(-1, -8, 27) },
          {
            name: 'track bar',
            kind: 'track bar',
            axle: { at: [3, -20, 25] },
            chassis: { at: [3, '-20 + barRun', '25 + barRise'] },
          },
        ],
      },
    ],
    wanted: { assumedTravel: { up: 4, down: 5 } },
    variants: [
      {
        name: 'other',
        changes: Object.entries(variant).map(([name, each]) => ({
          part: `dimensions.${name}`,
          field: 'value',
          value: entry(each),
        })),
      },
    ],
  });
}
