/**
 * Words of a text file, straight from its bytes: a scan of 250 MB need not become a string first, nor each of its
 * nine million numbers.
 *
 * Words are what stands between blanks; a line ends at CR, LF or both, and goes on after a backslash. Letters
 * beyond ASCII may stand in names and comments and are not decoded.
 */
export class Words {
  readonly bytes: Uint8Array;
  /** Line of the last word, from 1 on. */
  line = 1;
  #at = 0;

  constructor(bytes: Uint8Array) {
    this.bytes = bytes;
    // byte order mark
    if (bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf) this.#at = 3;
  }

  /** The next word on this line, or null where the line has ended. */
  next(): string | null {
    this.#skipBlanks();
    const { bytes } = this;
    const from = this.#at;
    while (!isBlank(bytes[this.#at])) this.#at++;
    if (this.#at === from) return null;
    // a word longer than any number or keyword is cut: only its beginning is looked at
    return String.fromCharCode(...bytes.subarray(from, Math.min(this.#at, from + 80)));
  }

  /** Goes to the next line; false at the end of the file. */
  nextLine(): boolean {
    const { bytes } = this;
    while (!isEnd(bytes[this.#at])) this.#at++;
    if (this.#at >= bytes.length) return false;
    this.#at += bytes[this.#at] === 0x0d && bytes[this.#at + 1] === 0x0a ? 2 : 1;
    this.line++;
    return this.#at < bytes.length;
  }

  /** Goes to the next word, on whatever line; false at the end of the file. */
  toNext(): boolean {
    while (true) {
      this.#skipBlanks();
      if (!isEnd(this.bytes[this.#at])) return true;
      if (!this.nextLine()) return false;
    }
  }

  /** Takes the next word on this line if it is `word` (lower case letters) in whatever case. */
  take(word: string): boolean {
    this.#skipBlanks();
    const { bytes } = this;
    const end = this.#at + word.length;
    for (let i = 0; i < word.length; i++) {
      const byte = bytes[this.#at + i] ?? 0;
      const isUpper = byte >= 0x41 && byte <= 0x5a;
      if ((isUpper ? byte + 32 : byte) !== word.charCodeAt(i)) return false;
    }
    if (!isBlank(bytes[end])) return false;
    this.#at = end;
    return true;
  }

  /**
   * Takes the next word on this line as a decimal number. What is not finite is left as the next word, and
   * NaN or an infinity comes back.
   *
   * Up to 15 digits and a power of ten up to 22 are both exact in double precision, so that their product or
   * quotient is rounded once, and right (Clinger 1990, from memory); else the engine's own reader does it.
   */
  takeNumber(): number {
    this.#skipBlanks();
    const { bytes } = this;
    const from = this.#at;
    let at = from;
    const isNegative = bytes[at] === MINUS;
    if (isNegative || bytes[at] === PLUS) at++;
    let digits = 0;
    let whole = 0;
    let exponent = 0;
    let isFraction = false;
    for (; ; at++) {
      const byte = bytes[at] ?? 0;
      if (byte >= 0x30 && byte <= 0x39) {
        whole = 10 * whole + (byte - 0x30);
        if (whole > 0) digits++;
        if (isFraction) exponent--;
      } else if (byte === POINT && !isFraction) isFraction = true;
      else break;
    }
    if (isBlank(bytes[at]) && digits <= 15 && exponent >= -22 && this.#isPlain(from, at)) {
      this.#at = at;
      const value = whole / (POWERS[-exponent] as number);
      return isNegative ? 0 - value : value;
    }
    const value = numberOf(this.next());
    if (!Number.isFinite(value)) this.#at = from;
    return value;
  }

  /** Whether there is a digit between two places. */
  #isPlain(from: number, to: number): boolean {
    for (let i = from; i < to; i++) {
      const byte = this.bytes[i] as number;
      if (byte >= 0x30 && byte <= 0x39) return true;
    }
    return false;
  }

  #skipBlanks(): void {
    const { bytes } = this;
    while (true) {
      const byte = bytes[this.#at];
      if (byte === 0x20 || byte === 0x09) this.#at++;
      else if (byte === BACKSLASH && isEnd(bytes[this.#at + 1])) {
        this.#at++;
        this.nextLine();
      } else return;
    }
  }
}

const PLUS = 0x2b;
const MINUS = 0x2d;
const POINT = 0x2e;
const BACKSLASH = 0x5c;
/** Powers of ten that are exact. */
const POWERS = Array.from({ length: 23 }, (_, i) => Number(`1e${i}`));

function isEnd(byte: number | undefined): boolean {
  return byte === undefined || byte === 0x0a || byte === 0x0d;
}

function isBlank(byte: number | undefined): boolean {
  return byte === undefined || byte === 0x20 || byte === 0x09 || byte === 0x0a || byte === 0x0d;
}

/** A decimal number as text files write it, or NaN. (`Number` also takes '', '0x1f' and 'Infinity'.) */
function numberOf(word: string | null): number {
  return word !== null && /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/.test(word)
    ? Number(word)
    : Number.NaN;
}

/** Whether bytes look like text: no zero byte in the first thousand. */
export function isText(bytes: Uint8Array): boolean {
  return !bytes.subarray(0, 1000).includes(0);
}
