/** How much of the answer is settled, the measurement that settles most, why, and the fields to type it right there. */
import { useEffect, useRef, useState } from 'react';
import { useShallow } from 'zustand/react/shallow';
import type { Settled } from '../../../geometry/advice/nextMeasurement.ts';
import type { Entry } from '../../../geometry/build/build.ts';
import { sentence } from '../../../geometry/finding/words.ts';
import { useShop } from '../state/shop.ts';
import { Sentence } from '../words/Amount.tsx';
import { entriesAt } from './entriesAt.ts';
import './NextUp.css';
import { markTaped } from './markTaped.ts';
import { followRanking } from './ranking.ts';
import { SpotPicture } from './SpotPicture.tsx';
import { TapedField } from './TapedField.tsx';
import { useTape } from './tapeState.ts';

/** How many are listed. */
const LISTED = 8;

export function NextUp() {
  const settled = useTape(tape => tape.settled?.told ?? null);
  const generation = useTape(tape => tape.settled?.generation ?? null);
  const isCurrent = useShop(shop => shop.results.generation === generation);
  const isFinal = useShop(shop => shop.results.isFinal);
  const axle = useShop(shop => shop.axleName);
  const [spot, setSpot] = useState<string | null>(null);
  const bench = useRef<HTMLDivElement>(null);
  useEffect(followRanking, []);
  const first = settled?.next[0]?.spot ?? null;
  // what is being taped stays, however the rest is ranked meanwhile
  useEffect(() => setSpot(now => now ?? first), [first]);
  if (!settled) {
    return (
      <div className="next-up">
        <Bar share={null} />
        <p className="next-wait" role="status">
          {isFinal
            ? 'Asking each number what hangs on it …'
            : 'The axle is walked first; then each number is asked what hangs on it.'}
        </p>
      </div>
    );
  }
  const { next } = settled;
  const chosen = spot ?? first;
  return (
    <div className="next-up" data-old={!isCurrent}>
      <div className="next-head">
        <Bar share={settled.share} />
        <SettledWords settled={settled} axle={axle} isCurrent={isCurrent} />
        {next.length > 0 && (
          <ol className="next-list" aria-label="What to tape next, worth most first">
            {next.slice(0, LISTED).map(({ spot: each, what, isAssumed, axle: of }) => (
              <li key={each}>
                <button
                  type="button"
                  className="around-item"
                  aria-current={each === chosen ? 'true' : undefined}
                  onClick={() => {
                    setSpot(each);
                    bench.current?.scrollIntoView({ block: 'nearest' });
                  }}
                >
                  <span className="around-number" />
                  <span className="around-label">{sentence(what)}</span>
                  <span className={isAssumed ? 'chip assumed' : 'chip'}>
                    <span>{isAssumed ? 'assumed' : 'loose'}</span>
                  </span>
                  {of !== null && of !== axle && <small> {of}</small>}
                </button>
              </li>
            ))}
          </ol>
        )}
      </div>
      {chosen !== null && (
        <div ref={bench} className="next-bench">
          <SpotBench
            key={chosen}
            spot={chosen}
            told={next.find(each => each.spot === chosen) ?? null}
            onDone={() => setSpot(first)}
            isFirst={chosen === first}
          />
        </div>
      )}
    </div>
  );
}

function SettledWords({
  settled: { questions, answered, next },
  axle,
  isCurrent,
}: {
  settled: Settled;
  axle: string | null;
  isCurrent: boolean;
}) {
  const open = questions - answered;
  return (
    <p className="next-words">
      {next.length === 0
        ? 'What is still assumed or loosely taped no longer decides anything that is looked at.'
        : `${answered} of ${questions} answers on the ${axle ?? ''} axle stand whatever is still open. The percentage counts the other ${open} too, each by how surely it stays as it is.`}
      {!isCurrent && ' Asked again since the last change …'}
    </p>
  );
}

/** The share that is settled, on a rule. */
function Bar({ share }: { share: number | null }) {
  const percent = share === null ? null : Math.round(share * 100);
  return (
    <div className="settled">
      <p className="settled-number">
        {percent === null ? '–' : percent} <span className="settled-unit">% settled</span>
      </p>
      <meter
        className="settled-bar"
        aria-label="How much of the answer is settled"
        min={0}
        max={100}
        value={percent ?? 0}
      />
    </div>
  );
}

interface SpotBenchProps {
  spot: string;
  told: Settled['next'][number] | null;
  isFirst: boolean;
  onDone: () => void;
}

/** One thing with all of its numbers: typed, or taken as they stand. */
function SpotBench({ spot, told, isFirst, onDone }: SpotBenchProps) {
  const entries = useShop(
    useShallow(({ opened }): readonly Entry[] => entriesAt(opened?.build.entries ?? [], spot)),
  );
  const typedIn = useShop(({ opened }) => opened?.build.unit ?? 'in');
  // what was open when it came up leads, and stays where it is while it is typed
  const [{ reason, leading }] = useState({
    reason: told?.reason ?? null,
    leading: told?.leading ?? [],
  });
  const [problem, setProblem] = useState<string | null>(null);
  const [at, setAt] = useState<string | null>(null);
  const first = entries.filter(({ path }) => leading.includes(path));
  const rest = entries.filter(({ path }) => !leading.includes(path));
  const fields = (list: readonly Entry[]) => (
    <ul>
      {list.map(entry => (
        <TapedField
          key={entry.path}
          entry={entry}
          unit={typedIn}
          onFocus={() => setAt(entry.path)}
        />
      ))}
    </ul>
  );
  const open = entries.filter(each => each.from === 'assumed' || told?.paths.includes(each.path));
  return (
    <section className="next-spot" aria-label="Tape this">
      <h3>
        <Sentence text={told?.reason ?? reason ?? 'Tape it.'} />
      </h3>
      <div className="next-body">
        <div className="next-fields">
          {first.length > 0 && rest.length > 0 && (
            <p className="strong">
              {first.length === 1 ? 'This one decides most' : 'These decide most'}
            </p>
          )}
          {first.length > 0 && fields(first)}
          {first.length > 0 && rest.length > 0 && <p>The rest, while you are there</p>}
          {rest.length > 0 && fields(rest)}
        </div>
        <SpotPicture spot={spot} path={at ?? (first[0] ?? rest[0])?.path ?? spot} />
      </div>
      {problem !== null && (
        <p className="entry-wrong" role="alert">
          {problem}
        </p>
      )}
      <div className="next-buttons">
        {open.length > 0 && (
          <button
            type="button"
            className="button"
            onClick={() => void markTaped(sentence(told?.what ?? 'numbers'), open).then(setProblem)}
          >
            These are taped, and read as shown
          </button>
        )}
        {!isFirst && (
          <button type="button" className="button primary" onClick={onDone}>
            To what is worth most now
          </button>
        )}
      </div>
    </section>
  );
}
