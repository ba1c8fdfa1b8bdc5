/**
 * A Float64Array whose first places are known to exist, so that `a[2]` is a number and not perhaps
 * undefined. A promise of the code that made the array, checked by nothing: make it with `numbers`
 * and index it with literals only up to its size.
 */
export interface Numbers extends Float64Array<ArrayBufferLike> {
  0: number;
  1: number;
  2: number;
  3: number;
  4: number;
  5: number;
  6: number;
  7: number;
  8: number;
  9: number;
  10: number;
  11: number;
  12: number;
  13: number;
  14: number;
  15: number;
  16: number;
  17: number;
  18: number;
  19: number;
  20: number;
}

/** A new array of `size` zeros. */
export function numbers(size: number): Numbers {
  return new Float64Array(size) as Float64Array as Numbers;
}
