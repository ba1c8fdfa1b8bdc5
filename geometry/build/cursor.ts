/** A place in a text, moved on by what patterns find there. */
export class Cursor {
  at = 0;
  readonly text: string;

  constructor(text: string) {
    this.text = text;
  }

  get isAtEnd(): boolean {
    return this.at >= this.text.length;
  }

  /** Takes what the pattern (a sticky one) finds here, or null. */
  take(pattern: RegExp): RegExpExecArray | null {
    pattern.lastIndex = this.at;
    const match = pattern.exec(this.text);
    if (match) this.at = pattern.lastIndex;
    return match;
  }

  /** What the pattern finds behind the spaces ahead, without taking it. */
  ahead(pattern: RegExp): string | null {
    const back = this.at;
    this.take(/\s*/y);
    const match = this.take(pattern);
    this.at = back;
    return match?.[0] ?? null;
  }
}
