/**
 * Keeps the build that is being changed in the browser, so that a closed tab or a crash loses nothing. Each tab keeps
 * its own, under a lock that it holds as long as it lives: what a dead tab left behind is opened again by the next.
 */
import { del, entries, set } from 'idb-keyval';
import type { Start } from '../../../geometry/build/start/answers.ts';
import { act } from '../state/action.ts';
import { tell } from '../state/open.ts';
import { useShop } from '../state/shop.ts';

/** A build as it is kept. */
export interface Kept {
  fileName: string;
  text: string;
  step: string;
  variant: string | null;
  meshes: ReadonlyMap<string, Uint8Array>;
  /** What it was proposed from, where it was started on the page. */
  start?: Start | undefined;
  /** When, ms since 1970. */
  at: number;
}

const KEY = 'axlewalk build ';
/** Changes are written this long after the last of them, ms. */
const WAIT_ms = 250;

const mine = `${KEY}${Date.now().toString(36)} ${Math.random().toString(36).slice(2)}`;

/** What a tab that is gone left behind, the newest; null where there is none or storage is refused. */
export async function leftBehind(): Promise<Kept | null> {
  try {
    const { held = [] } = await navigator.locks.query();
    const alive = new Set(held.map(({ name }) => name));
    const all = await entries<IDBValidKey, Kept>();
    const dead = all.filter(([key]) => String(key).startsWith(KEY) && !alive.has(String(key)));
    const [newest, ...older] = dead.toSorted(([, a], [, b]) => b.at - a.at);
    // one is carried on; older ones stay for a day
    const past = older.filter(([, { at }]) => Date.now() - at > DAY_ms);
    for (const [key] of past) await del(key);
    if (newest) await del(newest[0]);
    return newest?.[1] ?? null;
  } catch {
    return null;
  }
}

const DAY_ms = 24 * 60 * 60 * 1000;

/** Keeps the build from now on; ends with what is returned. */
export function keepBuild(): () => void {
  const end = new AbortController();
  // held until the tab is gone
  navigator.locks
    ?.request(mine, { signal: end.signal }, () => new Promise(() => {}))
    .catch(() => {});
  let timer: ReturnType<typeof setTimeout> | undefined;
  let hasTold = false;
  const write = async (): Promise<void> => {
    const { document, variant } = useShop.getState();
    try {
      if (!document?.step) {
        await del(mine);
        return;
      }
      const { fileName, text, step, meshes, start } = document;
      const kept: Kept = { fileName, text, step, variant, meshes, start, at: Date.now() };
      await set(mine, kept);
    } catch {
      if (!hasTold)
        act(tell, 'The browser keeps no copy of your changes: save the build yourself.');
      hasTold = true;
    }
  };
  const unfollow = useShop.subscribe(
    ({ document }) => document?.text,
    () => {
      clearTimeout(timer);
      timer = setTimeout(() => void write(), WAIT_ms);
    },
  );
  const now = (): void => {
    clearTimeout(timer);
    if (useShop.getState().document?.step) void write();
  };
  window.addEventListener('pagehide', now);
  return () => {
    end.abort();
    unfollow();
    clearTimeout(timer);
    window.removeEventListener('pagehide', now);
  };
}
