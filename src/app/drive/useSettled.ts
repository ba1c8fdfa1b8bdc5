/** What moves in every frame, for words: a few times a second, and where it comes to rest. */
import { useEffect, useState } from 'react';
import type { Handle } from '../state/rig.ts';
import { type Shop, useShop } from '../state/shop.ts';

const EVERY_ms = 120;

/** @param pick what is read; the same function each time */
export function useSettledValue<Value>(pick: (shop: Shop) => Value): Value {
  const [value, setValue] = useState(() => pick(useShop.getState()));
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | null = null;
    const take = (): void => {
      timer = null;
      setValue(pick(useShop.getState()));
    };
    take();
    const end = useShop.subscribe(pick, () => {
      timer ??= setTimeout(take, EVERY_ms);
    });
    return () => {
      end();
      if (timer !== null) clearTimeout(timer);
    };
  }, [pick]);
  return value;
}

const handleOf = ({ shown }: Shop): Handle => shown.handle;
const placeOf = ({ play }: Shop): number => play.at;

export const useSettled = (): Handle => useSettledValue(handleOf);
export const useSettledPlace = (): number => useSettledValue(placeOf);
