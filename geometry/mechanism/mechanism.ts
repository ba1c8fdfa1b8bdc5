/**
 * The mechanism of one axle: flat arrays and plain objects, all that a worker is sent.
 * Inches, pounds-force, radians. Points that ride on the axle are given in the axle frame (drawn vehicle
 * axes less the axle's origin: both frames are parallel as drawn), chassis points in vehicle axes.
 */
import type { AxleName, Vec3 } from '../build/build.ts';

/** Links and track bars. Numbers of length i stand at 3i … 3i+2 or at i. */
export interface Lengths {
  names: string[];
  kinds: ('link' | 'track bar')[];
  /** `part.end` of the axle end and of the chassis end. */
  axleNames: string[];
  chassisNames: string[];
  axlePoints: Float64Array;
  chassisPoints: Float64Array;
  drawn: Float64Array;
  /** Free length: as given, else as drawn. */
  free: Float64Array;
  /** Total rate, lbf/in; used where the layout is not exact. */
  rates: Float64Array;
  /** Index of the giving shared joint that an end rides on, −1 for the body itself. */
  axleShared: Int32Array;
  chassisShared: Int32Array;
}

/** A shared joint that gives: three unknowns and a rate to its home on axle or chassis. */
export interface GivingPoint {
  name: string;
  on: 'axle' | 'chassis';
  /** Axle frame or vehicle axes, after `on`. */
  home: Vec3;
  rate: number;
}

/** A joint of a radius arm: the arm's half and the bracket's coincide as drawn. */
export interface ArmJoint {
  name: string;
  on: 'axle' | 'chassis';
  /** The bracket's half, axle frame or vehicle axes. */
  home: Vec3;
  /** The arm's half, vehicle axes as drawn. */
  at: Vec3;
  /** Bolt axis in the bracket, and bore axis in the arm as drawn (unit, drawn axes). */
  bolt: Vec3;
  bore: Vec3;
  radial: number;
  axial: number;
  conical: number;
}

export interface Arm {
  name: string;
  joints: ArmJoint[];
  /** Point about which the arm's turn is taken, vehicle axes as drawn. */
  center: Vec3;
}

/** An arm of a sway bar: turns about the bar's axis on the chassis, moved by its end link from the axle. */
export interface SwayArm {
  /** `left sway bar arm`, and its end link, `left sway bar link`. */
  name: string;
  link: string;
  /** Foot of the tip on the bar's axis, and that axis (unit). Vehicle axes. */
  at: Vec3;
  axis: Vec3;
  /** Where the arm takes its end link, vehicle axes as drawn. */
  tip: Vec3;
  /** Where the end link meets the axle, axle frame. */
  axle: Vec3;
  /** Of the end link. */
  length: number;
}

/** A knuckle: turns about its kingpin axis. Axle frame. */
export interface KnuckleTurn {
  pivot: Vec3;
  /** Unit, upward. */
  axis: Vec3;
}

/** Where a rod's end rides, with the point in the frame of that body as drawn. */
export interface RodPoint {
  /** `part.end`. */
  name: string;
  on: 'pitman arm' | 'left knuckle' | 'right knuckle' | 'tie rod' | 'drag link' | 'ram rod';
  /** Vehicle axes for the pitman arm, else axle frame. */
  at: Vec3;
}

export interface SteeringRod {
  name: string;
  kind: 'drag link' | 'tie rod';
  from: RodPoint;
  to: RodPoint;
  length: number;
  /** Turn about its own line from the clocked roll, right-handed from `from` to `to`. */
  rollAt: number;
  /** End from which the rod's body is measured, where a given length has moved the other one: the build's `from`. */
  anchor: 'from' | 'to';
}

/** A point on a rod that another rod or a ram takes hold of, split along and off the rod's line as drawn. */
export interface RodAttachment {
  /** Index in `rods`. */
  rod: number;
  /** Fraction along the rod's line from `from` to `to`, at its length: as far from the anchor as drawn. */
  fraction: number;
  /** Rest, square to the drawn line, axle frame axes as drawn; zero where the point is on the line. */
  off: Vec3;
}

/**
 * How the wheels are turned, as a chain:
 * `knuckle`: drag link to a knuckle, tie rod to the other one;
 * `tieRod`: drag link to a point on the tie rod between both knuckles;
 * `dragLink`: drag link to a knuckle, tie rod from a point on the drag link to the other one;
 * `ram`: a double-ended ram's rod, a tie rod to each knuckle.
 */
export type SteeringKind = 'knuckle' | 'tieRod' | 'dragLink' | 'ram';

export interface SteeringMechanism {
  kind: SteeringKind;
  unit: 'rad' | 'in';
  left: KnuckleTurn;
  right: KnuckleTurn;
  /** Knuckle that the first rod drives (kinds `knuckle`, `dragLink`), or the tie rod's `from` side. */
  first: 'left' | 'right';
  /** Pitman axis and ball, vehicle axes; the axis as entered. Null for a ram. */
  pitman: { at: Vec3; axis: Vec3; ball: Vec3 } | null;
  /** Ram rod's direction in the axle frame, as entered. Null with a pitman arm. */
  ramAxis: Vec3 | null;
  /** Sense about (along) that axis that the build says turns the wheels left; null: found from the linkage. */
  wheelsLeft: 1 | -1 | null;
  rods: SteeringRod[];
  /** Index in `rods`. For `ram`: left tie rod and right tie rod. */
  dragLink: number;
  tieRod: number;
  otherTieRod: number;
  /** Kinds `tieRod`, `dragLink`: where the one rod holds the other. */
  held: RodAttachment | null;
}

/** Two points whose distance is an output only: ram, shock, coil, strap. `on` names the bodies. */
export interface Span {
  name: string;
  kind: 'ram' | 'shock';
  from: BodyPoint;
  to: BodyPoint;
}

/** A point on a body, vehicle axes as drawn, with its name `part.end`. */
export interface BodyPoint {
  name: string;
  on: BodyName;
  at: Vec3;
}

/**
 * A body, by name: `chassis`, `axle`, `left knuckle`, `right knuckle`, `pitman arm`, `ram rod`, or the name of
 * a rod, a radius arm, a giving shared joint or an arm of the sway bar.
 */
export type BodyName = string;

/** A wheel straight ahead as drawn, static toe and camber in its spin axis. Axle frame. */
export interface Wheel {
  center: Vec3;
  /** Unit, to the left on both sides. */
  spin: Vec3;
}

export interface Mechanism {
  axle: AxleName;
  /** Center height above the axle's ground line. */
  loadedRadius: number;
  wheels: { left: Wheel; right: Wheel };
  wheelCenters: number;
  origin: Vec3;
  lengths: Lengths;
  points: GivingPoint[];
  arms: Arm[];
  /** Four lengths and no bodies: solved exactly. Else least elastic energy. */
  exact: boolean;
  steering: SteeringMechanism | null;
  swayArms: SwayArm[];
  spans: Span[];
  /** Every named point of every part. */
  named: BodyPoint[];
}
