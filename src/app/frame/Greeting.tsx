/** The first visit: three lines on what can be done, until they are put away. */
import { act } from '../state/action.ts';
import { setLook } from '../state/look.ts';
import { useShop } from '../state/shop.ts';
import { startNew } from '../tape/startNew.ts';
import './strips.css';

export function Greeting() {
  const isGreeted = useShop(shop => shop.look.isGreeted);
  const hasAxle = useShop(shop => shop.rig !== null);
  if (isGreeted || !hasAxle) return null;
  return (
    <section className="strip greeting" aria-label="How to begin">
      <ol>
        <li>
          <span className="strong">Drag the ring:</span> the axle goes there.
        </li>
        <li>
          <span className="strong">Choose a finding:</span> see where it hits.
        </li>
        <li>
          <span className="strong">Start your own:</span> this one is made up.
        </li>
      </ol>
      <div className="buttons">
        <button type="button" className="button" onClick={startNew}>
          Start your own
        </button>
        <button type="button" className="button" onClick={() => act(setLook, { isGreeted: true })}>
          Got it
        </button>
      </div>
    </section>
  );
}
