/** Measurement after measurement in one walk around the vehicle, each with its drawing; the axle walks beside it. */
import { useEffect, useMemo, useRef, useState } from 'react';
import { formatLength } from '../../../geometry/build/format.ts';
import type { Start } from '../../../geometry/build/start/answers.ts';
import type { Measurement } from '../../../geometry/build/start/measurement.ts';
import { sentence } from '../../../geometry/finding/words.ts';
import '../answers/Entries.css';
import { act } from '../state/action.ts';
import { showDialog } from '../state/look.ts';
import { chooseAxle } from '../state/open.ts';
import { Sentence } from '../words/Amount.tsx';
import { ByHand, useKeptByHand } from './ByHand.tsx';
import { NearQuestion } from './NearQuestion.tsx';
import { Question } from './Question.tsx';
import { StandsQuestion } from './StandsQuestion.tsx';
import { theStarter } from './starter.ts';
import type { Today } from './starting.ts';
import { TapePicture } from './TapePicture.tsx';
import { answerWords, useTape } from './tapeState.ts';
import { firstOpen, type Item, isTold, itemsOf } from './walkItems.ts';

export function WalkAround({ start }: { start: Start }) {
  const asked = useTape(tape => tape.at);
  const wrong = useTape(tape => tape.wrong);
  const [begun] = useState(() => firstOpen(start));
  const items = useMemo(() => itemsOf(start), [start]);
  const index = Math.max(
    0,
    items.findIndex(({ id }) => id === (asked ?? begun)),
  );
  const item = items[index] as Item;
  const today = useToday(start);
  const kept = useKeptByHand(start);
  const taped = items.filter(each => 'measurement' in each && isTold(start, each)).length;
  const count = items.length - 2;
  const axle = 'measurement' in item ? item.measurement.axle : null;
  useEffect(() => {
    if (axle) act(chooseAxle, axle);
  }, [axle]);

  const bench = useRef<HTMLDivElement>(null);
  const goTo = (id: string): void => {
    useTape.setState({ at: id });
    // on a phone the list stands under the question
    bench.current?.scrollIntoView({ block: 'nearest' });
  };
  const step = (by: 1 | -1): void => {
    const next = items[index + by];
    if (next) goTo(next.id);
    else if (by > 0) useTape.setState({ view: 'next' });
  };
  return (
    <div className="around">
      <div
        ref={bench}
        className={'measurement' in item ? 'around-question' : 'around-question alone'}
      >
        {'measurement' in item ? (
          <Question
            key={item.id}
            start={start}
            item={item}
            today={today}
            kept={kept}
            isFirst={index === 1 && Object.keys(start.stands ?? {}).length === 0}
            onStep={step}
          />
        ) : item.id === 'stands' ? (
          <StandsQuestion start={start} onStep={step} />
        ) : (
          <NearQuestion start={start} onStep={step} />
        )}
      </div>
      {'measurement' in item && (
        <div className="around-picture">
          {today && <TapePicture start={start} measurement={item.measurement} today={today} />}
        </div>
      )}
      <nav className="around-list" aria-label="Measurements">
        <p className="around-count">
          <span>
            <span className="strong">{taped}</span> of {count} taped
          </span>
          <button
            type="button"
            className="quiet"
            onClick={() => {
              useTape.setState({ isChange: true });
              act(showDialog, 'newBuild');
            }}
          >
            Change the layout
          </button>
        </p>
        <ByHand kept={kept} />
        <ol>
          {items.map((each, i) => (
            <li key={each.id}>
              <button
                type="button"
                className="around-item"
                aria-current={i === index ? 'step' : undefined}
                onClick={() => goTo(each.id)}
              >
                <span className="around-number">{'measurement' in each ? i : ''}</span>
                <span className="around-label">{sentence(each.label)}</span>
                <Told item={each} start={start} today={today} isWrong={each.id in wrong} />
              </button>
            </li>
          ))}
        </ol>
      </nav>
    </div>
  );
}

interface ToldProps {
  item: Item;
  start: Start;
  today: Today | null;
  isWrong: boolean;
}

/** What is told of an item, or what stands in for it. */
function Told({ item, start, today, isWrong }: ToldProps) {
  if (isWrong) return <span className="around-wrong">to fix</span>;
  if (!('measurement' in item)) {
    return <span className="around-told">{isTold(start, item) ? 'given' : ''}</span>;
  }
  const answer = start.answers[item.id];
  if (answer) {
    return (
      <span className="around-told strong">
        <Sentence text={today?.taped(item.measurement) ?? answerWords(answer)} />
      </span>
    );
  }
  const value = today?.reads(item.measurement) ?? null;
  if (value === null) return <span />;
  return (
    <span className="chip assumed">
      <span>
        <Sentence text={readWords(item.measurement, value, start.unit)} />
        <span className="visually-hidden"> assumed</span>
      </span>
    </span>
  );
}

/** What a measurement reads on the proposal, as one would tape it. */
export function readWords({ dimension }: Measurement, value: number, unit: 'in' | 'mm'): string {
  if (dimension === 'length') {
    const sign = value < 0 ? '−' : '';
    return sign + formatLength(Math.abs(value), { unit, denominator: 8 });
  }
  return `${Math.round((value * 1800) / Math.PI) / 10}°`;
}

/** The vehicle as it stands today, proposed anew with each answer; null until it can be. */
function useToday(start: Start): Today | null {
  const [today, setToday] = useState<Today | null>(null);
  useEffect(() => {
    let isNewest = true;
    theStarter().then(
      starter => isNewest && setToday(starter.today(start)),
      () => {
        // told where an answer is taken
      },
    );
    return () => {
      isNewest = false;
    };
  }, [start]);
  return today;
}
