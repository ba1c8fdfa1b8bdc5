/** What is done with a whole part of the file: copied by another name, or taken out. */
import { type FormEvent, useState } from 'react';
import { copyPart, isListed, removePart } from '../../edit/editParts.ts';
import type { Thing } from './things.ts';

export function ThingActions({ thing }: { thing: Thing }) {
  const [copy, setCopy] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const { address, name } = thing;
  if (!isListed(address)) return null;
  const make = (event: FormEvent): void => {
    event.preventDefault();
    void copyPart(address, (copy ?? '').trim()).then(refused => {
      setProblem(refused);
      if (refused === null) setCopy(null);
    });
  };
  return (
    <div className="thing-actions">
      {copy === null ? (
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
        </form>
      )}
      <button
        type="button"
        className="quiet"
        onClick={() => void removePart(address, name).then(setProblem)}
      >
        Take out
      </button>
      {problem !== null && (
        <p className="wish-problem" role="alert">
          {problem}.
        </p>
      )}
    </div>
  );
}
