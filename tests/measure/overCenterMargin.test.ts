/** Margin to over-center: C/m is a cosine of the triangle of arm, rod and the line between their ends (derived). */
import { expect, test } from 'vitest';
import type { V3 } from '../../geometry/vector.ts';
import { cross, norm, sub, unit } from '../../geometry/vector.ts';
import { longArms } from '../pose/layouts.ts';
import { STEERINGS } from '../pose/steerings.ts';
import { parallelLinks, plainAxle, rad, read, trackBar } from './closedForms.ts';
import { Vehicle } from './vehicles.ts';

test("sine of the angle at the kingpin between the arm and the line to the rod's other end", () => {
  const vehicle = new Vehicle(plainAxle([...parallelLinks(800), trackBar(800)]));
  const kingpin: V3 = [0, -700, 500];
  for (const input of [0, 0.3, -0.6, 0.9]) {
    const context = vehicle.at(0, 0, input);
    const arm = unit(sub(context.pose.point('right knuckle', [150, -700, 500]), kingpin));
    const far = unit(sub(context.pose.point('pitman arm', [150, 3000 - 700, 500]), kingpin));
    expect(read(context, 'overCenterMargin', { part: 'drag link' })).toBeCloseTo(
      norm(cross(arm, far)),
      9,
    );
  }
});

test.each(Object.keys(STEERINGS))(
  '0 where the branch vanishes, falling to it as a root: %s',
  name => {
    const make = STEERINGS[name];
    if (!make) throw new Error(name);
    const axle = { ...longArms(), steering: make() };
    const vehicle = new Vehicle(axle);
    // the end of the branch to the left, by bisection on the verdict
    let [reached, beyond] = [0, axle.steering.box ? rad(170) : 12];
    if (vehicle.model.pose(0, 0, beyond).pose) return;
    for (let i = 0; i < 45; i++) {
      const middle = (reached + beyond) / 2;
      if (vehicle.model.pose(0, 0, middle).pose) reached = middle;
      else beyond = middle;
    }
    const least = (short: number): number => {
      const context = vehicle.at(0, 0, reached * (1 - short));
      return Math.min(
        ...(context.pose.mechanism.steering?.rods.map(rod =>
          read(context, 'overCenterMargin', { part: rod.name }),
        ) ?? []),
      );
    };
    // a square root of what is left: a hundredth of the way, a tenth of the margin
    expect(least(1e-6)).toBeLessThan(0.02);
    expect(least(1e-4) / least(1e-6)).toBeGreaterThan(7);
    expect(least(1e-4) / least(1e-6)).toBeLessThan(13);
  },
);
