/** What is done with a whole part of the file: copied by another name, or taken out. */
import { type FormEvent, useState } from 'react';
import { canGo } from '../../../../geometry/build/takeOut.ts';
import { copyPart, isListed } from '../../edit/editParts.ts';
import { TakeOut } from './TakeOut.tsx';
import type { Thing } from './things.ts';

export function ThingActions({ thing }: { thing: Thing }) {
  if (!canGo(thing.address)) return null;
  return (
    <div className="thing-actions">
      {isListed(thing.address) && <Copy thing={thing} />}
      <TakeOut thing={thing} />
    </div>
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
      {problem !== null && (
        <p className="wish-problem" role="alert">
          {problem}.
        </p>
      )}
    </form>
  );
}
