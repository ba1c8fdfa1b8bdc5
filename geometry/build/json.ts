/**
 * A reader of JSON (RFC 8259) that says what a plain parser keeps to itself: where it broke off and what
 * was expected there, keys that stand twice, and on which line every value is.
 */
import { fieldPath, type Problem, shown } from './problem.ts';

/** Lists and objects inside each other, at most; a build needs about a dozen. */
export const DEEPEST = 64;

/** Repeated and forbidden keys that are told; a file with more of them is given up. */
const MOST_KEY_PROBLEMS = 100;

/** Lines, from 1, of the elements of a list or of the members of an object. */
export type Lines = readonly number[] | ReadonlyMap<string, number>;

export interface JsonResult {
  value: unknown;
  problems: Problem[];
  /** Line on which the whole value begins. */
  firstLine: number;
  /** For each list and object that has any, the lines of its elements or members. */
  lines: Map<object, Lines>;
}

/**
 * Reads a JSON text. Never throws; the problems are empty if and only if the text is JSON without
 * repeated keys. Numbers too large for a double are problems, too.
 */
export function readJson(text: string): JsonResult {
  const reader = new JsonReader(text);
  try {
    reader.readAll();
  } catch (error) {
    if (!(error instanceof BrokenOff)) throw error;
    reader.problems.push(error.problem);
  }
  const { root, problems, firstLine, lines } = reader;
  return { value: root, problems, firstLine, lines };
}

class BrokenOff extends Error {
  readonly problem: Problem;

  constructor(problem: Problem) {
    super(problem.wanted);
    this.problem = problem;
  }
}

const SPACES = /[ \t]*/y;
const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?(?![\w.])/y;
const PLAIN = /[^"\\\p{Cc}]*/uy;
const WORD = /[\p{L}\p{N}_.+'-]+|[\s\S]/uy;
const HEX = /[0-9a-fA-F]{4}/y;
const CONSTANTS: ReadonlyMap<string, boolean | null> = new Map<string, boolean | null>([
  ['true', true],
  ['false', false],
  ['null', null],
]);
const ESCAPES: Readonly<Record<string, string>> = {
  '"': '"',
  '\\': '\\',
  '/': '/',
  b: '\b',
  f: '\f',
  n: '\n',
  r: '\r',
  t: '\t',
};
const A_VALUE = 'a value: text in double quotes, a number, [ … ], { … }, true, false or null';

class JsonReader {
  root: unknown;
  firstLine = 1;
  readonly problems: Problem[] = [];
  readonly lines = new Map<object, Lines>();
  private readonly text: string;
  private readonly steps: PropertyKey[] = [];
  private at = 0;
  private line = 1;
  private lineStart = 0;

  constructor(text: string) {
    this.text = text;
  }

  readAll(): void {
    this.skipSpace();
    this.firstLine = this.line;
    this.value(A_VALUE, value => {
      this.root = value;
    });
    this.skipSpace();
    if (this.at < this.text.length) throw this.broken('the end of the file');
  }

  /** Hands a list or object over before it is filled, so that paths into it can be told meanwhile. */
  private value(wanted: string, keep: (value: unknown) => void): void {
    const first = this.text[this.at];
    if (first === '{' || first === '[') {
      if (this.steps.length >= DEEPEST) {
        throw this.broken(`at most ${DEEPEST} lists and objects inside each other`);
      }
      if (first === '{') this.object(keep);
      else this.list(keep);
    } else if (first === '"') {
      keep(this.string());
    } else {
      keep(this.word(wanted));
    }
  }

  private object(keep: (value: unknown) => void): void {
    const object: Record<string, unknown> = {};
    const lines = new Map<string, number>();
    keep(object);
    this.at += 1;
    this.skipSpace();
    if (this.closes('}')) return;
    this.lines.set(object, lines);
    do {
      this.skipSpace();
      if (this.text[this.at] !== '"') throw this.broken(this.wantedKey());
      const line = this.line;
      const key = this.string();
      this.steps.push(key);
      this.checkKey(key, line, lines.get(key));
      this.skipSpace();
      this.expect(':', 'a colon after the key');
      this.skipSpace();
      this.value(A_VALUE, value => {
        if (key !== '__proto__') object[key] = value;
      });
      if (!lines.has(key)) lines.set(key, line);
      this.steps.pop();
      this.skipSpace();
    } while (this.closes(','));
    this.expect('}', this.wantedEnd('}'));
  }

  private list(keep: (value: unknown) => void): void {
    const list: unknown[] = [];
    const lines: number[] = [];
    keep(list);
    this.at += 1;
    this.skipSpace();
    if (this.closes(']')) return;
    this.lines.set(list, lines);
    do {
      this.skipSpace();
      const index = lines.length;
      this.steps.push(index);
      lines.push(this.line);
      const wanted = index > 0 && this.text[this.at] === ']' ? 'no comma before ]' : A_VALUE;
      this.value(wanted, value => {
        list[index] = value;
      });
      this.steps.pop();
      this.skipSpace();
    } while (this.closes(','));
    this.expect(']', this.wantedEnd(']'));
  }

  private checkKey(key: string, line: number, firstLine: number | undefined): void {
    if (firstLine === undefined && key !== '__proto__') return;
    const path = fieldPath(this.root, this.steps);
    const again = firstLine === undefined ? '' : ` again, first on line ${firstLine}`;
    this.problems.push({
      path,
      found: `${shown(key)} on line ${line}${again}`,
      wanted: again ? `the key ${shown(key)} once` : 'a key of the build file',
      message: '',
    });
    if (this.problems.length >= MOST_KEY_PROBLEMS) throw this.broken('no more repeated keys');
  }

  private string(): string {
    const start = this.at;
    this.at += 1;
    let value = '';
    for (;;) {
      value += this.take(PLAIN);
      const character = this.text[this.at];
      if (character === '"') {
        this.at += 1;
        return value;
      }
      if (character !== undefined && /[\x7f-\x9f]/.test(character)) {
        value += character;
        this.at += 1;
        continue;
      }
      if (character !== '\\') {
        const isBreak = character === undefined || character === '\n' || character === '\r';
        if (!isBreak) throw this.broken('no control characters in text (a tab is written \\t)');
        const begun = shown(this.text.slice(start + 1, this.at));
        throw this.broken(`a double quote that ends the text ${begun}`, 'the end of the line');
      }
      value += this.escape();
    }
  }

  private escape(): string {
    const letter = this.text[this.at + 1] ?? '';
    const escaped = ESCAPES[letter];
    if (escaped !== undefined && Object.hasOwn(ESCAPES, letter)) {
      this.at += 2;
      return escaped;
    }
    HEX.lastIndex = this.at + 2;
    const digits = letter === 'u' ? HEX.exec(this.text)?.[0] : undefined;
    if (digits === undefined) {
      const found = shown(this.text.slice(this.at, this.at + 2));
      throw this.broken('one of \\" \\\\ \\/ \\b \\f \\n \\r \\t \\u0000', found);
    }
    this.at += 6;
    return String.fromCharCode(Number.parseInt(digits, 16));
  }

  /** A number, true, false or null. */
  private word(wanted: string): unknown {
    const back = this.at;
    const number = this.take(NUMBER);
    if (number !== '') {
      const value = Number(number);
      this.at = Number.isFinite(value) ? this.at : back;
      if (!Number.isFinite(value)) throw this.broken('a number below 1.8e308');
      return value;
    }
    const word = this.take(WORD);
    const constant = CONSTANTS.get(word);
    if (constant !== undefined) return constant;
    this.at = back;
    if (/^-?(nan|inf|undefined|none$)/i.test(word)) throw this.broken('a number, or null for none');
    if (/^[-+.\d]/.test(word)) {
      throw this.broken('a number such as 0.5 or -5, or a tape entry in double quotes: "23 5/8"');
    }
    if (word.startsWith("'") || /^["“”]/.test(word))
      throw this.broken('text in double quotes: "…"');
    if (/^[\p{L}_]/u.test(word)) throw this.broken(`double quotes around text: ${shown(word)}`);
    if (word === '/') throw this.broken('no comments (remarks have their place in "notes")');
    throw this.broken(wanted);
  }

  private wantedKey(): string {
    const next = this.text[this.at];
    const isLast = /,\s*$/.test(this.text.slice(Math.max(0, this.at - 200), this.at));
    if (next === '}' && isLast) return 'no comma before }';
    if (next === '/') return 'no comments (remarks have their place in "notes")';
    return 'a key in double quotes';
  }

  private wantedEnd(end: ']' | '}'): string {
    const isNumber = /\d\s*$/.test(this.text.slice(Math.max(0, this.at - 200), this.at));
    const isEntry = isNumber && /[\w'/-]/.test(this.text[this.at] ?? '');
    return `a comma or ${end}${isEntry ? ', or a tape entry in double quotes: "23 5/8"' : ''}`;
  }

  private closes(character: string): boolean {
    const isThere = this.text[this.at] === character;
    if (isThere) this.at += 1;
    return isThere;
  }

  private expect(character: string, wanted: string): void {
    if (!this.closes(character)) throw this.broken(wanted);
  }

  private skipSpace(): void {
    for (;;) {
      this.take(SPACES);
      const character = this.text[this.at];
      if (character !== '\n' && character !== '\r') return;
      this.at += character === '\r' && this.text[this.at + 1] === '\n' ? 2 : 1;
      this.line += 1;
      this.lineStart = this.at;
    }
  }

  private take(pattern: RegExp): string {
    pattern.lastIndex = this.at;
    const found = pattern.exec(this.text)?.[0] ?? '';
    this.at += found.length;
    return found;
  }

  private broken(wanted: string, found?: string): BrokenOff {
    WORD.lastIndex = this.at;
    const next = WORD.exec(this.text)?.[0];
    const what = found ?? (next === undefined ? 'the end of the file' : shown(next));
    const place = `line ${this.line}, column ${this.at - this.lineStart + 1}`;
    const path = fieldPath(this.root, this.steps);
    return new BrokenOff({ path, found: `${what} at ${place}`, wanted, message: '' });
  }
}
