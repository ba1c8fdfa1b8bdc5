/** The key of a command, beside the button that does the same; not where there is no keyboard. */
import { keyOf, keyWords } from './commands.ts';
import './KeyHint.css';

export function KeyHint({ command }: { command: string }) {
  const key = keyOf(command);
  if (key === null) return null;
  return (
    <span className="keys" aria-hidden="true">
      {keyWords(key).map(word => (
        <kbd key={word}>{word}</kbd>
      ))}
    </span>
  );
}
