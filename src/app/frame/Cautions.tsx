/** The cautions in full. */
import { CAUTIONS } from './cautionWords.ts';
import { Over } from './Over.tsx';

export default function Cautions() {
  return (
    <Over title="Cautions">
      <ul className="bulleted">
        {CAUTIONS.map(([title, text]) => (
          <li key={title}>
            <span className="strong">{title}</span> {text}
          </li>
        ))}
      </ul>
    </Over>
  );
}
