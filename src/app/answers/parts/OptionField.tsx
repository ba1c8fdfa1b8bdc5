/** One value of a candidate, typed as a tape reads, with what the base has beside it. */
import { type ReactNode, useId } from 'react';
import { pathSteps, valueAt } from '../../../../geometry/build/address.ts';
import type { Change, Owner } from '../../../../geometry/build/changeSets.ts';
import { sentence } from '../../../../geometry/finding/words.ts';
import { useBaseFile } from '../../edit/base.ts';
import { typeChange } from '../../edit/editChanges.ts';
import { Sentence } from '../../words/Amount.tsx';
import { pathWords } from '../../words/pathWords.ts';
import { TypedInput, TypedProblem } from '../TypedInput.tsx';
import { useTyped } from '../useTyped.ts';
import { type OptionValue, typedOf, withTyped } from './optionValues.ts';

interface OptionFieldProps {
  owner: Owner;
  change: Change;
  value: OptionValue;
  /** Of the entry in the base. */
  path: string;
  isOwnPart: boolean;
  back: ReactNode;
}

export function OptionField({ owner, change, value, path, isOwnPart, back }: OptionFieldProps) {
  const base = useInBase(path);
  const id = useId();
  const { name, field } = pathWords(path);
  const label = isOwnPart ? sentence(field) : [name, field].filter(Boolean).join(', ');
  const typed = useTyped(value.typed, text =>
    typeChange(
      owner,
      withTyped(change, value.steps, text),
      `${label.toLowerCase()}: ${value.typed} → ${text}`,
    ),
  );
  return (
    <li className="option-row" data-wrong={typed.problem !== null}>
      <label className="entry-field" htmlFor={id}>
        {label}
      </label>
      <TypedInput id={id} typed={typed} className="entry-input" />
      <span className="note option-base">
        {base !== null && (
          <>
            base <Sentence text={base} />
          </>
        )}
      </span>
      {back}
      <TypedProblem id={id} problem={typed.problem} used={value.typed} />
    </li>
  );
}

/** What the base says at a path, as typed; null where it says nothing there. */
function useInBase(path: string): string | null {
  const file = useBaseFile();
  const steps = file && pathSteps(file, path);
  return file && steps ? typedOf(valueAt(file, steps)) : null;
}
