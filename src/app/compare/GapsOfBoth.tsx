/** Least gaps of pairs that come near in one of the two, in a table. */

import { differenceWords } from '../../../geometry/compare/phrases.ts';
import { useShop } from '../state/shop.ts';
import { Length, Sentence } from '../words/Amount.tsx';
import { MARKS, markOf, NONE, pairWords, signed } from './compareWords.ts';
import type { BothKnown } from './useBoth.ts';

export function GapsOfBoth({ both: { a, b, report, shop } }: { both: BothKnown }) {
  const unit = useShop(({ look }) => look.unit);
  const shown = report.gaps.filter(row => !(row.a && row.b && row.isNone));
  const alike = report.gaps.length - shown.length;
  if (report.gaps.length === 0) return null;
  const gap = (value: number | undefined) =>
    value === undefined ? NONE : <Length inches={value} unit={unit} mark="none" fine />;
  return (
    <section className="gaps-of-both">
      <h3>Least gaps of near pairs</h3>
      <table className="compared-table">
        <thead>
          <tr>
            <th scope="col">Parts rigid; searched, not proved; {unit}</th>
            <th scope="col">A</th>
            <th scope="col" className="b">
              B
            </th>
            <th scope="col">B − A</th>
            <th scope="col">Wanted</th>
          </tr>
        </thead>
        <tbody>
          {shown.map(row => {
            const mark = markOf(row.toward);
            return (
              <tr key={row.pair.join()}>
                <th scope="row">{pairWords(shop, a, b, row.pair)}</th>
                <td>{gap(row.a?.gap_in)}</td>
                <td className="b">{gap(row.b?.gap_in)}</td>
                <td className={mark ? `is-${mark}` : ''}>
                  {mark && (
                    <abbr className="mark" title={MARKS[mark][1]}>
                      {MARKS[mark][0]}{' '}
                    </abbr>
                  )}
                  {row.difference === null ? NONE : signed(shop, row.difference, 'in')}
                  {row.tolerance !== null && (
                    <small>
                      <Sentence text={`± ${differenceWords(shop, row.tolerance, 'in')}`} />
                    </small>
                  )}
                </td>
                <td>{gap((row.b ?? row.a)?.required_in)}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
      {alike > 0 && (
        <p className="note">
          {alike} further near {alike === 1 ? 'pair is' : 'pairs are'} alike in both.
        </p>
      )}
    </section>
  );
}
