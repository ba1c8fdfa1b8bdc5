/**
 * The examples: each reads, settles and walks, gives the summary that stands beside it, and holds what its
 * notes say there is to find.
 */
import { readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Axle } from '../geometry/build/build.ts';
import { furthest } from '../geometry/cycle/edge.ts';
import { openBuild } from '../geometry/cycle/open.ts';
import type { OpenedAxle } from '../geometry/cycle/openAxle.ts';
import { findRange } from '../geometry/cycle/range.ts';
import { walkPoses } from '../geometry/cycle/walk.ts';
import type { LimitId } from '../geometry/limit/limit.ts';
import { limits } from '../geometry/limit/list.ts';
import { measures } from '../geometry/measure/list.ts';
import { MeasureContext } from '../geometry/measure/measure.ts';
import type { Pose } from '../geometry/pose/pose.ts';
import { distance, dot, sub, type V3 } from '../geometry/vector.ts';
import {
  computed,
  examplesFolder,
  exampleText,
  isMeasure,
  type MeasureEntry,
  openExample,
  poseAt,
  summaryOf,
} from './examples/summary.ts';
import { recordedCases } from './measure/records.ts';

const names = readdirSync(examplesFolder)
  .filter(file => file.endsWith('.axlewalk.json'))
  .map(file => file.replace('.axlewalk.json', ''));

const opened = new Map(names.map(name => [name, openExample(name)]));

function axleOf(name: string, axle: string): OpenedAxle {
  const found = [...(opened.get(name)?.values() ?? [])].find(one => one.axle.name === axle);
  if (!found) throw new Error(`${name} has no ${axle} axle`);
  return found;
}

test('all nine layouts are there', () => {
  expect(names).toEqual([
    'double-ram-front',
    'four-link-rear',
    'hung-tie-rod-front',
    'long-arm-front',
    'radius-arm-front',
    'short-arm-front',
    'triangulated-rear',
    'whole-vehicle',
    'wishbone-rear',
  ]);
});

describe.each(names)('%s', name => {
  const axles = [...(opened.get(name)?.values() ?? [])];

  test('says what it shows, and is written as a tape is read', () => {
    const file = JSON.parse(exampleText(name)) as { notes: string };
    expect(file.notes).toMatch(/^An invented .*Shows .*To find: /);
    expect(exampleText(name).match(/"-?(\d+ )?\d+\/\d+"/g)?.length).toBeGreaterThan(50);
    const { entries } = axles[0]?.build ?? { entries: [] };
    for (const from of ['measured', 'drawing', 'assumed']) {
      expect(entries.some(entry => entry.from === from)).toBe(true);
    }
    expect(entries.some(entry => entry.uses.length > 0)).toBe(true);
    expect(entries.some(entry => entry.tolerance !== null)).toBe(true);
  });

  test('has a range in one piece that stops end on all sides, and walks it', () => {
    for (const { build, axle, model } of axles) {
      const { range, reach } = findRange(build, axle, model);
      expect(range.holdsRide).toBe(true);
      expect(range.pieces).toBe(1);
      expect(range.unstopped).toEqual([]);
      expect(range.ends.map(end => end.by)).not.toContain('noPose');
      // what a long-travel solid axle does with both wheels, in: common practice, no source
      const up = furthest(reach, [0, 0], [1, 1]).left;
      const down = -furthest(reach, [0, 0], [-1, -1]).left;
      expect(up).toBeGreaterThan(4);
      expect(up).toBeLessThan(9);
      expect(down).toBeGreaterThan(4.5);
      expect(down).toBeLessThan(10);
      for (const walk of ['both', 'crossed-left-up', 'lock-to-lock'] as const) {
        expect(walkPoses(walk, range, reach)).toHaveLength(41);
      }
    }
  });

  test('breaks no limit at ride height', () => {
    for (const one of axles) expect(broken(one, one.model.ride)).toEqual([]);
  });

  describe('gives its summary', () => {
    const summary = summaryOf(name);

    test('with five numbers or more of an axle from the oracle', () => {
      for (const { axle } of axles) {
        const own = summary.filter(entry => entry.axle === axle.name && entry.from === 'oracle');
        expect(own.length).toBeGreaterThanOrEqual(5);
      }
    });

    const fromOracle = summary.filter(
      (entry): entry is MeasureEntry => isMeasure(entry) && entry.from === 'oracle',
    );
    // the same numbers, written to the last digit
    test.each(fromOracle)('the record holds: $what', entry => {
      expect(recorded(name, entry)).toEqual({ value: entry.value, unit: entry.unit });
    });

    // Tolerances: the oracle's numbers hold to 1e-10 of their size and ours to 1e-9 in of length, which
    // derivatives and angles raise by two orders: 1e-7, or 1e-6 where the number itself is over 100. Closed
    // forms: 1e-9, the rounding of coordinates near 100 in. Recorded ones are written to 1e-6.
    test.each(summary)('$from: $what', entry => {
      const { value, unit, by, part } = computed(entry, axleOf(name, entry.axle));
      expect(unit).toBe(entry.unit);
      expect(Math.abs((value ?? Number.NaN) - entry.value)).toBeLessThanOrEqual(entry.tolerance);
      if (isMeasure(entry)) return;
      expect(by).toBe(entry.by);
      // both sides end alike on an axle that is its own mirror image: then no part is named
      if (entry.part !== null) expect(part).toBe(entry.part);
    });
  });
});

/** The oracle's number for an entry, from its own record. */
function recorded(
  name: string,
  { axle, at, id, part, side }: MeasureEntry,
): { value: number | null; unit: string } {
  const pose = recordedCases(`${name}.json`)
    .find(one => one.axle.name === axle)
    ?.poses.find(
      p =>
        p.left_in === at.left_in &&
        p.right_in === at.right_in &&
        p.steer === (at.steer?.value ?? null),
    );
  const found = pose?.measures?.find(m => m.id === id && m.part === part && m.side === side);
  if (!found) throw new Error(`no record of ${id} at ${JSON.stringify(at)}`);
  return { value: found.value, unit: found.unit };
}

/** Limits that a pose breaks, as `limit part`. */
function broken({ build, axle, model }: OpenedAxle, pose: Pose): string[] {
  const context = new MeasureContext(build, axle, model, pose);
  return limits.flatMap(limit =>
    limit
      .targets(axle, build)
      .filter(target => (limit.margin(context, target) ?? 0) < 0)
      .map(target => `${limit.id} ${target.part}`),
  );
}

type Trouble = [
  example: string,
  axle: 'front' | 'rear',
  pose: [left: number, right: number, steer: number],
  limit: LimitId,
  part: string,
];

/** Steering in rad of pitman or in of ram rod. Each pose lies just inside the stops. */
const planted: Trouble[] = [
  ['long-arm-front', 'front', [8.8, -9.3, 0.66], 'lineLength', 'right brake hose'],
  ['short-arm-front', 'front', [9, -9.2, 0], 'jointMisalignment', 'left lower link.chassis'],
  ['short-arm-front', 'front', [-4.95, -5.1, 0], 'driveshaftJoint', 'driveshaft.transfer case'],
  ['triangulated-rear', 'rear', [-9.7, 10.5, 0], 'coilUnseated', 'left coil'],
  ['radius-arm-front', 'front', [7.8, -8.2, 0], 'jointMisalignment', 'left radius arm.chassis'],
  ['four-link-rear', 'rear', [-6.5, -6.2, 0], 'driveshaftJoint', 'driveshaft.transfer case'],
  ['wishbone-rear', 'rear', [9.8, -10.7, 0], 'jointMisalignment', 'left upper wishbone leg.axle'],
  ['double-ram-front', 'front', [5, 5, 4.45], 'axleShaftJoint', 'left knuckle'],
  ['double-ram-front', 'front', [-6.3, -6.3, 0], 'lineLength', 'left ram hose'],
  ['whole-vehicle', 'rear', [-5.45, -5.45, 0], 'driveshaftJoint', 'driveshaft.transfer case'],
  ['whole-vehicle', 'rear', [-5.45, -5.45, 0], 'lineLength', 'rear brake hose'],
];

test.each(planted)('%s, %s axle, at %j breaks %s of %s', (name, axle, pose, limit, part) => {
  const one = axleOf(name, axle);
  const found = broken(one, poseAt(one, ...pose));
  expect(found).toContain(`${limit} ${part}`);
  // and no stop is passed there, so that the range holds the pose
  const stops = limits.filter(one => one.role !== 'mustNot').map(one => one.id);
  expect(found.filter(each => stops.some(stop => each.startsWith(`${stop} `)))).toEqual([]);
});

const outOfBand: [string, 'front' | 'rear', string, [number, number, number]][] = [
  ['long-arm-front', 'front', 'bumpSteer', [5, -5, 0]],
  ['short-arm-front', 'front', 'bumpSteer', [-5, 5, 0]],
  ['triangulated-rear', 'rear', 'pinionChange', [5, 5, 0]],
  ['radius-arm-front', 'front', 'caster', [-5, -5, 0]],
  ['four-link-rear', 'rear', 'pinionChange', [5, 5, 0]],
  ['wishbone-rear', 'rear', 'axleSteer', [9, -9, 0]],
  ['hung-tie-rod-front', 'front', 'totalToeChange', [4.4, 4.4, -0.6]],
];

test.each(outOfBand)('%s, %s axle: %s leaves the wanted band at %j', (name, axleName, id, pose) => {
  const one = axleOf(name, axleName);
  const band = one.build.wanted.bands.find(b => b.measure === id && b.axle === axleName);
  const measure = measures.find(m => m.id === id);
  if (!band || !measure) throw new Error('no band or no measure');
  const target = measure.targets(one.axle, one.build)[0] ?? { part: null, side: null };
  const at = (p: Pose): number =>
    Number(measure.value(new MeasureContext(one.build, one.axle, one.model, p), target));
  const { least, greatest } = band;
  const isIn = (value: number): boolean =>
    value >= (least ?? Number.NEGATIVE_INFINITY) && value <= (greatest ?? Number.POSITIVE_INFINITY);
  expect(isIn(at(one.model.ride))).toBe(true);
  expect(isIn(at(poseAt(one, ...pose)))).toBe(false);
});

/** Gap of the drag link and the sphere of the differential, in. */
function dragLinkOverDifferential({ axle }: OpenedAxle, pose: Pose): number {
  const { dragLink } = axle.steering as NonNullable<Axle['steering']>;
  const { differential } = axle.housing;
  if (!dragLink || !differential) throw new Error('no drag link or no differential');
  const a = pose.point(dragLink.from.on, dragLink.from.at);
  const b = pose.point(dragLink.to.on, dragLink.to.at);
  const center: V3 = pose.point('axle', differential.center);
  const t = dot(sub(center, a), sub(b, a)) / dot(sub(b, a), sub(b, a));
  const foot: V3 = [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]), a[2] + t * (b[2] - a[2])];
  return distance(center, foot) - differential.radius - (dragLink.tube?.od ?? 0) / 2;
}

test.each(['long-arm-front', 'short-arm-front'])(
  '%s: the drag link enters the differential with both wheels up, not at ride height',
  name => {
    const one = axleOf(name, 'front');
    expect(dragLinkOverDifferential(one, one.model.ride)).toBeGreaterThan(2);
    expect(dragLinkOverDifferential(one, poseAt(one, 5, 5, 0))).toBeLessThan(-1 / 4);
  },
);

test('long and short arms differ in their links alone', () => {
  const [long, short] = ['long-arm-front', 'short-arm-front'].map(name => {
    const { name: _, notes, variants, alternatives, ...file } = JSON.parse(exampleText(name));
    for (const axle of file.axles) delete axle.links;
    const ofLinks = (pair: string[]) => pair.some(part => part.endsWith('link'));
    file.wanted.muted = file.wanted.muted.filter((m: { pair: string[] }) => !ofLinks(m.pair));
    return file;
  });
  expect(long).toEqual(short);
});

test('short arms are a variant of the long ones, and the same Build as the file that writes them out', () => {
  const [variant, written] = [
    openBuild(exampleText('long-arm-front'), { variant: 'short arms' }),
    openBuild(exampleText('short-arm-front')),
  ];
  if (!variant.ok || !written.ok) throw new Error('one of them is refused');
  const { variant: name, notes, ...build } = variant.build;
  const { variant: none, notes: others, ...same } = written.build;
  expect([name, none]).toEqual(['short arms', null]);
  expect(build).toEqual(same);
});
