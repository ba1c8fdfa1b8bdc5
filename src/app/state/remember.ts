/**
 * What the page remembers of how it is looked at, in the browser's own storage. Storage that is refused or holds
 * something else is no trouble: the page then begins as for the first time.
 */
import { type Look, type Shop, type Speed, useShop } from './shop.ts';

const KEY = 'axlewalk.look';

type Kept = Pick<
  Look,
  | 'unit'
  | 'isUnitChosen'
  | 'theme'
  | 'view'
  | 'sheet'
  | 'labels'
  | 'grid'
  | 'rideGhost'
  | 'construction'
  | 'isGreeted'
  | 'hasLetterKeys'
> & { speed: Speed };

/** What each may be; anything else that is found stored is left aside. */
const MAY_BE: { [K in keyof Kept]: readonly Kept[K][] } = {
  unit: ['in', 'mm'],
  isUnitChosen: [true, false],
  theme: ['system', 'light', 'dark'],
  view: ['corner', 'front', 'side', 'top'],
  sheet: ['findings', 'charts', 'parts', 'tape'],
  labels: [true, false],
  grid: [true, false],
  rideGhost: [true, false],
  construction: [true, false],
  isGreeted: [true, false],
  hasLetterKeys: [true, false],
  speed: ['slow', 'normal', 'fast'],
};

/** What of a stored text can be kept to. */
export function readKept(text: string | null): Partial<Kept> {
  let stored: unknown = null;
  try {
    stored = JSON.parse(text ?? 'null');
  } catch {
    return {};
  }
  if (typeof stored !== 'object' || stored === null) return {};
  const found = Object.entries(stored).filter(([key, value]) => {
    const allowed: readonly unknown[] = Object.hasOwn(MAY_BE, key) ? MAY_BE[key as keyof Kept] : [];
    return allowed.includes(value);
  });
  return Object.fromEntries(found) as Partial<Kept>;
}

/** What is stored of a state. */
export function keptOf({ look, play }: Shop): string {
  const all: Record<string, unknown> = { ...look, speed: play.speed };
  return JSON.stringify(Object.fromEntries(Object.keys(MAY_BE).map(key => [key, all[key]])));
}

/** Begins as the page was left. */
export function recall(): void {
  let text: string | null = null;
  try {
    text = localStorage.getItem(KEY);
  } catch {
    // storage is refused
  }
  const { speed, ...look } = readKept(text);
  useShop.setState(shop => ({
    look: { ...shop.look, ...look },
    play: speed ? { ...shop.play, speed } : shop.play,
  }));
}

/** Remembers from now on; ends with what is returned. */
export function remember(): () => void {
  return useShop.subscribe(keptOf, text => {
    try {
      localStorage.setItem(KEY, text);
    } catch {
      // storage is refused or full
    }
  });
}
