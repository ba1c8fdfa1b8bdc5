/**
 * Words of a text file, straight from its bytes: a scan of 250 MB need not become a string first.
 *
 * Words are what stands between blanks; a line ends at CR, LF or both. Letters beyond ASCII may stand in
 * names and comments and are not decoded.
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

  /** The next word on this line, or null where the line has ended. A line may go on after a backslash. */
  next(): string | null {
    const { bytes } = this;
    while (true) {
      const byte = bytes[this.#at];
      if (byte === 0x20 || byte === 0x09) this.#at++;
      else if (byte === 0x5c && isEnd(bytes[this.#at + 1])) {
        this.#at++;
        this.nextLine();
      } else break;
    }
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

  /** The next word, on whatever line; null at the end of the file. */
  nextAnywhere(): string | null {
    while (true) {
      const word = this.next();
      if (word !== null) return word;
      if (!this.nextLine()) return null;
    }
  }
}

function isEnd(byte: number | undefined): boolean {
  return byte === undefined || byte === 0x0a || byte === 0x0d;
}

function isBlank(byte: number | undefined): boolean {
  return byte === undefined || byte === 0x20 || byte === 0x09 || byte === 0x0a || byte === 0x0d;
}

/** A decimal number as text files write it, or NaN. (`Number` also takes '', '0x1f' and 'Infinity'.) */
export function numberOf(word: string | null): number {
  return word !== null && /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/.test(word)
    ? Number(word)
    : Number.NaN;
}

/** Whether bytes look like text: no zero byte in the first thousand. */
export function isText(bytes: Uint8Array): boolean {
  return !bytes.subarray(0, 1000).includes(0);
}
