/** Something taped a second way: a distance, a slant, or a pinion from two heights. */
import { type FormEvent, useId, useState } from 'react';
import { sentence } from '../../../geometry/finding/words.ts';
import type { Rig } from '../state/rig.ts';
import { placesOf, placeWords, type Reading, readingWords } from './placeWords.ts';
import { theStarter } from './starter.ts';
import { changeFile } from './takeStart.ts';

const KINDS = {
  straight: 'From point to point',
  up: 'Difference in height',
  left: 'Distance sideways',
  forward: 'Distance fore and aft',
  side: 'Slant from the side, by angle finder',
  front: 'Slant from ahead, by angle finder',
  rise: 'Pinion from two heights',
} as const;

type Kind = keyof typeof KINDS;

const isSlant = (kind: Kind): kind is 'side' | 'front' => kind === 'side' || kind === 'front';

interface AddReadingProps {
  rig: Rig;
  /** Unit of the build file. */
  unit: 'in' | 'mm';
}

export function AddReading({ rig, unit }: AddReadingProps) {
  const places = placesOf(rig);
  const firstBar = places.find(each => /lower|arm/.test(each)) ?? places[0] ?? '';
  const [kind, setKind] = useState<Kind>('straight');
  const [from, setFrom] = useState(firstBar);
  const [to, setTo] = useState(
    () => places.find(each => each !== firstBar && each.startsWith(stem(firstBar))) ?? firstBar,
  );
  const [typed, setTyped] = useState('');
  const [over, setOver] = useState('');
  const [problem, setProblem] = useState<string | null>(null);
  const id = useId();
  const isAngle = isSlant(kind);
  const submit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const starter = await theStarter();
    const wrong =
      starter.wrongWords(typed, isAngle ? 'angle' : 'length', unit) ??
      (kind === 'rise' ? starter.wrongWords(over, 'length', unit) : null);
    if (wrong !== null) {
      setProblem(wrong);
      return;
    }
    const reading = made(kind, { from, to, typed, over, axle: rig.axle.name }) as Reading;
    const { words } = readingWords(rig, reading);
    const refused = await changeFile(`Taped: ${words}`, file => ({
      ...file,
      taped: [...(file.taped ?? []), reading],
    }));
    setProblem(refused);
    if (refused === null) {
      setTyped('');
      setOver('');
    }
  };
  const place = (label: string, value: string, onChange: (place: string) => void) => (
    <label className="around-field">
      <span>{label}</span>
      <select className="field" value={value} onChange={event => onChange(event.target.value)}>
        {places.map(each => (
          <option key={each} value={each}>
            {sentence(placeWords(rig, each))}
          </option>
        ))}
      </select>
    </label>
  );
  const field = (label: string, value: string, onChange: (text: string) => void, of: string) => (
    <label className="around-field" data-wrong={problem !== null}>
      <span>{label}</span>
      <span className="around-input">
        <input
          className="entry-input"
          value={value}
          autoComplete="off"
          spellCheck={false}
          aria-invalid={problem !== null}
          aria-describedby={problem === null ? undefined : `${id}-wrong`}
          onChange={event => {
            onChange(event.target.value);
            setProblem(null);
          }}
        />
        <span className="around-unit">{of}</span>
      </span>
    </label>
  );
  return (
    <form className="check-add" onSubmit={event => void submit(event)}>
      <h3>Taped as well</h3>
      <label className="around-field">
        <span>What</span>
        <select
          className="field"
          value={kind}
          onChange={event => setKind(event.target.value as Kind)}
        >
          {Object.entries(KINDS).map(([each, label]) => (
            <option key={each} value={each}>
              {label}
            </option>
          ))}
        </select>
      </label>
      {kind !== 'rise' && place('From', from, setFrom)}
      {kind !== 'rise' && place('To', to, setTo)}
      <div className="question-fields">
        {field(
          kind === 'rise' ? 'Higher at the flange by' : 'It reads',
          typed,
          setTyped,
          isAngle ? 'deg' : unit,
        )}
        {kind === 'rise' && field('Over a length of', over, setOver, unit)}
        <button type="submit" className="button">
          Add
        </button>
      </div>
      {problem !== null && (
        <p className="entry-wrong" id={`${id}-wrong`} role="alert">
          {sentence(problem)}.
        </p>
      )}
    </form>
  );
}

/** 'left lower link.axle' → 'left lower link.' */
const stem = (place: string): string => place.slice(0, place.lastIndexOf('.') + 1);

interface Typed {
  from: string;
  to: string;
  typed: string;
  over: string;
  axle: string;
}

/** The reading as the build file has it. */
function made(kind: Kind, { from, to, typed, over, axle }: Typed): object {
  const read = (text: string): object => ({ value: text.trim(), from: 'measured' });
  if (kind === 'rise') return { of: `${axle} pinion`, rise: read(typed), over: read(over) };
  if (isSlant(kind)) return { from, to, plane: kind, angle: read(typed) };
  return { from, to, ...(kind === 'straight' ? {} : { along: kind }), length: read(typed) };
}
