/** Links, track bars, radius arms, driveshaft and sway bar. */
import type { Axle, JointEnd } from '../build/build.ts';
import { swayNames } from '../mechanism/swayBar.ts';
import { capsule } from '../solid/capsule.ts';
import { add, distance, dot, scale, sub, type V3 } from '../vector.ts';
import type { Anchor, SharedJoint } from './part.ts';
import { anchor, type PartList } from './partList.ts';
import { ASSUMED } from './partSizes.ts';
import { rodSolid } from './rodSolid.ts';

export function linkParts(axle: Axle, list: PartList): void {
  for (const link of axle.links) {
    const od = link.tube?.od ?? ASSUMED.linkTube;
    const points = [link.axle.at, ...link.through, link.chassis.at];
    list.put(
      link.name,
      link.kind === 'track bar' ? 'trackBar' : 'link',
      {
        kind: 'ends',
        from: endAnchor(axle, link.axle, 'axle'),
        to: endAnchor(axle, link.chassis, 'chassis'),
      },
      rodSolid(points, od / 2, [
        { point: 0, radius: housingOf(link.axle, od) },
        { point: points.length - 1, radius: housingOf(link.chassis, od) },
      ]),
      {
        assumed: link.tube === null,
        joints: [jointOf(link.axle, 'axle', 0, od), jointOf(link.chassis, 'chassis', 1, od)],
      },
    );
  }
  for (const arm of axle.radiusArms) {
    const od = arm.tube?.od ?? ASSUMED.linkTube;
    // along the arm: the axle end that is further from the chassis joint first
    const [far, near] = [...arm.axle].sort(
      (a, b) => distance(b.at, arm.chassis.at) - distance(a.at, arm.chassis.at),
    ) as [JointEnd, JointEnd];
    const points = [far.at, near.at, ...arm.through, arm.chassis.at];
    list.put(
      arm.name,
      'radiusArm',
      { kind: 'rigid', body: arm.name },
      rodSolid(points, od / 2, [
        { point: 0, radius: housingOf(far, od) },
        { point: 1, radius: housingOf(near, od) },
        { point: points.length - 1, radius: housingOf(arm.chassis, od) },
      ]),
      {
        assumed: arm.tube === null,
        joints: [
          jointOf(far, 'axle', 0, od),
          jointOf(near, 'axle', 0, od),
          jointOf(arm.chassis, 'chassis', 1, od),
        ],
      },
    );
  }
}

/** Where a link's end rides: on a shared joint that gives, where it is one, else on the body itself. */
function endAnchor(axle: Axle, end: JointEnd, body: 'axle' | 'chassis'): Anchor {
  const exact = axle.radiusArms.length === 0 && axle.links.length <= 4;
  const shared = axle.sharedJoints.find(joint => joint.name === end.shared);
  const gives = !exact && shared !== undefined && shared.rates.radial !== null;
  return anchor(gives ? shared.name : body, end.at);
}

const housingOf = (end: JointEnd, od: number): number =>
  (end.housing ?? od * ASSUMED.housingFactor) / 2;

const jointOf = (end: JointEnd, body: string, at: 0 | 1, od: number): SharedJoint => ({
  name: end.name,
  at: end.at,
  body,
  end: at,
  housing: 2 * housingOf(end, od),
});

/** Tube with the swing of its U-joints at both ends. */
export function driveshaftPart(axle: Axle, list: PartList): void {
  if (!axle.driveline) return;
  const { pinion, transferCase, tubeOd } = axle.driveline;
  const od = tubeOd ?? ASSUMED.driveshaftTube;
  const housing = od + ASSUMED.uJoint;
  list.put(
    'driveshaft',
    'driveshaft',
    {
      kind: 'ends',
      from: anchor('axle', pinion.joint),
      to: anchor('chassis', transferCase.joint),
    },
    rodSolid([pinion.joint, transferCase.joint], od / 2, [
      { point: 0, radius: housing / 2 },
      { point: 1, radius: housing / 2 },
    ]),
    {
      assumed: tubeOd === null,
      joints: [
        { name: 'driveshaft.pinion', at: pinion.joint, body: 'axle', end: 0, housing },
        {
          name: 'driveshaft.transfer case',
          at: transferCase.joint,
          body: 'chassis',
          end: 1,
          housing,
        },
      ],
    },
  );
}

/** The bar between its arms, on the chassis; its arms, which turn about it; and the end links that move them. */
export function swayBarPart(axle: Axle, list: PartList): void {
  const bar = axle.swayBar;
  const [first, second] = bar?.arms ?? [];
  if (!bar || !first || !second) return;
  const foot = (tip: V3): V3 =>
    add(bar.axis.at, scale(bar.axis.direction, dot(sub(tip, bar.axis.at), bar.axis.direction)));
  const radius = (bar.tubeOd ?? ASSUMED.swayBar) / 2;
  const assumed = bar.tubeOd === null;
  const of = 'sway bar';
  list.put(
    of,
    'swayBar',
    { kind: 'rigid', body: 'chassis' },
    capsule({ from: foot(first.tip), to: foot(second.tip), radius }),
    { assumed },
  );
  for (const { side, tip, axle: end } of bar.arms) {
    const { name, link } = swayNames(side);
    list.put(
      name,
      'swayBar',
      { kind: 'rigid', body: name },
      capsule({ from: foot(tip), to: tip, radius }),
      {
        of,
        assumed,
        joints: [
          { name: `${name}.axis`, at: foot(tip), body: 'chassis', end: 0, housing: 2 * radius },
        ],
      },
    );
    const od = ASSUMED.swayBarLink;
    const housing = od * ASSUMED.housingFactor;
    list.put(
      link,
      'swayBarLink',
      { kind: 'ends', from: anchor(name, tip), to: anchor('axle', end) },
      rodSolid([tip, end], od / 2, [
        { point: 0, radius: housing / 2 },
        { point: 1, radius: housing / 2 },
      ]),
      {
        of,
        assumed: true,
        joints: [
          // the arm's end is flattened about the joint
          { name: `${link}.arm`, at: tip, body: name, end: 0, housing: 2 * radius + housing },
          { name: `${link}.axle`, at: end, body: 'axle', end: 1, housing },
        ],
      },
    );
  }
}
