/** The theme that the page shows, for what is drawn on a canvas. */
import { useSyncExternalStore } from 'react';

function subscribe(changed: () => void): () => void {
  const watch = new MutationObserver(changed);
  watch.observe(document.documentElement, { attributes: true, attributeFilter: ['data-theme'] });
  return () => watch.disconnect();
}

/** 'dark' or 'light', as the page's root says; changes when it does. */
export const useTheme = (): string =>
  useSyncExternalStore(
    subscribe,
    () => document.documentElement.dataset.theme ?? 'light',
    () => 'light',
  );
