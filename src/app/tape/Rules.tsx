/** By which rule each thing that nobody taped came about. */
import { useEffect, useState } from 'react';
import type { Start } from '../../../geometry/build/start/answers.ts';
import type { Rule } from '../../../geometry/build/start/taped.ts';
import { sentence } from '../../../geometry/finding/words.ts';
import { Sentence } from '../words/Amount.tsx';
import { pathWords } from '../words/pathWords.ts';
import { theStarter } from './starter.ts';

export function Rules({ start }: { start: Start }) {
  const [rules, setRules] = useState<readonly Rule[]>([]);
  useEffect(() => {
    let isNewest = true;
    theStarter().then(
      starter => isNewest && setRules(starter.propose(start).rules),
      () => {
        // told where an answer is taken
      },
    );
    return () => {
      isNewest = false;
    };
  }, [start]);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, and by keys only where it can be focused
    <div className="rules" tabIndex={0}>
      <p className="note">
        {rules.length} rules made what was not taped. Every number of theirs is marked assumed, and
        stays so until you type your own.
      </p>
      <ul>
        {rules.map(({ path, sentence: text }) => {
          const { name, field } = pathWords(path);
          return (
            <li key={`${path} ${text}`}>
              <span className="rules-what">
                {name}
                {field !== '' && <small>{sentence(field)}</small>}
              </span>
              <span>
                <Sentence text={text} />
              </span>
            </li>
          );
        })}
      </ul>
    </div>
  );
}
