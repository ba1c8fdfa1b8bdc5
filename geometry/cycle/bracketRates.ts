/**
 * What hangs on the rates of the brackets, which nobody measures: the same pose with half of each and with
 * twice of it.
 */
import { steerOf } from '../measure/wheel.ts';
import { assemble } from '../mechanism/assemble.ts';
import type { Pose, PoseInput } from '../pose/pose.ts';
import { type OpenedAxle, openAxle } from './openAxle.ts';
import { type Bind, bindOf, poseJoints, poseLengths, posePoints } from './poseLengths.ts';

/** Bind and steer at a pose; null where that pose does not exist. */
export type BracketResult = (Bind & { meanSteer_deg: number }) | null;

export interface BracketRates {
  half: BracketResult;
  twice: BracketResult;
}

/** A length's or bushing's rate as it stands, with half and with twice of its brackets' rates. */
export interface RateSpread {
  name: string;
  rate_lbf_per_in: number;
  half_lbf_per_in: number;
  twice_lbf_per_in: number;
}

/** True where the layout is compliant and a bracket's rate is in what holds it. */
export function hasBracketRates({ axle, model }: OpenedAxle): boolean {
  if (model.mechanism.exact) return false;
  const links = axle.links.filter(link => link.rate === null);
  const ends = [
    ...links.flatMap(link => [link.axle, link.chassis]),
    ...axle.radiusArms.flatMap(arm => [...arm.axle, arm.chassis]),
  ];
  return ends.some(end => end.rates.bracket !== null);
}

/** The pose with half and with twice the brackets' rates; null where none is given. */
export function bracketRates(opened: OpenedAxle, input: PoseInput): BracketRates | null {
  if (!hasBracketRates(opened)) return null;
  const at = (bracketFactor: number): BracketResult => {
    const other = openAxle(opened.build, opened.axle, { bracketFactor });
    const pose = other.ok ? other.axle.model.pose(input.left, input.right, input.steer).pose : null;
    return pose && resultOf(pose);
  };
  return { half: at(0.5), twice: at(2) };
}

/** How far each rate moves with its brackets; empty where no bracket's rate is given. */
export function rateSpreads(opened: OpenedAxle): RateSpread[] {
  if (!hasBracketRates(opened)) return [];
  const [as, half, twice] = [1, 0.5, 2].map(factor => ratesOf(opened, factor));
  return (as ?? []).map(({ name, rate }, i) => ({
    name,
    rate_lbf_per_in: rate,
    half_lbf_per_in: half?.[i]?.rate ?? rate,
    twice_lbf_per_in: twice?.[i]?.rate ?? rate,
  }));
}

function ratesOf({ axle }: OpenedAxle, bracketFactor: number): { name: string; rate: number }[] {
  const assembly = assemble(axle, { bracketFactor });
  if (!assembly.ok) return [];
  const { lengths, arms } = assembly.mechanism;
  return [
    ...lengths.names.map((name, i) => ({ name, rate: lengths.rates[i] as number })),
    ...arms.flatMap(arm => arm.joints.map(({ name, radial }) => ({ name, rate: radial }))),
  ];
}

function resultOf(pose: Pose): BracketResult {
  const lengths = poseLengths(pose, posePoints(pose));
  const mean = (steerOf(pose, 'left') + steerOf(pose, 'right')) / 2;
  return { ...bindOf(lengths, poseJoints(pose)), meanSteer_deg: (mean * 180) / Math.PI };
}
