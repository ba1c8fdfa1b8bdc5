/** Every pair of parts that is compared, with its least gap and how sure that is. */
import { useMemo, useState } from 'react';
import { partWords, sentence } from '../../../../geometry/finding/words.ts';
import type { PairReport } from '../../../../geometry/gap/gapReport.ts';
import { act } from '../../state/action.ts';
import { useShop } from '../../state/shop.ts';
import { Length } from '../../words/Amount.tsx';
import { pageShop } from '../../words/shopWords.ts';
import { goToPose } from '../goTo.ts';

const COLUMNS = ['parts', 'wanted', 'gap', 'left', 'status'] as const;
type Column = (typeof COLUMNS)[number];

const HEADS: Record<Column, string> = {
  parts: 'Parts',
  wanted: 'Wanted',
  gap: 'Least gap',
  left: 'Over wanted',
  status: 'How it stands',
};

/** Rows that are shown at first, and with each wish for more. */
const PAGE = 60;

/** How a pair stands, in words. A pair that is clear is only that: nothing is called safe. */
export function statusWords({ status, gap_in, required_in, isCoarse }: PairReport): string {
  switch (status) {
    case 'touches':
      return 'touches';
    case 'close':
      return 'too close';
    case 'clear':
      return 'clear, proved';
    case 'undecided':
      if (gap_in < required_in) return 'too close, not settled yet';
      return isCoarse ? 'far, not settled yet' : 'not settled yet';
  }
}

export function AllPairs() {
  const rig = useShop(shop => shop.rig);
  const unit = useShop(shop => shop.look.unit);
  const gaps = useShop(shop => shop.results.gaps);
  const isFinal = useShop(shop => shop.results.isFinal);
  const [search, setSearch] = useState('');
  const [order, setOrder] = useState<{ by: Column; down: boolean }>({ by: 'left', down: false });
  const [count, setCount] = useState(PAGE);

  const rows = useMemo(() => {
    if (!rig) return [];
    const shop = pageShop(rig.build, unit);
    return (gaps?.pairs ?? []).map(pair => ({
      pair,
      names: sentence(`${partWords(shop, rig.axle, pair.a)}, ${partWords(shop, rig.axle, pair.b)}`),
      status: statusWords(pair),
    }));
  }, [rig, unit, gaps]);
  const shown = useMemo(() => {
    const words = search.toLowerCase().split(/\s+/);
    const way = order.down ? -1 : 1;
    const key = (row: (typeof rows)[number]): number | string => {
      switch (order.by) {
        case 'parts':
          return row.names;
        case 'wanted':
          return row.pair.required_in;
        case 'gap':
          return row.pair.gap_in;
        case 'left':
          return row.pair.gap_in - row.pair.required_in;
        case 'status':
          return row.status;
      }
    };
    return rows
      .filter(({ names, status }) => {
        const within = `${names} ${status}`.toLowerCase();
        return words.every(word => within.includes(word));
      })
      .sort((a, b) => {
        const [p, q] = [key(a), key(b)];
        return way * (p < q ? -1 : p > q ? 1 : 0);
      });
  }, [rows, search, order]);

  return (
    <div className="pairs">
      <div className="pairs-head">
        <input
          className="field"
          type="search"
          placeholder="Search parts, or how it stands"
          aria-label="Search pairs"
          value={search}
          onChange={event => setSearch(event.target.value)}
        />
        <p className="note">
          {shown.length.toLocaleString('en-US')} of {rows.length.toLocaleString('en-US')} pairs
          {isFinal ? '' : ' found so far'}. Parts rigid; gaps are searched, not proved, unless it
          says so. Choose one to stand the axle there.
        </p>
      </div>
      <table>
        <thead>
          <tr>
            {COLUMNS.map(column => (
              <th
                key={column}
                aria-sort={
                  order.by === column ? (order.down ? 'descending' : 'ascending') : undefined
                }
              >
                <button
                  type="button"
                  onClick={() => setOrder({ by: column, down: order.by === column && !order.down })}
                >
                  {HEADS[column]}
                  <span aria-hidden="true">
                    {order.by === column ? (order.down ? ' ▾' : ' ▴') : ''}
                  </span>
                </button>
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {shown.slice(0, count).map(({ pair, names, status }) => (
            <tr key={`${pair.a}|${pair.b}`} className={pair.gap_in < 0 ? 'touch' : undefined}>
              <th scope="row">
                <button type="button" className="pairs-go" onClick={() => act(goToPose, pair.pose)}>
                  {names}
                </button>
              </th>
              <td>
                <Length inches={pair.required_in} unit={unit} mark="none" />
              </td>
              <td>
                {pair.isCoarse && <small>about </small>}
                <Length inches={pair.gap_in} unit={unit} mark="none" fine />
              </td>
              <td>
                <Length inches={pair.gap_in - pair.required_in} unit={unit} mark="none" signed />
              </td>
              <td>{status}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {shown.length > count && (
        <button type="button" className="quiet" onClick={() => setCount(count + 4 * PAGE)}>
          Show more
        </button>
      )}
      {rows.length === 0 && (
        <p className="note">
          {isFinal ? 'No pair is compared.' : 'Pairs appear here as soon as the first are checked.'}
        </p>
      )}
    </div>
  );
}
