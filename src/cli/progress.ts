/** A bar on stderr for whoever waits: only where a person sees it, and only past half a second. */
import type { Io } from './io.ts';

const PATIENCE_ms = 500;
const CELLS = 30;
const CLEAR = '\r\u001b[K';

export class Progress {
  readonly #io: Io;
  readonly #start: number;
  #isDrawn = false;

  constructor(io: Io) {
    this.#io = io;
    this.#start = io.now();
  }

  /** Shows a share of the work done, 0 to 1, and what is going on. */
  at(done: number, what: string): void {
    if (!this.#io.isErrTerminal || this.#io.now() - this.#start < PATIENCE_ms) return;
    const full = Math.round(Math.min(1, Math.max(0, done)) * CELLS);
    const bar = '█'.repeat(full) + '░'.repeat(CELLS - full);
    this.#io.err(`${CLEAR}${bar} ${Math.round(done * 100)} % ${what}`);
    this.#isDrawn = true;
  }

  /** Takes the bar away. */
  end(): void {
    if (this.#isDrawn) this.#io.err(CLEAR);
    this.#isDrawn = false;
  }
}
