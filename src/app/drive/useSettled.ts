/** The handle for words: not each frame of a walk or a drag, but a few times a second, and where it comes to rest. */
import { useEffect, useState } from 'react';
import type { Handle } from '../state/rig.ts';
import { useShop } from '../state/shop.ts';

const EVERY_ms = 120;

export function useSettled(): Handle {
  const [handle, setHandle] = useState(() => useShop.getState().shown.handle);
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | null = null;
    const take = (): void => {
      timer = null;
      setHandle(useShop.getState().shown.handle);
    };
    take();
    const end = useShop.subscribe(
      shop => shop.shown.handle,
      () => {
        timer ??= setTimeout(take, EVERY_ms);
      },
    );
    return () => {
      end();
      if (timer !== null) clearTimeout(timer);
    };
  }, []);
  return handle;
}
