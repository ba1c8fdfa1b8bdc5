/**
 * Camber of each wheel. Closed-form case: a wheel turned by τ about a kingpin axis of caster and kingpin
 * inclination κ, drawn level and upright; its spin axis by Rodrigues gives the camber exactly
 * (small angles: camber₀ + κ (1 − cos τ) + caster · sin τ, left wheel; Dixon, Reimpell, from memory).
 */
import { inner } from '../pose/jet.ts';
import { dot } from '../vector.ts';
import { arcsine, slopeOf } from './derivative.ts';
import { groundNormal, groundNormalJets } from './ground.ts';
import { type Measure, WHEEL_TARGETS } from './measure.ts';
import { outboard, type Side, spinAxis, spinAxisJets } from './wheel.ts';

export const camber: Measure = {
  id: 'camber',
  unit: 'deg',
  label: 'camber',
  definition:
    "Inclination of the wheel to the axle's ground plane: −asin of the outboard spin axis along the plane's normal; + top outboard.",
  source: 'ISO 8855:2011 (camber angle; from memory), against the ground line of the axle',
  targets: () => [...WHEEL_TARGETS],
  value: ({ pose }, { side }) =>
    -outboard(side as Side) * Math.asin(dot(spinAxis(pose, side as Side), groundNormal(pose))),
  slope: ({ pose }, { side }) =>
    slopeOf(
      arcsine(inner(spinAxisJets(pose, side as Side), groundNormalJets(pose))),
      -outboard(side as Side),
    ),
};
