/**
 * How the drag link lies to the track bar: angles between their pivot lines seen from the front and from above,
 * and the difference of their lengths. Equal and parallel bars swing on like arcs: no bump steer (not: no steer
 * by roll). Closed-form case: bars of slopes a and b in front view: |atan a − atan b|.
 */
import type { Axle } from '../build/build.ts';
import { type Jet, type Jet3, minus, minus3, plus, product, times } from '../pose/jet.ts';
import type { Pose } from '../pose/pose.ts';
import { norm, sub, type V3 } from '../vector.ts';
import { arctangent, length3, slopeOf } from './derivative.ts';
import { AXLE_TARGET, type Measure, type Target } from './measure.ts';
import { type Ends, lengthEnds } from './span.ts';

const trackBar = (axle: Axle): number => axle.links.findIndex(link => link.kind === 'track bar');

const withBoth = (axle: Axle): Target[] =>
  axle.steering?.dragLink && trackBar(axle) >= 0 ? [...AXLE_TARGET] : [];

const line = (pose: Pose, { from, to }: Ends): V3 =>
  sub(pose.point(to.on, to.at), pose.point(from.on, from.at));
const lineJets = (pose: Pose, { from, to }: Ends): Jet3 =>
  minus3(pose.pointJets(to.on, to.at), pose.pointJets(from.on, from.at));

function bars(axle: Axle, pose: Pose): { dragLink: Ends; trackBar: Ends } {
  return {
    dragLink: axle.steering?.dragLink as Ends,
    trackBar: lengthEnds(pose, trackBar(axle)),
  };
}

/** Angle between two lines seen along an axis, by their parts a and b square to it. */
function seenAngle(id: string, label: string, from: string, a: 0 | 1 | 2, b: 0 | 1 | 2): Measure {
  return {
    id,
    unit: 'deg',
    label,
    definition: `Angle between the pivot lines of drag link and track bar, seen ${from}, 0 to 90°.`,
    source: 'common practice, no source (parallel drag link and track bar)',
    targets: withBoth,
    value: ({ axle, pose }) => {
      const both = bars(axle, pose);
      const d = line(pose, both.dragLink);
      const t = line(pose, both.trackBar);
      return Math.atan2(Math.abs(d[a] * t[b] - d[b] * t[a]), Math.abs(d[a] * t[a] + d[b] * t[b]));
    },
    slope: ({ axle, pose }) => {
      const both = bars(axle, pose);
      const d = lineJets(pose, both.dragLink);
      const t = lineJets(pose, both.trackBar);
      const across: Jet = minus(product(d[a], t[b]), product(d[b], t[a]));
      const along: Jet = plus(product(d[a], t[a]), product(d[b], t[b]));
      const [x, y] = [along[0] as number, across[0] as number];
      const whole = Math.hypot(x, y);
      // parallel or square to each other: kinks
      if (Math.abs(x) < 1e-9 * whole || Math.abs(y) < 1e-9 * whole) return null;
      return slopeOf(arctangent(times(across, Math.sign(y)), times(along, Math.sign(x))));
    },
  };
}

export const dragLinkToTrackBarFront = seenAngle(
  'dragLinkToTrackBarFront',
  'drag link to track bar, front view',
  'from the front',
  1,
  2,
);
export const dragLinkToTrackBarPlan = seenAngle(
  'dragLinkToTrackBarPlan',
  'drag link to track bar, from above',
  'from above',
  0,
  1,
);

export const dragLinkMinusTrackBar: Measure = {
  id: 'dragLinkMinusTrackBar',
  unit: 'in',
  label: 'drag link longer than track bar',
  definition: 'Pivot-to-pivot length of the drag link less that of the track bar.',
  source: 'geometry',
  targets: withBoth,
  value: ({ axle, pose }) => {
    const both = bars(axle, pose);
    return norm(line(pose, both.dragLink)) - norm(line(pose, both.trackBar));
  },
  slope: ({ axle, pose }) => {
    const both = bars(axle, pose);
    return slopeOf(
      minus(length3(lineJets(pose, both.dragLink)), length3(lineJets(pose, both.trackBar))),
    );
  },
};
