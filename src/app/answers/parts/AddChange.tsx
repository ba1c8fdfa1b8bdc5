/** One value more that a candidate has otherwise than the base: it stands as in the base until it is typed. */
import { useState } from 'react';
import { addressOf } from '../../../../geometry/build/address.ts';
import type { ChangeSet, Owner } from '../../../../geometry/build/changeSets.ts';
import { valueInBase } from '../../../../geometry/build/edit.ts';
import { sentence } from '../../../../geometry/finding/words.ts';
import { useBaseFile } from '../../edit/base.ts';
import { typeChange } from '../../edit/editChanges.ts';
import { WishProblem } from './NewName.tsx';
import type { Thing } from './things.ts';

interface AddChangeProps {
  owner: Owner;
  set: ChangeSet;
  part: string;
  things: readonly Thing[];
}

/** In place of a field: the part is straight. */
const STRAIGHT = 'through';

export function AddChange({ owner, set, part, things }: AddChangeProps) {
  const file = useBaseFile();
  const [of, setOf] = useState(part);
  const [problem, setProblem] = useState<string | null>(null);
  const thing = things.find(({ address }) => addressOf(address) === of) ?? things[0];
  if (!thing || !file) return null;
  const at = addressOf(thing.address);
  const isChanged = (field: string): boolean =>
    (set.changes ?? []).some(
      each => each.part === at && (each.field === field || field.startsWith(`${each.field}[`)),
    );
  const fields = thing.entries
    .map(({ entry, field }) => ({
      field: entry.path.slice(thing.address.length).replace(/^\./, ''),
      words: sentence(field),
    }))
    .filter(({ field }) => field !== '' && !field.includes('"') && !isChanged(field));
  const isBent =
    valueInBase(file, { part: at, field: STRAIGHT }) !== undefined && !isChanged(STRAIGHT);
  const add = (field: string): void => {
    const value = field === STRAIGHT ? null : valueInBase(file, { part: at, field });
    const words = fields.find(each => each.field === field)?.words ?? 'straight';
    void typeChange(owner, { part: at, field, value }, words).then(setProblem);
  };
  return (
    <>
      <select
        className="field"
        aria-label="Another value"
        value=""
        onChange={event => {
          if (event.target.value !== '') add(event.target.value);
        }}
      >
        <option value="">Another value …</option>
        {isBent && <option value={STRAIGHT}>Straight, without its bends</option>}
        {fields.map(({ field, words }) => (
          <option key={field} value={field}>
            {words}
          </option>
        ))}
      </select>
      <select
        className="field"
        aria-label="Of which part"
        value={at}
        onChange={event => setOf(event.target.value)}
      >
        {things.map(({ address, name }) => (
          <option key={address} value={addressOf(address)}>
            of {name.toLowerCase()}
          </option>
        ))}
      </select>
      <WishProblem problem={problem} />
    </>
  );
}
