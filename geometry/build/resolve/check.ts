/** What an axle has to have, and how axles stand to the vehicle at ride height. */

import type { EvaluatedFile } from '../schema/file.ts';

import type { Context } from './context.ts';

type AxleFile = EvaluatedFile['axles'][number];

/** Measured wheel heights may be this far off the loaded radius, in: what a tape on a tire can tell. */
const HEIGHT_SLACK_in = 0.25;

/** Rolls of two axles that differ less than this are one, rad. */
const SAME_ROLL_rad = 1e-9;

export function checkAxles(file: EvaluatedFile, context: Context): void {
  const names = file.axles.map(axle => axle.name);
  if (new Set(names).size < names.length) {
    context.misnamed('axles[1].name', names[1], 'both axles have this name', '"front" and "rear"');
  }
  for (const axle of file.axles) {
    const path = `axles["${axle.name}"]`;
    checkSteered(axle, path, context);
    checkBench(axle, path, context);
    checkHeights(axle, path, context);
  }
  checkParallel(file, context);
  if (context.frames.isCarried) {
    const { rake, roll, rideHeightChange } = file.measuredAt ?? {};
    const parts = [
      rake ? `a rake of ${degrees(rake)}` : '',
      roll ? `a roll of ${degrees(roll)}` : '',
      rideHeightChange ? `a change of ride height of ${inches(rideHeightChange)}` : '',
    ].filter(Boolean);
    context.warnings.push(
      `Chassis points were taped before ${parts.join(' and ')}, and are carried over to ride height.`,
    );
  }
}

function checkSteered(axle: AxleFile, path: string, context: Context): void {
  if (axle.steered && axle.name === 'rear') {
    context.misnamed(`${path}.steered`, true, 'a rear axle does not steer here', 'false');
    return;
  }
  for (const part of ['knuckles', 'steering'] as const) {
    if (axle.steered && !axle[part]) {
      context.misnamed(
        `${path}.${part}`,
        null,
        'missing on an axle that steers',
        `"${part}", or "steered": false`,
      );
    }
    if (!axle.steered && axle[part]) {
      context.misnamed(
        `${path}.${part}`,
        null,
        'the axle does not steer',
        `"steered": true, or no "${part}"`,
      );
    }
  }
}

function checkBench(axle: AxleFile, path: string, context: Context): void {
  if (axle.turned && axle.frame !== 'bench') {
    const wanted = '"frame": "bench" beside it, or no "turned"';
    context.misnamed(
      `${path}.turned`,
      degrees(axle.turned),
      'only points taped on the bench are turned',
      wanted,
    );
  }
  if (axle.frame === 'bench' && axle.wheelHeights) {
    const message = 'points taped on the bench do not hang on how the axle stood';
    context.misnamed(
      `${path}.wheelHeights`,
      null,
      message,
      'no wheel heights, or no "frame": "bench"',
    );
  }
}

function checkHeights(axle: AxleFile, path: string, context: Context): void {
  const heights = axle.wheelHeights;
  if (!heights) return;
  const { left, right } = heights;
  const at = `${path}.wheelHeights`;
  const mean = (left + right) / 2;
  if (Math.abs(mean - axle.tire.loadedRadius) > HEIGHT_SLACK_in) {
    const message = `their mean, ${inches(mean)}, is not the loaded radius, ${inches(axle.tire.loadedRadius)}`;
    context.misshapen(at, '', message, 'heights whose mean is the loaded radius to 1/4 in');
  }
  if (Math.abs(left - right) >= axle.wheelCenters) {
    context.misshapen(
      at,
      '',
      'they differ by more than the wheel centers are apart',
      'heights above the floor',
    );
  }
  if (left === right) return;
  const side = left > right ? 'left' : 'right';
  const roll = degrees(Math.abs(context.frames.rollOf(axle.name)));
  const what = `The ${axle.name} axle's ${side} wheel center was measured ${inches(Math.abs(left - right))} higher`;
  context.warnings.push(
    heights.difference === 'roll'
      ? `${what}: the chassis keeps ${roll} of roll against it at ride height.`
      : `${what}: its points are turned level by ${roll}.`,
  );
}

/** Axle axes are parallel to the vehicle's at ride height: a roll that is kept must be that of every axle. */
function checkParallel(file: EvaluatedFile, context: Context): void {
  const kept = file.axles.filter(axle => axle.wheelHeights?.difference === 'roll');
  const [first] = kept;
  if (first === undefined) return;
  const roll = context.frames.rollOf(first.name);
  for (const axle of file.axles) {
    const own = context.frames.rollOf(axle.name);
    const isKept = axle.wheelHeights?.difference === 'roll';
    if (axle === first || (isKept && Math.abs(own - roll) < SAME_ROLL_rad)) continue;
    context.misshapen(
      `axles["${axle.name}"].wheelHeights`,
      '',
      `the chassis keeps ${degrees(roll)} of roll against the ${first.name} axle and ${degrees(isKept ? own : 0)} against this one: both cannot be parallel to the vehicle's axes`,
      'the same roll on both axles, or "difference": "level"',
    );
  }
}

const degrees = (angle: number): string => `${Number(((angle * 180) / Math.PI).toFixed(3))} deg`;
const inches = (length: number): string => `${Number(length.toFixed(4))} in`;
