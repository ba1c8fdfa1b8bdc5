/** Entries moved by lengths: how they would be typed, and the file with them. */
import type { Build, Entry } from './build.ts';
import { type Edit, type Edited, entryAt, withEntry } from './edit.ts';
import { nudged } from './nudge.ts';
import type { Shift } from './shift.ts';

/** The entries of a build as they would be typed and read once some of them are moved, in. */
export function movedEntries({ entries, unit }: Build, moves: readonly Shift[]): Entry[] {
  const amounts = new Map(moves.map(({ path, by }) => [path, by]));
  return entries.map(entry => {
    const by = amounts.get(entry.path);
    if (by === undefined) return entry;
    const typed = nudged(entry.typed, entry.value, by, { dimension: 'length', unit });
    return { ...entry, typed, value: entry.value + by, from: drawn(entry.from) };
  });
}

/** What was measured and is moved is no measurement any more: it is drawn. */
const drawn = (from: Entry['from']): Entry['from'] => (from === 'measured' ? 'drawing' : from);

/**
 * The file with entries moved, each reading as one would write it.
 *
 * @param build the one that was read from it
 */
export function withMoves(edited: Edited, build: Build, moves: readonly Shift[]): Edit {
  let edit: Edit = { ok: true, file: edited.file };
  for (const { path, typed } of movedEntries(build, moves)) {
    if (!moves.some(move => move.path === path)) continue;
    if (!edit.ok) return edit;
    const now: Edited = { ...edited, file: edit.file };
    const written = entryAt(now, path)?.from ?? null;
    edit = withEntry(now, path, { value: typed, ...(written ? { from: drawn(written) } : {}) });
  }
  return edit;
}
