/**
 * Lengths, joints and points of a solved pose as tables, worked out from where the bodies are and not from
 * the solver's own equations: a second witness of what it found.
 */
import type { Pose } from '../pose/pose.ts';
import { distance, dot, norm, scale, sub, type V3 } from '../vector.ts';

/** A part with a length: links, track bar, steering rods, rams, shocks. */
export interface PoseLength {
  name: string;
  kind: 'link' | 'track bar' | 'drag link' | 'tie rod' | 'ram' | 'shock';
  /** Keys of `points`. */
  from: string;
  to: string;
  /** Between its two points at this pose. */
  length_in: number;
  /** Length less free length, + is tension; 0 where the length is exact, or holds nothing. */
  stretch_in: number;
  force_lbf: number;
}

/** A bushing of a radius arm, or a shared joint that gives. */
export interface PoseJoint {
  name: string;
  /** Distance of the joint's two halves. */
  offset_in: number;
  force_lbf: number;
}

/** What is stretched furthest, and what is loaded most: seldom the same. Zeros where nothing gives. */
export interface Bind {
  stretch_in: number;
  stretchOf: string | null;
  force_lbf: number;
  forceOf: string | null;
}

/** Every `part.end`, vehicle axes, in. */
export function posePoints(pose: Pose): Record<string, V3> {
  return Object.fromEntries(
    pose.mechanism.named.map(({ name, on, at }) => [name, pose.point(on, at)]),
  );
}

/** Every length, from its two points alone; the rates are those fixed at ride height. */
export function poseLengths(pose: Pose, points: Readonly<Record<string, V3>>): PoseLength[] {
  const { lengths, exact, steering, spans } = pose.mechanism;
  const between = (from: string, to: string): number => distance(at(points, from), at(points, to));
  const held = lengths.names.map((name, i): PoseLength => {
    const from = lengths.axleNames[i] as string;
    const to = lengths.chassisNames[i] as string;
    const length_in = between(from, to);
    const stretch_in = exact ? 0 : length_in - (lengths.free[i] as number);
    const force_lbf = exact ? 0 : stretch_in * (lengths.rates[i] as number);
    const kind = lengths.kinds[i] as 'link' | 'track bar';
    return { name, kind, from, to, length_in, stretch_in, force_lbf };
  });
  const rods = [
    ...(steering?.rods ?? []).map(({ name, kind, from, to }) => ({ name, kind, from, to })),
    ...spans,
  ].map(({ name, kind, from, to }): PoseLength => {
    const length_in = between(from.name, to.name);
    return { name, kind, from: from.name, to: to.name, length_in, stretch_in: 0, force_lbf: 0 };
  });
  return [...held, ...rods];
}

/** The largest error of a length that the solver holds exactly; 0 where there is none. */
export function residual(pose: Pose, lengths: readonly PoseLength[]): number {
  const { mechanism } = pose;
  const wanted = new Map<string, number>();
  if (mechanism.exact) {
    for (const [i, name] of mechanism.lengths.names.entries()) {
      wanted.set(name, mechanism.lengths.free[i] as number);
    }
  }
  for (const rod of mechanism.steering?.rods ?? []) wanted.set(rod.name, rod.length);
  const errors = lengths.map(({ name, length_in }) => {
    const free = wanted.get(name);
    return free === undefined ? 0 : Math.abs(length_in - free);
  });
  return Math.max(0, ...errors);
}

/**
 * Bushings of radius arms: d from the bracket's half to the arm's, F = k_r d + (k_a − k_r) (b·d) b with b the
 * bolt axis (the energy of design: ½ k_r |d|² + ½ (k_a − k_r) (b·d)²). Shared joints that give: F = k d.
 */
export function poseJoints(pose: Pose): PoseJoint[] {
  const { arms, points } = pose.mechanism;
  const bushings = arms.flatMap(arm =>
    arm.joints.map(({ name, on, at, bolt, radial, axial }): PoseJoint => {
      const d = sub(pose.point(arm.name, at), pose.point(on, at));
      const b = pose.direction(on, bolt);
      const along = dot(b, d);
      const across = sub(d, scale(b, along));
      return {
        name,
        offset_in: norm(d),
        force_lbf: Math.hypot(radial * norm(across), axial * along),
      };
    }),
  );
  const shared = points.map(({ name, on, home, rate }): PoseJoint => {
    const { origin } = pose.mechanism;
    const drawn: V3 =
      on === 'axle' ? [home[0] + origin[0], home[1] + origin[1], home[2] + origin[2]] : home;
    const offset_in = distance(pose.point(name, drawn), pose.point(on, drawn));
    return { name, offset_in, force_lbf: offset_in * rate };
  });
  return [...bushings, ...shared];
}

export function bindOf(lengths: readonly PoseLength[], joints: readonly PoseJoint[]): Bind {
  const bind: Bind = { stretch_in: 0, stretchOf: null, force_lbf: 0, forceOf: null };
  const take = (name: string, stretch: number, force: number): void => {
    if (Math.abs(stretch) > Math.abs(bind.stretch_in)) {
      bind.stretch_in = stretch;
      bind.stretchOf = name;
    }
    if (Math.abs(force) > Math.abs(bind.force_lbf)) {
      bind.force_lbf = force;
      bind.forceOf = name;
    }
  };
  for (const { name, stretch_in, force_lbf } of lengths) take(name, stretch_in, force_lbf);
  for (const { name, offset_in, force_lbf } of joints) take(name, offset_in, force_lbf);
  return bind;
}

function at(points: Readonly<Record<string, V3>>, name: string): V3 {
  const point = points[name];
  if (!point) throw new Error(`no point is called '${name}'`);
  return point;
}
