/** How far both go each way, and what ends each. */
import { Sentence } from '../words/Amount.tsx';
import { NONE, reachedWords, signed, wayName } from './compareWords.ts';
import { Scroll } from './Scroll.tsx';
import { useBoth } from './useBoth.ts';

export function ReachOfBoth() {
  const both = useBoth();
  if (!both) return <p className="note compared-note">Measuring both axles.</p>;
  const { a, b, report, shop } = both;
  const range = report.range[a.axle.name];
  if (!range) return <p className="note compared-note">The two have no axle in common.</p>;
  const { holdsRide, area_in2: area } = range;
  const areaWords = (value: number): string =>
    shop.unit === 'mm' ? `${(value * 6.4516).toFixed(0)} cm²` : `${value.toFixed(1)} in²`;
  return (
    <Scroll label="Travel of both">
      {(!holdsRide.a || !holdsRide.b) && (
        <p className="note">The stops of {holdsRide.a ? 'B' : 'A'} do not allow ride height.</p>
      )}
      <table className="compared-table">
        <caption className="note">
          Travel of either wheel from each one’s own ride height; steering as the input goes.
        </caption>
        <thead>
          <tr>
            <th scope="col">How far</th>
            <th scope="col">A</th>
            <th scope="col" className="b">
              B
            </th>
            <th scope="col">B − A</th>
          </tr>
        </thead>
        <tbody>
          {range.ways.map(row => {
            const [farA, byA] = reachedWords(shop, a, row.unit, row.a);
            const [farB, byB] = reachedWords(shop, b, row.unit, row.b);
            return (
              <tr key={row.way}>
                <th scope="row">{wayName(shop, row)}</th>
                <td>
                  <Sentence text={farA} />
                  <small>{byA}</small>
                </td>
                <td className="b">
                  <Sentence text={farB} />
                  <small>{byB}</small>
                </td>
                <td className={row.difference === 0 ? 'is-none' : ''}>
                  {row.difference === null ? (
                    NONE
                  ) : row.difference === 0 ? (
                    'none'
                  ) : (
                    <Sentence text={signed(shop, row.difference, row.unit)} />
                  )}
                </td>
              </tr>
            );
          })}
          <tr>
            <th scope="row">Area of the travel map</th>
            <td>{areaWords(area.a)}</td>
            <td className="b">{areaWords(area.b)}</td>
            <td>
              {area.difference < 0 ? '−' : '+'}
              {areaWords(Math.abs(area.difference))}
            </td>
          </tr>
        </tbody>
      </table>
    </Scroll>
  );
}
