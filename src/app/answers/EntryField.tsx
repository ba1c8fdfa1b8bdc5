/**
 * An entry that can be typed anew, as a tape reads: a wrong one says why below the field and what is used stays the
 * last good one. Enter or leaving the field takes it, Escape puts back what stood there.
 */
import { type KeyboardEvent, useEffect, useId, useRef, useState } from 'react';
import type { From } from '../../../geometry/build/build.ts';
import { typeEntry } from '../edit/edit.ts';
import { Sentence } from '../words/Amount.tsx';
import { FROM_CHIP, toleranceWords, understood } from '../words/entryWords.ts';
import type { EntryRowProps } from './EntryRow.tsx';

const FROMS: readonly From[] = ['measured', 'drawing', 'assumed'];

export function EntryField({ entry, field, unit }: EntryRowProps) {
  const [text, setText] = useState(entry.typed);
  const [problem, setProblem] = useState<string | null>(null);
  const id = useId();
  // Escape leaves the field without taking what stands in it
  const isPutBack = useRef(false);
  useEffect(() => {
    setText(entry.typed);
    setProblem(null);
  }, [entry.typed]);

  const take = async (): Promise<void> => {
    if (isPutBack.current) {
      isPutBack.current = false;
      return;
    }
    const typed = text.trim();
    if (typed === entry.typed) {
      setProblem(null);
      return;
    }
    setProblem(
      await typeEntry(entry.path, `${field}: ${entry.typed} → ${typed}`, { value: typed }),
    );
  };
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>): void => {
    if (event.key === 'Enter') void take();
    if (event.key !== 'Escape') return;
    event.stopPropagation();
    isPutBack.current = true;
    setText(entry.typed);
    setProblem(null);
    event.currentTarget.blur();
  };
  const tolerance = toleranceWords(entry, unit);
  return (
    <li className="entry" title={entry.path} data-wrong={problem !== null}>
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
          void typeEntry(entry.path, `${field}: ${FROM_CHIP[from]}`, { from }).then(setProblem);
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
