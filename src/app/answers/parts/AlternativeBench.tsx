/** Alternatives for single parts: which there are, and beside them the options of the chosen one. */
import { useState } from 'react';
import { addressOf } from '../../../../geometry/build/address.ts';
import type { Alternative } from '../../../../geometry/build/alternatives.ts';
import { canGo } from '../../../../geometry/build/takeOut.ts';
import type { Refused } from '../../edit/edit.ts';
import { addAlternative } from '../../edit/editAlternatives.ts';
import { capital } from '../../frame/variantNames.ts';
import { useShop } from '../../state/shop.ts';
import { AddForm, GroupedSelect } from './AddForm.tsx';
import { AlternativeSheet } from './AlternativeSheet.tsx';
import type { Thing } from './things.ts';
import { useThings } from './useThings.ts';

const NONE: readonly Alternative[] = [];

export function AlternativeBench() {
  const alternatives = useShop(shop => shop.opened?.file.alternatives ?? NONE);
  const things = useThings();
  const [name, setName] = useState<string | null>(null);
  const [isOpen, setOpen] = useState(false);
  const chosen = alternatives.find(each => each.name === name) ?? alternatives[0];
  const choose = (each: string): void => {
    setName(each);
    setOpen(true);
  };
  return (
    <div className={isOpen ? 'bench open' : 'bench'}>
      <nav className="bench-list" aria-label="Alternatives">
        <AddAlternative things={things} onAdded={choose} />
        <ul>
          {alternatives.map(each => (
            <li key={each.name}>
              <button
                type="button"
                className="bench-item"
                aria-current={each === chosen ? 'true' : undefined}
                onClick={() => choose(each.name)}
              >
                <span>{capital(each.name)}</span>
                <small className="bench-mark">{each.options.length}</small>
              </button>
            </li>
          ))}
        </ul>
      </nav>
      <div className="bench-sheet">
        <button type="button" className="quiet bench-back" onClick={() => setOpen(false)}>
          All alternatives
        </button>
        {chosen ? (
          <AlternativeSheet
            key={chosen.name}
            alternative={chosen}
            things={things}
            onRenamed={choose}
          />
        ) : (
          <p className="note">
            None yet. Alternatives are candidates for one part, such as another track bar: each is
            walked beside the build as it stands, and a table tells where each clears.
          </p>
        )}
      </div>
    </div>
  );
}

interface AddAlternativeProps {
  things: readonly Thing[];
  onAdded(name: string): void;
}

const NAMED = {
  label: 'What the first one is called',
  placeholder: 'Name of the first one',
  such: 'bent bar',
} as const;

function AddAlternative({ things, onAdded }: AddAlternativeProps) {
  const [isOpen, setOpen] = useState(false);
  const [address, setAddress] = useState('');
  const parts = things.filter(each => canGo(each.address) || each.parts.length > 0);
  const thing = parts.find(each => each.address === address) ?? parts[0];
  if (!isOpen || !thing) {
    return (
      <button type="button" className="quiet" onClick={() => setOpen(true)}>
        Add alternatives …
      </button>
    );
  }
  const add = async (option: string): Promise<Refused> => {
    const name = thing.name.toLowerCase();
    const refused = await addAlternative(name, addressOf(thing.address), option);
    if (refused === null) onAdded(name);
    return refused;
  };
  return (
    <AddForm label="Add alternatives" named={NAMED} add={add} close={() => setOpen(false)}>
      <GroupedSelect
        label="For which part"
        items={parts}
        words={each => [each.address, each.group, each.name]}
        value={thing.address}
        choose={setAddress}
      />
    </AddForm>
  );
}
