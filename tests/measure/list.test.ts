/** The list itself: ids, words, units; readings and slopes that a caller can rely on. */
import { expect, test } from 'vitest';
import { measures } from '../../geometry/measure/list.ts';
import { SHOWN } from '../../geometry/measure/measure.ts';
import { FAMILIES } from '../pose/families.ts';
import { equipped, Vehicle } from './vehicles.ts';

/** Ids and units as fixed: scripts read them. */
const FIXED: Record<string, string> = {
  steer: 'deg',
  toe: 'deg',
  totalToeChange: 'deg',
  camber: 'deg',
  kingpinInclination: 'deg',
  caster: 'deg',
  mechanicalTrail: 'in',
  scrubRadius: 'in',
  meanSteer: 'deg',
  axleSteer: 'deg',
  knuckleSteer: 'deg',
  bumpSteer: 'deg',
  steeringWheelToStraight: 'deg',
  lateralShift: 'in',
  foreAftShift: 'in',
  lateralShiftArc: 'in',
  lateralShiftRoll: 'in',
  lateralShiftGround: 'in',
  pinionAngle: 'deg',
  pinionChange: 'deg',
  pinionJointAngle: 'deg',
  transferJointAngle: 'deg',
  axleShaftJointAngle: 'deg',
  driveshaftSlip: 'in',
  pinionSpeedRipple: '%',
  misalignment: 'deg',
  misalignmentFreeRoll: 'deg',
  linkRollWindow: 'deg',
  shockLength: 'in',
  coilLength: 'in',
  ramLength: 'in',
  shockStrokeShare: '%',
  shockMotionRatio: 'in/in',
  coilMotionRatio: 'in/in',
  shockMotionRatioCrossed: 'in/in',
  coilMotionRatioCrossed: 'in/in',
  rollCenterHeight: 'in',
  axleRollAxisSlope: 'deg/deg',
  sideViewCenterX: 'in',
  sideViewCenterZ: 'in',
  brakeAntiDive: '%',
  driveAntiLift: '%',
  antiSquat: '%',
  brakeAntiLift: '%',
  brakeAntiDiveCrossed: '%',
  driveAntiLiftCrossed: '%',
  antiSquatCrossed: '%',
  brakeAntiLiftCrossed: '%',
  ackermannError: 'deg',
  turningCircle: 'ft',
  dragLinkToTrackBarFront: 'deg',
  dragLinkToTrackBarPlan: 'deg',
  dragLinkMinusTrackBar: 'in',
  overCenterMargin: '1',
  bind: 'in',
  stopHeight: 'in',
  lineSlack: 'in',
  lineBendRadius: 'in',
  swayBarTurn: 'deg',
  ramStrokeShare: '%',
  rodSlop: 'deg',
  ramSlop: 'in',
  torsionalMoment: 'in·lbf',
};

test('every fixed id is there once, in its unit, and no other', () => {
  expect(Object.fromEntries(measures.map(m => [m.id, m.unit]))).toEqual(FIXED);
  expect(measures).toHaveLength(Object.keys(FIXED).length);
});

test('each says what it is, whence, and in a few words', () => {
  for (const { id, label, definition, source, unit } of measures) {
    expect(label.length, id).toBeGreaterThan(2);
    expect(label.length, id).toBeLessThan(45);
    expect(definition, id).toMatch(/[.]$/);
    expect(source.length, id).toBeGreaterThan(5);
    expect(SHOWN[unit], id).toBeGreaterThan(0);
  }
});

test('targets are told apart by part or side, and never by both', () => {
  for (const make of Object.values(FAMILIES)) {
    const axle = equipped(make());
    const { build } = new Vehicle(axle);
    for (const { id, targets } of measures) {
      const keys = targets(axle, build).map(({ part, side }) => {
        expect(part === null || side === null, id).toBe(true);
        return part ?? side ?? '';
      });
      expect(new Set(keys).size, id).toBe(keys.length);
    }
  }
});

test('a value is asked for twice and read once: the same bits', () => {
  const vehicle = new Vehicle(
    equipped((FAMILIES['two radius arms and track bar'] as () => never)()),
  );
  const [a, b] = [vehicle.at(3, -2, 0.1), vehicle.at(3, -2, 0.1)];
  for (const measure of measures) {
    for (const target of measure.targets(vehicle.axle, vehicle.build)) {
      const first = measure.value(a, target);
      expect(measure.value(a, target), measure.id).toEqual(first);
      expect(measure.value(b, target), measure.id).toEqual(first);
    }
  }
});
