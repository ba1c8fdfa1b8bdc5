/** The last line of the page: what its results are not. */
import { act } from '../state/action.ts';
import { showDialog } from '../state/look.ts';
import { useShop } from '../state/shop.ts';
import { CAUTIONS } from './cautionWords.ts';
import './Foot.css';

export function Foot() {
  const isProved = useShop(({ results }) => results.isFinal && results.working === null);
  return (
    <footer className="foot">
      <p>
        Geometry from numbers that somebody entered: no approval of a part, a weld or a vehicle.
        Steering and suspension changes can kill.
      </p>
      <button type="button" onClick={() => act(showDialog, 'cautions')}>
        Read the cautions
      </button>
      <span className="found" hidden={!isProved}>
        Gaps are searched, not proved.
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
