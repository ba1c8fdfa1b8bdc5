/** Sizes of parts that the build does not give, in. Common practice, no source. */

/** Radius of the zone about a shared joint, as a part of its housing's radius. */
export const ZONE = 1.25;

export const ASSUMED = {
  linkTube: 2,
  rodTube: 1.5,
  axleTube: 3,
  /** A joint's housing against its tube. */
  housingFactor: 1.25,
  /** Radius of the yoke's two arms at the end of an axle tube, and how far inboard of the kingpin they end. */
  yoke: 1,
  yokeInboard: 1.5,
  /** Radius of the pinion's snout. */
  pinion: 1.75,
  knuckle: 1.75,
  knuckleArm: 1.5,
  pitmanArm: 1.5,
  /** Radius of the sector shaft with its nut. */
  sectorShaft: 1.25,
  ramBody: 2.5,
  ramRod: 1,
  /** Radius of the tab or clamp by which a ram pushes a tie rod. */
  ramBracket: 0.5,
  shockBody: 2.25,
  shockShaft: 0.75,
  /** Radius of the eye of a shock or ram. */
  eye: 0.75,
  /** A shock's body and a ram's body as shares of the shortest length. */
  bodyShare: 0.85,
  coilDiameter: 5.5,
  wire: 0.625,
  bumpRadius: 1.25,
  /** What stands behind the pad of a bump stop: a plate, or the body of an air bump. */
  bumpBacking: { rubber: 0.5, air: 6 },
  driveshaftTube: 3,
  /** Diameter of a U-joint's swing beyond the driveshaft's tube. */
  uJoint: 1,
  swayBar: 1.25,
  /** Diameter of its end links. */
  swayBarLink: 0.75,
  /** Diameter of a rim, as a share of the tire's, and its width, as a share of the tire's. */
  rimShare: 0.45,
  rimWidthShare: 0.75,
  /** Thickness of a rim's barrel with its lips, and of the disk. */
  barrel: 0.6,
  disk: 0.5,
} as const;
