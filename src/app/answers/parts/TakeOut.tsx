/** Takes a part out. What hangs on it is told first and goes with it, or it stays, and why. */
import { useState } from 'react';
import type { Hanging } from '../../../../geometry/build/takeOut.ts';
import { hangingOn, removePart } from '../../edit/editParts.ts';
import { HangingList } from './HangingList.tsx';
import { WishProblem } from './NewName.tsx';
import type { Thing } from './things.ts';

export function TakeOut({ thing: { address, name } }: { thing: Thing }) {
  const [hanging, setHanging] = useState<Hanging[] | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const take = (): void => {
    setHanging(null);
    void removePart(address, name).then(setProblem);
  };
  const ask = (): void => {
    setProblem(null);
    void hangingOn(address).then(found => {
      if (!Array.isArray(found)) setProblem(found);
      else if (found.length === 0) take();
      else setHanging(found);
    });
  };
  return (
    <>
      {hanging === null && (
        <button type="button" className="quiet" onClick={ask}>
          Take out
        </button>
      )}
      {hanging !== null && (
        <div
          className="take-out"
          role="alertdialog"
          aria-label={`Take out ${name}`}
          ref={panel => panel?.scrollIntoView({ block: 'nearest' })}
        >
          <p className="strong">This hangs on it, and goes with it:</p>
          <HangingList hanging={hanging} />
          <div className="add-part-buttons">
            <button type="button" className="button" onClick={take}>
              Take it all out
            </button>
            <button type="button" className="quiet" onClick={() => setHanging(null)}>
              Keep it
            </button>
          </div>
        </div>
      )}
      <WishProblem problem={problem} />
    </>
  );
}
