/** Amounts on screens: lengths as a tape shows them, the fraction set apart. */
import { formatLength } from '../../../geometry/build/format.ts';
import { amountWords } from '../../../geometry/finding/words.ts';

export interface LengthProps {
  inches: number;
  unit: 'in' | 'mm';
  /** Show the sign of a positive length too; rules do, sentences don't. */
  signed?: boolean;
  /** Write the unit behind it: ' in', '″' or none. */
  mark?: 'unit' | 'prime' | 'none';
  /** Under the finest mark of a tape tell thousandths, in place of 0. */
  fine?: boolean;
}

/** Hardly seen, but read out and copied: without it 1 1/4 is eleven fourths. */
const FRACTION_SPACE = <span className="frac-space"> </span>;

/** Shortest length that a tape shows, in. */
const TAPE_in = 1 / 32;

/** A length in the unit of the page: '23 5/8', its fraction in small figures. */
export function Length({ inches, unit, signed = false, mark = 'unit', fine = false }: LengthProps) {
  const size = Math.abs(inches);
  const isFine = fine && unit === 'in' && size < TAPE_in && size >= 0.0005;
  const text = isFine ? size.toFixed(3) : formatLength(size, { unit });
  const [whole, fraction] = splitFraction(text);
  const isZero = text === '0';
  const sign = inches < 0 && !isZero ? '−' : signed && !isZero ? '+' : '';
  return (
    <span className="length">
      {sign}
      {whole}
      {whole && fraction && FRACTION_SPACE}
      {fraction && <span className="frac">{fraction}</span>}
      {mark === 'unit' ? ` ${unit}` : mark === 'prime' && unit === 'in' ? '″' : ''}
    </span>
  );
}

/** An amount in any unit that measures and limits are shown in: '9/16 in', '1.8°', '1,200 lbf'. */
export function AmountOf({
  value,
  unit,
  page,
}: {
  value: number;
  unit: string;
  page: 'in' | 'mm';
}) {
  if (unit === 'in') return <Length inches={value} unit={page} fine />;
  return <span>{amountWords({ driverSide: 'left', unit: page }, value, unit)}</span>;
}

/** '23 5/8' → ['23', '5/8']; '5/8' → ['', '5/8']; '23' → ['23', '']. */
export function splitFraction(text: string): [whole: string, fraction: string] {
  const found = /^(?:(\d+) )?(\d+\/\d+)$/.exec(text);
  return found ? [found[1] ?? '', found[2] ?? ''] : [text, ''];
}

/** A number with its unit, which one line keeps together; where it is a tape's, its fraction is set apart. */
const TAPE = /((?:\d+ )?\d+\/\d+)(?: in\b)?|\d[\d.,]* (?:in|mm|lbf)\b/g;

/** A sentence with its fractions set apart: 'by 9/16 in.' */
export function Sentence({ text }: { text: string }) {
  const out = [];
  let from = 0;
  for (const match of text.matchAll(TAPE)) {
    const [whole, fraction] = splitFraction(match[1] ?? match[0]);
    out.push(
      text.slice(from, match.index),
      <span key={match.index} className="length">
        {whole}
        {whole && fraction && FRACTION_SPACE}
        {fraction && <span className="frac">{fraction}</span>}
        {match[1] && match[0].slice(match[1].length)}
      </span>,
    );
    from = match.index + match[0].length;
  }
  out.push(text.slice(from));
  return <>{out}</>;
}
