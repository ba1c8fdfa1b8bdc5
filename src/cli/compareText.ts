/** The report of `compare` for a person: what the second buys and costs, findings, ranges, measures, parts. */
import type { Comparison } from '../../geometry/compare/compare.ts';
import type { FindingPair } from '../../geometry/compare/findingPairs.ts';
import type { Shop } from '../../geometry/finding/words.ts';
import { CAUTIONS } from './cautions.ts';
import {
  byPlace,
  differenceOf,
  differs,
  fullName,
  gapDifference,
  gapWords,
  placeWords,
  pointWords,
  rowName,
  valueOr,
  wayCells,
} from './compareWords.ts';
import type { Screen } from './io.ts';
import { labeled, type Style, styleOf, table, wrap } from './layout.ts';
import { several } from './words.ts';

export function compareText(report: Comparison, shop: Shop, screen: Screen): string {
  const style = styleOf(screen);
  const { a, b } = report;
  const lines = [
    style.heading(`A ${fullName(a)}`),
    style.heading(`B ${fullName(b)}`),
    ...aloneLines(report),
    '',
    style.heading(`bought and paid with ${b.name} against ${a.name}, biggest first`),
    ...sentenceLines(report),
    '',
    ...findingLines(report, style),
    ...rangeLines(report, shop, style),
    ...measureLines(report, shop, style),
    ...gapLines(report, shop, style),
    ...partLines(report, shop, style),
    '',
    ...wrap(CAUTIONS).map(style.aside),
  ];
  return `${lines.join('\n')}\n`;
}

const aloneLines = ({ alone, a, b }: Comparison): string[] =>
  alone.flatMap(({ axle, of }) =>
    wrap(`Only ${(of === 'a' ? a : b).name} has a ${axle} axle: nothing is compared of it.`, '  '),
  );

function sentenceLines({ sentences }: Comparison): string[] {
  if (sentences.length === 0) return ['  nothing differs by more than its tolerance'];
  return sentences.flatMap(({ text, buys }) => {
    const mark = buys === null ? '' : buys ? 'gain' : 'cost';
    return wrap(text.replace(/ \(a (gain|cost)\)/, ''), `  ${mark.padEnd(6)}`, ' '.repeat(8));
  });
}

function findingLines({ findings }: Comparison, style: Style): string[] {
  const told = (pairs: readonly FindingPair[], of: 'a' | 'b'): string[] =>
    pairs.flatMap(pair => {
      const finding = pair[of];
      return finding ? wrap(finding.text, '    ', '      ') : [];
    });
  const { fixed, unchanged } = findings;
  return [
    style.heading('findings'),
    `  fixed by B: ${several(fixed.length, 'finding')}`,
    ...told(fixed, 'a'),
    `  new with B: ${several(findings.new.length, 'finding')}`,
    ...told(findings.new, 'b'),
    `  in both: ${several(unchanged.length, 'finding')}`,
    ...told(
      unchanged.filter(({ b }) => b?.severity === 'mustFix'),
      'b',
    ),
  ];
}

function rangeLines({ range }: Comparison, shop: Shop, style: Style): string[] {
  return Object.entries(range).flatMap(([axle, { ways, area_in2 }]) => [
    '',
    style.heading(`how far the ${axle} axle goes`),
    ...labeled(
      ways.flatMap((way): [string, string][] => {
        const [name = '', a = '', b = '', difference = ''] = wayCells(way, shop);
        return [
          [name, `A ${a}`],
          ['', `B ${b}; ${difference}`],
        ];
      }),
    ),
    `  range in left × right travel: A ${area_in2.a.toFixed(1)} in², B ${area_in2.b.toFixed(1)} in²`,
  ]);
}

function measureLines(report: Comparison, shop: Shop, style: Style): string[] {
  const whole = report.rows.filter(row => row.part === null && differs(row));
  const ofParts = report.rows.filter(row => row.part !== null && differs(row));
  const none = report.rows.filter(row => row.isNone);
  const lines = ['', style.heading('measures that differ, at equal travel and steering')];
  if (whole.length === 0) lines.push('  none');
  const tables = byPlace(whole).flatMap(({ at, axle, rows }) => {
    const owner = Object.keys(report.range).length > 1 ? `, ${axle} axle` : '';
    return [
      [`${placeWords(report, at, shop)}${owner}`],
      ...rows.map(row => [
        `  ${rowName(row, shop)}`,
        valueOr(row.a, row.unit, shop),
        valueOr(row.b, row.unit, shop),
        differenceOf(row, shop),
        row.tolerance === null ? '' : `±${valueOr(row.tolerance, row.unit, shop)}`,
        row.toward === null ? '' : row.toward.toUpperCase(),
      ]),
    ];
  });
  if (whole.length > 0)
    lines.push(...table([['', 'A', 'B', 'B − A', 'known to', 'wanted'], ...tables]));
  return [
    ...lines,
    ...wrap(
      `wanted: which is nearer to what the builds ask for. ${ofParts.length} further differences are of single parts (--json, --html); ${none.length} are no more than their tolerance and count as none.`,
      '  ',
    ),
  ];
}

function gapLines({ gaps }: Comparison, shop: Shop, style: Style): string[] {
  const shown = gaps.filter(({ a, b, isNone }) => !(a && b && isNone));
  if (gaps.length === 0) return [];
  return [
    '',
    style.heading('least gaps of near pairs, parts rigid; searched, not proved'),
    ...table([
      ['', 'A', 'B', 'B − A', 'known to', 'asked'],
      ...shown.map(({ pair, a, b, difference, tolerance }) => [
        pair.join(' / '),
        gapWords(a?.gap_in, shop),
        gapWords(b?.gap_in, shop),
        gapDifference(difference, shop),
        tolerance === null ? '' : `±${gapWords(tolerance, shop)}`,
        gapWords((b ?? a)?.required_in, shop),
      ]),
    ]),
    `  ${several(gaps.length - shown.length, 'further near pair')} alike in both`,
  ];
}

function partLines(report: Comparison, shop: Shop, style: Style): string[] {
  const { points, lengths, solids, fields } = report;
  const lines = ['', style.heading('built differently')];
  if (points.length + lengths.length + solids.length + fields.length === 0) {
    return [...lines, '  in nothing'];
  }
  if (points.length > 0) {
    lines.push(
      ...table([
        ['mount points (x, y, z as drawn)', 'A', 'B', 'moved by'],
        ...points.map(({ name, a, b, difference }) => [
          name,
          pointWords(a, shop),
          pointWords(b, shop),
          pointWords(difference, shop),
        ]),
      ]),
    );
  }
  if (lengths.length > 0) {
    lines.push(
      ...table([
        ['lengths at ride height', 'A', 'B', 'B − A'],
        ...lengths.map(({ name, a, b, difference }) => [
          name,
          valueOr(a, 'in', shop),
          valueOr(b, 'in', shop),
          valueOr(difference, 'in', shop),
        ]),
      ]),
    );
  }
  const solid = solids.map(({ name, change }) => `${name} (${change})`).join(', ');
  if (solid !== '') lines.push(...wrap(`solids: ${solid}`, '  ', '    '));
  const parts = [...new Set(fields.map(({ part }) => part))].join(', ');
  if (parts !== '') lines.push(...wrap(`other sizes, rates and limits of: ${parts}`, '  ', '    '));
  return lines;
}
