/** What hangs on a point: everything that is taped from it, or from what is. */
import type { Entry } from './build.ts';

/**
 * Paths of the entries that follow an entry, through any number of places and dimensions between.
 *
 * @param paths of the entries that move
 */
export function followers(entries: readonly Entry[], paths: readonly string[]): string[] {
  const users = new Map<string, string[]>();
  for (const { path, uses } of entries) {
    for (const used of uses) users.set(used, [...(users.get(used) ?? []), path]);
  }
  const found = new Set<string>(paths);
  for (const path of found) for (const user of users.get(path) ?? []) found.add(user);
  return [...found].slice(new Set(paths).size);
}
