/**
 * A part as the gap room sees it: a solid in vehicle axes as drawn, how it moves, and which joints it shares.
 */
import type { BodyName } from '../mechanism/mechanism.ts';
import type { Solid } from '../solid/solid.ts';
import type { V3 } from '../vector.ts';

/** A point on a body, vehicle axes as drawn. */
export interface Anchor {
  on: BodyName;
  at: V3;
}

/**
 * How a part moves:
 * `rigid`: with a body of the mechanism;
 * `ends`: a straight or bent rod whose ends ride on two bodies: a point at fraction f along the drawn line and
 *   off it by q goes to A + f (B − A) + (q carried by the smallest turn of the line, in the chassis frame);
 * `aim`: rigid, held at one point and pointing at another (shock body and shaft, ram body and rod).
 */
export type Motion =
  | { kind: 'rigid'; body: BodyName }
  | { kind: 'ends'; from: Anchor; to: Anchor }
  | { kind: 'aim'; at: Anchor; towards: Anchor };

export type PartKind =
  | 'link'
  | 'trackBar'
  | 'radiusArm'
  | 'housing'
  | 'differential'
  | 'knuckle'
  | 'tire'
  | 'wheel'
  | 'dragLink'
  | 'tieRod'
  | 'pitmanArm'
  | 'ram'
  | 'shock'
  | 'reservoir'
  | 'coil'
  | 'bumpStop'
  | 'driveshaft'
  | 'swayBar'
  | 'drawn';

/** A joint by which a part hangs on another body. */
export interface SharedJoint {
  /** `part.end`. */
  name: string;
  /** Vehicle axes as drawn. */
  at: V3;
  /** Body on the other side of the joint. */
  body: BodyName;
  /** 0: at the part's first end, 1: at its last. */
  end: 0 | 1;
  /** Outer diameter of the joint's housing, in. */
  housing: number;
}

export interface Part {
  name: string;
  kind: PartKind;
  motion: Motion;
  solid: Solid;
  /** A tire, open towards the axle: what parts that reach into the wheel are compared with. */
  open: Solid | null;
  joints: SharedJoint[];
  /** Drawn by the user: may be marked as new or as one that may be cut. */
  isNew: boolean;
  mayBeCut: boolean;
  /** How far it may give (bushing, tire bulge, frame flex), added to the gap asked for, in. */
  give: number;
}

/** Parts with the same key never move against each other. */
export function bodyKey(part: Part): string {
  const m = part.motion;
  if (m.kind === 'rigid') return m.body;
  if (m.kind === 'ends') return `ends ${anchorKey(m.from)} ${anchorKey(m.to)}`;
  return `aim ${anchorKey(m.at)} ${anchorKey(m.towards)}`;
}

const anchorKey = (a: Anchor): string => `${a.on} ${a.at.join(',')}`;
