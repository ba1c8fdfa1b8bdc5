/**
 * What no example tells, against a written list: measures that an axle has none of, and readings that are missing,
 * counted straight ahead at ride height and in a flexed and steered pose. A change here is a change of what a
 * user sees as 'none'.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { readBuild } from '../../geometry/build/read.ts';
import { measures } from '../../geometry/measure/list.ts';
import { Vehicle } from './vehicles.ts';

const folder = fileURLToPath(new URL('../../examples', import.meta.url));

const OF_REAR = ['antiSquat', 'antiSquatCrossed', 'brakeAntiLift', 'brakeAntiLiftCrossed'];

/** What an axle without steering has none of. */
const OF_STEERED_FRONT = [
  'knuckleSteer',
  'bumpSteer',
  'steeringWheelToStraight',
  'totalToeChange',
  'ackermannError',
  'turningCircle',
  'dragLinkToTrackBarFront',
  'dragLinkToTrackBarPlan',
  'dragLinkMinusTrackBar',
  'overCenterMargin',
  'rodSlop',
  'ramSlop',
  'ramLength',
  'ramStrokeShare',
  'caster',
  'kingpinInclination',
  'mechanicalTrail',
  'scrubRadius',
  'brakeAntiDive',
  'brakeAntiDiveCrossed',
  'driveAntiLift',
  'driveAntiLiftCrossed',
  'axleShaftJointAngle',
];

interface Nulls {
  /** Measures without a target. */
  none: string[];
  /** Missing readings by measure, straight at ride height and flexed. */
  missing: Record<string, [ride: number, flexed: number]>;
}

/** Straight ahead a steered axle has no turning circle; no rod of it holds another beside its line. */
const FRONT: Nulls = {
  none: [...OF_REAR, 'rodSlop', 'swayBarTurn'],
  missing: { turningCircle: [1, 0] },
};
const REAR: Nulls = { none: [...OF_STEERED_FRONT, 'swayBarTurn'], missing: {} };

const EXPECTED: Record<string, Nulls> = {
  'double-ram-front front': {
    // no box, no drag link, no single-ended ram, and no joint with a torsional rate
    none: [
      ...FRONT.none,
      'steeringWheelToStraight',
      'dragLinkToTrackBarFront',
      'dragLinkToTrackBarPlan',
      'dragLinkMinusTrackBar',
      'ramSlop',
      'ramLength',
      'torsionalMoment',
    ],
    missing: FRONT.missing,
  },
  'four-link-rear rear': REAR,
  // its tie rod hangs beside the drag link
  'hung-tie-rod-front front': { none: [...OF_REAR, 'swayBarTurn'], missing: FRONT.missing },
  'long-arm-front front': FRONT,
  'radius-arm-front front': FRONT,
  'short-arm-front front': FRONT,
  'triangulated-rear rear': REAR,
  'whole-vehicle front': FRONT,
  // its sway bar has end links that can go over center
  'whole-vehicle rear': {
    none: OF_STEERED_FRONT.filter(id => id !== 'overCenterMargin'),
    missing: {},
  },
  'wishbone-rear rear': REAR,
};

function nullsOfExamples(): Record<string, Nulls> {
  const found: Record<string, Nulls> = {};
  const suffix = '.axlewalk.json';
  for (const file of readdirSync(folder).filter(name => name.endsWith(suffix))) {
    const read = readBuild(readFileSync(`${folder}/${file}`));
    if (!read.ok) throw new Error(`${file}: ${JSON.stringify(read.problems)}`);
    for (const axle of read.build.axles) {
      const vehicle = new Vehicle(axle, read.build);
      const turned = axle.steered ? (axle.steering?.box ? 0.2 : 1) : 0;
      const contexts = [vehicle.at(0, 0), vehicle.at(3, -2, turned)];
      const nulls: Nulls = { none: [], missing: {} };
      for (const measure of measures) {
        const targets = measure.targets(axle, read.build);
        if (targets.length === 0) nulls.none.push(measure.id);
        const [ride = 0, flexed = 0] = contexts.map(
          context => targets.filter(t => typeof measure.value(context, t) !== 'number').length,
        );
        if (ride + flexed > 0) nulls.missing[measure.id] = [ride, flexed];
      }
      found[`${file.slice(0, -suffix.length)} ${axle.name}`] = nulls;
    }
  }
  return found;
}

test('the nulls of each measure on each example are the written ones', () => {
  const found = nullsOfExamples();
  expect(Object.keys(found).sort()).toEqual(Object.keys(EXPECTED).sort());
  for (const [name, { none, missing }] of Object.entries(EXPECTED)) {
    expect.soft(found[name]?.none.sort(), name).toEqual([...none].sort());
    expect.soft(found[name]?.missing, name).toEqual(missing);
  }
});
