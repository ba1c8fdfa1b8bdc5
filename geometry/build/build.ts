/**
 * The Build: one vehicle as every later room reads it.
 *
 * Units: inches, pounds-force, radians (rates in lbf/in; torsional and conical rates in in·lbf/rad).
 * Frame: vehicle axes of ISO 8855 at ride height: X forward, Y left, Z up, origin on the ground below the
 * center of the front axle. Every point and direction is in these axes *as drawn*, whatever body it rides on.
 * Mirrored parts are written out (`left NAME`, `right NAME`), datums, dimensions and variants are resolved.
 * Directions have unit length. `null` means: not given.
 */

/** A point or direction [x, y, z], vehicle axes, inches (directions: length 1). */
export type Vec3 = readonly [number, number, number];
export type Side = 'left' | 'right';
export type AxleName = 'front' | 'rear';
export type From = 'measured' | 'drawing' | 'assumed';

export interface Build {
  name: string;
  variant: string | null;
  unit: 'in' | 'mm';
  driverSide: Side;
  notes: unknown;
  /** Distance between the front and the rear wheel centers. */
  wheelbase: number;
  weights: Weights | null;
  axles: Axle[];
  solids: Solid[];
  wanted: Wanted;
  /** Every number that somebody entered, with its origin; findings name these by `path`. */
  entries: Entry[];
  /** Every place that a point can be taped from, by its name. */
  places: Place[];
  /** The path of the joint that an end of a link or radius arm names, by the end's name. */
  jointPaths: Record<string, string>;
  /** Sentences for the user: what was leveled, carried over, or assumed by a default. */
  warnings: string[];
}

/** One entered number. `path` is the field's place in the file, parts addressed by name. */
export interface Entry {
  path: string;
  typed: string;
  /** Value in internal units. */
  value: number;
  dimension: string;
  from: From;
  /** Half-width in internal units, null where none was given. */
  tolerance: number | null;
  /** Dimensions and datums it refers to, by the path of their own entries. */
  uses: string[];
}

/** A named place: built in, a datum, a shared joint, or an end of a part. */
export interface Place {
  /** `rail bottom` (of a mirrored datum `left rail bottom`), `left lower link.axle`, `ground`. */
  name: string;
  /** Path of the field that gives it; null for one that is built in. */
  path: string | null;
  /** Body that carries it, as far as a tape goes; `none`: a moving part, or the floor. */
  body: 'chassis' | 'axle' | 'none';
  /** The axle that carries it, or that its part belongs to. */
  axle: AxleName | null;
  /** Vehicle axes at ride height. */
  at: Vec3;
}

export interface Weights {
  total: number;
  /** Share of the total on the front axle, 0 to 1. */
  frontShare: number | null;
  centerOfGravity: Vec3 | null;
  brakeShareFront: number | null;
  driveShareFront: number | null;
}

export interface Axle {
  name: AxleName;
  steered: boolean;
  /** W: distance between the straight-ahead wheel centers. */
  wheelCenters: number;
  /** The axle frame's origin as drawn: (0 or −wheelbase, 0, loaded radius). */
  origin: Vec3;
  housing: Housing;
  tire: Tire;
  links: Link[];
  radiusArms: RadiusArm[];
  /** Joint points that two or more lengths share. */
  sharedJoints: SharedJoint[];
  /** Left, right; null where the axle does not steer. */
  knuckles: { left: Knuckle; right: Knuckle } | null;
  steering: Steering | null;
  shocks: Shock[];
  coils: Coil[];
  bumpStops: BumpStop[];
  straps: Strap[];
  lines: Line[];
  swayBar: SwayBar | null;
  driveline: Driveline | null;
}

export interface Tube {
  od: number;
  /** Wall thickness; null: taken as solid for rates, unknown for weight. */
  wall: number | null;
}

export interface Housing {
  tubeOd: number | null;
  differential: {
    center: Vec3;
    radius: number;
    cover: { center: Vec3; radius: number } | null;
  } | null;
}

export interface Tire {
  diameter: number;
  width: number;
  loadedRadius: number;
  /** Radius of the rounded shoulder. */
  shoulder: number;
  /** How far the sidewall may bulge: added to the gap asked for. */
  give: number;
  rim: { diameter: number; width: number; offset: number } | null;
}

export interface Rates {
  radial: number | null;
  axial: number | null;
  torsional: number | null;
  conical: number | null;
  bracket: number | null;
}

/** One end of a link: its point and the joint in it. */
export interface JointEnd {
  /** `part.end`: `left lower link.axle`, `left radius arm.axle front`. Key of `points` and of joints. */
  name: string;
  at: Vec3;
  kind: 'rodEnd' | 'ball' | 'bushing';
  /** Axis of the bolt (of a tapered stud: the stud), fixed in the bracket; null: no misalignment is asked. */
  bolt: Vec3 | null;
  /** Axis of the bore, fixed in the link; null: the bolt as drawn, projected square to the drawn line. */
  bore: Vec3 | null;
  /** Largest misalignment. */
  limit: number | null;
  /** Turn of the bore about the line from axle to chassis, right-handed, from where `bore` has it. */
  clocking: number;
  /** Outer diameter of the joint's housing. */
  housing: number | null;
  /** True where the joint (bushing, anti-roll washer) keeps the link from rolling about its own line. */
  holdsRoll: boolean;
  rates: Rates;
  /** Name of the shared joint that this end is, or null. */
  shared: string | null;
}

/** A joint point that two or more lengths share; it gives where it has a radial rate. */
export interface SharedJoint {
  name: string;
  on: 'axle' | 'chassis';
  at: Vec3;
  bolt: Vec3 | null;
  rates: Rates;
}

export interface Link {
  name: string;
  kind: 'link' | 'track bar';
  axle: JointEnd;
  chassis: JointEnd;
  /** Given free length (an adjuster turned, another link tried); null: the distance as drawn. */
  length: number | null;
  tube: Tube | null;
  /** Young's modulus, lbf/in² (steel unless given). */
  modulus: number;
  /** Total rate with both ends and the tube in it, lbf/in; replaces the series. */
  rate: number | null;
  /** Points along a bent body, from the axle end to the chassis end. */
  through: Vec3[];
}

export interface RadiusArm {
  name: string;
  kind: 'radius arm';
  /** Two axle ends, `NAME.axle front` and `NAME.axle rear`. */
  axle: [JointEnd, JointEnd];
  chassis: JointEnd;
  tube: Tube | null;
  through: Vec3[];
}

export interface Knuckle {
  side: Side;
  kingpin: { lower: Vec3; upper: Vec3 };
  /** Static toe of this wheel, toe-in +, and camber, top outboard +. */
  toe: number;
  camber: number;
  /** Center of the axle shaft's outer joint. */
  shaftJoint: Vec3 | null;
  shaftLimit: number | null;
  /** Largest turn about the kingpin axis as the turn's inner and as its outer wheel, both positive. */
  steeringStop: { inward: number | null; outward: number | null };
}

export type RodBody =
  | 'pitman arm'
  | 'left knuckle'
  | 'right knuckle'
  | 'tie rod'
  | 'drag link'
  | 'ram rod';

export interface RodEnd {
  on: RodBody;
  at: Vec3;
  stud: Vec3 | null;
  limit: number | null;
}

export interface Rod {
  /** `drag link`, `tie rod`, or `left tie rod` and `right tie rod` beside a double-ended ram. */
  name: string;
  from: RodEnd;
  to: RodEnd;
  /** Given length, or null: as drawn. */
  length: number | null;
  tube: Tube | null;
  through: Vec3[];
  /** What holds the rod's roll about the line between its joints, and its turn from the clocked roll. */
  roll: { held: 'clocked' | 'studs'; at: number };
}

export interface SteeringBox {
  axis: { at: Vec3; direction: Vec3 };
  /** Turns of the wheel for one of the pitman arm. */
  ratio: number | null;
  /** The box's own ends, pitman angle to the right (negative) and to the left (positive) of drawn. */
  sweep: [number, number] | null;
  /** Sense about `direction` that turns the wheels left; null: found from the linkage. */
  wheelsLeft: 1 | -1 | null;
}

export interface Steering {
  /** Null where a double-ended ram steers. */
  box: SteeringBox | null;
  pitmanArm: { tube: Tube | null } | null;
  dragLink: Rod | null;
  /** One, or left and right beside a double-ended ram. */
  tieRods: Rod[];
  rams: Ram[];
}

export interface Ram {
  name: string;
  /** `double`: both rod ends push a tie rod each, and there is no drag link: it is the input. */
  kind: 'single' | 'double';
  /** Single: the body's pivot. Double: the middle of the barrel, clamped to the axle. */
  body: { on: 'axle' | 'chassis'; at: Vec3; diameter: number | null };
  /** Double: the rod's line, unit length, to the left. Null for a single one. */
  axis: Vec3 | null;
  /** Single: where the rod pushes. Null for a double one (its tie rods hold its ends). */
  rod: { on: 'tie rod' | 'left knuckle' | 'right knuckle' | 'drag link'; at: Vec3 } | null;
  /** Single: length between ends when closed. */
  closed: number | null;
  stroke: number | null;
  bore: number | null;
  rodDiameter: number | null;
}

export interface Shock {
  name: string;
  side: Side | null;
  axle: Vec3;
  chassis: Vec3;
  shortest: number;
  longest: number;
  bodyEnd: 'axle' | 'chassis';
  body: { od: number | null; length: number | null };
  shaft: { od: number | null };
  reservoir: { on: 'body' | 'chassis'; from: Vec3; to: Vec3; radius: number } | null;
}

export interface Coil {
  name: string;
  side: Side | null;
  axle: Vec3;
  chassis: Vec3;
  free: number | null;
  rate: number | null;
  wire: number | null;
  turns: number | null;
  /** Mean diameter of the coil. */
  diameter: number | null;
  /** Length between the seats with the turns closed. */
  solid: number | null;
}

export interface BumpStop {
  name: string;
  side: Side | null;
  kind: 'rubber' | 'air';
  pad: { on: 'axle' | 'chassis'; at: Vec3 };
  /** Strike plane: a point, the normal towards the pad, and the plane's radius (null: no end). */
  strike: { on: 'axle' | 'chassis'; at: Vec3; normal: Vec3; radius: number | null };
  contactHeight: number;
  solidHeight: number;
  /** Height (in) and force (lbf), from contact down. */
  curve: [number, number][];
}

export interface Strap {
  name: string;
  side: Side | null;
  axle: Vec3;
  chassis: Vec3;
  length: number;
}

export interface Line {
  name: string;
  from: { on: string; at: Vec3 };
  to: { on: string; at: Vec3 };
  length: number;
  leastBendRadius: number | null;
  diameter: number | null;
}

export interface SwayBar {
  axis: { at: Vec3; direction: Vec3 };
  /** Where each arm takes its end link, and where that link meets the axle. */
  arms: { side: Side; tip: Vec3; axle: Vec3 }[];
  tubeOd: number | null;
}

export interface DrivelineEnd {
  joint: Vec3;
  /** Out of the flange, towards the other flange. */
  axis: Vec3;
  kind: 'single' | 'double cardan';
  limit: number | null;
}

export interface Driveline {
  pinion: DrivelineEnd;
  transferCase: DrivelineEnd;
  /** Change of length from drawn that the spline allows: [shorter (negative), longer (positive)]. */
  slip: [number, number] | null;
  /** Turn of the pinion's yoke from being in line with the transfer case's, about the shaft. */
  phase: number;
  tubeOd: number | null;
  axleRatio: number | null;
}

export type Shape =
  | { kind: 'sphere'; center: Vec3; radius: number }
  | { kind: 'capsule'; from: Vec3; to: Vec3; radius: number }
  | { kind: 'bentTube'; points: Vec3[]; radius: number }
  | {
      kind: 'box';
      center: Vec3;
      size: Vec3 /** Rows: the box's own axes in vehicle axes. */;
      axes: [Vec3, Vec3, Vec3];
    }
  | { kind: 'cylinder'; from: Vec3; to: Vec3; radius: number }
  | { kind: 'hull'; points: Vec3[]; radius: number }
  | {
      kind: 'mesh';
      file: string;
      scale: number;
      at: Vec3;
      axes: [Vec3, Vec3, Vec3];
      sha256: string | null;
      size: number | null;
    };

export interface Solid {
  name: string;
  /** Body it rides on: `chassis`, `axle`, `left knuckle`, a part's name … of the axle below. */
  on: string;
  /** Which axle's body; null for the chassis. */
  axle: AxleName | null;
  shape: Shape;
  isNew: boolean;
  mayBeCut: boolean;
  give: number;
}

export interface Wanted {
  bands: {
    measure: string;
    axle: AxleName | null;
    part: string | null;
    /** In internal units, or, where it was typed without one, in the unit of the measure (and a share as is). */
    least: number | null;
    greatest: number | null;
    inUnitOfMeasure: { least: boolean; greatest: boolean };
  }[];
  gaps: { pair: [string, string]; required: number; why: string }[];
  muted: { pair: [string, string]; why: string }[];
  /** Travel to walk where nothing stops the axle, both positive. */
  assumedTravel: { up: number; down: number } | null;
}
