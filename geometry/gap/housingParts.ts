/** The axle housing: tubes, yokes, differential with its cover and pinion; wheels and tires. */
import type { Axle } from '../build/build.ts';
import { capsule } from '../solid/capsule.ts';
import { cylinder } from '../solid/cylinder.ts';
import { segmentPiece } from '../solid/piece.ts';
import { solidOf } from '../solid/solid.ts';
import { sphere } from '../solid/sphere.ts';
import { tire } from '../solid/tire.ts';
import { add, norm, scale, sub, unit, type V3 } from '../vector.ts';
import type { PartList } from './partList.ts';
import { ASSUMED, ZONE } from './partSizes.ts';
import { rimOf, tireRing, wheelRing } from './tireRing.ts';

/** Inboard of the nearer kingpin ball at which a steered axle's tube ends and its yoke begins, in. */
const YOKE_DEPTH_in = 4;

export function housingParts(axle: Axle, list: PartList): void {
  const body = { kind: 'rigid', body: 'axle' } as const;
  const of = 'axle housing';
  const od = axle.housing.tubeOd ?? ASSUMED.axleTube;
  const [x, , z] = axle.origin;
  const outer = tubeEnd(axle);
  list.put(
    'axle tubes',
    'housing',
    body,
    capsule({ from: [x, outer, z], to: [x, -outer, z], radius: od / 2 }),
    { of, assumed: axle.housing.tubeOd === null },
  );
  for (const side of ['left', 'right'] as const) {
    const kingpin = axle.knuckles?.[side].kingpin;
    if (!kingpin) continue;
    const out = side === 'left' ? 1 : -1;
    const end: V3 = [x, out * outer, z];
    const arms = [kingpin.lower, kingpin.upper].map(ball =>
      segmentPiece(end, add(ball, [0, -out * ASSUMED.yokeInboard, 0]), ASSUMED.yoke),
    );
    list.put(`${side} yoke`, 'housing', body, solidOf('bentTube', arms), {
      of,
      assumed: true,
    });
  }
  const { differential } = axle.housing;
  if (!differential) return;
  list.put('differential', 'differential', body, sphere(differential));
  const more = { of: 'differential' };
  if (differential.cover) {
    list.put('differential cover', 'differential', body, sphere(differential.cover), more);
  }
  const joint = axle.driveline?.pinion.joint;
  if (!joint) return;
  // the snout ends behind the swing of the U-joint
  const swing = ((axle.driveline?.tubeOd ?? ASSUMED.driveshaftTube) + ASSUMED.uJoint) / 2;
  const line = sub(joint, differential.center);
  const back = ZONE * swing + ASSUMED.pinion;
  if (norm(line) <= Math.max(back, differential.radius)) return;
  list.put(
    'pinion',
    'differential',
    body,
    capsule({
      from: differential.center,
      to: sub(joint, scale(unit(line), back)),
      radius: ASSUMED.pinion,
    }),
    { ...more, assumed: true },
  );
}

/** Half of the length of the axle tubes: to the yokes of a steered axle, else to the tires. */
function tubeEnd(axle: Axle): number {
  const { knuckles } = axle;
  if (!knuckles) return axle.wheelCenters / 2 - axle.tire.width / 2;
  const balls = [knuckles.left.kingpin, knuckles.right.kingpin].flatMap(k => [k.lower, k.upper]);
  return Math.max(1, Math.min(...balls.map(ball => Math.abs(ball[1]))) - YOKE_DEPTH_in);
}

export function wheelParts(axle: Axle, list: PartList): void {
  for (const side of ['left', 'right'] as const) {
    const knuckle = axle.knuckles?.[side];
    const out = side === 'left' ? 1 : -1;
    const motion = { kind: 'rigid', body: axle.steered ? `${side} knuckle` : 'axle' } as const;
    const [x, , z] = axle.origin;
    const center: V3 = [x, (out * axle.wheelCenters) / 2, z];
    const steer = -out * (knuckle?.toe ?? 0);
    const camber = knuckle?.camber ?? 0;
    const axis: V3 = [
      -Math.sin(steer) * Math.cos(camber),
      Math.cos(steer) * Math.cos(camber),
      -out * Math.sin(camber),
    ];
    const { diameter, width, shoulder, give } = axle.tire;
    list.put(`${side} tire`, 'tire', motion, tire({ center, axis, diameter, width, shoulder }), {
      give,
      ...tireRing(axle.tire, center, scale(axis, out)),
    });
    const rim = rimOf(axle.tire);
    const half = scale(axis, rim.width / 2);
    list.put(
      `${side} wheel`,
      'wheel',
      motion,
      cylinder({ from: sub(center, half), to: add(center, half), radius: rim.diameter / 2 }),
      { ...wheelRing(axle.tire, center, scale(axis, out)), assumed: axle.tire.rim === null },
    );
  }
}
