/**
 * An entry that can be typed anew, as a tape reads: a wrong one says why below the field and what is used stays the
 * last good one. Enter or leaving the field takes it, Escape puts back what stood there.
 */
import { useId } from 'react';
import type { From } from '../../../geometry/build/build.ts';
import { useBaseEntries } from '../edit/base.ts';
import { Sentence } from '../words/Amount.tsx';
import { FROM_CHIP, toleranceWords, understood } from '../words/entryWords.ts';
import type { EntryRowProps } from './EntryRow.tsx';
import { useTyped } from './useTyped.ts';

const FROMS: readonly From[] = ['measured', 'drawing', 'assumed'];

export function EntryField({ entry, field, unit }: EntryRowProps) {
  const { text, problem, setText, onKeyDown, take, change } = useTyped(entry, field);
  const id = useId();
  const base = useBaseEntries()?.get(entry.path) ?? entry.typed;
  const differs = base !== entry.typed;
  const tolerance = toleranceWords(entry, unit);
  return (
    <li className="entry" title={entry.path} data-wrong={problem !== null} data-differs={differs}>
      <label className="entry-field" htmlFor={id}>
        {field}
      </label>
      <input
        id={id}
        className="entry-input"
        value={text}
        inputMode="text"
        autoComplete="off"
        spellCheck={false}
        aria-invalid={problem !== null}
        aria-describedby={problem === null ? undefined : `${id}-wrong`}
        onChange={event => setText(event.target.value)}
        onKeyDown={onKeyDown}
        onBlur={() => void take()}
      />
      <span className="entry-value">
        <Sentence text={understood(entry.value, entry.dimension, unit)} />
        {differs && (
          <small className="entry-base" title="What the base says">
            {' '}
            base <Sentence text={base} />
          </small>
        )}
        {tolerance !== '' && (
          <small>
            {' '}
            <Sentence text={tolerance} />
          </small>
        )}
      </span>
      <select
        className={entry.from === 'assumed' ? 'entry-from assumed' : 'entry-from'}
        aria-label={`${field} comes from`}
        value={entry.from}
        onChange={event => {
          const from = event.target.value as From;
          change(`${field}: ${FROM_CHIP[from]}`, { from });
        }}
      >
        {FROMS.map(each => (
          <option key={each} value={each}>
            {FROM_CHIP[each]}
          </option>
        ))}
      </select>
      {problem !== null && (
        <p className="entry-wrong" id={`${id}-wrong`} role="alert">
          {problem}. Still using {entry.typed}.
        </p>
      )}
    </li>
  );
}
