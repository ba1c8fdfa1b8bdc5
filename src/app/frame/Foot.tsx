/** The last line of the page: what its results are not. */
import type { PairReport } from '../../../geometry/gap/gapReport.ts';
import { act } from '../state/action.ts';
import { showDialog } from '../state/look.ts';
import { useShop } from '../state/shop.ts';
import { CAUTIONS } from './cautionWords.ts';
import './Foot.css';

export function Foot() {
  const found = useShop(({ results }) =>
    results.isFinal && results.working === null ? foundWords(results.gaps?.pairs ?? []) : null,
  );
  return (
    <footer className="foot">
      <p>
        Geometry from numbers that somebody entered: no approval of a part, a weld or a vehicle.
        Steering and suspension changes can kill.
      </p>
      <button type="button" onClick={() => act(showDialog, 'cautions')}>
        Read the cautions
      </button>
      <span className="found" hidden={found === null}>
        {found}
      </span>
      <ul className="on-paper">
        {CAUTIONS.map(([title, text]) => (
          <li key={title}>
            <span className="strong">{title}</span> {text}
          </li>
        ))}
      </ul>
    </footer>
  );
}

/** How sure the gaps are once all work is done. */
function foundWords(pairs: readonly PairReport[]): string {
  const open = pairs.filter(({ status }) => status === 'undecided').length;
  if (open === 0) return 'Gaps hold for the whole range, parts rigid.';
  const which = open === pairs.length ? 'Gaps are' : open === 1 ? '1 gap is' : `${open} gaps are`;
  return `${which} searched, not proved.`;
}
