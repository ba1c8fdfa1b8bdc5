/** Light and dark: as the device is set, or as somebody chose; paper is always light. */
import { useShop } from '../state/shop.ts';

/** Follows choice, device and printer from now on; ends with what is returned. */
export function followTheme(): () => void {
  const dark = window.matchMedia('(prefers-color-scheme: dark)');
  let isPrinting = false;
  const show = (): void => {
    const { theme } = useShop.getState().look;
    const isDark = !isPrinting && (theme === 'dark' || (theme === 'system' && dark.matches));
    document.documentElement.dataset.theme = isDark ? 'dark' : 'light';
  };
  const gone = new AbortController();
  const { signal } = gone;
  const print = (is: boolean) => (): void => {
    isPrinting = is;
    show();
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
