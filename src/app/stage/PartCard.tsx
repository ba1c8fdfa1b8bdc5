/** The chosen part: its name, and what can be done with it in the view. */
import { partWords } from '../../../geometry/finding/words.ts';
import { act } from '../state/action.ts';
import { frame, setLook, toggleIn } from '../state/look.ts';
import { useShop } from '../state/shop.ts';
import { pageShop } from '../words/shopWords.ts';
import './PartCard.css';

export function PartCard() {
  const rig = useShop(shop => shop.rig);
  const name = useShop(shop => shop.look.part);
  const unit = useShop(shop => shop.look.unit);
  const isGhost = useShop(shop => name !== null && shop.look.ghosted.has(name));
  const isHidden = useShop(shop => name !== null && shop.look.hidden.has(name));
  const isSwept = useShop(shop => name !== null && shop.look.swept.has(name));
  const trails = useShop(shop => shop.look.trails);
  const part = rig?.parts.find(each => each.name === name);
  if (!rig || !part || name === null) return null;
  const words = partWords(pageShop(rig.build, unit), rig.axle, name);
  const named = new Set(rig.model.mechanism.named.map(point => point.name));
  const ends = part.joints.map(joint => joint.name).filter(each => named.has(each));
  const hasTrail = ends.some(each => trails.has(each));
  return (
    <section className="part-card" aria-label="Chosen part">
      <h2>{words.charAt(0).toUpperCase() + words.slice(1)}</h2>
      <div className="part-buttons">
        <button type="button" className="button" onClick={() => act(frame, name)}>
          Zoom to
        </button>
        <button
          type="button"
          className="button"
          aria-pressed={isGhost}
          onClick={() => act(toggleIn, { set: 'ghosted', name })}
        >
          Ghost
        </button>
        <button
          type="button"
          className="button"
          aria-pressed={isHidden}
          onClick={() => act(toggleIn, { set: 'hidden', name })}
        >
          Hide
        </button>
        <button
          type="button"
          className="button"
          aria-pressed={isSwept}
          title="Everywhere that it goes over the whole range"
          onClick={() => act(toggleIn, { set: 'swept', name })}
        >
          Sweep
        </button>
        {ends.length > 0 && (
          <button
            type="button"
            className="button"
            aria-pressed={hasTrail}
            onClick={() => {
              for (const end of ends) {
                if (trails.has(end) === hasTrail) act(toggleIn, { set: 'trails', name: end });
              }
            }}
          >
            Trails
          </button>
        )}
        <button type="button" className="button" onClick={() => act(setLook, { part: null })}>
          Done
        </button>
      </div>
    </section>
  );
}
