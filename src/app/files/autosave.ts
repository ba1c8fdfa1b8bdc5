/**
 * Keeps builds that were changed in the browser, so that a closed tab, a crash or another build that is opened loses
 * nothing. Each tab keeps its own, under a lock that it holds as long as it lives: what a dead tab left behind is
 * opened again by the next, the newest first, and the others wait in the menu.
 */
import { del, entries, set } from 'idb-keyval';
import { trialText } from '../edit/edit.ts';
import { act } from '../state/action.ts';
import { tell } from '../state/open.ts';
import { type Shop, useShop } from '../state/shop.ts';

/** A build as it is kept. */
export interface Kept {
  fileName: string;
  text: string;
  step: string;
  variant: string | null;
  meshes: ReadonlyMap<string, Uint8Array>;
  /** When, ms since 1970. */
  at: number;
}

/** A kept build with the key that it is kept under. */
export interface KeptBuild extends Kept {
  key: string;
}

const KEY = 'axlewalk build ';
/** A change is written this long after it at the latest, ms; what comes in the meantime is written with it. */
const WAIT_ms = 250;
/** Builds that are kept; of more than these the oldest go. */
const MOST = 12;

const tab = `${KEY}${Date.now().toString(36)} ${Math.random().toString(36).slice(2)}`;
/** Builds of this tab that were put aside for others. */
let aside = 0;
const mine = (): string => `${tab} ${aside}`;
const tabOf = (key: string): string => key.replace(/ \d+$/, '');

/** Builds that no living tab is at, the newest first; none where storage is refused. */
export async function keptBuilds(): Promise<KeptBuild[]> {
  try {
    const locks = await navigator.locks?.query();
    const alive = new Set((locks?.held ?? []).map(({ name }) => name));
    const all = await entries<IDBValidKey, Kept>();
    return all
      .map(([key, kept]) => ({ ...kept, key: String(key) }))
      .filter(({ key }) => key.startsWith(KEY) && key !== mine())
      .filter(({ key }) => tabOf(key) === tab || !alive.has(tabOf(key)))
      .sort((a, b) => b.at - a.at);
  } catch {
    return [];
  }
}

/** What a tab that is gone left behind, the newest. */
export async function leftBehind(): Promise<KeptBuild | null> {
  const [newest, ...older] = await keptBuilds();
  for (const { key } of older.slice(MOST - 1)) await forget(key);
  return newest ?? null;
}

/** A kept build was opened: it is this tab's from now on, and is written under its name before the other copy goes. */
export async function takeOver({ key }: KeptBuild): Promise<void> {
  await write();
  await forget(key);
}

async function forget(key: string): Promise<void> {
  try {
    await del(key);
  } catch {
    // there is nothing to be lost by it
  }
}

/** Another build is about to be opened: what was changed in this one is kept beside it. */
export function setAside(): void {
  if (!useShop.getState().document?.step) return;
  void write();
  aside++;
}

let hasTold = false;

/** What is to be kept of the build as it stands, with what a hand is moving; null where nothing was changed. */
function keptOf({ document, variant, trial }: Shop): Omit<Kept, 'at'> | null {
  if (!document) return null;
  const { fileName, text, step, meshes } = document;
  const moved = trial ? trialText() : null;
  if (!step && !moved) return null;
  return {
    fileName,
    text: moved?.text ?? text,
    step: moved?.step ?? step ?? '',
    variant,
    meshes,
  };
}

async function write(): Promise<void> {
  const key = mine();
  const kept = keptOf(useShop.getState());
  try {
    if (kept) await set(key, { ...kept, at: Date.now() } satisfies Kept);
    else await del(key);
    hasTold = false;
  } catch (error) {
    if (hasTold || !kept) return;
    hasTold = true;
    const isFull = error instanceof DOMException && error.name === 'QuotaExceededError';
    const why = isFull ? 'The disk is full: the' : 'The';
    act(tell, `${why} browser keeps no copy of your changes. Save the build yourself.`);
  }
}

/** Keeps the build from now on; ends with what is returned. */
export function keepBuild(): () => void {
  const end = new AbortController();
  // held until the tab is gone
  navigator.locks
    ?.request(tab, { signal: end.signal }, () => new Promise(() => {}))
    .catch(() => {});
  let timer: ReturnType<typeof setTimeout> | undefined;
  const soon = (): void => {
    timer ??= setTimeout(() => {
      timer = undefined;
      void write();
    }, WAIT_ms);
  };
  const unfollow = useShop.subscribe(({ document, trial }) => [document?.text, trial?.by], soon, {
    equalityFn: (a, b) => a.every((each, i) => each === b[i]),
  });
  const now = (): void => {
    if (timer !== undefined) void write();
  };
  window.addEventListener('pagehide', now);
  return () => {
    end.abort();
    unfollow();
    clearTimeout(timer);
    window.removeEventListener('pagehide', now);
  };
}
