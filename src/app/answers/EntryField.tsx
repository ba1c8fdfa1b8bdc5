/** An entry that can be typed anew, with how it is understood and where it comes from. */
import { useId } from 'react';
import type { From } from '../../../geometry/build/build.ts';
import { useBaseEntries } from '../edit/base.ts';
import { Sentence } from '../words/Amount.tsx';
import { FROM_CHIP, toleranceWords, understood } from '../words/entryWords.ts';
import type { EntryRowProps } from './EntryRow.tsx';
import { AsInBase } from './parts/AsInBase.tsx';
import { TypedInput, TypedProblem } from './TypedInput.tsx';
import { useEntry } from './useTyped.ts';

const FROMS: readonly From[] = ['measured', 'drawing', 'assumed'];

export function EntryField({ entry, field, unit }: EntryRowProps) {
  const { change, ...typed } = useEntry(entry, field);
  const id = useId();
  const base = useBaseEntries()?.get(entry.path) ?? entry.typed;
  const differs = base !== entry.typed;
  const tolerance = toleranceWords(entry, unit);
  return (
    <li
      className="entry"
      title={entry.path}
      data-wrong={typed.problem !== null}
      data-differs={differs}
    >
      <label className="entry-field" htmlFor={id}>
        {field}
      </label>
      <TypedInput id={id} typed={typed} className="entry-input" />
      <span className="entry-value">
        <Sentence text={understood(entry.value, entry.dimension, unit)} />
        {differs && (
          <small className="entry-base" title="What the base says">
            {' '}
            base <Sentence text={base} />
            <AsInBase entries={[entry]} words={field} label="As in the base" />
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
      <TypedProblem id={id} problem={typed.problem} used={entry.typed} />
    </li>
  );
}
