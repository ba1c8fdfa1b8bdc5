/** The colors of canvases, read again when the page turns light or dark. */
import { useSyncExternalStore } from 'react';
import { type Palette, readPalette } from '../../charts/palette.ts';

let palette: Palette | null = null;
const listeners = new Set<() => void>();
let watcher: MutationObserver | null = null;

function listen(listener: () => void): () => void {
  listeners.add(listener);
  watcher ??= new MutationObserver(() => {
    palette = null;
    for (const each of listeners) each();
  });
  watcher.observe(document.documentElement, { attributeFilter: ['data-theme'] });
  return () => {
    listeners.delete(listener);
    if (listeners.size > 0) return;
    watcher?.disconnect();
    watcher = null;
    palette = null;
  };
}

function now(): Palette {
  palette ??= readPalette(document.documentElement);
  return palette;
}

export const usePalette = (): Palette => useSyncExternalStore(listen, now);
