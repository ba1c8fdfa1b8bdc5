/** What the colors of a difference map say: less in brown, alike, more in blue. */
import { Sentence } from '../words/Amount.tsx';
import type { MapsOfBoth } from './useMapsOfBoth.ts';

/** Levels with a label: more would not fit. */
const LABELED = new Set([0, 2, 5, 7]);

export interface DifferenceLegendProps {
  maps: MapsOfBoth | null;
  words(value: number): string;
}

export function DifferenceLegend({ maps, words }: DifferenceLegendProps) {
  const levels = maps?.difference.levels ?? [];
  if (!maps || levels.length === 0) return <p className="note">Nothing differs.</p>;
  const isRoom = maps.of.kind !== 'measure';
  return (
    <div
      className="difference-legend"
      role="img"
      aria-label="Brown: less with B. Blue: more with B."
    >
      <p className="difference-ends">
        <span>▼ {isRoom ? 'less room' : 'less'}</span>
        <span>{isRoom ? 'more room' : 'more'} ▲</span>
      </p>
      <div className="difference-steps">
        {[...levels, Number.POSITIVE_INFINITY].map((level, i) => (
          <span key={level}>
            <i className="difference-color" style={{ background: `var(--difference-${i + 1})` }} />
            {level !== Number.POSITIVE_INFINITY && LABELED.has(i) && (
              <em className="difference-level">
                <Sentence text={words(level)} />
              </em>
            )}
          </span>
        ))}
      </div>
    </div>
  );
}
