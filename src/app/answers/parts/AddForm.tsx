/** What is added from a list: choices, and where it has one its name. */
import { type FormEvent, type ReactNode, useState } from 'react';
import type { Refused } from '../../edit/edit.ts';
import { unnamed, WishProblem } from './NewName.tsx';

interface AddFormProps {
  label: string;
  /** Null for what has no name of its own. */
  named: { label: string; placeholder: string; such: string } | null;
  /** Undefined: there is something to be said first. */
  add(name: string): Promise<Refused | undefined>;
  close(): void;
  button?: string;
  children: ReactNode;
}

export function AddForm(props: AddFormProps) {
  const { label, named, add, close, button = 'Add it', children } = props;
  const [name, setName] = useState('');
  const [problem, setProblem] = useState<Refused>(null);
  const submit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const called = name.trim();
    const isUnnamed = named !== null && called === '';
    const refused = isUnnamed ? unnamed(named.such) : await add(called);
    setProblem(refused ?? null);
    if (refused === null) close();
  };
  return (
    <form className="add-part" aria-label={label} onSubmit={event => void submit(event)}>
      {children}
      {named && (
        <input
          className="field"
          aria-label={named.label}
          placeholder={named.placeholder}
          value={name}
          autoComplete="off"
          onChange={event => setName(event.target.value)}
        />
      )}
      <div className="add-part-buttons">
        <button type="submit" className="button">
          {button}
        </button>
        <button type="button" className="quiet" onClick={close}>
          Not now
        </button>
      </div>
      <WishProblem problem={problem} />
    </form>
  );
}

interface GroupedSelectProps<Item> {
  label: string;
  items: readonly Item[];
  /** What an item is known by, under what it stands, and what it is called. */
  words(item: Item): readonly [key: string, group: string, label: string];
  value: string;
  choose(key: string): void;
}

/** A choice of many, by groups in their order. */
export function GroupedSelect<Item>({
  label,
  items,
  words,
  value,
  choose,
}: GroupedSelectProps<Item>) {
  const all = items.map(words);
  const groups = [...new Set(all.map(([, group]) => group))];
  return (
    <select
      className="field"
      aria-label={label}
      value={value}
      onChange={event => choose(event.target.value)}
    >
      {groups.map(group => (
        <optgroup key={group} label={group}>
          {all
            .filter(each => each[1] === group)
            .map(([key, , text]) => (
              <option key={key} value={key}>
                {text}
              </option>
            ))}
        </optgroup>
      ))}
    </select>
  );
}
