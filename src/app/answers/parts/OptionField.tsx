/** One value of a candidate, typed as a tape reads, with what the base has beside it. */
import { type KeyboardEvent, type ReactNode, useEffect, useId, useState } from 'react';
import { pathSteps, valueAt } from '../../../../geometry/build/address.ts';
import type { Change, Choice } from '../../../../geometry/build/alternatives.ts';
import { sentence } from '../../../../geometry/finding/words.ts';
import { useBaseFile } from '../../edit/base.ts';
import { typeChange } from '../../edit/editAlternatives.ts';
import { Sentence } from '../../words/Amount.tsx';
import { pathWords } from '../../words/pathWords.ts';
import { type OptionValue, typedOf, withTyped } from './optionValues.ts';

interface OptionFieldProps {
  choice: Choice;
  change: Change;
  value: OptionValue;
  /** Of the entry in the base. */
  path: string;
  isOwnPart: boolean;
  back: ReactNode;
}

export function OptionField({ choice, change, value, path, isOwnPart, back }: OptionFieldProps) {
  const base = useInBase(path);
  const [text, setText] = useState(value.typed);
  const [problem, setProblem] = useState<string | null>(null);
  const id = useId();
  useEffect(() => {
    setText(value.typed);
    setProblem(null);
  }, [value.typed]);
  const { name, field } = pathWords(path);
  const label = isOwnPart ? sentence(field) : `${name}, ${field}`;
  const take = async (): Promise<void> => {
    const typed = text.trim();
    if (typed === value.typed) setProblem(null);
    else {
      const words = `${label.toLowerCase()}: ${value.typed} → ${typed}`;
      setProblem(await typeChange(choice, withTyped(change, value.steps, typed), words));
    }
  };
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>): void => {
    if (event.key === 'Enter') void take();
    if (event.key !== 'Escape') return;
    event.stopPropagation();
    setText(value.typed);
    setProblem(null);
  };
  return (
    <li className="option-row" data-wrong={problem !== null}>
      <label className="entry-field" htmlFor={id}>
        {label}
      </label>
      <input
        id={id}
        className="entry-input"
        value={text}
        autoComplete="off"
        spellCheck={false}
        aria-invalid={problem !== null}
        aria-describedby={problem === null ? undefined : `${id}-wrong`}
        onChange={event => setText(event.target.value)}
        onKeyDown={onKeyDown}
        onBlur={() => void take()}
      />
      <span className="note option-base">
        {base !== null && (
          <>
            base <Sentence text={base} />
          </>
        )}
      </span>
      {back}
      {problem !== null && (
        <p className="entry-wrong" id={`${id}-wrong`} role="alert">
          {problem}. Still {value.typed}.
        </p>
      )}
    </li>
  );
}

/** What the base says at a path, as typed; null where it says nothing there. */
function useInBase(path: string): string | null {
  const file = useBaseFile();
  const steps = file && pathSteps(file, path);
  return file && steps ? typedOf(valueAt(file, steps)) : null;
}
