/**
 * A part as the gap room sees it: a solid in vehicle axes as drawn, how it moves, and which joints it shares.
 */
import type { KnuckleStop } from '../limit/steering.ts';
import type { RollingPart } from '../measure/rolling.ts';
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
 *   only solids that are rods can be stretched so;
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
  | 'ramBracket'
  | 'shock'
  | 'reservoir'
  | 'coil'
  | 'bumpStop'
  | 'driveshaft'
  | 'swayBar'
  | 'swayBarLink'
  | 'drawn';

/** The hollow of an open solid: a bore about an axis. Vehicle axes as drawn, in. */
export interface Hollow {
  /** Middle of the inboard opening. */
  mouth: V3;
  /** Unit, into the bore, away from the vehicle. */
  axis: V3;
  radius: number;
  /** From the mouth to what closes the bore; null: open at both ends. */
  depth: number | null;
}

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

/**
 * The roll that moves a part beside travels and steering: of a link or rod about the line between its joints.
 * `rollRange` (roll.ts) tells how far it goes at a pose; a joint that holds the roll leaves one a pose.
 */
export interface PartRoll {
  /** What rolls: the part itself, or what it rides or hangs on. */
  of: RollingPart;
  /**
   * `line`: a bent link, or what rides on a link, turns about the link's line;
   * `rod`: a steering rod that only its studs hold, with all that hangs on it beside its line: rams, the other rod
   *   and the knuckles that this one turns. Such a part is placed at a pose with the rod rolled (`rolledRod`).
   */
  by: 'line' | 'rod';
  /** What ends the turn of the knuckles: a rod that turns them rolls no further. */
  stops: readonly KnuckleStop[];
}

export interface Part {
  name: string;
  /** What it is a piece of: `left shock` of its body, shaft and reservoir; its own name for most. */
  of: string;
  kind: PartKind;
  motion: Motion;
  /** Body that it rides on, or its own name: parts with the same one never move against each other. */
  body: string;
  /** Null: no roll moves it. */
  roll: PartRoll | null;
  solid: Solid;
  /** Of a tire or wheel: open towards the axle, for what reaches into the wheel. */
  open: Solid | null;
  hollow: Hollow | null;
  joints: SharedJoint[];
  /** Drawn by the user: may be marked as new or as one that may be cut. */
  isNew: boolean;
  mayBeCut: boolean;
  /** True where the build does not give all of its sizes. */
  assumed: boolean;
  /** How far it may give (bushing, tire bulge, frame flex), added to the gap asked for, in. */
  give: number;
}
