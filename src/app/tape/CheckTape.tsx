/** What was taped twice: whether it fits together, by how much it does not, and which of it is likely wrong. */
import { useEffect, useState } from 'react';
import type { Misfit, Suspect, TapeCheck } from '../../../geometry/advice/tapeCheck.ts';
import type { BuildFile } from '../../../geometry/build/schema/file.ts';
import { amountWords, sentence } from '../../../geometry/finding/words.ts';
import { SHOWN } from '../../../geometry/measure/measure.ts';
import { act } from '../state/action.ts';
import { setLook } from '../state/look.ts';
import type { Rig } from '../state/rig.ts';
import { useShop } from '../state/shop.ts';
import { Sentence } from '../words/Amount.tsx';
import { pathWords } from '../words/pathWords.ts';
import { AddReading } from './AddReading.tsx';
import './CheckTape.css';
import { readingsWords } from './placeWords.ts';
import { theStarter } from './starter.ts';
import { startOf } from './startOf.ts';
import { changeFile } from './takeStart.ts';

/** A tape is misread by an inch or by a foot, an angle finder by its zero; nobody is off by more. */
const isLikely = ({ correction, unit }: Suspect): boolean =>
  Math.abs(correction) < (unit === 'in' ? 13 : Math.PI / 4);

/** How many of those that may be wrong are named. */
const NAMED = 3;

export function CheckTape() {
  const file = useShop(({ opened }) => opened?.file ?? null);
  const rig = useShop(shop => shop.rig);
  const unit = useShop(shop => shop.look.unit);
  const check = useCheck(file);
  const answered = useContradictions();
  if (!file || !rig) return null;
  const told = readingsWords(rig, file.taped ?? []);
  const inWalk = (check?.misfits ?? []).filter(each =>
    told.every(({ name }) => name !== each.name),
  );
  return (
    <div className="check">
      <div className="check-told">
        <Verdict check={check} rig={rig} unit={unit} count={told.length} />
        {answered.map(each => (
          <p key={each} className="check-answer">
            {each}
          </p>
        ))}
        {told.length + inWalk.length > 0 && (
          <table className="check-readings">
            <thead>
              <tr>
                <th scope="col">Taped beside the rest</th>
                <th scope="col">Tape</th>
                <th scope="col">Build</th>
                <th scope="col">Off by</th>
                <th>
                  <span className="visually-hidden">Take out</span>
                </th>
              </tr>
            </thead>
            <tbody>
              {told.map(({ name, words }, i) => {
                const misfit = check?.misfits.find(each => each.name === name);
                return (
                  <tr key={name} data-verdict={misfit?.verdict ?? null}>
                    <th scope="row">{sentence(words)}</th>
                    {misfit ? (
                      <Amounts misfit={misfit} unit={unit} />
                    ) : (
                      <td colSpan={3}>
                        {check?.unknown.includes(name) ? 'no such place here' : '…'}
                      </td>
                    )}
                    <td>
                      <button
                        type="button"
                        className="quiet"
                        aria-label={`Take out: ${words}`}
                        onClick={() =>
                          void changeFile(`Take out: ${words}`, now => ({
                            ...now,
                            taped: (now.taped ?? []).toSpliced(i, 1),
                          }))
                        }
                      >
                        Take out
                      </button>
                    </td>
                  </tr>
                );
              })}
              {inWalk.map(misfit => (
                <tr key={misfit.name} data-verdict={misfit.verdict}>
                  <th scope="row">{sentence(misfit.name)}</th>
                  <Amounts misfit={misfit} unit={unit} />
                  <td />
                </tr>
              ))}
            </tbody>
          </table>
        )}
      </div>
      <AddReading rig={rig} unit={file.unit === 'mm' ? 'mm' : 'in'} />
    </div>
  );
}

/** Shortest length that a tape tells apart, in. */
const TAPE_in = 1 / 32;

/** What the tape read, what the build says, how far that is apart, and what to think of it. */
function Amounts({ misfit, unit }: { misfit: Misfit; unit: 'in' | 'mm' }) {
  const { value, says, verdict, unit: of } = misfit;
  const off = Math.abs(value - says);
  return (
    <>
      <td>
        <Sentence text={amountOf(value, of, unit)} />
      </td>
      <td>
        <Sentence text={amountOf(says, of, unit)} />
      </td>
      <td>
        <Sentence text={amountOf(off < TAPE_in && of === 'in' ? 0 : off, of, unit)} />
        {verdict !== 'fits' && <small>{VERDICTS[verdict]}</small>}
      </td>
    </>
  );
}

const VERDICTS = { doubtful: 'doubtful', wrong: 'contradicts' } as const;

const amountOf = (value: number, of: 'in' | 'deg', unit: 'in' | 'mm'): string =>
  amountWords({ driverSide: 'left', unit }, of === 'deg' ? value * SHOWN.deg : value, of);

interface VerdictProps {
  check: TapeCheck | null;
  rig: Rig;
  unit: 'in' | 'mm';
  count: number;
}

function Verdict({ check, rig, unit, count }: VerdictProps) {
  if (count === 0 && (check === null || check.verdict === 'fits')) {
    return (
      <>
        <h3>Tape something a second way, and the two check each other.</h3>
        <p className="check-words">
          A link's length against its ends, the left one against the right one, a pinion angle
          against two heights. What is typed here moves nothing: it only tells where the numbers
          contradict each other.
        </p>
      </>
    );
  }
  if (!check) return <h3>Weighing what was taped …</h3>;
  const [worst] = check.misfits;
  if (check.verdict === 'fits' || !worst) {
    return (
      <>
        <h3>Nothing contradicts.</h3>
        <p className="check-words">What differs is no more than tapes are off.</p>
      </>
    );
  }
  if (check.verdict === 'doubtful') {
    return (
      <>
        <h3>It is doubtful whether this fits: tape it again.</h3>
        <p className="check-words">
          What differs is more than tapes usually are off, though not so much that one has to be
          wrong.
        </p>
      </>
    );
  }
  const likely = check.suspects.filter(isLikely);
  const by = likely[0]?.correction ?? worst.value - worst.says;
  const off = amountOf(Math.abs(by), likely[0]?.unit ?? worst.unit, unit);
  return (
    <>
      <h3 className="check-off">
        What was taped does not fit together: <Sentence text={off} /> apart.
      </h3>
      <p className="check-words">Most likely wrong, likeliest first. Tape that one again:</p>
      <ol className="suspects">
        {likely.slice(0, NAMED).map(suspect => (
          <SuspectLine key={suspect.name} suspect={suspect} rig={rig} unit={unit} />
        ))}
      </ol>
    </>
  );
}

function SuspectLine({
  suspect: { name, kind, correction, unit: of },
  rig,
  unit,
}: {
  suspect: Suspect;
  rig: Rig;
  unit: 'in' | 'mm';
}) {
  const amount = amountOf(Math.abs(correction), of, unit);
  const way = correction > 0 ? 'too little' : 'too much';
  const told = kind === 'entry' ? pathWords(name) : null;
  const words = told
    ? [told.name, told.field].filter(Boolean).join(', ')
    : sentence(readingWordsOf(rig, name));
  const part = told && rig.parts.find(each => name.includes(`["${each.of}"]`));
  return (
    <li>
      <span>
        <span className="strong">{words}</span>: <Sentence text={amount} /> {way}
      </span>
      {part && (
        <button
          type="button"
          className="quiet"
          onClick={() => act(setLook, { part: part.name, sheet: 'parts', phoneTab: 'parts' })}
        >
          To its numbers
        </button>
      )}
    </li>
  );
}

function readingWordsOf(rig: Rig, name: string): string {
  const all = readingsWords(rig, useShop.getState().opened?.file.taped ?? []);
  return all.find(each => each.name === name)?.words ?? name;
}

/** The check of the file, made in pieces; null while it is not known. */
function useCheck(file: BuildFile | null): TapeCheck | null {
  const [check, setCheck] = useState<{ file: BuildFile; told: TapeCheck | null } | null>(null);
  useEffect(() => {
    let isStill = true;
    if (file) {
      theStarter()
        .then(starter => starter.checkOf(file, () => isStill))
        .then(
          told => isStill && setCheck({ file, told }),
          () => {
            // the starter is told of where it is wanted first
          },
        );
    }
    return () => {
      isStill = false;
    };
  }, [file]);
  return check && check.file === file ? check.told : null;
}

/** Answers of the start that cannot be right beside each other. */
function useContradictions(): readonly string[] {
  const start = useShop(startOf);
  const [told, setTold] = useState<readonly string[]>([]);
  useEffect(() => {
    let isStill = true;
    setTold([]);
    if (start) {
      theStarter().then(
        starter => isStill && setTold(starter.contradictions(start)),
        () => {
          // as above
        },
      );
    }
    return () => {
      isStill = false;
    };
  }, [start]);
  return told;
}
