/** What is done with a whole part of the file: copied by another name, or taken out. */
import { type FormEvent, useMemo, useState } from 'react';
import { canGo } from '../../../../geometry/build/takeOut.ts';
import { useApart } from '../../edit/base.ts';
import { copyPart, isListed } from '../../edit/editParts.ts';
import { AsInBase } from './AsInBase.tsx';
import { WishProblem } from './NewName.tsx';
import { PartChoices } from './PartChoices.tsx';
import { TakeOut } from './TakeOut.tsx';
import type { Thing } from './things.ts';

export function ThingActions({ thing }: { thing: Thing }) {
  const { address, name, entries } = thing;
  const own = useMemo(() => entries.map(({ entry }) => entry), [entries]);
  const apart = useApart(own);
  const isOut = canGo(address);
  if (!isOut && apart.length === 0) return null;
  return (
    <>
      <PartChoices thing={thing} />
      <div className="thing-actions">
        {apart.length > 0 && (
          <AsInBase
            entries={apart}
            words={name}
            label={
              apart.length === 1
                ? '1 value as in the base'
                : `${apart.length} values as in the base`
            }
          />
        )}
        {isListed(address) && <Copy thing={thing} />}
        {isOut && <TakeOut thing={thing} />}
      </div>
    </>
  );
}

function Copy({ thing: { address, name } }: { thing: Thing }) {
  const [copy, setCopy] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const make = (event: FormEvent): void => {
    event.preventDefault();
    void copyPart(address, (copy ?? '').trim()).then(refused => {
      setProblem(refused);
      if (refused === null) setCopy(null);
    });
  };
  return copy === null ? (
    <button type="button" className="quiet" onClick={() => setCopy(`${name.toLowerCase()} 2`)}>
      Copy …
    </button>
  ) : (
    <form onSubmit={make}>
      <input
        className="field"
        aria-label="Name of the copy"
        value={copy}
        autoComplete="off"
        onChange={event => setCopy(event.target.value)}
      />
      <button type="submit" className="quiet">
        Make the copy
      </button>
      <WishProblem problem={problem} />
    </form>
  );
}
