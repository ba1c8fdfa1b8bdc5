/** What stands in a field while somebody types an entry anew, and what is wrong with it. */
import { type KeyboardEvent, useEffect, useRef, useState } from 'react';
import type { Entry } from '../../../geometry/build/build.ts';
import type { TypedEntry } from '../../../geometry/build/edit.ts';
import { type Refused, typeEntry } from '../edit/edit.ts';

export interface Typed {
  text: string;
  /** Why it was not taken; null where it was. */
  problem: string | null;
  setText(text: string): void;
  setProblem(problem: string | null): void;
  onKeyDown(event: KeyboardEvent<HTMLInputElement>): void;
  /** Takes what stands there. */
  take(): Promise<void>;
}

/**
 * @param typed what is in use
 * @param use takes what was typed instead, or says why not
 */
export function useTyped(typed: string, use: (text: string) => Promise<Refused>): Typed {
  const [text, setText] = useState(typed);
  const [problem, setProblem] = useState<string | null>(null);
  // Escape leaves the field without taking what stands in it
  const isPutBack = useRef(false);
  useEffect(() => {
    setText(typed);
    setProblem(null);
  }, [typed]);

  const take = async (): Promise<void> => {
    if (isPutBack.current) {
      isPutBack.current = false;
      return;
    }
    const now = text.trim();
    setProblem(now === typed ? null : await use(now));
  };
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>): void => {
    if (event.key === 'Enter') void take();
    if (event.key !== 'Escape') return;
    event.stopPropagation();
    isPutBack.current = true;
    setText(typed);
    setProblem(null);
    event.currentTarget.blur();
  };
  // what was wrong is typed over
  const type = (now: string): void => {
    setText(now);
    setProblem(null);
  };
  return { text, problem, setText: type, setProblem, onKeyDown, take };
}

/** The same for an entry of the file. @param field what it is called, for the step */
export function useEntry(
  entry: Entry,
  field: string,
): Typed & { change(words: string, change: Partial<TypedEntry>): void } {
  const { path, typed } = entry;
  const all = useTyped(typed, text =>
    typeEntry(path, `${field}: ${typed} → ${text}`, { value: text }),
  );
  return {
    ...all,
    change: (words, changed) => void typeEntry(path, words, changed).then(all.setProblem),
  };
}
