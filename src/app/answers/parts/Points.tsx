/**
 * The points of a part, and what moves the chosen one: buttons and arrow keys by one mark of the tape each, its
 * coordinates as typed, and which points of the same bracket go with it. It needs no picture.
 */
import { type KeyboardEvent, memo, useEffect, useMemo, useRef } from 'react';
import { acrossOf, type Grip, gripsOf, onSameBracket } from '../../../../geometry/build/grips.ts';
import { followers } from '../../../../geometry/build/hanging.ts';
import { listed, sentence } from '../../../../geometry/finding/words.ts';
import { chosenSpot } from '../../edit/chosenSpot.ts';
import { gripWords, keepNudged, nudge, pointWords, readyToMove } from '../../edit/drag.ts';
import { axesOfView, moveOf } from '../../edit/moveKeys.ts';
import { choosePoint, SNAPS, setSnap, toggleTogether, useMover } from '../../edit/mover.ts';
import { useShop } from '../../state/shop.ts';
import { Sentence } from '../../words/Amount.tsx';
import { byWords } from '../../words/moveWords.ts';
import { startWords } from '../../words/offsetWords.ts';
import { pathWords } from '../../words/pathWords.ts';
import { seated } from '../../words/shopWords.ts';
import { Coordinate } from './Coordinate.tsx';
import { From, useStarts, useTapedFrom } from './From.tsx';
import { Offset } from './Offset.tsx';
import './Points.css';
import type { Thing } from './things.ts';

/** Most points of a bracket that are offered. */
const OFFERED = 5;

export function Points({ thing }: { thing: Thing }) {
  const rig = useShop(shop => shop.rig);
  const view = useShop(shop => shop.look.view);
  const part = useShop(shop => shop.look.part);
  const { point, together, snap } = useMover();
  const all = useMemo(() => (rig ? gripsOf(rig.build, rig.axle) : []), [rig]);
  const own = all.filter(({ path }) => pathWords(path).thing === thing.address);
  const held = own.find(({ path }) => path === point);
  const near = useMemo(() => (held ? onSameBracket(all, held).slice(0, OFFERED) : []), [all, held]);
  const spot = rig && held ? chosenSpot(rig, held.spots, part) : undefined;
  const starts = useStarts(held?.path ?? null);
  const tapedFrom = useTapedFrom(held?.path ?? null);
  // where it is now, though a hand may hold what it hangs on
  const place = rig?.build.places.find(({ name }) => name === starts?.chosen);
  const box = useRef<HTMLDivElement>(null);
  // another part: nothing of this one stays chosen
  useEffect(() => () => keepNudged(), []);
  if (!rig || own.length === 0) return null;
  // of what is drawn by many points, all of them are the part
  const isWhole = thing.address.startsWith('solids') && own.length > 1;
  const offered = isWhole ? own.slice(0, 1) : own;
  const choose = (path: string): void => {
    void readyToMove();
    keepNudged();
    if (path !== point) choosePoint(path, isWhole ? own.map(each => each.path) : []);
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    // a field and a list have their own use of the keys
    const isTyped = event.target instanceof HTMLInputElement && event.target.type !== 'checkbox';
    if (!held || isTyped || event.target instanceof HTMLSelectElement) return;
    const axes = axesOfView(view, rig.axle.name, rig.build.driverSide);
    const move = moveOf(event.nativeEvent, axes, spot ? acrossOf(spot) : 1);
    const isTrying = useShop.getState().trial !== null;
    if (event.key === 'Enter' && isTrying) keepNudged();
    else if (event.key === 'Escape' && !isTrying) choosePoint(null);
    else if (move) void nudge(move.axis, move.marks);
    else return;
    event.preventDefault();
    event.stopPropagation();
  };
  const name = (grip: Grip): string =>
    isWhole ? 'Whole part' : sentence(seated(rig.build, pointWords(grip.path)) || 'place');
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: arrow keys of the buttons within it
    <div
      className="points"
      ref={box}
      onKeyDown={onKeyDown}
      onBlur={event => {
        if (!box.current?.contains(event.relatedTarget)) keepNudged();
      }}
    >
      <fieldset className="views points-list" aria-label="Move a point">
        <span className="points-title">Move</span>
        {offered.map(grip => (
          <button
            key={grip.path}
            type="button"
            aria-pressed={grip === held}
            onClick={() => choose(grip.path)}
          >
            {name(grip)}
          </button>
        ))}
      </fieldset>
      {held && (
        <div className="points-held">
          {starts && !isWhole && <From starts={starts} tapedFrom={tapedFrom} />}
          <div className="steppers">
            {([0, 1, 2] as const).map(axis =>
              place && spot && !isWhole ? (
                <Offset
                  key={axis}
                  rig={rig}
                  axis={axis}
                  grip={held}
                  spot={spot}
                  place={place}
                  words={startWords(rig, place)}
                />
              ) : (
                <Coordinate
                  key={axis}
                  entry={held.entries[axis]}
                  axis={axis}
                  grip={held}
                  from={tapedFrom[axis] ?? null}
                />
              ),
            )}
          </div>
          <div className="points-foot">
            <fieldset className="choice points-snap">
              <legend className="visually-hidden">Moves by</legend>
              {SNAPS.map(each => (
                <button
                  key={each}
                  type="button"
                  aria-pressed={snap === each}
                  onClick={() => setSnap(each)}
                >
                  <Sentence text={each} />
                </button>
              ))}
            </fieldset>
            <MovedBy isMirrored={held.spots.length > 1} />
          </div>
          <GoesAlong path={held.path} isDatum={thing.address.startsWith('datums')} />
          {!isWhole && near.length > 0 && (
            <fieldset className="points-near">
              <legend className="note">On the same bracket: goes along</legend>
              {near.map(grip => (
                <label key={grip.path}>
                  <input
                    type="checkbox"
                    checked={together.has(grip.path)}
                    onChange={() => toggleTogether(grip.path)}
                  />
                  {gripWords(grip)}
                </label>
              ))}
            </fieldset>
          )}
        </div>
      )}
    </div>
  );
}

/** Most things that are named of those that hang on a point. */
const NAMED = 6;

/** What is taped from the held point, and moves with it. */
const GoesAlong = memo(function GoesAlong({ path, isDatum }: { path: string; isDatum: boolean }) {
  const rig = useShop(shop => shop.trial?.rig ?? shop.rig);
  const things = useMemo(() => {
    const entries = rig?.build.entries ?? [];
    const moving = entries.map(each => each.path).filter(each => each.startsWith(path));
    const own = pathWords(path).thing;
    const all = followers(entries, moving).map(pathWords);
    return [...new Set(all.filter(({ thing }) => thing !== own).map(({ name }) => name))];
  }, [rig, path]);
  if (!rig || (things.length === 0 && !isDatum)) return null;
  const names = things.slice(0, NAMED).map(name => seated(rig.build, name));
  const more = things.length - names.length;
  const all = more > 0 ? [...names, `${more} more`] : names;
  return (
    <p className="note points-follow">
      {names.length > 0 ? (
        <>
          Taped from here, so it goes along: <b className="strong">{listed(all).toLowerCase()}</b>.
        </>
      ) : (
        'Nothing is taped from here: it moves alone.'
      )}
    </p>
  );
});

const KEYS = 'Arrow keys move it as it is seen, Page Up and Down along the sight; with Shift by 8.';

/** How far it has been moved, why it can't go further, or what the keys do. */
function MovedBy({ isMirrored }: { isMirrored: boolean }) {
  const by = useShop(shop => shop.trial?.by ?? null);
  const refused = useShop(shop => shop.trial?.refused ?? null);
  const unit = useShop(shop => shop.look.unit);
  if (refused !== null) {
    return (
      <p className="note points-refused" role="alert">
        {refused}
      </p>
    );
  }
  return (
    <p className="note points-by" role="status">
      {by ? (
        <>
          <b className="strong">
            <Sentence text={byWords(by, unit, isMirrored)} />
          </b>
          {isMirrored && ', both sides alike'}. Enter keeps it, Esc puts it back.
        </>
      ) : (
        <>
          {isMirrored && 'Both sides alike. '}
          <span className="points-keys">{KEYS}</span>
        </>
      )}
    </p>
  );
}
