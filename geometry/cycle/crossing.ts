/** Where a margin changes its sign. */

export interface Sided<T> {
  /** Positive or zero inside; −∞ where there is nothing to measure. */
  margin: number;
  what: T;
}

export interface Crossing<T> {
  /** The last parameter that was found inside, within `end` of one outside. */
  inner: number;
  /** What was found at the outer end of the bracket. */
  outside: T;
}

/**
 * Closes the bracket [inner, outer] (either order) on a change of sign until it is shorter than `end`. Regula
 * falsi with halved weights (Illinois; Dahlquist and Björck, Numerical Methods, §6.2; from memory), nudged
 * across the root so that both ends close in; halving where a margin is infinite or the secant stalls.
 */
export function closeOn<T>(
  at: (t: number) => Sided<T>,
  inner: number,
  innerMargin: number,
  outer: number,
  outside: Sided<T>,
  end: number,
): Crossing<T> {
  let a = inner;
  let fa = innerMargin;
  let b = outer;
  let fb = outside.margin;
  let what = outside.what;
  let stalled = 0;
  for (let n = 0; n < 200 && Math.abs(b - a) > end; n++) {
    const size = Math.abs(b - a);
    let t: number;
    if (Number.isFinite(fb) && Number.isFinite(fa) && fa - fb > 0 && stalled < 3) {
      t = a + ((b - a) * fa) / (fa - fb);
      // half of `end` across the estimate: the next bracket is short if the estimate is good
      const nudge = Math.min(end / 3, size / 4) * Math.sign(b - a);
      t = Math.abs(t - a) < size / 2 ? t + nudge : t - nudge;
      const least = Math.min(end / 3, size / 4);
      if (Math.abs(t - a) < least) t = a + least * Math.sign(b - a);
      if (Math.abs(b - t) < least) t = b - least * Math.sign(b - a);
    } else {
      t = (a + b) / 2;
      stalled = 0;
    }
    if (t === a || t === b) break;
    const there = at(t);
    if (there.margin >= 0) {
      a = t;
      fa = there.margin;
      if (Number.isFinite(fb)) fb /= 2;
    } else {
      b = t;
      fb = there.margin;
      what = there.what;
      fa /= 2;
    }
    stalled = Math.abs(b - a) > size / 2 ? stalled + 1 : 0;
  }
  return { inner: a, outside: what };
}
