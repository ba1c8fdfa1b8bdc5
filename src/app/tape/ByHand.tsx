/** What was taped on its own or changed by hand since it was proposed, and stays whatever is answered. */
import { useEffect, useState } from 'react';
import type { Start } from '../../../geometry/build/start/answers.ts';
import { theReader } from '../files/reader.ts';
import { useShop } from '../state/shop.ts';
import { pathWords } from '../words/pathWords.ts';
import { theStarter } from './starter.ts';
import type { KeptByHand } from './starting.ts';

/** Null until it is known. */
export function useKeptByHand(start: Start): KeptByHand | null {
  const text = useShop(({ document }) => document?.text ?? null);
  const [kept, setKept] = useState<KeptByHand | null>(null);
  useEffect(() => {
    let isNewest = true;
    Promise.all([theStarter(), theReader()]).then(
      ([starter, reader]) => {
        if (isNewest && text !== null) setKept(starter.keptByHand(start, reader.baseOf(text)));
      },
      () => {
        // told where an answer is taken
      },
    );
    return () => {
      isNewest = false;
    };
  }, [start, text]);
  return kept;
}

/** How many are named. */
const NAMED = 3;

export function ByHand({ kept }: { kept: KeptByHand | null }) {
  if (kept?.isByOtherRules) {
    return (
      <p className="note around-kept">
        Other rules proposed this build: what stands in it stays. Numbers that are still assumed
        take what you tape.
      </p>
    );
  }
  if (!kept || kept.paths.length === 0) return null;
  const [taped, changed] = parted(kept, kept.paths);
  return (
    <>
      {taped.length > 0 && (
        <p className="note around-kept">
          <span className="strong">Taped on their own, and kept:</span> {namesOf(taped)}.
        </p>
      )}
      {changed.length > 0 && (
        <p className="note around-kept">
          <span className="strong">Changed by hand, and kept</span> whatever you answer:{' '}
          {namesOf(changed)}.
        </p>
      )}
    </>
  );
}

/** What was taped on its own, and what was changed otherwise. */
const parted = (
  kept: KeptByHand,
  paths: readonly string[],
): [taped: string[], changed: string[]] => [
  paths.filter(kept.isTaped),
  paths.filter(path => !kept.isTaped(path)),
];

/** Tells, beside an answer, that what it says is already said otherwise. */
export function NotMoved({ kept, paths }: { kept: KeptByHand | null; paths: readonly string[] }) {
  if (!kept || paths.length === 0) return null;
  const [taped, changed] = parted(kept, paths);
  return (
    <>
      {taped.length > 0 && (
        <p className="note">
          <span className="strong">Taped on its own, and kept:</span> {namesOf(taped)}. To tape it
          anew, type it in Parts.
        </p>
      )}
      {changed.length > 0 && (
        <p className="note">
          <span className="strong">Changed by hand, and kept as it is:</span> {namesOf(changed)}. To
          go by the tape, type it there, in Parts.
        </p>
      )}
    </>
  );
}

/** 'Tire width, lower link axle end height and 2 more', each once. */
function namesOf(paths: readonly string[]): string {
  const names = [
    ...new Set(
      paths.map(path => {
        const { name, field } = pathWords(path);
        return [name.toLowerCase(), field].filter(Boolean).join(', ');
      }),
    ),
  ];
  const more = names.length - NAMED;
  const told = more === 1 ? names : names.slice(0, NAMED);
  return told.join('; ') + (more > 1 ? `; and ${more} more` : '');
}
