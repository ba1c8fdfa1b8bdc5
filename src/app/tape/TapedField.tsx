/** One number of what is to be taped: typed as the tape reads it, and from then on measured. */
import { type KeyboardEvent, useEffect, useId, useState } from 'react';
import type { Entry } from '../../../geometry/build/build.ts';
import { sentence } from '../../../geometry/finding/words.ts';
import { typeEntry } from '../edit/edit.ts';
import { act } from '../state/action.ts';
import { whileTyping } from '../state/study.ts';
import { understood } from '../words/entryWords.ts';
import { pathWords } from '../words/pathWords.ts';
import { CAREFUL } from './markTaped.ts';
import { isNoTrial } from './takeStart.ts';

interface TapedFieldProps {
  entry: Entry;
  /** Unit that a bare number of its build is read in. */
  unit: 'in' | 'mm';
  onFocus: () => void;
}

export function TapedField({ entry, unit, onFocus }: TapedFieldProps) {
  const { path, typed, from, dimension, value } = entry;
  const isOpen = from === 'assumed';
  const [text, setText] = useState(isOpen ? '' : typed);
  const [problem, setProblem] = useState<string | null>(null);
  const id = useId();
  useEffect(() => {
    setText(isOpen ? '' : typed);
    setProblem(null);
  }, [isOpen, typed]);
  const { name, field } = pathWords(path);
  const label = sentence(field === '' ? name : field);
  const take = async (): Promise<void> => {
    const now = text.trim();
    if (now === '' || (!isOpen && now === typed)) {
      setProblem(null);
      return;
    }
    const tolerance = CAREFUL[dimension] ?? null;
    const words = `${name}, ${label.toLowerCase()}: ${now}`;
    whileTyping();
    const refused = await typeEntry(path, words, { value: now, from: 'measured', tolerance });
    if (refused === null) act(isNoTrial);
    setProblem(refused);
  };
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>): void => {
    if (event.key !== 'Enter') return;
    event.preventDefault();
    void take();
    const fields = [
      ...(event.currentTarget.closest('.next-fields')?.querySelectorAll('input') ?? []),
    ];
    fields[fields.indexOf(event.currentTarget) + 1]?.focus();
  };
  return (
    <li className="next-field" data-wrong={problem !== null} title={path}>
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        className={isOpen ? 'entry-input open' : 'entry-input'}
        value={text}
        placeholder={understood(value, dimension, unit)}
        autoComplete="off"
        spellCheck={false}
        enterKeyHint="next"
        aria-invalid={problem !== null}
        aria-describedby={problem === null ? undefined : `${id}-wrong`}
        onChange={event => {
          whileTyping();
          setText(event.target.value);
          setProblem(null);
        }}
        onKeyDown={onKeyDown}
        onFocus={onFocus}
        onBlur={() => void take()}
      />
      {problem !== null && (
        <p className="entry-wrong" id={`${id}-wrong`} role="alert">
          {problem}
        </p>
      )}
    </li>
  );
}
