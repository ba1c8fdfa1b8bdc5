/** Rate of a link with its joints and brackets, lbf/in: a series of springs along the link's line. */
import type { JointEnd, Link, Tube } from '../build/build.ts';
import { distance, dot, sub, unit } from '../vector.ts';

/** Young's modulus of steel, lbf/in² (Shigley's tables round it to 29e6 or 30e6; from memory). */
export const STEEL_MODULUS = 29e6;

/** Tube taken for a link that names none: 2 in × 1/4 in. Common practice, no source. */
export const ASSUMED_TUBE: Tube = { od: 2, wall: 0.25 };

/** Radial rate of a radius arm's joint that names none, lbf/in. Common practice, no source. */
export const ASSUMED_ARM_JOINT_RATE = 400_000;

/** Cross-section of a tube, in²; a rod where no wall is given. */
export function tubeArea(tube: Tube): number {
  const inner = tube.wall === null ? 0 : Math.max(0, tube.od - 2 * tube.wall);
  return (Math.PI / 4) * (tube.od ** 2 - inner ** 2);
}

/**
 * 1/k of one end along the link: sin²θ/k_radial + cos²θ/k_axial + 1/k_bracket, θ between bolt and line.
 * A rate that is not given gives nothing; an axial one that is not given is taken as the radial one.
 * `includeJoint` is false where the joint is a shared one with a spring of its own.
 */
export function endCompliance(
  end: JointEnd,
  along: readonly [number, number, number],
  includeJoint: boolean,
): number {
  let compliance = end.rates.bracket === null ? 0 : 1 / end.rates.bracket;
  if (!includeJoint || end.rates.radial === null) return compliance;
  const cos = end.bolt ? dot(end.bolt, along) : 0;
  const axial = end.rates.axial ?? end.rates.radial;
  compliance += (1 - cos * cos) / end.rates.radial + (cos * cos) / axial;
  return compliance;
}

/**
 * Total rate of a link, lbf/in: the entered one, or the series of its tube, EA/L, and both ends.
 *
 * @param bracketFactor multiplies every bracket's rate (½ and 2 show what hangs on that assumption)
 */
export function linkRate(
  link: Link,
  givesAt: { axle: boolean; chassis: boolean },
  bracketFactor = 1,
): number {
  if (link.rate !== null) return link.rate;
  const length = distance(link.axle.at, link.chassis.at);
  const along = unit(sub(link.chassis.at, link.axle.at));
  const tube = link.tube ?? ASSUMED_TUBE;
  const scaled = (end: JointEnd): JointEnd => ({
    ...end,
    rates: {
      ...end.rates,
      bracket: end.rates.bracket === null ? null : end.rates.bracket * bracketFactor,
    },
  });
  return (
    1 /
    (length / (link.modulus * tubeArea(tube)) +
      endCompliance(scaled(link.axle), along, !givesAt.axle) +
      endCompliance(scaled(link.chassis), along, !givesAt.chassis))
  );
}
