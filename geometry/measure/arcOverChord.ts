/**
 * The circular arc of a given length over a chord: the shape that hoses and wires are taken to have. With θ half of
 * the angle that it turns through and r its radius, length L = 2 r θ and chord c = 2 r sin θ, so that
 *   (1) sin θ / θ = c / L,  0 ≤ θ ≤ π,
 *   (2) r = L / (2 θ):
 * endless where it is pulled straight, L / 2π where both ends meet. θ by bisection and Newton on
 *   (3) 1 − sin θ / θ = (L − c) / L,
 * in which a nearly straight arc keeps its digits; r is then as sharp as L − c is.
 * (Arc and chord of a circle: any handbook of geometry; from memory.)
 */

/** Under this half angle 1 − sin θ / θ comes from its series: else it would lose digits. */
const SERIES = 0.7;

/** 1 − sin θ / θ. */
function shortening(angle: number): number {
  if (angle > SERIES) return 1 - Math.sin(angle) / angle;
  // θ²/3! − θ⁴/5! + …: the tenth term is under 1e-22 of the first
  const square = angle * angle;
  let term = square / 6;
  let sum = term;
  for (let k = 2; k <= 10; k++) {
    term *= -square / (2 * k * (2 * k + 1));
    sum += term;
  }
  return sum;
}

/** Its derivative, (sin θ / θ − cos θ) / θ. */
function shorteningRate(angle: number): number {
  if (angle > SERIES) return (Math.sin(angle) / angle - Math.cos(angle)) / angle;
  const square = angle * angle;
  let term = angle / 6;
  let sum = 2 * term;
  for (let k = 2; k <= 10; k++) {
    term *= -square / (2 * k * (2 * k + 1));
    sum += 2 * k * term;
  }
  return sum;
}

export interface Arc {
  /** Half of the angle that the arc turns through, rad. */
  halfAngle: number;
  /** Radius, in. */
  radius: number;
  /** Derivative of the radius by the chord. */
  byChord: number;
}

/**
 * The arc of a length over a chord, in; null where it is as long as the chord or shorter: pulled straight.
 *
 * @example
 * arcOverChord(Math.PI * 5, 10)?.radius; // 5: half a circle
 */
export function arcOverChord(length: number, chord: number): Arc | null {
  const short = (length - chord) / length;
  if (!(short > 0)) return null;
  let low = 0;
  let high = Math.PI;
  // the first term of the series alone is less than the whole: a start from below
  let angle = Math.min(high, Math.sqrt(6 * short));
  for (let step = 0; step < 100; step++) {
    const error = shortening(angle) - short;
    if (error > 0) high = angle;
    else low = angle;
    const newton = angle - error / shorteningRate(angle);
    const next = newton >= low && newton <= high ? newton : (low + high) / 2;
    const change = Math.abs(next - angle);
    angle = next;
    if (change <= 1e-16 * angle) break;
  }
  return {
    halfAngle: angle,
    radius: length / (2 * angle),
    // dθ/dc = −1/(L s′) with s of (3), dr/dθ = −r/θ
    byChord: 1 / (2 * angle * angle * shorteningRate(angle)),
  };
}
