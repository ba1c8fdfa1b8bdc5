/**
 * What a change leaves as it was keeps its identity: then whatever was worked out of it before still holds, and is found
 * again by the object alone.
 */

/**
 * What was made anew, with all that equals its former self, bit by bit, exchanged for that. It may be changed in place,
 * by values that are equal. Plain objects, lists and arrays of numbers are looked into; anything else is alike where it is
 * the same object.
 *
 * @returns `before` itself where nothing changed
 * @example
 * const build = keepAlike(before, made);
 * build.axles[1] === before.axles[1]; // true where only the front axle was changed
 */
export function keepAlike<T>(before: unknown, made: T): T {
  if (Object.is(before, made)) return made;
  if (typeof before !== 'object' || typeof made !== 'object' || !before || !made) return made;
  const kind = Object.getPrototypeOf(made);
  if (kind !== Object.getPrototypeOf(before)) return made;
  if (ArrayBuffer.isView(made)) return sameNumbers(before, made) ? (before as T) : made;
  if (kind !== Object.prototype && kind !== Array.prototype) return made;
  const was = before as Record<string, unknown>;
  const is = made as Record<string, unknown>;
  const keys = Object.keys(is);
  let isAlike = keys.length === Object.keys(was).length;
  for (const key of keys) {
    const kept = keepAlike(was[key], is[key]);
    if (kept !== is[key]) is[key] = kept;
    if (!Object.is(kept, was[key]) || !(key in was)) isAlike = false;
  }
  return isAlike ? (before as T) : made;
}

/** Whether two are alike in that sense; both stay as they are. */
export function isAlike(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || !a || !b) return false;
  const kind = Object.getPrototypeOf(a);
  if (kind !== Object.getPrototypeOf(b)) return false;
  if (ArrayBuffer.isView(a)) return sameNumbers(a, b);
  if (kind !== Object.prototype && kind !== Array.prototype) return false;
  const [p, q] = [a, b] as [Record<string, unknown>, Record<string, unknown>];
  const keys = Object.keys(p);
  return (
    keys.length === Object.keys(q).length && keys.every(key => key in q && isAlike(p[key], q[key]))
  );
}

function sameNumbers(a: unknown, b: unknown): boolean {
  const [p, q] = [a, b] as [ArrayLike<unknown>, ArrayLike<unknown>];
  if (p.length !== q.length) return false;
  for (let i = 0; i < p.length; i++) if (!Object.is(p[i], q[i])) return false;
  return true;
}
