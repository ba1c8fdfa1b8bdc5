/** Where nothing is open and nothing is on its way: how to begin. */
import { openFirst } from '../files/openFiles.ts';
import { pickFiles } from '../files/pickFiles.ts';
import { useShop } from '../state/shop.ts';
import { startNew } from '../tape/startNew.ts';
import './Nothing.css';

export function Nothing() {
  const isShown = useShop(({ rig, reading }) => rig === null && reading === null);
  if (!isShown) return null;
  return (
    <section className="nothing" aria-label="Nothing is open">
      <p className="lead">No axle on the stands.</p>
      <p>
        Start your own with a tape, drop a build file anywhere on the page, or begin with an
        example.
      </p>
      <div className="buttons">
        <button type="button" className="button primary" onClick={startNew}>
          Start your own
        </button>
        <button type="button" className="button" onClick={pickFiles}>
          Open a file …
        </button>
        <button type="button" className="button" onClick={() => void openFirst()}>
          Show an example
        </button>
      </div>
    </section>
  );
}
