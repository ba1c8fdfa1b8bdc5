/** The cautions that stand under every result that a person reads. */
export const CAUTIONS =
  'Geometry from numbers that somebody entered, no approval of any part, weld or vehicle. Steering and ' +
  'suspension changes can kill: check the finished vehicle on stands through its full travel, springs ' +
  'out, hoses connected, at full lock.';
