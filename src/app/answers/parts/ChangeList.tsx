/** What a variant or a candidate for a part has otherwise than the base, each with the way back. */
import { partName } from '../../../../geometry/build/address.ts';
import {
  addressOfAdded,
  type Change,
  type ChangeSet,
  type Owner,
  pathOfChange,
} from '../../../../geometry/build/changeSets.ts';
import { sentence } from '../../../../geometry/finding/words.ts';
import { useBaseFile } from '../../edit/base.ts';
import { removeChange, removePartOf } from '../../edit/editChanges.ts';
import { pathWords } from '../../words/pathWords.ts';
import { OptionField } from './OptionField.tsx';
import { valuesOf } from './optionValues.ts';

interface ChangeListProps {
  owner: Owner;
  set: ChangeSet;
  /** Address of the part that it is all about: its fields are called by themselves. */
  part?: string;
  onProblem(problem: string | null): void;
}

export function ChangeList({ owner, set, part, onProblem }: ChangeListProps) {
  const file = useBaseFile();
  if (!file) return null;
  const { changes, add, remove } = set;
  const moves = [
    ...(add ?? []).map(each => ({ address: addressOfAdded(each), words: 'comes along' })),
    ...(remove ?? []).map(address => ({ address, words: 'is taken out' })),
  ];
  return (
    <ul>
      {(changes ?? []).map(change => (
        <ChangeRows
          key={`${change.part} ${change.field}`}
          owner={owner}
          change={change}
          isOwnPart={change.part === part}
          path={pathOfChange(file, change) ?? `${change.part}.${change.field}`}
          onProblem={onProblem}
        />
      ))}
      {moves.map(({ address, words }) => (
        <li key={address} className="option-row">
          <span className="entry-field">
            {sentence(partName(address))} {words}
          </span>
          <button
            type="button"
            className="quiet"
            onClick={() => void removePartOf(owner, address, partName(address)).then(onProblem)}
          >
            As in the base
          </button>
        </li>
      ))}
    </ul>
  );
}

interface ChangeRowsProps {
  owner: Owner;
  change: Change;
  isOwnPart: boolean;
  /** Of the field, as entries write it. */
  path: string;
  onProblem(problem: string | null): void;
}

/** The entries of a change, one a row, and the way back to the base for all of them. */
function ChangeRows({ owner, change, isOwnPart, path, onProblem }: ChangeRowsProps) {
  const values = valuesOf(change.value);
  const { name, field } = pathWords(path);
  const back = (
    <button
      type="button"
      className="quiet"
      onClick={() => void removeChange(owner, change, field).then(onProblem)}
    >
      As in the base
    </button>
  );
  if (values.length === 0) {
    return (
      <li className="option-row">
        <span className="entry-field">
          {sentence(
            [isOwnPart ? '' : name, change.value === null ? `without ${field}` : field]
              .filter(Boolean)
              .join(', '),
          )}
        </span>
        {back}
      </li>
    );
  }
  return values.map((value, i) => (
    <OptionField
      key={value.suffix}
      owner={owner}
      change={change}
      value={value}
      path={`${path}${value.suffix}`}
      isOwnPart={isOwnPart}
      back={i === 0 ? back : null}
    />
  ));
}
