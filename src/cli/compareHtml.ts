/**
 * The report of `compare` as one page that stands by itself: no script, nothing from elsewhere, light and dark, and
 * on Letter or A4 paper in ink on white.
 */
import type { Comparison, Side } from '../../geometry/compare/compare.ts';
import type { FindingPair } from '../../geometry/compare/findingPairs.ts';
import type { Sentence } from '../../geometry/compare/paragraph.ts';
import { type Shop, seat, sentence as sentenceCase } from '../../geometry/finding/words.ts';
import { CAUTIONS } from './cautions.ts';
import { rangePicture } from './comparePicture.ts';
import { STYLE } from './compareStyle.ts';
import {
  byPlace,
  differenceOf,
  differs,
  fieldWords,
  fullName,
  gapDifference,
  gapWords,
  placeWords,
  pointWords,
  rowName,
  valueOr,
  wayCells,
} from './compareWords.ts';
import { escaped, htmlTable } from './html.ts';

export function compareHtml(report: Comparison, sides: readonly Side[], shop: Shop): string {
  const { a, b, sentences } = report;
  const title = `${b.name} against ${a.name}`;
  const first = sentences[0]?.text ?? 'Nothing differs by more than its tolerance.';
  const [lead = '', ...rest] = first.split(': ');
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${escaped(title)}</title>
<style>${STYLE}</style>
</head>
<body>
<header>
<p class="names"><span class="mark a">A</span> ${escaped(fullName(a))} <span class="mark b">B</span> ${escaped(fullName(b))}</p>
<h1>${escaped(rest.length > 0 ? `${lead}.` : lead)}</h1>
<p class="where">${escaped(sentenceCase(rest.join(': ')))}</p>
<p class="caution">${escaped(CAUTIONS)}</p>
</header>
<main>
${section(`Bought and paid with ${b.name}, biggest first`, tradeList(sentences))}
${section('Findings', findings(report))}
${section('How far they go', ranges(report, sides, shop))}
${section('Least gaps of near pairs, parts rigid; searched, not proved', gaps(report, shop))}
${section('Built differently', parts(report, shop))}
${section('Measures that differ, at equal travel and steering', rows(report, shop))}
</main>
<footer><p>${escaped(CAUTIONS)}</p><p>Have structural parts and welds judged by qualified people. Local law on vehicle modification decides what may be driven.</p></footer>
</body>
</html>
`;
}

const section = (title: string, body: string): string =>
  body === '' ? '' : `<section><h2>${escaped(title)}</h2>${body}</section>`;

/** Sentences on a zero line: what costs to the left, what is gained to the right. */
function tradeList(sentences: readonly Sentence[]): string {
  const most = Math.max(1e-9, ...sentences.map(({ size }) => size));
  const items = sentences.map(({ text, buys, size }) => {
    const kind = buys === null ? 'other' : buys ? 'gain' : 'cost';
    const width = ((48 * size) / most).toFixed(1);
    const x = buys === false ? (50 - Number(width)).toFixed(1) : '50';
    const bar = `<svg viewBox="0 0 100 12" aria-hidden="true"><rect class="${kind}" x="${x}" y="3" width="${width}" height="6"/><line x1="50" x2="50" y1="0" y2="12"/></svg>`;
    const words = text.replace(/ \(a (gain|cost)\)/, '');
    return `<li><span class="kind">${kind}</span>${bar}<span>${escaped(words)}</span></li>`;
  });
  return items.length === 0 ? '' : `<ul class="trade">${items.join('\n')}</ul>`;
}

function findings({ findings: all, b }: Comparison): string {
  const list = (title: string, pairs: readonly FindingPair[], of: 'a' | 'b'): string => {
    const items = pairs.flatMap(pair => {
      const finding = pair[of] ?? pair.a ?? pair.b;
      if (!finding) return [];
      const must = finding.severity === 'mustFix' ? '<strong>Must fix.</strong> ' : '';
      return [`<li>${must}${escaped(finding.text)}</li>`];
    });
    return `<h3>${escaped(title)}: ${items.length}</h3>${items.length > 0 ? `<ul>${items.join('\n')}</ul>` : ''}`;
  };
  return [
    list(`Fixed with ${b.name}`, all.fixed, 'a'),
    list(`New with ${b.name}`, all.new, 'b'),
    list('In both', all.unchanged, 'b'),
  ].join('\n');
}

function ranges(report: Comparison, sides: readonly Side[], shop: Shop): string {
  return Object.entries(report.range)
    .map(([axle, { ways }]) => {
      const edges = sides.map(
        ({ walks }) => walks.find(walk => walk.axle.name === axle)?.range.edge,
      );
      const picture = rangePicture(edges[0] ?? [], edges[1] ?? [], {
        across: `${seat(shop, 'left')} wheel`,
        up: `${seat(shop, 'right')} wheel`,
        unit: shop.unit,
      });
      const head = [`${axle} axle`, 'A', 'B', 'B − A'];
      return `<div class="range">${picture}${htmlTable(
        head,
        ways.map(way => wayCells(way, shop)),
      )}</div>`;
    })
    .join('\n');
}

function gaps({ gaps: all }: Comparison, shop: Shop): string {
  const shown = all.filter(({ a, b, isNone }) => !(a && b && isNone));
  if (shown.length === 0) return '';
  return htmlTable(
    ['pair', 'A', 'B', 'B − A', 'known to', 'asked'],
    shown.map(({ pair, a, b, difference, tolerance }) => [
      pair.join(' / '),
      gapWords(a?.gap_in, shop),
      gapWords(b?.gap_in, shop),
      gapDifference(difference, shop),
      tolerance === null ? '' : `±${gapWords(tolerance, shop)}`,
      gapWords((b ?? a)?.required_in, shop),
    ]),
  );
}

function parts({ points, lengths, solids, fields }: Comparison, shop: Shop): string {
  const tables = [
    htmlTable(
      ['mount point, as drawn', 'A', 'B', 'moved by'],
      points.map(({ name, a, b, difference }) => [
        name,
        pointWords(a, shop),
        pointWords(b, shop),
        pointWords(difference, shop),
      ]),
    ),
    htmlTable(
      ['length at ride height', 'A', 'B', 'B − A'],
      lengths.map(({ name, a, b, difference }) => [
        name,
        valueOr(a, 'in', shop),
        valueOr(b, 'in', shop),
        valueOr(difference, 'in', shop),
      ]),
    ),
    htmlTable(
      ['solid', ''],
      solids.map(({ name, change }) => [name, change]),
    ),
    htmlTable(
      ['other field (in, rad, lbf)', 'A', 'B'],
      fields.map(({ part, field, a, b }) => [`${part}, ${field}`, fieldWords(a), fieldWords(b)]),
    ),
  ];
  return tables.join('\n');
}

function rows(report: Comparison, shop: Shop): string {
  return byPlace(report.rows.filter(differs))
    .map(({ at, axle, rows: own }) => {
      const owner = Object.keys(report.range).length > 1 ? `, ${axle} axle` : '';
      const body = own.map(row => [
        rowName(row, shop),
        valueOr(row.a, row.unit, shop),
        valueOr(row.b, row.unit, shop),
        differenceOf(row, shop),
        row.tolerance === null ? '' : `±${valueOr(row.tolerance, row.unit, shop)}`,
        row.toward === null ? '' : row.toward.toUpperCase(),
      ]);
      const head = ['', 'A', 'B', 'B − A', 'known to', 'nearer to wanted'];
      return `<h3>${escaped(placeWords(report, at, shop) + owner)}</h3>${htmlTable(head, body)}`;
    })
    .join('\n');
}
