/**
 * A field that is typed as a tape reads. A wrong one says why below and what is used stays the last good one; Enter or
 * leaving the field takes it, Escape puts back what stood there.
 */
import type { Typed } from './useTyped.ts';

export function TypedInput({
  id,
  typed: { text, problem, setText, onKeyDown, take },
  className,
}: {
  id: string;
  typed: Typed;
  className?: string;
}) {
  return (
    <input
      id={id}
      className={className}
      value={text}
      inputMode="text"
      autoComplete="off"
      spellCheck={false}
      aria-invalid={problem !== null}
      aria-describedby={problem === null ? undefined : `${id}-wrong`}
      onChange={event => setText(event.target.value)}
      onKeyDown={onKeyDown}
      onBlur={() => void take()}
    />
  );
}

/** @param used what stays in use */
export function TypedProblem({
  id,
  problem,
  used,
}: {
  id: string;
  problem: string | null;
  used: string;
}) {
  if (problem === null) return null;
  return (
    <p className="entry-wrong" id={`${id}-wrong`} role="alert">
      {problem}. Still using {used}.
    </p>
  );
}
