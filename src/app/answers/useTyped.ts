/** What stands in a field while somebody types an entry anew, and what is wrong with it. */
import { type KeyboardEvent, useEffect, useRef, useState } from 'react';
import type { Entry } from '../../../geometry/build/build.ts';
import type { TypedEntry } from '../../../geometry/build/edit.ts';
import { typeEntry } from '../edit/edit.ts';

export interface Typed {
  text: string;
  /** Why it was not taken; null where it was. */
  problem: string | null;
  setText(text: string): void;
  onKeyDown(event: KeyboardEvent<HTMLInputElement>): void;
  /** Takes what stands there. */
  take(): Promise<void>;
  /** Changes something else of the entry. */
  change(words: string, change: Partial<TypedEntry>): void;
}

/** @param field what it is called, for the step */
export function useTyped(entry: Entry, field: string): Typed {
  const [text, setText] = useState(entry.typed);
  const [problem, setProblem] = useState<string | null>(null);
  // Escape leaves the field without taking what stands in it
  const isPutBack = useRef(false);
  useEffect(() => {
    setText(entry.typed);
    setProblem(null);
  }, [entry.typed]);

  const take = async (): Promise<void> => {
    if (isPutBack.current) {
      isPutBack.current = false;
      return;
    }
    const typed = text.trim();
    if (typed === entry.typed) {
      setProblem(null);
      return;
    }
    setProblem(
      await typeEntry(entry.path, `${field}: ${entry.typed} → ${typed}`, { value: typed }),
    );
  };
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>): void => {
    if (event.key === 'Enter') void take();
    if (event.key !== 'Escape') return;
    event.stopPropagation();
    isPutBack.current = true;
    setText(entry.typed);
    setProblem(null);
    event.currentTarget.blur();
  };
  const change: Typed['change'] = (words, changed) =>
    void typeEntry(entry.path, words, changed).then(setProblem);
  return { text, problem, setText, onKeyDown, take, change };
}
