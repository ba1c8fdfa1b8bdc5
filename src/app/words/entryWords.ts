/** An entered number as it was understood. */

import type { Entry, From } from '../../../geometry/build/build.ts';
import { formatLength } from '../../../geometry/build/format.ts';
import { SHOWN } from '../../../geometry/measure/measure.ts';

export const FROM_WORDS: Record<From, string> = {
  measured: 'measured',
  drawing: 'from a drawing',
  assumed: 'assumed',
};

/** 'drawing' alone, for a chip. */
export const FROM_CHIP: Record<From, string> = {
  measured: 'measured',
  drawing: 'drawing',
  assumed: 'assumed',
};

/** A value in words of the page's unit: '15 in', '30°', '55 %', '45,000 lbf/in'. */
export function understood(value: number, dimension: string, unit: 'in' | 'mm'): string {
  switch (dimension) {
    case 'length':
      return `${value < 0 ? '−' : ''}${formatLength(Math.abs(value), { unit, denominator: 64 })} ${unit}`;
    case 'angle':
      return `${trimmed(value * SHOWN.deg, 2)}°`;
    case 'ratio':
      return `${trimmed(value * 100, 2)} %`;
    case 'force':
      return `${trimmed(value, 1)} lbf`;
    case 'rate':
      return `${trimmed(value, 0)} lbf/in`;
    case 'torsionalRate':
      return `${trimmed(value / SHOWN.deg, 1)} in·lbf/°`;
    case 'pressure':
      return `${trimmed(value, 0)} lbf/in²`;
    default:
      return trimmed(value, 4);
  }
}

function trimmed(value: number, digits: number): string {
  const text = value.toLocaleString('en-US', { maximumFractionDigits: digits });
  return text === '-0' ? '0' : text.replace('-', '−');
}

/** '± 1/16 in', or nothing. */
export function toleranceWords({ tolerance, dimension }: Entry, unit: 'in' | 'mm'): string {
  return tolerance === null ? '' : `± ${understood(tolerance, dimension, unit)}`;
}
