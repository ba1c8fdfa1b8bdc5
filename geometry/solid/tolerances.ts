/** Every tolerance of the solids in one place: unit, reason, and what breaks if it is changed. */

/**
 * Largest coordinate or size that a shape may have, in (16 miles). Squares and products of four stay
 * far from overflow, and rounding at this size (1e-10) stays under what is asked for.
 */
export const LARGEST_in = 1e6;

/** Least size of a shape, in: under it a shape is taken for a slip, and squares lose their digits. */
export const SMALLEST_in = 1e-6;

/**
 * A search for a distance has ended when its upper and lower bound are this near, in. A thousandth of
 * what the comparison with other code asks for; half of it costs a step more on round shapes.
 */
export const BOUNDS_END_in = 1e-9;

/**
 * Cores nearer than this count as overlapping, in: the direction between two points of this distance
 * is rounding noise (1e-15 in of 10 in, over 1e-10), so that it is asked of the depth search.
 */
export const TOUCHING_in = 1e-10;

/** Steps of the distance search at most; round shapes take some 20, the rest under 10. */
export const MOST_STEPS = 100;

/**
 * Vertices of the depth search at most. Cores with corners end long before; where round ones have not ended
 * with fewer, the rest of the vertices would go into a ring of faces that are all as near, and a descent from the
 * best direction is quicker.
 */
export const MOST_VERTICES = 120;
export const MOST_VERTICES_ROUND = 48;

/**
 * A new vertex this near to a face's plane counts as in it, as a part of the shapes' size: a few hundred
 * roundings. Larger values flatten what is round, smaller ones let slivers in.
 */
export const COPLANAR = 1e-13;

/**
 * Difference of two cores whose thickness is under this part of its size counts as flat: its
 * depth is then its thickness, wrong by no more than that.
 */
export const FLAT = 1e-11;

/** Columns of a rotation may miss unit length and square angles by this much. */
export const ROTATION = 1e-9;
