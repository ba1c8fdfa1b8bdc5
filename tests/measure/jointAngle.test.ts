/** Working angles of U-joints (plane trigonometry), and the spline's slip. */
import { expect, test } from 'vitest';
import {
  deg,
  LONG,
  parallelLinks,
  plainAxle,
  rad,
  read,
  slopeOfMeasure,
  trackBar,
} from './closedForms.ts';
import { withShaft } from './driveline.ts';
import { Vehicle } from './vehicles.ts';

test('angles as drawn, whatever way and about whatever line they bend', () => {
  for (const twist of [0, 50, 180]) {
    const ride = new Vehicle(withShaft({ pinion: 7, transferCase: 4, twist })).at(0, 0);
    expect(deg(read(ride, 'pinionJointAngle'))).toBeCloseTo(7, 10);
    expect(deg(read(ride, 'transferJointAngle'))).toBeCloseTo(4, 10);
  }
  const back = new Vehicle(withShaft({ pinion: 175, transferCase: -4 })).at(0, 0);
  expect(deg(read(back, 'pinionJointAngle'))).toBeCloseTo(5, 10);
  expect(deg(read(back, 'transferJointAngle'))).toBeCloseTo(4, 10);
});

test('the axle rises without pitch: both angles change by the slope of the shaft', () => {
  const { driveline } = withShaft({ pinion: 7, transferCase: 4 });
  const axle = plainAxle([...parallelLinks(LONG), trackBar(LONG)], { driveline });
  const vehicle = new Vehicle(axle);
  const ride = vehicle.at(0, 0);
  for (const z of [-40, 50]) {
    const context = vehicle.at(z, z);
    // the shaft runs 1000 to the rear, level as drawn
    const slope = deg(Math.atan(z / 1000));
    const change = (id: string): number => deg(read(context, id) - read(ride, id));
    expect(Math.abs(change('pinionJointAngle'))).toBeCloseTo(Math.abs(slope), 6);
    expect(Math.abs(change('transferJointAngle'))).toBeCloseTo(Math.abs(slope), 6);
    expect(read(context, 'driveshaftSlip')).toBeCloseTo(Math.hypot(1000, z) - 1000, 3);
  }
});

test('a straight joint has a kink there', () => {
  const ride = new Vehicle(withShaft({ pinion: 0, transferCase: 0 })).at(0, 0);
  expect(read(ride, 'pinionJointAngle')).toBeCloseTo(0, 9);
  expect(slopeOfMeasure(ride, 'pinionJointAngle')).toBeNull();
  expect(slopeOfMeasure(ride, 'axleShaftJointAngle', { side: 'left' })).toBeNull();
});

test('axle shaft: the turn about an upright kingpin', () => {
  const context = new Vehicle(plainAxle([...parallelLinks(800), trackBar(800)])).at(0, 0, rad(25));
  for (const side of ['left', 'right'] as const) {
    expect(read(context, 'axleShaftJointAngle', { side })).toBeCloseTo(
      Math.abs(context.pose.knuckleTurn(side) as number),
      12,
    );
  }
});
