/** A number between − and +, as a tape reads; of the chosen point with what there is to say of it below. */
import { type CSSProperties, type ReactNode, useId } from 'react';
import { TypedInput, TypedProblem } from '../TypedInput.tsx';
import type { Typed } from '../useTyped.ts';

/** What the axes that points are typed along are called. */
export const AXES = ['Fore and aft', 'Sideways', 'Height'] as const;

/** Ways along them, back and on; of a mirrored part sideways is inward and outward. */
export const waysAlong = (axis: 0 | 1 | 2, isMirrored: boolean): readonly [string, string] =>
  axis === 1 && isMirrored ? ['inward', 'outward'] : WAYS[axis];

const WAYS = [
  ['back', 'forward'],
  ['to the right', 'to the left'],
  ['down', 'up'],
] as const;

export interface StepperBoxProps {
  id: string;
  typed: Typed;
  /** What − and + do, in words. */
  less: string;
  more: string;
  step(sense: 1 | -1): void;
}

export function StepperBox({ id, typed, less, more, step }: StepperBoxProps) {
  return (
    <div className="stepper-box">
      <button type="button" aria-label={less} onClick={() => step(-1)}>
        −
      </button>
      <TypedInput id={id} typed={typed} />
      <button type="button" aria-label={more} onClick={() => step(1)}>
        +
      </button>
    </div>
  );
}

export interface StepperProps {
  axis: 0 | 1 | 2;
  typed: Typed;
  /** What is in use, for beside a problem. */
  used: string;
  isMirrored: boolean;
  /** Moves the point by one mark. */
  step(sense: 1 | -1): void;
  children?: ReactNode;
}

export function Stepper({ axis, typed, used, isMirrored, step, children }: StepperProps) {
  const id = useId();
  const name = AXES[axis];
  const [back, on] = waysAlong(axis, isMirrored);
  return (
    <div
      className="stepper"
      data-wrong={typed.problem !== null}
      style={{ '--axis': axis } as CSSProperties}
    >
      <label htmlFor={id}>{name}</label>
      <StepperBox
        id={id}
        typed={typed}
        less={`${name}: ${back}`}
        more={`${name}: ${on}`}
        step={step}
      />
      <div className="stepper-says">{children}</div>
      <TypedProblem id={id} problem={typed.problem} used={used} />
    </div>
  );
}
