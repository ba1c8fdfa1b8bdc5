/** What is assumed: entries that somebody guessed, what the reader took for granted, travel that nothing stops. */
import { useShallow } from 'zustand/react/shallow';
import { lengthWords } from '../../../geometry/finding/words.ts';
import { useShop } from '../state/shop.ts';
import './Assumed.css';
import { Over } from './Over.tsx';

export default function Assumed() {
  const entries = useShop(
    useShallow(
      ({ opened }) => opened?.build.entries.filter(({ from }) => from === 'assumed') ?? [],
    ),
  );
  const warnings = useShop(shop => shop.opened?.build.warnings ?? NONE);
  const unstopped = useShop(useShallow(({ results }) => results.range?.unstopped ?? NO_ENDS));
  const unit = useShop(shop => shop.look.unit);
  const driver = useShop(shop => shop.opened?.build.driverSide ?? 'left');
  const assumedTravel = useShop(shop => shop.opened?.build.wanted.assumedTravel ?? null);
  return (
    <Over title="What is assumed">
      <p>Whatever hangs on these is no better than a guess. Measure them first.</p>
      {unstopped.length > 0 && (
        <ul className="bulleted">
          {unstopped.map(({ side, direction }) => (
            <li key={`${side} ${direction}`}>
              Nothing stops the {side === driver ? 'driver' : 'passenger'} wheel going {direction}
              {assumedTravel &&
                `: ${lengthWords({ driverSide: driver, unit }, assumedTravel[direction])} is taken`}
              .
            </li>
          ))}
        </ul>
      )}
      <h2>
        {entries.length === 0
          ? 'No entered number is marked assumed.'
          : entries.length === 1
            ? '1 entered number'
            : `${entries.length} entered numbers`}
      </h2>
      {entries.length > 0 && (
        <ul className="assumed">
          {entries.map(({ path, typed, tolerance }) => (
            <li key={path}>
              <span className="path">{path}</span>
              <span className="typed">
                {typed}
                {tolerance !== null && ' ±'}
              </span>
            </li>
          ))}
        </ul>
      )}
      {warnings.length > 0 && (
        <>
          <h2>Taken for granted while reading</h2>
          <ul className="bulleted">
            {warnings.map(each => (
              <li key={each}>{each}</li>
            ))}
          </ul>
        </>
      )}
    </Over>
  );
}

const NONE: readonly string[] = [];
const NO_ENDS: readonly { side: 'left' | 'right'; direction: 'up' | 'down' }[] = [];
