/** Closed forms of arcs (derived), with numbers computed apart from this project; mm. */
import { expect, test } from 'vitest';
import { LONG, parallelLinks, plainAxle, rad, read, trackBar } from './closedForms.ts';
import { Vehicle } from './vehicles.ts';

test('lateral shift of a track bar alone: √(L² − z₀²) − √(L² − (z₀ + z)²)', () => {
  const table: [length: number, z: number, shift: number][] = [
    [700, 25, 0.4466],
    [700, 100, 7.1797],
    [700, 200, 29.1796],
    [800, 50, 1.564],
    [800, 100, 6.2746],
    [900, 125, 8.7228],
    [900, 200, 22.5036],
  ];
  for (const [length, z, shift] of table) {
    const vehicle = new Vehicle(plainAxle([...parallelLinks(LONG), trackBar(length)]));
    for (const rise of [z, -z]) {
      const context = vehicle.at(rise, rise);
      // four decimals are printed
      expect(read(context, 'lateralShift')).toBeCloseTo(shift, 4);
      expect(read(context, 'lateralShiftArc')).toBeCloseTo(shift, 4);
      expect(read(context, 'lateralShiftRoll')).toBeCloseTo(0, 9);
      expect(read(context, 'lateralShiftGround')).toBeCloseTo(shift, 4);
    }
  }
});

test('the same with an inclined bar, axle end 60 above the frame end', () => {
  const vehicle = new Vehicle(plainAxle([...parallelLinks(LONG), trackBar(800, 60)]));
  for (const [z, shift] of [
    [-100, -1.2525],
    [-50, -2.1907],
    [50, 5.3454],
    [100, 13.9101],
  ] as const) {
    expect(read(vehicle.at(z, z), 'lateralShift')).toBeCloseTo(shift, 4);
  }
});

test('fore-aft shift of equal parallel links: L cos a₀ − √(L² − (L sin a₀ + z)²) towards the frame', () => {
  const table: [angle: number, z: number, towards: number][] = [
    [0, -150, 14.1883],
    [0, 50, 1.564],
    [0, 100, 6.2746],
    [-5, -150, 27.7217],
    [-5, -50, 5.9652],
    [-5, 50, -2.801],
    [-5, 100, -2.4712],
    [-5, 150, 0.9935],
  ];
  for (const [angle, z, towards] of table) {
    // the angle is negative where the axle end is lower than the frame end
    const vehicle = new Vehicle(plainAxle([...parallelLinks(800, rad(angle)), trackBar(LONG)]));
    const context = vehicle.at(z, z);
    // the frame is behind this axle
    expect(read(context, 'foreAftShift')).toBeCloseTo(-towards, 4);
    expect(read(context, 'axleSteer')).toBeCloseTo(0, 6);
  }
});

test('parallel links and a level track bar of 800, both at once', () => {
  const vehicle = new Vehicle(plainAxle([...parallelLinks(800), trackBar(800)]));
  for (const z of [100, -100]) {
    const context = vehicle.at(z, z);
    // (800 − x)² + y² + z² = 800² and x² + (800 − y)² + z² = 800², by two methods: 6.2996063
    expect(read(context, 'foreAftShift')).toBeCloseTo(-6.2996063, 6);
    expect(read(context, 'lateralShift')).toBeCloseTo(6.2996063, 6);
    expect(read(context, 'axleSteer')).toBeCloseTo(0, 9);
    expect(read(context, 'lateralShiftRoll')).toBeCloseTo(0, 9);
  }
});

test('arc and roll parts add up, and the ground point moves with the roll', () => {
  const vehicle = new Vehicle(plainAxle([...parallelLinks(800), trackBar(700, 40)]));
  const context = vehicle.at(90, -60, 0.1);
  expect(read(context, 'lateralShiftArc') + read(context, 'lateralShiftRoll')).toBeCloseTo(
    read(context, 'lateralShift'),
    12,
  );
  // H hangs 500 under the origin: it goes by 500 sin roll cos yaw to the left as the left wheel rises
  const { roll, yaw, pitch } = context.pose;
  const leaning =
    500 * (Math.sin(roll) * Math.cos(yaw) * Math.cos(pitch) - Math.sin(yaw) * Math.sin(pitch));
  expect(read(context, 'lateralShiftGround')).toBeCloseTo(
    read(context, 'lateralShift') + leaning,
    9,
  );
});
