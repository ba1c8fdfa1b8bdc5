/** Picks from a long list in groups, with a search: a button, and a panel of boxes to tick. */
import { Popover, PopoverDisclosure, PopoverProvider } from '@ariakit/react';
import { useId, useMemo, useState } from 'react';
import './Picker.css';

export interface PickerOption {
  key: string;
  group: string;
  label: string;
  definition: string;
}

export interface PickerProps {
  /** What it does, spoken. */
  label: string;
  /** What the button says. */
  text: string;
  options: readonly PickerOption[];
  chosen: readonly string[];
  /** Told in the order of picking: what was there stays where it is. */
  choose(keys: string[]): void;
  reset?: () => void;
}

export function Picker({ label, text, options, chosen, choose, reset }: PickerProps) {
  const [search, setSearch] = useState('');
  const id = useId();
  const groups = useMemo(() => {
    const words = search.toLowerCase().split(/\s+/);
    const found = new Map<string, PickerOption[]>();
    for (const option of options) {
      const within = `${option.group} ${option.label} ${option.definition}`.toLowerCase();
      if (!words.every(word => within.includes(word))) continue;
      found.set(option.group, [...(found.get(option.group) ?? []), option]);
    }
    return [...found];
  }, [options, search]);
  const toggle = (key: string): void =>
    choose(chosen.includes(key) ? chosen.filter(each => each !== key) : [...chosen, key]);
  return (
    <PopoverProvider placement="bottom-end">
      <PopoverDisclosure className="quiet-select" aria-label={label}>
        <span className="quiet-select-label">{text}</span>
        <svg viewBox="0 0 12 8" width="11" height="8" aria-hidden="true">
          <path d="M1 1.5 6 6.5 11 1.5" />
        </svg>
      </PopoverDisclosure>
      <Popover className="menu picker" portal gutter={4} aria-label={label} unmountOnHide>
        <div className="picker-head">
          <input
            className="field"
            type="search"
            placeholder="Search"
            aria-label="Search"
            value={search}
            onChange={event => setSearch(event.target.value)}
          />
          {reset && (
            <button type="button" className="quiet" onClick={reset}>
              As at first
            </button>
          )}
        </div>
        <div className="picker-list">
          {groups.map(([title, list]) => (
            <fieldset key={title}>
              <legend className="menu-label">{title}</legend>
              {list.map(({ key, label: name, definition }) => (
                <label className="picker-item" key={key} htmlFor={`${id}${key}`}>
                  <input
                    id={`${id}${key}`}
                    type="checkbox"
                    checked={chosen.includes(key)}
                    onChange={() => toggle(key)}
                  />
                  <span>
                    {name}
                    <small>{definition}</small>
                  </span>
                </label>
              ))}
            </fieldset>
          ))}
          {groups.length === 0 && <p className="menu-label">Nothing of that name.</p>}
        </div>
      </Popover>
    </PopoverProvider>
  );
}
