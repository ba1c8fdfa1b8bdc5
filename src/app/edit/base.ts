/** What the base says where a variant is shown: values that differ from it are marked. */
import { useMemo } from 'react';
import { readerAtHand } from '../files/reader.ts';
import { useShop } from '../state/shop.ts';

type Typed = ReadonlyMap<string, string>;

let known: { text: string; typed: Typed } | null = null;

/** Entries of the base as they are typed, by their paths; null where the base is shown. */
export function useBaseEntries(): Typed | null {
  const text = useShop(shop => shop.document?.text ?? null);
  const variant = useShop(shop => shop.variant);
  return useMemo(() => {
    if (text === null || variant === null) return null;
    if (known?.text !== text) {
      const base = readerAtHand()?.read(text, null);
      if (!base?.ok) return null;
      known = { text, typed: new Map(base.build.entries.map(each => [each.path, each.typed])) };
    }
    return known.typed;
  }, [text, variant]);
}
