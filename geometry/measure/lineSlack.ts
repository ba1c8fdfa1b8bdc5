/**
 * Slack of hoses and wiring, free length less the chord, and the radius of the arc in which they hang. Closed-form
 * cases: Pythagoras, both ends fixed; half a circle, whose length is π/2 chords.
 */
import type { Axle, Line } from '../build/build.ts';
import type { Pose } from '../pose/pose.ts';
import { arcOverChord } from './arcOverChord.ts';
import { slopeOf } from './derivative.ts';
import type { Measure, Reading } from './measure.ts';
import { spanJet, spanLength } from './span.ts';

const lineOf = (axle: Axle, part: string | null): Line =>
  axle.lines.find(line => line.name === part) as Line;

/** The body of an end that a pose does not place (a link, whose roll is free; a spring), or null. */
const unplaced = (pose: Pose, line: Line): string | null =>
  [line.from.on, line.to.on].find(on => !isPlaced(pose, on)) ?? null;

function isPlaced(
  { turn, mechanism: { steering, swayArms, arms, points } }: Pose,
  on: string,
): boolean {
  if (on === 'chassis' || on === 'axle') return true;
  if ([...arms, ...points, ...swayArms].some(body => body.name === on)) return true;
  if (!steering || !turn) return false;
  if (on === 'left knuckle' || on === 'right knuckle') return true;
  if (on === 'pitman arm') return steering.pitman !== null;
  if (on === 'ram rod') return steering.ramAxis !== null;
  return steering.rods.some(rod => rod.name === on || rod.kind === on);
}

function notPlaced(pose: Pose, line: Line): Reading | null {
  const body = unplaced(pose, line);
  if (body === null) return null;
  return { missing: `its end rides on the ${body}, which a pose does not place` };
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
    return notPlaced(pose, line) ?? line.length - spanLength(pose, line);
  },
  slope: ({ axle, pose }, { part }) => {
    const line = lineOf(axle, part);
    return unplaced(pose, line) === null ? slopeOf(spanJet(pose, line), -1) : null;
  },
};

export const lineBendRadius: Measure = {
  id: 'lineBendRadius',
  unit: 'in',
  label: 'bend radius as a plain arc',
  definition:
    'Radius of the circular arc of the free length over the straight distance between the ends of a hose or wire, at its center line; how its ends point is ignored.',
  source: 'geometry; that a line hangs as an arc is assumed',
  targets: lineSlack.targets,
  value: ({ axle, pose }, { part }) => {
    const line = lineOf(axle, part);
    const missing = notPlaced(pose, line);
    if (missing !== null) return missing;
    return arcOverChord(line.length, spanLength(pose, line))?.radius ?? PULLED_STRAIGHT;
  },
  slope: ({ axle, pose }, { part }) => {
    const line = lineOf(axle, part);
    if (unplaced(pose, line) !== null) return null;
    const chord = spanJet(pose, line);
    const arc = arcOverChord(line.length, chord[0] as number);
    return arc && slopeOf(chord, arc.byChord);
  },
};

const PULLED_STRAIGHT: Reading = { missing: 'it is pulled straight here' };
