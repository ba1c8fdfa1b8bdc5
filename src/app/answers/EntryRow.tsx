/** One entered number: its field in words, as it was typed, as it is understood, and where it comes from. */
import type { Entry } from '../../../geometry/build/build.ts';
import { Sentence } from '../words/Amount.tsx';
import { FROM_CHIP, toleranceWords, understood } from '../words/entryWords.ts';

export interface EntryRowProps {
  entry: Entry;
  /** Its field in words. */
  field: string;
  unit: 'in' | 'mm';
}

export function EntryRow({ entry, field, unit }: EntryRowProps) {
  const tolerance = toleranceWords(entry, unit);
  return (
    <li className="entry" title={entry.path}>
      <span className="entry-field">{field}</span>
      <span className="entry-typed">
        <Sentence text={entry.typed} />
      </span>
      <span className="entry-value">
        <Sentence text={understood(entry.value, entry.dimension, unit)} />
        {tolerance !== '' && (
          <small>
            {' '}
            <Sentence text={tolerance} />
          </small>
        )}
      </span>
      <Chip assumed={entry.from === 'assumed'} text={FROM_CHIP[entry.from]} />
    </li>
  );
}

/** Where something comes from; what is assumed is hatched. */
export function Chip({ assumed, text }: { assumed: boolean; text: string }) {
  return (
    <span className={assumed ? 'chip assumed' : 'chip'}>
      <span>{text}</span>
    </span>
  );
}
