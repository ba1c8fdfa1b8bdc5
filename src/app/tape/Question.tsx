/** One measurement: its question, a field as the tape reads, what is wrong with it, and what stands in until it is taped. */
import {
  type FocusEvent,
  type FormEvent,
  useEffect,
  useId,
  useMemo,
  useRef,
  useState,
} from 'react';
import type { Start } from '../../../geometry/build/start/answers.ts';
import type { HeightDatum } from '../../../geometry/build/start/measurement.ts';
import { sentence } from '../../../geometry/finding/words.ts';
import { Chip } from '../answers/EntryRow.tsx';
import { whileTyping } from '../state/study.ts';
import { Sentence } from '../words/Amount.tsx';
import { NotMoved } from './ByHand.tsx';
import { theStarter } from './starter.ts';
import type { KeptByHand, Today } from './starting.ts';
import { takeDraft } from './takeDraft.ts';
import { answerOf, type Draft, draftOf, useTape } from './tapeState.ts';
import { readWords } from './WalkAround.tsx';
import type { MeasuredItem } from './walkItems.ts';

interface QuestionProps {
  start: Start;
  item: MeasuredItem;
  today: Today | null;
  kept: KeptByHand | null;
  /** It is the first that is asked, and nothing is told yet of how the vehicle stands. */
  isFirst: boolean;
  onStep: (by: 1 | -1) => void;
}

const DATUMS: Record<HeightDatum, string> = {
  floor: 'from the floor',
  wheelCenter: 'from the wheel center',
  railBottom: 'from the rail bottom',
};

export function Question({ start, item, today, kept: byHand, isFirst, onStep }: QuestionProps) {
  const { id, measurement } = item;
  const { question, hint, tool, dimension, sided, datums } = measurement;
  const { unit, layout } = start;
  const form = useRef<HTMLFormElement>(null);
  const field = useId();
  const kept = useTape(tape => tape.drafts[id]);
  const wrong = useTape(tape => tape.wrong[id] ?? null);
  const [range, setRange] = useState('');
  const draft = kept ?? draftOf(start.answers[id]);
  const answer = answerOf(draft);
  const contradicts = today?.proposal.problems.find(({ path }) => path === id) ?? null;
  const rule = today?.proposal.rules.find(each => each.measurement === id) ?? null;
  const value = today?.reads(measurement) ?? null;
  const stays = useMemo(() => byHand?.of(measurement) ?? [], [byHand, measurement]);
  // the reader of tapes is large: it comes with what starts builds
  useEffect(() => {
    void theStarter().then(starter => setRange(starter.rangeWords(measurement, unit)));
  }, [measurement, unit]);
  // a mouse or a key goes on typing; a finger would get the keyboard over the drawing
  useEffect(() => {
    if (matchMedia('(pointer: fine)').matches) form.current?.querySelector('input')?.focus();
  }, []);

  const change = (next: Partial<Draft>): void => {
    whileTyping();
    useTape.setState(({ drafts, wrong: { [id]: _, ...wrong } }) => ({
      drafts: { ...drafts, [id]: { ...draft, ...next } },
      wrong,
    }));
  };
  const submit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    if (await takeDraft(item)) onStep(1);
  };
  const leave = (event: FocusEvent): void => {
    if (event.relatedTarget instanceof Node && form.current?.contains(event.relatedTarget)) return;
    void takeDraft(item);
  };
  const message =
    wrong ?? (contradicts && kept === undefined ? contradictsWords(contradicts) : null);
  const driver = (side: 'left' | 'right'): string =>
    `${sentence(side)}, ${side === layout.driverSide ? 'driver' : 'passenger'} side`;
  const input = (side: 'left' | 'right', name: string) => (
    <label className="around-field" data-wrong={message !== null}>
      <span>{name}</span>
      <span className="around-input">
        <input
          className="entry-input"
          value={(side === 'left' ? draft.left : draft.right) ?? ''}
          inputMode="text"
          autoComplete="off"
          spellCheck={false}
          enterKeyHint="next"
          aria-invalid={message !== null}
          aria-describedby={`${field}-hint${message === null ? '' : ` ${field}-wrong`}`}
          onChange={event => change({ [side]: event.target.value })}
        />
        <span className="around-unit">{dimension === 'angle' ? 'deg' : unit}</span>
      </span>
    </label>
  );
  return (
    <form ref={form} className="question" onSubmit={event => void submit(event)} onBlur={leave}>
      <div className="question-body">
        {isFirst && (
          <p className="note question-today">
            Tape it as it stands today, on its wheels, on a level floor. Only the view has it on
            stands.
          </p>
        )}
        <h3>{question}</h3>
        <p className="question-hint" id={`${field}-hint`}>
          <span className="strong">{sentence(tool)}.</span> {hint}
        </p>
        <div className="question-fields">
          {draft.right === null
            ? input('left', sided ? 'Both sides' : 'It reads')
            : (['left', 'right'] as const).map(side => (
                <span key={side} className="question-side">
                  {input(side, driver(side))}
                </span>
              ))}
          {datums.length > 1 && (
            <label className="around-field">
              <span>Taped up</span>
              <select
                className="field"
                value={draft.from}
                onChange={event => change({ from: event.target.value as HeightDatum })}
              >
                {datums.map(each => (
                  <option key={each} value={each}>
                    {DATUMS[each]}
                  </option>
                ))}
              </select>
            </label>
          )}
        </div>
        {message === null ? (
          <p className="note">
            <Sentence text={sentence(range)} />
            {range !== '' && '.'}
          </p>
        ) : (
          <p className="entry-wrong" id={`${field}-wrong`} role="alert">
            <Sentence text={message} />
          </p>
        )}
        {sided && (
          <label className="question-sides">
            <input
              type="checkbox"
              checked={draft.right !== null}
              onChange={event => change({ right: event.target.checked ? draft.left : null })}
            />
            Left and right differ
          </label>
        )}
        <NotMoved kept={byHand} paths={stays} />
        {rule && value !== null && (
          <p className="question-rule">
            <Chip assumed text="assumed" />{' '}
            <span>
              <span className="strong">
                <Sentence text={readWords(measurement, value, unit)} />
                {dimension === 'length' && ` ${unit}`}
              </span>{' '}
              until it is taped. {rule.sentence}
            </span>
          </p>
        )}
      </div>
      <div className="question-buttons">
        <button type="button" className="button" onClick={() => onStep(-1)}>
          Back
        </button>
        <button type="submit" className={answer ? 'button primary' : 'button'}>
          {answer ? 'Next' : 'Skip for now'}
        </button>
      </div>
    </form>
  );
}

const contradictsWords = ({ message, wanted }: { message: string; wanted: string }): string =>
  `${sentence([message, wanted].filter(Boolean).join('; '))}. What the rule says stands in.`;
