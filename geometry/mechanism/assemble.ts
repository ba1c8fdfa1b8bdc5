/**
 * Build → Mechanism: what the solver needs of one axle. Whether the layout has a pose at all, and which
 * motions it leaves free, is found by `geometry/pose/settle.ts`.
 */
import type { Axle, JointEnd, Link, RadiusArm, Vec3 } from '../build/build.ts';
import type { Problem } from '../build/problem.ts';
import { add, distance, dot, scale, sub } from '../vector.ts';
import type {
  Arm,
  ArmJoint,
  BodyPoint,
  GivingPoint,
  Mechanism,
  Span,
  SwayArm,
  Wheel,
} from './mechanism.ts';
import { ASSUMED_ARM_JOINT_RATE, linkRate } from './rates.ts';
import { assembleSteering } from './steering.ts';
import { swayNames } from './swayBar.ts';

export type Assembly = { ok: true; mechanism: Mechanism } | { ok: false; problems: Problem[] };

export interface AssembleOptions {
  /** Multiplies every bracket's rate, to show what hangs on it. */
  bracketFactor?: number;
}

/**
 * Assembles the mechanism of one axle of a build.
 *
 * @returns the mechanism, or what is wrong with the steering's layout
 */
export function assemble(axle: Axle, options: AssembleOptions = {}): Assembly {
  const origin = axle.origin;
  const local = (p: Vec3): Vec3 => sub(p, origin);
  const exact = axle.radiusArms.length === 0 && axle.links.length <= 4;

  const points: GivingPoint[] = [];
  const giving = new Map<string, number>();
  if (!exact) {
    for (const joint of axle.sharedJoints) {
      if (joint.rates.radial === null) continue;
      giving.set(joint.name, points.length);
      points.push({
        name: joint.name,
        on: joint.on,
        home: joint.on === 'axle' ? local(joint.at) : joint.at,
        rate: joint.rates.radial,
      });
    }
  }
  const shared = (end: JointEnd): number =>
    end.shared === null ? -1 : (giving.get(end.shared) ?? -1);

  const n = axle.links.length;
  const lengths: Mechanism['lengths'] = {
    names: axle.links.map(link => link.name),
    kinds: axle.links.map(link => link.kind),
    axleNames: axle.links.map(link => link.axle.name),
    chassisNames: axle.links.map(link => link.chassis.name),
    axlePoints: Float64Array.from(axle.links.flatMap(link => [...local(link.axle.at)])),
    chassisPoints: Float64Array.from(axle.links.flatMap(link => [...link.chassis.at])),
    drawn: Float64Array.from(axle.links, drawnLength),
    free: Float64Array.from(axle.links, link => link.length ?? drawnLength(link)),
    rates: new Float64Array(n),
    axleShared: Int32Array.from(axle.links, link => shared(link.axle)),
    chassisShared: Int32Array.from(axle.links, link => shared(link.chassis)),
  };
  for (const [i, link] of axle.links.entries()) {
    lengths.rates[i] = linkRate(
      link,
      { axle: shared(link.axle) >= 0, chassis: shared(link.chassis) >= 0 },
      options.bracketFactor,
    );
  }

  const half = axle.wheelCenters / 2;
  const wheels = { left: wheel(axle, 'left', half), right: wheel(axle, 'right', -half) };
  const steering = assembleSteering(axle);
  if (!steering.ok) return steering;

  return {
    ok: true,
    mechanism: {
      axle: axle.name,
      loadedRadius: axle.tire.loadedRadius,
      wheels,
      wheelCenters: axle.wheelCenters,
      origin,
      lengths,
      points,
      arms: axle.radiusArms.map(arm => radiusArm(arm, local, options.bracketFactor ?? 1)),
      exact,
      steering: steering.steering,
      swayArms: swayArms(axle, local),
      spans: spans(axle),
      named: namedPoints(axle, giving),
    },
  };
}

const drawnLength = (link: Link): number => distance(link.axle.at, link.chassis.at);

/** Spin axis as drawn: leftward, turned by static toe (toe-in +) and camber (top outboard +). */
function wheel(axle: Axle, side: 'left' | 'right', y: number): Wheel {
  const knuckle = axle.knuckles?.[side];
  const toe = knuckle?.toe ?? 0;
  const camber = knuckle?.camber ?? 0;
  const out = side === 'left' ? 1 : -1;
  // steer of this wheel: left −toe, right +toe; outboard spin axis dips by the camber
  const steer = -out * toe;
  const spin: Vec3 = [
    -Math.sin(steer) * Math.cos(camber),
    Math.cos(steer) * Math.cos(camber),
    -out * Math.sin(camber),
  ];
  return { center: [0, y, 0], spin };
}

function radiusArm(arm: RadiusArm, local: (p: Vec3) => Vec3, bracketFactor: number): Arm {
  const joint = (end: JointEnd, on: 'axle' | 'chassis'): ArmJoint => {
    const bolt: Vec3 = end.bolt ?? [0, 1, 0];
    const radial = end.rates.radial ?? ASSUMED_ARM_JOINT_RATE;
    const axial = end.rates.axial ?? radial;
    const bracket = end.rates.bracket === null ? 0 : 1 / (end.rates.bracket * bracketFactor);
    return {
      name: end.name,
      on,
      home: on === 'axle' ? local(end.at) : end.at,
      at: end.at,
      bolt,
      bore: bolt,
      radial: 1 / (1 / radial + bracket),
      axial: 1 / (1 / axial + bracket),
      conical: end.rates.conical ?? 0,
    };
  };
  return {
    name: arm.name,
    joints: [joint(arm.axle[0], 'axle'), joint(arm.axle[1], 'axle'), joint(arm.chassis, 'chassis')],
    center: arm.chassis.at,
  };
}

function swayArms({ swayBar }: Axle, local: (p: Vec3) => Vec3): SwayArm[] {
  if (!swayBar) return [];
  const { at, direction } = swayBar.axis;
  return swayBar.arms.map(arm => ({
    ...swayNames(arm.side),
    at: add(at, scale(direction, dot(sub(arm.tip, at), direction))),
    axis: direction,
    tip: arm.tip,
    axle: local(arm.axle),
    length: distance(arm.tip, arm.axle),
  }));
}

/** Rams and shocks: lengths that are read, not held. */
function spans(axle: Axle): Span[] {
  const out: Span[] = [];
  for (const ram of axle.steering?.rams ?? []) {
    if (!ram.rod) continue;
    out.push({
      name: ram.name,
      kind: 'ram',
      from: { name: `${ram.name}.body`, on: ram.body.on, at: ram.body.at },
      to: { name: `${ram.name}.rod`, on: ram.rod.on, at: ram.rod.at },
    });
  }
  for (const shock of axle.shocks) {
    out.push({
      name: shock.name,
      kind: 'shock',
      from: { name: `${shock.name}.axle`, on: 'axle', at: shock.axle },
      to: { name: `${shock.name}.chassis`, on: 'chassis', at: shock.chassis },
    });
  }
  return out;
}

/** `part.end` of every part that has ends, with the body that each rides on. */
function namedPoints(axle: Axle, giving: ReadonlyMap<string, number>): BodyPoint[] {
  const out: BodyPoint[] = [];
  const put = (name: string, on: string, at: Vec3): void => void out.push({ name, on, at });
  const end = (e: JointEnd, body: string): void =>
    put(e.name, e.shared !== null && giving.has(e.shared) ? e.shared : body, e.at);
  for (const link of axle.links) {
    end(link.axle, 'axle');
    end(link.chassis, 'chassis');
  }
  for (const arm of axle.radiusArms) {
    for (const e of [...arm.axle, arm.chassis]) put(e.name, arm.name, e.at);
  }
  const steering = axle.steering;
  for (const rod of [steering?.dragLink, ...(steering?.tieRods ?? [])]) {
    if (!rod) continue;
    put(`${rod.name}.from`, rod.from.on, rod.from.at);
    put(`${rod.name}.to`, rod.to.on, rod.to.at);
  }
  for (const span of spans(axle)) {
    put(span.from.name, span.from.on, span.from.at);
    put(span.to.name, span.to.on, span.to.at);
  }
  for (const part of [...axle.coils, ...axle.straps]) {
    put(`${part.name}.axle`, 'axle', part.axle);
    put(`${part.name}.chassis`, 'chassis', part.chassis);
  }
  for (const stop of axle.bumpStops) {
    put(`${stop.name}.pad`, stop.pad.on, stop.pad.at);
    put(`${stop.name}.strike`, stop.strike.on, stop.strike.at);
  }
  for (const line of axle.lines) {
    put(`${line.name}.from`, line.from.on, line.from.at);
    put(`${line.name}.to`, line.to.on, line.to.at);
  }
  for (const { side, tip, axle: at } of axle.swayBar?.arms ?? []) {
    const { name, link } = swayNames(side);
    put(`${name}.tip`, name, tip);
    put(`${link}.axle`, 'axle', at);
  }
  for (const side of ['left', 'right'] as const) {
    const y = side === 'left' ? axle.wheelCenters / 2 : -axle.wheelCenters / 2;
    const knuckle = axle.knuckles?.[side];
    const on = knuckle ? `${side} knuckle` : 'axle';
    put(`${side} wheel.center`, on, [axle.origin[0], axle.origin[1] + y, axle.origin[2]]);
    if (!knuckle) continue;
    put(`${side} kingpin.lower`, 'axle', knuckle.kingpin.lower);
    put(`${side} kingpin.upper`, 'axle', knuckle.kingpin.upper);
  }
  if (axle.driveline) {
    put('driveshaft.pinion', 'axle', axle.driveline.pinion.joint);
    put('driveshaft.transfer case', 'chassis', axle.driveline.transferCase.joint);
  }
  return out;
}
