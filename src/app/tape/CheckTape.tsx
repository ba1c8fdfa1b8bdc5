/** What was taped twice: whether it fits together, by how much it does not, and which of it is likely wrong. */
import { useEffect, useState } from 'react';
import type { Suspect, TapeCheck } from '../../../geometry/advice/tapeCheck.ts';
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
  const readings = file.taped ?? [];
  return (
    <div className="check">
      <div className="check-told">
        <Verdict check={check} rig={rig} unit={unit} count={readings.length} />
        {answered.map(each => (
          <p key={each} className="check-answer">
            {each}
          </p>
        ))}
        {readings.length > 0 && (
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
              {readingsWords(rig, readings).map(({ name, words }, i) => {
                const misfit = check?.misfits.find(each => each.name === name);
                const amount = (value: number): string =>
                  misfit ? amountOf(value, misfit.unit, unit) : '';
                return (
                  <tr key={name} data-off={misfit ? misfit.score > OFF : false}>
                    <th scope="row">{sentence(words)}</th>
                    {misfit ? (
                      <>
                        <td>
                          <Sentence text={amount(misfit.value)} />
                        </td>
                        <td>
                          <Sentence text={amount(misfit.says)} />
                        </td>
                        <td>
                          <Sentence text={amount(Math.abs(misfit.value - misfit.says))} />
                        </td>
                      </>
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
            </tbody>
          </table>
        )}
      </div>
      <AddReading rig={rig} unit={file.unit === 'mm' ? 'mm' : 'in'} />
    </div>
  );
}

/** Twice its own standard error: more than a tape is usually off. */
const OFF = 2;

const amountOf = (value: number, of: 'in' | 'deg', unit: 'in' | 'mm'): string =>
  amountWords({ driverSide: 'left', unit }, of === 'deg' ? value * SHOWN.deg : value, of);

interface VerdictProps {
  check: TapeCheck | null;
  rig: Rig;
  unit: 'in' | 'mm';
  count: number;
}

function Verdict({ check, rig, unit, count }: VerdictProps) {
  if (count === 0) {
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
  if (!check.contradicts || !worst) {
    return (
      <>
        <h3>Nothing contradicts.</h3>
        <p className="check-words">What differs is no more than tapes are off.</p>
      </>
    );
  }
  const off = amountOf(Math.abs(worst.value - worst.says), worst.unit, unit);
  return (
    <>
      <h3 className="check-off">
        What was taped does not fit together: <Sentence text={off} /> apart.
      </h3>
      <p className="check-words">Most likely wrong, likeliest first. Tape that one again:</p>
      <ol className="suspects">
        {check.suspects
          .filter(isLikely)
          .slice(0, NAMED)
          .map(suspect => (
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
