/** Text laid out for a terminal of 100 columns: headings, wrapped lines, tables. */
import type { Screen } from './io.ts';

/** Widest line. */
export const WIDTH = 98;

/** How words are made to stand out; as they are where the screen shows no colors. */
export interface Style {
  heading(text: string): string;
  wrong(text: string): string;
  aside(text: string): string;
}

export function styleOf({ colors }: Pick<Screen, 'colors'>): Style {
  const sgr = (on: number, off: number) => (text: string) =>
    colors === 0 ? text : `\u001b[${on}m${text}\u001b[${off}m`;
  return { heading: sgr(1, 22), wrong: sgr(31, 39), aside: sgr(2, 22) };
}

/** Words on lines of at most `WIDTH`, the lines after the first further in. A long word stays whole. */
export function wrap(text: string, indent = '', further = indent): string[] {
  const lines: string[] = [];
  let line = indent;
  let isEmpty = true;
  for (const word of text.split(' ')) {
    if (!isEmpty && line.length + 1 + word.length > WIDTH) {
      lines.push(line);
      line = further;
      isEmpty = true;
    }
    line += isEmpty ? word : ` ${word}`;
    isEmpty = false;
  }
  return [...lines, line];
}

/** A name in a column of its own and wrapped text beside it. */
export function labeled(rows: readonly (readonly [label: string, text: string])[]): string[] {
  const width = Math.max(0, ...rows.map(([label]) => label.length));
  const further = ' '.repeat(width + 5);
  return rows.flatMap(([label, text]) => wrap(text, `  ${label.padEnd(width)}   `, further));
}

/**
 * Rows in columns, the first flush left and the others flush right, two spaces between. A first column that
 * would make lines too wide is cut with an ellipsis. A row of one cell is a heading and takes the whole line.
 */
export function table(rows: readonly (readonly string[])[], indent = '  '): string[] {
  const count = Math.max(0, ...rows.map(row => row.length));
  const widths = Array.from({ length: count }, (_, i) =>
    Math.max(0, ...rows.filter(row => row.length > 1).map(row => (row[i] ?? '').length)),
  );
  const others = widths.slice(1).reduce((sum, width) => sum + width + 2, indent.length);
  widths[0] = Math.min(widths[0] ?? 0, Math.max(8, WIDTH - others));
  return rows.map(row => {
    if (row.length === 1) return `${indent}${row[0]}`;
    const cells = widths.map((width, i) => {
      const cell = row[i] ?? '';
      return i === 0 ? fitted(cell, width).padEnd(width) : cell.padStart(width);
    });
    return `${indent}${cells.join('  ')}`.trimEnd();
  });
}

/** Tables side by side as far as they fit, read down and then across. */
export function inColumns(lines: readonly string[], gap = 4): string[] {
  const width = Math.max(1, ...lines.map(line => line.length));
  const columns = Math.max(1, Math.min(3, Math.floor((WIDTH + gap) / (width + gap))));
  const rows = Math.ceil(lines.length / columns);
  return Array.from({ length: rows }, (_, row) =>
    Array.from({ length: columns }, (_, column) =>
      (lines[column * rows + row] ?? '').padEnd(width + gap),
    )
      .join('')
      .trimEnd(),
  );
}

function fitted(text: string, width: number): string {
  return text.length > width ? `${text.slice(0, width - 1)}…` : text;
}
