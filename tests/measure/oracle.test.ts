/**
 * Every measure against the records of the oracle (tests/oracle): a separate computation, from the words of the
 * definitions, with a general optimizer in extended precision and derivatives by differences.
 *
 * Tolerance, of the value or of 1 as shown: five times the largest difference found, 2e-10, in rates by travel
 * of radius arms on soft bushings, which the residual of the compliant pose (1e-10 in) reaches by way of a
 * division.
 */
import { expect, test } from 'vitest';
import type { Axle } from '../../geometry/build/build.ts';
import { jointOffsets, stretchOf } from '../../geometry/measure/bind.ts';
import { measures } from '../../geometry/measure/list.ts';
import { SHOWN } from '../../geometry/measure/measure.ts';
import { rollingParts } from '../../geometry/measure/rolling.ts';
import { swayNames } from '../../geometry/mechanism/swayBar.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import {
  type RecordedCase,
  type RecordedMeasure,
  type RecordedPose,
  recordedCases,
  recordFiles,
} from './records.ts';
import { Vehicle } from './vehicles.ts';

const TOLERANCE = 1e-9;

/** Measures that the oracle does not compute. */
const OURS_ALONE = new Set([
  'rodSlop',
  'ramSlop',
  'ramStrokeShare',
  'torsionalMoment',
  'lineBendRadius',
  'swayBarTurn',
]);

/**
 * A radius arm's joint without a rate: the oracle takes it as rigid, the mechanism gives it an assumed rate, so
 * that nothing is infinitely stiff. Other poses, so nothing to compare.
 */
const assumesRate = ({ radiusArms }: Axle): boolean =>
  radiusArms.some(arm => [...arm.axle, arm.chassis].some(end => end.rates.radial === null));

/** The oracle leaves each link free to roll; here a bushing or an anti-roll washer holds it. */
function heldParts(axle: Axle): Set<string> {
  const names = new Set<string>();
  for (const part of rollingParts(axle).values()) {
    if (!part.joints.some(joint => joint.holds) && part.holders.length === 0) continue;
    for (const name of [part.name, ...part.joints.map(joint => joint.name)]) names.add(name);
  }
  return names;
}

const ABOUT_ROLL = new Set(['misalignment', 'misalignmentFreeRoll', 'linkRollWindow']);

/** What the oracle tells of a rear axle's steer although nothing there steers. */
const STEERED_ONLY = new Set(['totalToeChange', 'knuckleSteer', 'bumpSteer']);

const key = (m: { id: string; part: string | null; side: string | null }): string =>
  `${m.id} ${m.part ?? m.side ?? ''}`;

function compare(name: string, recorded: RecordedCase): number {
  const { axle, build, poses } = recorded;
  const vehicle = new Vehicle(axle, build);
  const held = heldParts(axle);
  const inRad = axle.steering?.box ? Math.PI / 180 : 1;
  let compared = 0;
  for (const pose of poses) {
    if (pose.status !== 'solved') continue;
    const at = `${name} at ${pose.left_in}/${pose.right_in}/${pose.steer}`;
    const context = vehicle.at(pose.left_in, pose.right_in, (pose.steer ?? 0) * inRad);
    const theirs = new Map<string, RecordedMeasure>(pose.measures?.map(m => [key(m), m]));
    for (const measure of measures) {
      for (const target of measure.targets(axle, build)) {
        const what = key({ id: measure.id, ...target });
        const record = theirs.get(what);
        theirs.delete(what);
        if (ABOUT_ROLL.has(measure.id) && held.has(target.part ?? '')) continue;
        const reading = measure.value(context, target);
        const value = typeof reading === 'number' ? reading * SHOWN[measure.unit] : null;
        if (!record) {
          const own =
            OURS_ALONE.has(measure.id) ||
            carriesDragLink(axle, measure.id) ||
            isSwayLink(axle, target.part);
          if (value !== null && !own) expect.soft(what, `${at}: not recorded`).toBe('');
          continue;
        }
        expect.soft(measure.unit, `${at}: ${what}`).toBe(record.unit);
        if (value === null || record.value === null) {
          expect.soft(value, `${at}: ${what} ${JSON.stringify(reading)}`).toBe(record.value);
          continue;
        }
        const error = Math.abs(value - record.value) / Math.max(1, Math.abs(record.value));
        expect
          .soft(error, `${at}: ${what}: ${value} against ${record.value}`)
          .toBeLessThan(TOLERANCE);
        compared++;
      }
    }
    compareBind(at, context.pose, pose);
    const left = [...theirs.values()].filter(m => axle.steered || !STEERED_ONLY.has(m.id));
    expect.soft(left.map(key), at).toEqual([]);
  }
  return compared;
}

/** Stretch and force of lengths, offset and force of joints; forces to 1e-9 of the largest, lbf. */
function compareBind(at: string, pose: Pose, record: RecordedPose): void {
  const stretches = pose.mechanism.lengths.names.map((_, i) => stretchOf(pose, i));
  const offsets = jointOffsets(pose);
  const largest = Math.max(
    100,
    ...stretches.map(({ force }) => Math.abs(force)),
    ...offsets.map(({ force }) => force),
  );
  const near = (ours: number, theirs: number | undefined, size: number, what: string): void => {
    expect
      .soft(Math.abs(ours - (theirs ?? Number.NaN)) / size, `${at}: ${what}: ${ours}, ${theirs}`)
      .toBeLessThan(TOLERANCE);
  };
  for (const { name, stretch, force } of stretches) {
    near(stretch, record.stretch_in?.[name], 1, `stretch of ${name}`);
    near(force, record.force_lbf?.[name], largest, `force of ${name}`);
  }
  expect
    .soft(offsets.map(({ name }) => name).sort(), at)
    .toEqual(Object.keys(record.joints ?? {}).sort());
  for (const { name, offset, force } of offsets) {
    near(offset, record.joints?.[name]?.offset_in, 1, `offset of ${name}`);
    near(force, record.joints?.[name]?.force_lbf, largest, `force of ${name}`);
  }
}

/** The oracle leaves the sway bar out: it moves no pose. */
const isSwayLink = ({ swayBar }: Axle, part: string | null): boolean =>
  swayBar?.arms.some(({ side }) => part === swayNames(side).link) ?? false;

/** Where the drag link holds the tie rod the oracle leaves the margins out: no circle meets a sphere there. */
const carriesDragLink = ({ steering }: Axle, id: string): boolean =>
  id === 'overCenterMargin' &&
  [steering?.dragLink?.from.on, steering?.dragLink?.to.on].includes('tie rod');

for (const file of recordFiles()) {
  test(`measures agree with the oracle: ${file}`, () => {
    let compared = 0;
    for (const recorded of recordedCases(file)) {
      if (!assumesRate(recorded.axle)) compared += compare(recorded.name, recorded);
    }
    expect(compared).toBeGreaterThan(300);
  }, 60_000);
}
