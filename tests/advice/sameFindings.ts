/** Whether two lists of findings tell the same. */
import type { Finding } from '../../geometry/finding/finding.ts';

export interface Difference {
  missing: string[];
  extra: string[];
  /** Told by both, but further apart than is allowed. */
  off: string[];
}

/** How far amounts may be apart: what a sixteenth here and there adds up to, in, deg; others as a share. */
const APART = 0.25;
const SHARE = 0.05;

/** What a finding is, without its amount and its pose. Mirrored twins may be told in either order. */
function keyOf({ severity, kind, parts, limit, text }: Finding): string {
  const of = kind === 'outOfBand' ? (text.split(' comes to ')[0] ?? '') : '';
  return [severity, kind, [...parts].sort().join(' + '), limit ?? '', of].join(' | ');
}

export function difference(wanted: readonly Finding[], found: readonly Finding[]): Difference {
  const byKey = (list: readonly Finding[]) => new Map(list.map(each => [keyOf(each), each.amount]));
  const [a, b] = [byKey(wanted), byKey(found)];
  return {
    missing: [...a.keys()].filter(key => !b.has(key)),
    extra: [...b.keys()].filter(key => !a.has(key)),
    off: [...a].flatMap(([key, amount]) => {
      const other = b.get(key);
      if (!other) return [];
      const allowed =
        amount.unit === 'in' || amount.unit === 'deg' ? APART : SHARE * Math.abs(amount.value);
      return Math.abs(other.value - amount.value) > allowed
        ? [`${key}: ${amount.value} and ${other.value}`]
        : [];
    }),
  };
}

export const isSame = ({ missing, extra, off }: Difference): boolean =>
  missing.length + extra.length + off.length === 0;
