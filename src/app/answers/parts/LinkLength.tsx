/** The length of a link or rod: as drawn between its points, or another one tried, with what that does at ride height. */
import { useId, useMemo, useState } from 'react';
import { formatLength } from '../../../../geometry/build/format.ts';
import { asDrawn, type Sized, sizedParts } from '../../../../geometry/build/givenLength.ts';
import { inUnit } from '../../../../geometry/build/nudge.ts';
import { lengthEffect } from '../../../../geometry/cycle/lengthEffect.ts';
import { sentence } from '../../../../geometry/finding/words.ts';
import { SNAP_in, useMover } from '../../edit/mover.ts';
import { giveLength, nextMark } from '../../edit/typeLength.ts';
import type { Rig } from '../../state/rig.ts';
import { useShop } from '../../state/shop.ts';
import { Length, Sentence } from '../../words/Amount.tsx';
import { effectWords } from '../../words/effectWords.ts';
import { pageShop } from '../../words/shopWords.ts';
import { TypedProblem } from '../TypedInput.tsx';
import { useTyped } from '../useTyped.ts';
import './LinkLength.css';
import { usePairing } from './Sides.tsx';
import { StepperBox } from './Stepper.tsx';
import type { Thing } from './things.ts';

export function LinkLength({ thing }: { thing: Thing }) {
  const rig = useShop(shop => shop.rig);
  const pairing = usePairing(thing);
  const parts = useMemo(() => (rig ? sizedParts(rig.axle, thing.address) : []), [rig, thing]);
  const [first] = parts;
  // two tie rods that are entered apart have a length each, among their entries
  if (!rig || !first || (pairing === 'apart' && parts.length > 1)) return null;
  return <LengthOf rig={rig} thing={thing} parts={parts} first={first} />;
}

/** Nearer than this a given length is the drawn one, in. */
const SAME_in = 1e-6;

interface LengthOfProps {
  rig: Rig;
  thing: Thing;
  parts: readonly Sized[];
  first: Sized;
}

function LengthOf({ rig, thing: { address, name, entries }, parts, first }: LengthOfProps) {
  const id = useId();
  const unit = useShop(shop => shop.look.unit);
  const snap = useMover(mover => mover.snap);
  const [problem, setProblem] = useState<string | null>(null);
  const { build, axle } = rig;
  const { drawn, given } = first;
  const entry = entries.find(each => each.entry.path === `${address}.length`)?.entry;
  const write = (inches: number): string => inUnit(inches, build.unit, build.unit);
  // between marks it is told as a tape shows it; it is taken as drawn until another is typed
  const used = entry?.typed ?? formatLength(drawn, { unit: build.unit });
  const give = (text: string) => giveLength(address, name, text);
  const typed = useTyped(used, give);
  const effect = useMemo(
    () => (given === null ? null : lengthEffect(rig, asDrawn(axle, parts))),
    [rig, axle, parts, given],
  );
  const by = given === null ? 0 : given - drawn;
  return (
    <section className="link-length" data-wrong={typed.problem !== null}>
      <label htmlFor={id}>Length</label>
      <StepperBox
        id={id}
        typed={typed}
        less="Length: shorter"
        more="Length: longer"
        step={sense =>
          void give(write(nextMark(given ?? drawn, sense, SNAP_in[snap]))).then(typed.setProblem)
        }
      />
      <div className="link-length-by">
        {given === null ? (
          <p className="note">As drawn, from point to point. Type another to try it.</p>
        ) : (
          <>
            <p className="note">
              {Math.abs(by) < SAME_in ? (
                'As long as it is drawn.'
              ) : (
                <>
                  <b className="strong">
                    <Length inches={Math.abs(by)} unit={unit} fine />{' '}
                    {by > 0 ? 'longer' : 'shorter'}
                  </b>{' '}
                  than drawn (<Length inches={drawn} unit={unit} />
                  ).
                </>
              )}
            </p>
            <button
              type="button"
              className="quiet"
              onClick={() => void giveLength(address, name, null).then(setProblem)}
            >
              As drawn again
            </button>
          </>
        )}
        {problem !== null && (
          <p className="wish-problem" role="alert">
            {problem}.
          </p>
        )}
      </div>
      <TypedProblem id={id} problem={typed.problem} used={used} />
      {effect && (
        <div className="link-length-did">
          <p className="note">At ride height, against as drawn:</p>
          <dl>
            {effectWords(pageShop(build, unit), axle, effect).map(([what, words]) => (
              <div key={what}>
                <dt>{what}</dt>
                <dd>
                  <Sentence text={sentence(words)} />
                </dd>
              </div>
            ))}
          </dl>
          <p className="note">Ride, in every number, now means the axle so.</p>
        </div>
      )}
    </section>
  );
}
