/** The text of a build file: bytes to a plain value, with every problem that stands in the text itself. */
import { LARGEST_FILE_bytes, tooLarge } from './fileSize.ts';
import { type Lines, readJson } from './json.ts';
import { own, type Problem, shown } from './problem.ts';

/** Known to Node, browsers and workers alike (WHATWG Encoding), though no part of the language. */
declare const TextDecoder: new (
  label: string,
  options: { fatal?: boolean; ignoreBOM?: boolean },
) => { decode(bytes: Uint8Array): string };
declare const TextEncoder: new () => { encode(text: string): Uint8Array };

export type TextResult =
  | {
      ok: true;
      value: Record<string, unknown>;
      /** Line, from 1, of the field at this path or else of the innermost one around it that is there. */
      lineOf(path: string): number | null;
    }
  | { ok: false; problems: Problem[] };

const A_BUILD = 'a build file: { "axlewalk": 1, "name": …, … }';

/**
 * Reads the text of a build file strictly: at most 8 MiB of UTF-8 (with or without byte order mark),
 * JSON, an object at the top, no key twice, at most 64 levels deep. Never throws.
 *
 * @example readText('{ "axlewalk": 1 }') // { ok: true, value: { axlewalk: 1 }, lineOf }
 */
export function readText(bytes: Uint8Array | string): TextResult {
  const size = sizeOf(bytes);
  if (size > LARGEST_FILE_bytes) return { ok: false, problems: [tooLarge(size)] };
  const decoded = typeof bytes === 'string' ? { text: bytes } : decode(bytes);
  if (!('text' in decoded)) return { ok: false, problems: [decoded] };
  const text = decoded.text.replace(/^\uFEFF/, '');
  if (/^\s*$/.test(text)) return refused('an empty file', A_BUILD);
  if (text.includes('\0')) return refused('zero bytes, as in a binary file', A_BUILD);

  const { value, problems, firstLine, lines } = readJson(text);
  if (problems.length > 0) return { ok: false, problems };
  if (!isObject(value)) return refused(shown(value), A_BUILD);
  return { ok: true, value, lineOf: path => lineOf(path, value, firstLine, lines) };
}

function refused(found: string, wanted: string): TextResult {
  return { ok: false, problems: [{ path: '', found, wanted, message: '' }] };
}

function sizeOf(bytes: Uint8Array | string): number {
  if (typeof bytes !== 'string') return bytes.length;
  // A UTF-16 unit makes one to three bytes: only in between they have to be counted.
  const isSure = bytes.length > LARGEST_FILE_bytes || bytes.length * 3 <= LARGEST_FILE_bytes;
  return isSure ? bytes.length : new TextEncoder().encode(bytes).length;
}

function decode(bytes: Uint8Array): { text: string } | Problem {
  const wanted = 'text in UTF-8';
  const [first, second] = bytes;
  if ((first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff)) {
    return { path: '', found: 'text in UTF-16', wanted, message: '' };
  }
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch {
    const before = new TextDecoder('utf-8', {}).decode(bytes).split('\uFFFD', 1)[0] ?? '';
    const found = `a byte that is no UTF-8 on line ${before.split(/\r\n|\n|\r/).length}`;
    return { path: '', found, wanted, message: '' };
  }
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

const STEP = /\.?([A-Za-z_$][\w$]*)|\[(\d+)\]|\[("(?:[^"\\]|\\.)*")\]/y;

function lineOf(
  path: string,
  root: unknown,
  firstLine: number,
  lines: ReadonlyMap<object, Lines>,
): number | null {
  let line = firstLine;
  let at = root;
  STEP.lastIndex = 0;
  while (STEP.lastIndex < path.length) {
    const step = STEP.exec(path);
    if (step === null) return null;
    const key = keyOf(step, at);
    const inside = typeof at === 'object' && at !== null ? lines.get(at) : undefined;
    const found = inside instanceof Map ? inside.get(key) : lineInList(inside, key);
    if (found === undefined) return line;
    line = found;
    at = Array.isArray(at) && typeof key === 'number' ? at[key] : own(at, String(key));
  }
  return line;
}

function lineInList(lines: Lines | undefined, key: PropertyKey): number | undefined {
  return Array.isArray(lines) && typeof key === 'number' ? lines[key] : undefined;
}

function keyOf([, word, index, quoted]: RegExpExecArray, at: unknown): PropertyKey {
  if (index !== undefined) return Number(index);
  const key = quoted === undefined ? (word ?? '') : String(JSON.parse(quoted));
  return Array.isArray(at) ? at.findIndex(element => own(element, 'name') === key) : key;
}
