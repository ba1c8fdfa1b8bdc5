/** The strip along the bottom: what is left of the wanted gap along the walk, and the handle on it. */
import { act } from '../state/action.ts';
import { togglePlay } from '../state/play.ts';

export function Walk() {
  return (
    <footer className="walk">
      <button type="button" className="button" onClick={() => act(togglePlay)}>
        Walk
      </button>
    </footer>
  );
}
