/** A person who starts a build with a tape, played by an example: the answers are read off its numbers. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { WalkedAxle } from '../../geometry/advice/sensitivity.ts';
import { type Json, pathSteps, valueAt, withValue } from '../../geometry/build/address.ts';
import type { Build, Vec3 } from '../../geometry/build/build.ts';
import { problemLines } from '../../geometry/build/read.ts';
import type { BuildFile } from '../../geometry/build/schema/file.ts';
import type { Answer, Start } from '../../geometry/build/start/answers.ts';
import { type AxleChoice, axleChoice } from '../../geometry/build/start/layouts.ts';
import { propose } from '../../geometry/build/start/propose.ts';
import { type OpenedBuild, openBuild } from '../../geometry/cycle/open.ts';
import { walkAxle } from '../../geometry/cycle/walkReport.ts';
import { type Finding, findFindings } from '../../geometry/finding/finding.ts';
import { gapsOf } from '../../geometry/gap/gapReport.ts';

const EXAMPLES = join(import.meta.dirname, '../../examples');

/** An example as somebody stands beside it: which layout it is, and how its parts are called in a proposal. */
export interface Vehicle {
  example: string;
  choice: Partial<AxleChoice> & { name: AxleChoice['name'] };
  /** Names in the example that a proposal has otherwise: the proposal's name first. */
  called: Record<string, string>;
  /** Solids that the person has in view, as a proposal calls them. */
  near: string[];
}

export const noMeshes = () => ({ problem: 'no meshes in these examples' });

/** The example with its parts called as a proposal calls them. */
export function exampleFile({ example, called }: Vehicle): BuildFile {
  const text = readFileSync(join(EXAMPLES, `${example}.axlewalk.json`), 'utf8');
  const renamed = Object.entries(called).reduce(
    (all, [to, from]) => all.replaceAll(from, to),
    text,
  );
  return JSON.parse(renamed) as BuildFile;
}

export function openedFile(file: object): OpenedBuild {
  const opened = openBuild(JSON.stringify(file));
  if (!opened.ok) throw new Error(problemLines(opened.problems).join('\n'));
  return opened;
}

/** Walks every axle with its gaps. */
export function walked(opened: OpenedBuild): { axles: WalkedAxle[]; findings: Finding[] } {
  const axles = opened.axles.map(
    (
      { build, axle, model },
      i,
    ): { walk: WalkedAxle['walk']; gaps: NonNullable<WalkedAxle['gaps']> } => {
      const walk = walkAxle(build, axle, model, { extremes: false, path: 'both' });
      return { walk, gaps: gapsOf(walk, { readMesh: noMeshes, still: i === 0 }) };
    },
  );
  const findings = findFindings(
    opened.build,
    axles.map(({ walk }) => walk),
    axles.map(({ gaps }) => gaps),
  );
  return { axles, findings };
}

/** To the nearest eighth, as the start is taped. */
const eighths = (inches: number): string => String(Math.round(inches * 8) / 8);

const apart = (a: Vec3, b: Vec3): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

/** The starting measurements of a vehicle with one axle, read off its build to the nearest eighth of an inch. */
export function startOf({ choice, near, example }: Vehicle, build: Build): Start {
  const axle = build.axles[0];
  if (!axle) throw new Error('an axle');
  const link = (own: string) =>
    axle.links.find(({ name }) => name === own || name === `left ${own}`);
  const [lower, upper, bar] = [
    link('lower link'),
    link(choice.links === 'wishbone' ? 'upper wishbone leg' : 'upper link'),
    link('track bar'),
  ];
  const arm = axle.radiusArms[0];
  const answers: Record<string, Answer> = {};
  const tell = (id: string, value: number): void => {
    answers[id] = { value: eighths(value) };
  };
  const own = (what: string): string => `${axle.name}.${what}`;
  tell('wheelbase', build.wheelbase);
  tell(own('wheelHeight'), axle.tire.loadedRadius);
  tell(own('tireHeight'), axle.tire.diameter);
  tell(own('wheelCenters'), axle.wheelCenters);
  const rail = build.solids.find(({ name: solid }) => solid === 'left rail');
  if (rail?.shape.kind === 'box') {
    tell(own('railOutside'), 2 * (rail.shape.center[1] + rail.shape.size[1] / 2));
    tell(own('railBottom'), rail.shape.center[2] - rail.shape.size[2] / 2);
  }
  if (lower) {
    tell(own('lowerAxleHeight'), lower.axle.at[2]);
    tell(own('lowerFrameHeight'), lower.chassis.at[2]);
    tell(own('lowerLength'), apart(lower.axle.at, lower.chassis.at));
  } else if (arm) {
    const middle = arm.axle[0].at.map(
      (v, i) => (v + (arm.axle[1].at[i] ?? 0)) / 2,
    ) as unknown as Vec3;
    tell(own('lowerAxleHeight'), middle[2]);
    tell(own('lowerFrameHeight'), arm.chassis.at[2]);
    tell(own('lowerLength'), apart(middle, arm.chassis.at));
  }
  if (upper) {
    tell(own('upperAxleHeight'), upper.axle.at[2]);
    tell(own('upperFrameHeight'), upper.chassis.at[2]);
    tell(own('upperLength'), apart(upper.axle.at, upper.chassis.at));
  }
  if (bar) {
    tell(own('barFrameHeight'), bar.chassis.at[2]);
    tell(own('barAxleHeight'), bar.axle.at[2]);
  }
  const [stop] = axle.bumpStops;
  if (stop) tell(own('bumpGap'), Math.abs(stop.pad.at[2] - stop.strike.at[2]) - stop.contactHeight);
  const pinion = axle.driveline?.pinion;
  if (pinion) {
    const up = (Math.asin(pinion.axis[2]) * 180) / Math.PI;
    answers[own('pinionAngle')] = { value: `${Math.round(2 * up) / 2} deg` };
  }
  return {
    name: example,
    unit: 'in',
    layout: { axles: [axleChoice(choice.name, choice)], driverSide: build.driverSide },
    answers,
    near,
  };
}

/**
 * A proposal to be completed from the example: the wishes are those of the person, not of the rules, and the
 * example's named dimensions and datums stand in it, since its fields are written with them. Nothing refers to them
 * before it is taped.
 */
export function proposedFor(vehicle: Vehicle, example: BuildFile): BuildFile {
  const { build } = openedFile(example);
  const { file, problems } = propose(startOf(vehicle, build));
  if (problems.length > 0) throw new Error(problemLines(problems).join('\n'));
  const { dimensions, datums, wanted } = example;
  return {
    ...file,
    ...(dimensions ? { dimensions } : {}),
    ...(datums ? { datums } : {}),
    wanted,
  } as BuildFile;
}

export interface Taping {
  example: BuildFile;
  file: BuildFile;
  /** Paths that were answered; what stands there counts as settled. */
  taped: Set<string>;
}

/**
 * Tapes one spot: what the example has there takes the place of what was proposed. Null where the example has
 * nothing there.
 */
export function tape(taping: Taping, spot: string): Taping {
  const { file, example, taped } = taping;
  const steps = pathSteps(file, spot);
  const from = pathSteps(example, spot);
  const there = from === null ? undefined : valueAt(example, from);
  const next = new Set(taped).add(spot);
  if (steps === null) return { ...taping, taped: next };
  if (there === undefined || there === null) return { ...taping, taped: next };
  const changed = withValue(file, steps, merged(valueAt(file, steps), there));
  return { ...taping, file: (changed ?? file) as BuildFile, taped: next };
}

/** What is taped in place of what was proposed: points and numbers; names, kinds and joints stay the proposal's. */
function merged(now: unknown, there: unknown): unknown {
  const isPoint = (value: unknown): boolean =>
    typeof value !== 'object' ||
    value === null ||
    Array.isArray(value) ||
    'value' in value ||
    'by' in value;
  if (isPoint(now) || isPoint(there)) return there;
  const result: Record<string, unknown> = { ...(now as Json) };
  for (const [key, value] of Object.entries(there as Json)) {
    if (['name', 'sides', 'kind', 'notes', 'holdsRoll'].includes(key)) continue;
    if (key === 'joint' && typeof value === 'string') continue;
    result[key] = value;
  }
  // what is straight has no bends
  if ('through' in result && !('through' in (there as Json))) delete result.through;
  // of a solid there is one shape
  const shapes = ['box', 'bentTube', 'hull', 'cylinder', 'capsule', 'sphere'];
  const shape = shapes.find(each => each in (there as Json));
  if (shape) for (const each of shapes) if (each !== shape) delete result[each];
  return result;
}
