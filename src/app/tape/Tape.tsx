/** The sheet of the tape: a walk around the vehicle, what to tape next, whether it fits together, and the rules. */
import { useEffect } from 'react';
import { useShop } from '../state/shop.ts';
import { atRest } from '../state/study.ts';
import './Tape.css';
import { CheckTape } from './CheckTape.tsx';
import { NextUp } from './NextUp.tsx';
import { Rules } from './Rules.tsx';
import { startOf } from './startOf.ts';
import { clearDrafts, type TapeView, useTape } from './tapeState.ts';
import { WalkAround } from './WalkAround.tsx';

const VIEWS: readonly (readonly [TapeView, string])[] = [
  ['walk', 'Walk around'],
  ['next', 'What next'],
  ['check', 'Check'],
  ['rules', 'Rules'],
];

export default function Tape() {
  const wanted = useTape(tape => tape.view);
  const start = useShop(startOf);
  const hasStart = start !== null;
  const name = useShop(shop => shop.document?.fileName ?? null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another build is another set of fields
  useEffect(clearDrafts, [name]);
  // where nothing is asked, nobody types
  useEffect(() => atRest, []);
  const views = VIEWS.filter(([id]) => hasStart || (id !== 'walk' && id !== 'rules'));
  const view = views.some(([id]) => id === wanted) ? wanted : (views[0]?.[0] ?? 'walk');
  return (
    <div className="tape-sheet">
      <div className="sheet-head">
        <fieldset className="views" aria-label="Show">
          {views.map(([id, label]) => (
            <button
              key={id}
              type="button"
              aria-pressed={view === id}
              onClick={() => {
                useTape.setState({ view: id });
                atRest();
              }}
            >
              {label}
            </button>
          ))}
        </fieldset>
      </div>
      {start && view === 'walk' && <WalkAround start={start} />}
      {view === 'next' && <NextUp />}
      {view === 'check' && <CheckTape />}
      {start && view === 'rules' && <Rules start={start} />}
    </div>
  );
}
