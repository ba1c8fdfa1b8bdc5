/** Every measure of both at equal travel and steering, a pose at a time, with the difference and what it is worth. */
import { useMemo, useState } from 'react';
import { differenceWords } from '../../../geometry/compare/phrases.ts';
import type { At, PlaceName } from '../../../geometry/compare/places.ts';
import type { Row } from '../../../geometry/compare/rows.ts';
import { type Shop, seat, sentence } from '../../../geometry/finding/words.ts';
import { SHOWN } from '../../../geometry/measure/measure.ts';
import { act } from '../state/action.ts';
import { moveTo } from '../state/move.ts';
import { Sentence } from '../words/Amount.tsx';
import {
  byPlace,
  MARKS,
  markOf,
  placeWords,
  rowDifference,
  rowName,
  rowValue,
} from './compareWords.ts';
import { Scroll } from './Scroll.tsx';
import { type BothKnown, useBoth } from './useBoth.ts';

/** Short words for a place. */
function shortWords(shop: Shop, { pose, reachedBy }: At): string {
  const up = (side: 'left' | 'right'): string => `${sentence(seat(shop, side))} up`;
  const words: Record<PlaceName, string> = {
    ride: 'Ride',
    fullBump: 'Both up',
    fullDroop: 'Both down',
    crossedLeftUp: up('left'),
    crossedRightUp: up('right'),
    fullLeft: 'Full left',
    fullRight: 'Full right',
  };
  return reachedBy === 'both' ? words[pose] : `${words[pose]}, ${reachedBy.toUpperCase()} alone`;
}

/** The axle goes where the numbers are of. */
function standAt({ left_in, right_in, steer }: At): void {
  const input = steer ? steer.value / (steer.unit === 'deg' ? SHOWN.deg : 1) : 0;
  act(moveTo, { left: left_in, right: right_in, steer: input, lock: 0 });
}

export function Numbers() {
  const both = useBoth();
  const [chosen, setChosen] = useState(0);
  const [isAll, setAll] = useState(false);
  const places = useMemo(() => byPlace(both?.report.rows ?? []), [both]);
  if (!both) return <p className="note compared-note">Measuring both axles.</p>;
  const { shop, names, stage } = both;
  const place = places[chosen] ?? places[0];
  const differ = ({ a, b, isNone }: Row): boolean => !isNone && (a !== null || b !== null);
  const rows = place?.rows.filter(row => isAll || differ(row)) ?? [];
  const none = (place?.rows.length ?? 0) - (place?.rows.filter(differ).length ?? 0);
  return (
    <>
      <div className="numbers-head">
        <fieldset className="views" aria-label="Pose">
          {places.map(({ at }, i) => (
            <button
              key={placeWords(names, at, shop)}
              type="button"
              aria-pressed={place?.at === at}
              onClick={() => {
                setChosen(i);
                standAt(at);
              }}
            >
              {shortWords(shop, at)}
            </button>
          ))}
        </fieldset>
      </div>
      <Scroll label="Numbers of both">
        <table className="compared-table">
          <caption className="note">
            {place && <Sentence text={placeWords(names, place.at, shop)} />}. ▲ nearer to what the
            builds ask for, ▼ further from it; ± what the difference is known to.{' '}
            {stage !== 'worth' && 'What the differences are worth comes in.'}
          </caption>
          <thead>
            <tr>
              <th scope="col">At equal travel and steering</th>
              <th scope="col">A</th>
              <th scope="col" className="b">
                B
              </th>
              <th scope="col">B − A</th>
            </tr>
          </thead>
          <tbody>
            {rows.map(row => (
              <NumberRow key={`${row.id} ${row.part} ${row.side}`} row={row} both={both} />
            ))}
          </tbody>
        </table>
        <p className="note numbers-foot">
          <button type="button" className="quiet" onClick={() => setAll(!isAll)}>
            {isAll
              ? 'Leave out what does not differ'
              : `Show ${none} more that do not differ by more than their tolerance`}
          </button>
        </p>
      </Scroll>
    </>
  );
}

function NumberRow({ row, both: { a, b, shop } }: { row: Row; both: BothKnown }) {
  const mark = markOf(row.toward);
  return (
    <tr title={row.reason}>
      <th scope="row">{rowName(row, shop, a, b)}</th>
      <td>
        <Sentence text={rowValue(shop, row, row.a)} />
      </td>
      <td className="b">
        <Sentence text={rowValue(shop, row, row.b)} />
      </td>
      <td className={mark ? `is-${mark}` : row.isNone ? 'is-none' : ''}>
        {mark && (
          <abbr className="mark" title={MARKS[mark][1]}>
            {MARKS[mark][0]}{' '}
          </abbr>
        )}
        <Sentence text={rowDifference(shop, row)} />
        {row.tolerance !== null && (
          <small>
            <Sentence text={`± ${differenceWords(shop, row.tolerance, row.unit)}`} />
          </small>
        )}
      </td>
    </tr>
  );
}
