/** How the frame stands today against how it will stand: raised by so much, nose down by so much. */
import { type FormEvent, useId, useState } from 'react';
import type { Start } from '../../../geometry/build/start/answers.ts';
import { whileTyping } from '../state/study.ts';
import { theStarter } from './starter.ts';
import { changeStart } from './takeStart.ts';

interface StandsProps {
  start: Start;
  onStep: (by: 1 | -1) => void;
}

type Stand = 'rise' | 'rake';

const ASKED: readonly (readonly [Stand, 'length' | 'angle', string, string])[] = [
  ['rise', 'length', 'Frame goes up by', 'such as 2 1/2; 0 as it stands'],
  ['rake', 'angle', 'Nose down today, against how it will stand', 'such as 1 deg; nose up is −'],
];

export function StandsQuestion({ start, onStep }: StandsProps) {
  const { stands = {}, unit } = start;
  const [typed, setTyped] = useState<Record<Stand, string>>({
    rise: stands.rise ?? '',
    rake: stands.rake ?? '',
  });
  const [wrong, setWrong] = useState<Partial<Record<Stand, string>>>({});
  const field = useId();
  const take = async (): Promise<boolean> => {
    const starter = await theStarter();
    const problems = ASKED.flatMap(([key, dimension]) => {
      const text = typed[key].trim();
      const problem = text === '' ? null : starter.wrongStand(text, dimension, unit);
      return problem === null ? [] : [[key, problem] as const];
    });
    setWrong(Object.fromEntries(problems));
    if (problems.length > 0) return false;
    const changed = ASKED.some(([key]) => typed[key].trim() !== (stands[key] ?? ''));
    if (!changed) return true;
    const refused = await changeStart('How it stands', now => {
      const next = { ...now.stands, rise: typed.rise.trim(), rake: typed.rake.trim() };
      const told = Object.entries(next).filter(([, text]) => text !== '');
      return { ...now, stands: Object.fromEntries(told) };
    });
    if (refused !== null) setWrong({ rise: refused });
    return refused === null;
  };
  const submit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    if (await take()) onStep(1);
  };
  return (
    <form
      className="question"
      onSubmit={event => void submit(event)}
      onBlur={event => {
        if (!event.currentTarget.contains(event.relatedTarget)) void take();
      }}
    >
      <div className="question-body">
        <h3>How does it stand today, and how will it stand?</h3>
        <p className="question-hint">
          Tape everything as the vehicle stands today, at its own weight on a level floor, straight
          ahead. If the frame is going up, say by how much: frame points go up with it, axle points
          stay.
        </p>
        {ASKED.map(([key, dimension, label, such]) => (
          <div key={key} className="question-fields">
            <label className="around-field" data-wrong={wrong[key] !== undefined}>
              <span>{label}</span>
              <span className="around-input">
                <input
                  className="entry-input"
                  value={typed[key]}
                  autoComplete="off"
                  spellCheck={false}
                  aria-invalid={wrong[key] !== undefined}
                  aria-describedby={`${field}-${key}`}
                  onChange={event => {
                    whileTyping();
                    setTyped({ ...typed, [key]: event.target.value });
                    setWrong({ ...wrong, [key]: undefined });
                  }}
                />
                <span className="around-unit">{dimension === 'angle' ? 'deg' : unit}</span>
              </span>
            </label>
            {wrong[key] === undefined ? (
              <p className="note" id={`${field}-${key}`}>
                {such}
              </p>
            ) : (
              <p className="entry-wrong" id={`${field}-${key}`} role="alert">
                {wrong[key]}
              </p>
            )}
          </div>
        ))}
      </div>
      <div className="question-buttons">
        <button type="submit" className="button primary">
          Next
        </button>
      </div>
    </form>
  );
}
