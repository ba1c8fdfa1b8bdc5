/**
 * A build file's text: what fits on a line stands on one, so that a comparison of two versions of the file shows the
 * fields that changed and nothing else. Keys stay in their order, notes stay as they are.
 */

/** Columns of a line; names of parts, points and entries mostly fit. */
const COLUMNS = 100;

/**
 * Text of a file that was parsed; the reader reads the same back, and writing that again gives the same bytes.
 *
 * @param file plain values as `JSON.parse` makes them; fields that are undefined are left out
 */
export const writeBuild = (file: object): string => `${written(file, '', 0)}\n`;

/**
 * @param indent of the line that the value begins on
 * @param taken columns of that line that are taken, with a comma that may follow
 */
function written(value: unknown, indent: string, taken: number): string {
  const flat = onOneLine(value);
  if (indent.length + taken + flat.length <= COLUMNS || typeof value !== 'object' || !value) {
    return flat;
  }
  const inner = `${indent}  `;
  const isList = Array.isArray(value);
  const lines = isList
    ? value.map(item => inner + written(item, inner, 1))
    : entriesOf(value).map(([key, item]) => {
        const name = `${JSON.stringify(key)}: `;
        return inner + name + written(item, inner, name.length + 1);
      });
  if (lines.length === 0) return flat;
  const [open, close] = isList ? '[]' : '{}';
  return `${open}\n${lines.join(',\n')}\n${indent}${close}`;
}

function onOneLine(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(onOneLine).join(', ')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value ?? null);
  const fields = entriesOf(value).map(
    ([key, item]) => `${JSON.stringify(key)}: ${onOneLine(item)}`,
  );
  return fields.length > 0 ? `{ ${fields.join(', ')} }` : '{}';
}

const entriesOf = (value: object): [string, unknown][] =>
  Object.entries(value).filter(([, item]) => item !== undefined);
