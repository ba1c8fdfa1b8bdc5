/** Everything that was entered of one thing, and how it is shown in the view. */
import { listed, partWords, seat, sentence } from '../../../../geometry/finding/words.ts';
import { act } from '../../state/action.ts';
import { frame, setLook, toggleIn } from '../../state/look.ts';
import { useShop } from '../../state/shop.ts';
import { pageShop } from '../../words/shopWords.ts';
import { EntryField } from '../EntryField.tsx';
import '../Entries.css';
import { LinkLength } from './LinkLength.tsx';
import { Points } from './Points.tsx';
import { Sides, usePairing } from './Sides.tsx';
import { ThingActions } from './ThingActions.tsx';
import { sideOf, type Thing } from './things.ts';

export function ThingSheet({ thing }: { thing: Thing }) {
  const rig = useShop(shop => shop.rig);
  const unit = useShop(shop => shop.look.unit);
  const part = useShop(shop => shop.look.part);
  const hidden = useShop(shop => shop.look.hidden);
  const ghosted = useShop(shop => shop.look.ghosted);
  const swept = useShop(shop => shop.look.swept);
  const notes = useShop(shop => shop.results.gaps?.notes);
  const pairing = usePairing(thing);
  if (!rig) return null;
  const shop = pageShop(rig.build, unit);
  const { parts, name, entries } = thing;
  const chosen = parts.find(each => each.name === part) ?? parts[0];
  const side = chosen ? sideOf(chosen) : null;
  // buttons hold for all pieces on the side that is chosen
  const meant = parts.filter(each => sideOf(each) === side);
  const isTwin = side !== null && parts.some(each => sideOf(each) !== side);
  const pieces = meant.map(each => partWords(shop, rig.axle, each.name));
  const all = (set: ReadonlySet<string>): boolean =>
    meant.length > 0 && meant.every(each => set.has(each.name));
  const toggle = (set: 'hidden' | 'ghosted' | 'swept', now: ReadonlySet<string>): void => {
    const isOn = all(now);
    for (const each of meant) {
      if (now.has(each.name) === isOn) act(toggleIn, { set, name: each.name });
    }
  };
  const own = notes?.filter(each => meant.some(piece => piece.name === each.part)) ?? [];
  return (
    <>
      <header className="thing-head">
        <h3>{name}</h3>
        {isTwin && (
          <fieldset className="views" aria-label="Side">
            {(['left', 'right'] as const).map(each => {
              const first = parts.find(piece => sideOf(piece) === each);
              return (
                first && (
                  <button
                    key={each}
                    type="button"
                    aria-pressed={side === each}
                    onClick={() => act(setLook, { part: first.name })}
                  >
                    {sentence(seat(shop, each))}
                  </button>
                )
              );
            })}
          </fieldset>
        )}
        {chosen && (
          <div className="thing-buttons">
            <button type="button" className="quiet" onClick={() => act(frame, chosen.name)}>
              Zoom to
            </button>
            <button
              type="button"
              className="quiet"
              aria-pressed={all(hidden)}
              onClick={() => toggle('hidden', hidden)}
            >
              Hide
            </button>
            <button
              type="button"
              className="quiet"
              aria-pressed={all(ghosted)}
              onClick={() => toggle('ghosted', ghosted)}
            >
              Ghost
            </button>
            <button
              type="button"
              className="quiet"
              aria-pressed={all(swept)}
              title="Everywhere that it goes over the whole range"
              onClick={() => toggle('swept', swept)}
            >
              Sweep
            </button>
          </div>
        )}
      </header>
      {(pieces.length > 1 || (isTwin && pairing === null) || chosen?.assumed || chosen?.isNew) && (
        <p className="note thing-note">
          {[
            pieces.length > 1 ? `${sentence(listed(pieces))}.` : '',
            isTwin && pairing === null ? 'Entered once for both sides.' : '',
            chosen?.assumed ? 'Sizes that are not entered are assumed.' : '',
            chosen?.isNew ? 'Marked as new.' : '',
          ]
            .filter(each => each !== '')
            .join(' ')}
        </p>
      )}
      {own.map(({ text }) => (
        <p key={text} className="note thing-note">
          {sentence(text)}.
        </p>
      ))}
      <Sides thing={thing} />
      <Points thing={thing} />
      <LinkLength thing={thing} />
      <ThingActions thing={thing} />
      <ul className="entries">
        <li className="entries-head" aria-hidden="true">
          <span>Field</span>
          <span>As typed</span>
          <span>As understood</span>
          <span>From</span>
        </li>
        {entries.map(({ entry, field }) => (
          <EntryField key={entry.path} entry={entry} field={sentence(field)} unit={unit} />
        ))}
      </ul>
    </>
  );
}
