/** What the base says where a variant is shown: values that differ from it are marked. */
import { useEffect, useMemo, useState } from 'react';
import type { Entry } from '../../../geometry/build/build.ts';
import type { BuildFile } from '../../../geometry/build/schema/file.ts';
import { readerAtHand, theReader } from '../files/reader.ts';
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

/** Those of some entries that the shown variant has otherwise than the base; none where the base is shown. */
export function useApart(entries: readonly Entry[]): readonly Entry[] {
  const base = useBaseEntries();
  return useMemo(
    () => (base ? entries.filter(({ path, typed }) => (base.get(path) ?? typed) !== typed) : []),
    [base, entries],
  );
}

let parsed: { text: string; file: BuildFile } | null = null;

/** The file without a variant applied; null until it can be read. */
export function useBaseFile(): BuildFile | null {
  const text = useShop(shop => shop.document?.text ?? null);
  const [reader, setReader] = useState(readerAtHand);
  useEffect(() => {
    if (!reader) void theReader().then(setReader);
  }, [reader]);
  if (text === null || !reader) return null;
  if (parsed?.text !== text) parsed = { text, file: reader.baseOf(text) };
  return parsed.file;
}
