/** A name that is typed anew: Enter or leaving the field takes it, Escape puts it back. */
import { useEffect, useState } from 'react';

interface NameFieldProps {
  label: string;
  name: string;
  className?: string;
  placeholder?: string;
  /** An empty name is one too. */
  mayBeEmpty?: boolean;
  take(name: string): void;
}

export function NameField(props: NameFieldProps) {
  const { label, name, className = '', placeholder, mayBeEmpty = false, take } = props;
  const [text, setText] = useState(name);
  useEffect(() => setText(name), [name]);
  const leave = (): void => {
    const called = text.trim();
    if (called === name || (called === '' && !mayBeEmpty)) setText(name);
    else take(called);
  };
  return (
    <input
      className={`field ${className}`}
      aria-label={label}
      placeholder={placeholder}
      value={text}
      autoComplete="off"
      onChange={event => setText(event.target.value)}
      onBlur={leave}
      onKeyDown={event => {
        if (event.key === 'Enter') event.currentTarget.blur();
        if (event.key !== 'Escape') return;
        event.stopPropagation();
        setText(name);
      }}
    />
  );
}
