/** Slack of hoses and wiring: free length less the chord. Closed-form case: Pythagoras, both ends fixed. */
import type { Axle, Line } from '../build/build.ts';
import type { Pose } from '../pose/pose.ts';
import { slopeOf } from './derivative.ts';
import type { Measure } from './measure.ts';
import { spanJet, spanLength } from './span.ts';

const lineOf = (axle: Axle, part: string | null): Line =>
  axle.lines.find(line => line.name === part) as Line;

/** The body of an end that a pose does not place (a link, whose roll is free; a spring), or null. */
const unplaced = (pose: Pose, line: Line): string | null =>
  [line.from.on, line.to.on].find(on => !isPlaced(pose, on)) ?? null;

function isPlaced({ turn, mechanism: { steering, arms, points } }: Pose, on: string): boolean {
  if (on === 'chassis' || on === 'axle') return true;
  if ([...arms, ...points].some(body => body.name === on)) return true;
  if (!steering || !turn) return false;
  if (on === 'left knuckle' || on === 'right knuckle') return true;
  if (on === 'pitman arm') return steering.pitman !== null;
  if (on === 'ram rod') return steering.ramAxis !== null;
  return steering.rods.some(rod => rod.name === on || rod.kind === on);
}

export const lineSlack: Measure = {
  id: 'lineSlack',
  unit: 'in',
  label: 'slack',
  definition: 'Free length of a hose or wire less the straight distance between its ends.',
  source: 'geometry',
  targets: axle => axle.lines.map(line => ({ part: line.name, side: null })),
  value: ({ axle, pose }, { part }) => {
    const line = lineOf(axle, part);
    const body = unplaced(pose, line);
    if (body !== null)
      return { missing: `its end rides on the ${body}, which a pose does not place` };
    return line.length - spanLength(pose, line);
  },
  slope: ({ axle, pose }, { part }) => {
    const line = lineOf(axle, part);
    return unplaced(pose, line) === null ? slopeOf(spanJet(pose, line), -1) : null;
  },
};
