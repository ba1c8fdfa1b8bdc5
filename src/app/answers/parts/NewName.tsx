/** Something new by its name alone: a field, a button, and why a name was not taken. */
import { type FormEvent, useState } from 'react';
import type { Refused } from '../../edit/edit.ts';

interface NewNameProps {
  /** Spoken. */
  label: string;
  placeholder: string;
  button: string;
  /** A name that it could have. */
  such: string;
  take(name: string): Promise<Refused>;
}

export function NewName({ label, placeholder, button, such, take }: NewNameProps) {
  const [name, setName] = useState('');
  const [problem, setProblem] = useState<Refused>(null);
  const submit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const refused = name.trim() === '' ? unnamed(such) : await take(name.trim());
    setProblem(refused);
    if (refused === null) setName('');
  };
  return (
    <form className="new-name" onSubmit={event => void submit(event)}>
      <input
        className="field"
        aria-label={label}
        placeholder={placeholder}
        value={name}
        autoComplete="off"
        onChange={event => setName(event.target.value)}
      />
      <button type="submit" className="button">
        {button}
      </button>
      <WishProblem problem={problem} />
    </form>
  );
}

export const unnamed = (such: string): string => `Write what it is called, such as ${such}`;

/** Why something was not done, below it. */
export function WishProblem({ problem }: { problem: Refused }) {
  if (problem === null) return null;
  return (
    <p className="wish-problem" role="alert">
      {problem}.
    </p>
  );
}
