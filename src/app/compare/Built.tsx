/** What the two are made of: mount points, lengths, solids and other sizes that differ. */
import type { FieldRow, PointRow } from '../../../geometry/compare/hardware.ts';
import { partWords, sentence } from '../../../geometry/finding/words.ts';
import { Length, Sentence } from '../words/Amount.tsx';
import { valueText } from '../words/measureWords.ts';
import { NONE, signed } from './compareWords.ts';
import { Scroll } from './Scroll.tsx';
import { useBoth } from './useBoth.ts';

export function Built() {
  const both = useBoth();
  if (!both) return <p className="note compared-note">Measuring both axles.</p>;
  const { a, b, report, shop } = both;
  const { points, lengths, solids, fields } = report;
  const { unit } = shop;
  const part = (name: string): string =>
    sentence(partWords(shop, (a.parts.some(p => p.name === name) ? a : b).axle, name));
  const point = (at: PointRow['a']) => (at ? at.map(v => coordinate(v, unit)).join(', ') : NONE);
  if (points.length + lengths.length + solids.length + fields.length === 0) {
    return <p className="note compared-note">Both are built alike.</p>;
  }
  return (
    <Scroll label="Parts that differ" className="compared-scroll built">
      {lengths.length > 0 && (
        <table className="compared-table">
          <Head first="Length at ride height" />
          <tbody>
            {lengths.map(({ name, a: inA, b: inB, difference }) => (
              <tr key={name}>
                <th scope="row">{part(name)}</th>
                <td>{inA === null ? NONE : <Length inches={inA} unit={unit} />}</td>
                <td className="b">{inB === null ? NONE : <Length inches={inB} unit={unit} />}</td>
                <td>
                  {difference === null ? NONE : <Sentence text={signed(shop, difference, 'in')} />}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {points.length > 0 && (
        <table className="compared-table">
          <Head first={`Mount point as drawn: forward, left, up; ${unit}`} />
          <tbody>
            {points.map(({ name, a: inA, b: inB, difference }) => (
              <tr key={name}>
                <th scope="row">{pointWords(name, part)}</th>
                <td>{point(inA)}</td>
                <td className="b">{point(inB)}</td>
                <td>{point(difference)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {solids.length > 0 && (
        <p>Drawn solids: {solids.map(({ name, change }) => `${name} (${change})`).join(', ')}.</p>
      )}
      {fields.length > 0 && (
        <table className="compared-table">
          <Head first="Other sizes, rates and limits" />
          <tbody>
            {fields.map(row => (
              <tr key={`${row.part} ${row.field}`}>
                <th scope="row">
                  {part(row.part)}: {fieldName(row.field)}
                </th>
                <td>{fieldValue(row.a, row.field)}</td>
                <td className="b">{fieldValue(row.b, row.field)}</td>
                <td>{fieldDifference(row)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </Scroll>
  );
}

function Head({ first }: { first: string }) {
  return (
    <thead>
      <tr>
        <th scope="col">{first}</th>
        <th scope="col">A</th>
        <th scope="col" className="b">
          B
        </th>
        <th scope="col">B − A</th>
      </tr>
    </thead>
  );
}

/** A coordinate is no tape reading: decimals. */
const coordinate = (value: number, unit: 'in' | 'mm'): string =>
  (unit === 'mm' ? (value * 25.4).toFixed(1) : String(Number(value.toFixed(3)))).replace('-', '−');

/** 'left lower link.frame' → 'Driver lower link, frame end'. */
function pointWords(name: string, part: (name: string) => string): string {
  const dot = name.lastIndexOf('.');
  return dot < 0 ? part(name) : `${part(name.slice(0, dot))}, ${fieldName(name.slice(dot + 1))}`;
}

/** 'axle.rates.radial' → 'axle rates radial', 'wheelBolt' → 'wheel bolt'. */
const fieldName = (field: string): string =>
  field
    .replace(/\[(\d+)\]/g, (_, i: string) => ` ${Number(i) + 1}`)
    .replaceAll('.', ' ')
    .replace(/([a-z])([A-Z])/g, (_, a: string, b: string) => `${a} ${b.toLowerCase()}`)
    .trim();

/** Fields that are angles inside, rad. */
const ANGLE = /limit$|angle$|camber$|caster$|toe$/i;

function fieldValue(value: FieldRow['a'], field: string): string {
  if (value === null) return NONE;
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'string') return value;
  return ANGLE.test(field)
    ? valueText({ driverSide: 'left', unit: 'in' }, '', (value * 180) / Math.PI, 'deg')
    : String(Number(value.toPrecision(5))).replace('-', '−');
}

function fieldDifference({ a, b, field }: FieldRow): string {
  if (typeof a !== 'number' || typeof b !== 'number') return NONE;
  const text = fieldValue(Math.abs(b - a), field);
  return `${b < a ? '−' : '+'}${text}`;
}
