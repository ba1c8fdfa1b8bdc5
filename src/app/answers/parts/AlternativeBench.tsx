/** Alternatives for single parts: which there are, and beside them the options of the chosen one. */
import { type FormEvent, useState } from 'react';
import { addressOf } from '../../../../geometry/build/address.ts';
import type { Alternative } from '../../../../geometry/build/alternatives.ts';
import { canGo } from '../../../../geometry/build/takeOut.ts';
import { addAlternative } from '../../edit/editAlternatives.ts';
import { capital } from '../../frame/variantNames.ts';
import { useShop } from '../../state/shop.ts';
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

function AddAlternative({ things, onAdded }: AddAlternativeProps) {
  const [isOpen, setOpen] = useState(false);
  const [address, setAddress] = useState('');
  const [option, setOption] = useState('');
  const [problem, setProblem] = useState<string | null>(null);
  const parts = things.filter(each => canGo(each.address) || each.parts.length > 0);
  const thing = parts.find(each => each.address === address) ?? parts[0];
  if (!isOpen || !thing) {
    return (
      <button type="button" className="quiet" onClick={() => setOpen(true)}>
        Add alternatives …
      </button>
    );
  }
  const add = (event: FormEvent): void => {
    event.preventDefault();
    const called = option.trim();
    if (called === '') {
      setProblem('Write what the first one is called, such as bent bar');
      return;
    }
    const name = thing.name.toLowerCase();
    void addAlternative(name, addressOf(thing.address), called).then(refused => {
      setProblem(refused);
      if (refused !== null) return;
      setOpen(false);
      setOption('');
      onAdded(name);
    });
  };
  const groups = [...new Set(parts.map(({ group }) => group))];
  return (
    <form className="add-part" aria-label="Add alternatives" onSubmit={add}>
      <select
        className="field"
        aria-label="For which part"
        value={thing.address}
        onChange={event => setAddress(event.target.value)}
      >
        {groups.map(group => (
          <optgroup key={group} label={group}>
            {parts
              .filter(each => each.group === group)
              .map(each => (
                <option key={each.address} value={each.address}>
                  {each.name}
                </option>
              ))}
          </optgroup>
        ))}
      </select>
      <input
        className="field"
        aria-label="What the first one is called"
        placeholder="Name of the first one"
        value={option}
        autoComplete="off"
        onChange={event => setOption(event.target.value)}
      />
      <div className="add-part-buttons">
        <button type="submit" className="button">
          Add it
        </button>
        <button type="button" className="quiet" onClick={() => setOpen(false)}>
          Not now
        </button>
      </div>
      {problem !== null && (
        <p className="wish-problem" role="alert">
          {problem}.
        </p>
      )}
    </form>
  );
}
