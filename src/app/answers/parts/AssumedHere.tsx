/** Everything that is assumed and not measured: entered guesses, what was taken for granted, sizes that are made up. */
import { listed, partWords, seat, sentence } from '../../../../geometry/finding/words.ts';
import { act } from '../../state/action.ts';
import { showDialog } from '../../state/look.ts';
import { useShop } from '../../state/shop.ts';
import { pathWords } from '../../words/pathWords.ts';
import { pageShop } from '../../words/shopWords.ts';
import { EntryRow } from '../EntryRow.tsx';
import '../Entries.css';

export function AssumedHere() {
  const rig = useShop(shop => shop.rig);
  const unit = useShop(shop => shop.look.unit);
  const range = useShop(shop => shop.results.range);
  const notes = useShop(shop => shop.results.gaps?.notes);
  if (!rig) return null;
  const { build, axle } = rig;
  const shop = pageShop(build, unit);
  const entries = build.entries.filter(({ from }) => from === 'assumed');
  const guessed = [...new Set(rig.parts.filter(part => part.assumed).map(({ of }) => of))];
  const said = [
    ...(range?.unstopped ?? []).map(
      ({ side, direction }) =>
        `Nothing stops the ${seat(shop, side)} wheel going ${direction}: the travel there is assumed.`,
    ),
    ...build.warnings,
    ...(notes ?? []).map(({ part, text }) => sentence(`${partWords(shop, axle, part)}: ${text}.`)),
    ...(guessed.length > 0
      ? [
          `Sizes that nobody entered are assumed for the ${listed(guessed.map(name => partWords(shop, axle, name)))}.`,
        ]
      : []),
    'Parts are rigid: tubes do not bend, tires bulge only by what is entered as their give.',
    'The other axle moves alike: the frame does not pitch.',
  ];
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, and by keys only where it can be focused
    <div className="left-out" tabIndex={0}>
      <ul className="said">
        {said.map(each => (
          <li key={each}>{each}</li>
        ))}
      </ul>
      <button type="button" className="quiet" onClick={() => act(showDialog, 'cautions')}>
        Read the cautions
      </button>
      <h3>{entries.length === 1 ? '1 assumed entry' : `${entries.length} assumed entries`}</h3>
      <ul className="entries">
        {entries.map(entry => {
          const { name, field } = pathWords(entry.path);
          return (
            <EntryRow key={entry.path} entry={entry} field={`${name}: ${field}`} unit={unit} />
          );
        })}
      </ul>
    </div>
  );
}
