/** The summaries beside the examples: numbers that a build must give, and how they are computed. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { AxleName, Side } from '../../geometry/build/build.ts';
import { furthest } from '../../geometry/cycle/edge.ts';
import { openBuild } from '../../geometry/cycle/open.ts';
import type { OpenedAxle } from '../../geometry/cycle/openAxle.ts';
import { Reach } from '../../geometry/cycle/reach.ts';
import { measures } from '../../geometry/measure/list.ts';
import { MeasureContext, SHOWN } from '../../geometry/measure/measure.ts';
import type { Pose } from '../../geometry/pose/pose.ts';

interface Common {
  what: string;
  axle: AxleName;
  part: string | null;
  side: Side | null;
  /** In `unit`, as shown. */
  value: number;
  unit: string;
  tolerance: number;
  /** oracle: from its record. closed form: worked in `why`. recorded: what the code gave once. */
  from: 'oracle' | 'closed form' | 'recorded';
  why: string;
}

export interface SteerAt {
  value: number;
  unit: 'deg' | 'in';
}

/** A measure at a pose. */
export interface MeasureEntry extends Common {
  id: string;
  at: { left_in: number; right_in: number; steer: SteerAt | null };
}

/** How far the travel goes along a direction in left × right travel from ride height, and what ends it. */
export interface FurthestEntry extends Common {
  id: 'furthest';
  along: [number, number];
  by: string;
}

/** How far the steering goes at ride height, and what ends it. */
export interface SteeringEndEntry extends Common {
  id: 'steeringEnd';
  turned: Side;
  by: string;
}

export type SummaryEntry = MeasureEntry | FurthestEntry | SteeringEndEntry;

export const examplesFolder = fileURLToPath(new URL('../../examples/', import.meta.url));

export const isMeasure = (entry: SummaryEntry): entry is MeasureEntry => 'at' in entry;

export const summaryOf = (name: string): SummaryEntry[] =>
  JSON.parse(readFileSync(`${examplesFolder}${name}.summary.json`, 'utf8'));

export const exampleText = (name: string): string =>
  readFileSync(`${examplesFolder}${name}.axlewalk.json`, 'utf8');

/** The axles of an example, by name. @throws where it has a problem */
export function openExample(name: string): Map<AxleName, OpenedAxle> {
  const opened = openBuild(exampleText(name));
  if (!opened.ok) throw new Error(`${name}: ${JSON.stringify(opened.problems)}`);
  return new Map(opened.axles.map(one => [one.axle.name, one]));
}

/** Steering input as shown → rad of pitman or in of ram rod. */
export const steerInput = (steer: SteerAt | null): number =>
  steer === null ? 0 : steer.unit === 'deg' ? steer.value / SHOWN.deg : steer.value;

/** The pose of an axle. @throws where there is none */
export function poseAt({ model }: OpenedAxle, left: number, right: number, steer: number): Pose {
  const { pose, status, part } = model.pose(left, right, steer);
  if (!pose) throw new Error(`${left}/${right} at ${steer}: ${status}, ${part}`);
  return pose;
}

export interface Computed {
  value: number | null;
  unit: string;
  /** What ends it, for entries of ends. */
  by?: string;
  part?: string | null;
}

/** What the code gives for an entry. */
export function computed(entry: SummaryEntry, opened: OpenedAxle): Computed {
  const { build, axle, model } = opened;
  if (isMeasure(entry)) {
    const { left_in, right_in, steer } = entry.at;
    const measure = measures.find(one => one.id === entry.id);
    if (!measure) throw new Error(`no measure ${entry.id}`);
    const context = new MeasureContext(
      build,
      axle,
      model,
      poseAt(opened, left_in, right_in, steerInput(steer)),
    );
    const { part, side } = entry;
    if (!measure.targets(axle, build).some(t => t.part === part && t.side === side)) {
      throw new Error(`${entry.id} is not there for ${part ?? side ?? 'the axle'}`);
    }
    const reading = measure.value(context, { part, side });
    const value = typeof reading === 'number' ? reading * SHOWN[measure.unit] : null;
    return { value, unit: measure.unit };
  }
  const reach = new Reach(build, axle, model);
  if (entry.id === 'furthest') {
    const { left, by, part } = furthest(reach, [0, 0], entry.along);
    return { value: Math.abs(left), unit: 'in', by, part };
  }
  const interval = reach.steering(model.ride);
  if (!interval) throw new Error('no steering at ride height');
  const { value, by, part } = entry.turned === 'left' ? interval.greatest : interval.least;
  const isAngle = model.mechanism.steering?.unit === 'rad';
  return { value: isAngle ? value * SHOWN.deg : value, unit: isAngle ? 'deg' : 'in', by, part };
}
