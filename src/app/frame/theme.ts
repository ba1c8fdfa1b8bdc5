/**
 * Light and dark: as the device is set, or as somebody chose; paper is always light. `themechange` on the window tells
 * of a change. A browser prints right after `beforeprint`, so all is painted anew within it: the root has `data-paper`
 * as long, on which canvases wait for no frame.
 */
import { flushSync } from 'react-dom';
import { useShop } from '../state/shop.ts';

/** Follows choice, device and printer from now on; ends with what is returned. */
export function followTheme(): () => void {
  const root = document.documentElement;
  const dark = window.matchMedia('(prefers-color-scheme: dark)');
  let isPrinting = false;
  const show = (): void => {
    const chosen = useShop.getState().look.theme;
    const isDark = !isPrinting && (chosen === 'dark' || (chosen === 'system' && dark.matches));
    const theme = isDark ? 'dark' : 'light';
    if (root.dataset.theme === theme) return;
    root.dataset.theme = theme;
    window.dispatchEvent(new Event('themechange'));
  };
  const gone = new AbortController();
  const { signal } = gone;
  const print = (is: boolean) => (): void => {
    isPrinting = is;
    root.toggleAttribute('data-paper', is);
    flushSync(show);
  };
  dark.addEventListener('change', show, { signal });
  window.addEventListener('beforeprint', print(true), { signal });
  window.addEventListener('afterprint', print(false), { signal });
  const end = useShop.subscribe(({ look }) => look.theme, show);
  show();
  return () => {
    gone.abort();
    end();
  };
}
