/** Every tolerance of the solver in one place: unit, reason, and what breaks if it is changed. */

/**
 * A Newton iteration has ended when its last step moved less than this (in; angles × half the track).
 * The error left is of second order: about step²/length, under 1e-11 in for links of 10 in.
 */
export const STEP_END_in = 1e-5;

/**
 * The same for compliant poses, in: the gradient left is about rate × step²/length, 3e-8 lbf at 1e6 lbf/in,
 * while 1e-6 lbf is asked for.
 */
export const ELASTIC_STEP_END_in = 1e-6;

/** Newton steps before a pose is given back to the path follower; contraction makes more useless. */
export const MOST_STEPS = 12;

/**
 * Ratio of the second to the first Newton step above which a start was too far away. Under ½ Newton's
 * theorem (affine covariant form) holds the iteration to one root; ¼ keeps a margin.
 */
export const CONTRACTION = 0.25;

/** Longest step of travel along a path that is followed from afar, in. */
export const PATH_STEP_in = 1;

/** Shortest step of travel along a path, in: where even this fails the branch has ended or is undecided. */
export const PATH_END_in = 1e-10;

/**
 * Steps that may fail within such a share of a path before it is given up as undecided. A fold takes some
 * seventy (34 halvings, and as many again on the way into it). Without this bound a path that gets on by a
 * millionth of an inch at a time would not end.
 */
export const MOST_FAILURES = 150;
export const PROGRESS = 1 / 20;

/**
 * Least singular value, as a part of the largest, at which a path's end counts as a fold of the branch.
 * At a distance of 1e-10 in from a fold it is of the order 1e-5 (square root law).
 */
export const FOLD = 1e-3;

/** Least singular value at ride height, as a part of the largest: under it a motion is free. */
export const RANK = 1e-6;

/** Share of its own length by which a member may stretch before the elastic model has no meaning. */
export const STRETCH_END = 0.25;

/** Cosine between a rod and the motion it must drive under which the sense of steering is undecided. */
export const SENSE = 1e-6;

/** A point nearer than this to its rod's line counts as on it, in. */
export const ON_LINE_in = 1e-9;
