/** The theme that the page shows, for what is drawn on a canvas. */
import { useSyncExternalStore } from 'react';

function subscribe(changed: () => void): () => void {
  window.addEventListener('themechange', changed);
  return () => window.removeEventListener('themechange', changed);
}

const now = (): 'dark' | 'light' =>
  document.documentElement.dataset.theme === 'dark' ? 'dark' : 'light';

/** As the page's root says; changes when it does. */
export const useTheme = (): 'dark' | 'light' => useSyncExternalStore(subscribe, now);
