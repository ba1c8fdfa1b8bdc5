/** One coordinate of the chosen point: − entry +, the entry as typed, and what it was before the hand took it. */
import { type CSSProperties, useId } from 'react';
import type { Entry } from '../../../../geometry/build/build.ts';
import type { Grip } from '../../../../geometry/build/grips.ts';
import { gripWords, nudge } from '../../edit/drag.ts';
import { useShop } from '../../state/shop.ts';
import { Sentence } from '../../words/Amount.tsx';
import { useTyped } from '../useTyped.ts';

const NAMES = ['Fore and aft', 'Sideways', 'Height'] as const;
const WAYS = [
  ['back', 'forward'],
  ['to the right', 'to the left'],
  ['down', 'up'],
] as const;

export interface StepperProps {
  entry: Entry;
  axis: 0 | 1 | 2;
  grip: Grip;
}

export function Stepper({ entry, axis, grip }: StepperProps) {
  const id = useId();
  const name = NAMES[axis];
  const { text, problem, setText, onKeyDown, take } = useTyped(
    entry,
    `${gripWords(grip)}, ${name.toLowerCase()}`,
  );
  const was = useShop(
    shop => shop.trial?.rig.build.entries.find(({ path }) => path === entry.path)?.typed ?? null,
  );
  const isMirrored = grip.spots.length > 1;
  const way = (sense: 0 | 1): string =>
    axis === 1 && isMirrored ? (['inward', 'outward'][sense as 0] ?? '') : WAYS[axis][sense];
  return (
    <div
      className="stepper"
      data-wrong={problem !== null}
      style={{ '--axis': axis } as CSSProperties}
    >
      <label htmlFor={id}>{name}</label>
      <div className="stepper-box">
        <button
          type="button"
          aria-label={`${name}: ${way(0)}`}
          onClick={() => void nudge(axis, -1)}
        >
          −
        </button>
        <input
          id={id}
          value={text}
          autoComplete="off"
          spellCheck={false}
          aria-invalid={problem !== null}
          aria-describedby={problem === null ? undefined : `${id}-wrong`}
          onChange={event => setText(event.target.value)}
          onKeyDown={onKeyDown}
          onBlur={() => void take()}
        />
        <button type="button" aria-label={`${name}: ${way(1)}`} onClick={() => void nudge(axis, 1)}>
          +
        </button>
      </div>
      {was !== null && was !== entry.typed && (
        <small>
          was <Sentence text={was} />
        </small>
      )}
      {problem !== null && (
        <p className="entry-wrong" id={`${id}-wrong`} role="alert">
          {problem}. Still using {entry.typed}.
        </p>
      )}
    </div>
  );
}
