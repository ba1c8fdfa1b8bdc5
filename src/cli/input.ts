/** Lines that somebody types, one at a time: from a terminal or from a pipe. */
import { createInterface, type Interface } from 'node:readline';

export class Input {
  readonly #from: NodeJS.ReadableStream;
  readonly #prompts: NodeJS.WritableStream;
  #reader: Interface | null = null;
  /** Lines that came before they were asked for. */
  readonly #waiting: string[] = [];
  #isEnded = false;
  #asking: ((line: string | null) => void) | null = null;

  /** @param prompts where questions are written, so that stdout holds the result alone */
  constructor(from: NodeJS.ReadableStream, prompts: NodeJS.WritableStream) {
    this.#from = from;
    this.#prompts = prompts;
  }

  /** The next line; null at the end of the input and when it is interrupted. Nothing is read before it is asked. */
  line(prompt: string): Promise<string | null> {
    this.#open();
    this.#prompts.write(prompt);
    const next = this.#waiting.shift();
    if (next !== undefined) return Promise.resolve(next);
    if (this.#isEnded) return Promise.resolve(null);
    return new Promise(resolve => {
      this.#asking = resolve;
    });
  }

  close(): void {
    this.#reader?.close();
  }

  #open(): void {
    if (this.#reader) return;
    this.#reader = createInterface({ input: this.#from, terminal: false });
    this.#reader.on('line', line => this.#give(line));
    const end = (): void => {
      this.#isEnded = true;
      this.#give(null);
    };
    this.#reader.on('close', end);
    process.once('SIGINT', end);
  }

  #give(line: string | null): void {
    const asking = this.#asking;
    this.#asking = null;
    if (asking) asking(line);
    else if (line !== null) this.#waiting.push(line);
  }
}
