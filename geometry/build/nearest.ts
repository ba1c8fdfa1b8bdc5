/**
 * Edit distance between two words: the fewest insertions, deletions, replacements and swaps of
 * neighboring characters that turn `a` into `b`, no character touched twice ("optimal string
 * alignment", the restricted form of Damerau, Comm. ACM 7 (1964) 171, by the dynamic programming
 * of Wagner and Fischer, J. ACM 21 (1974) 168).
 */
export function editDistance(a: string, b: string): number {
  let twoUp: number[] = [];
  let oneUp = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const replaced = (oneUp[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      const deleted = (oneUp[j] ?? 0) + 1;
      const inserted = (row[j - 1] ?? 0) + 1;
      const isSwap = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      const swapped = isSwap ? (twoUp[j - 2] ?? 0) + 1 : Number.POSITIVE_INFINITY;
      row.push(Math.min(replaced, deleted, inserted, swapped));
    }
    twoUp = oneUp;
    oneUp = row;
  }
  return oneUp[b.length] ?? 0;
}

/**
 * The known name that `word` was most likely meant to be, or null if none is near. Case does not
 * count. Near is at most one slip in a word of up to four letters and one more for every three
 * letters beyond; of equally near names the first listed wins, so the answer never depends on
 * chance.
 *
 * @example nearest('steeer', ['left', 'right', 'steer']) // 'steer'
 * @example nearest('zebra', ['left', 'right', 'steer']) // null
 */
export function nearest(word: string, known: readonly string[]): string | null {
  const asked = word.toLowerCase();
  const allowed = 1 + Math.max(0, Math.ceil((asked.length - 4) / 3));
  let best: string | null = null;
  let least = allowed + 1;
  for (const name of known) {
    if (Math.abs(name.length - asked.length) >= least) continue;
    const distance = editDistance(asked, name.toLowerCase());
    if (distance < least) {
      least = distance;
      best = name;
    }
  }
  return best;
}
