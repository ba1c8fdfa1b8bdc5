/** What the command line sees of the world around it; tests put another one in its place. */
export interface Io {
  out(text: string): void;
  err(text: string): void;
  /** Folder that file names are relative to. */
  folder: string;
  /** How results may be drawn on stdout. */
  screen: Screen;
  /** Whether a person sees stderr as it is written: progress is drawn there. */
  isErrTerminal: boolean;
  /** The next line that somebody types, after a prompt on stderr; null at its end, or when it is interrupted. */
  line(prompt: string): Promise<string | null>;
  /** Milliseconds from any start. */
  now(): number;
}

export interface Screen {
  /** Colors that it shows: none where it is no terminal, or where NO_COLOR asks for none. */
  colors: 0 | 256 | 16777216;
  isTerminal: boolean;
  /** Characters in a line, null where it is no terminal. */
  columns: number | null;
}

/** The colors that a stdout can show, from what its terminal says of itself (no-color.org for NO_COLOR). */
export function screenOf(
  out: { isTTY?: boolean; columns?: number },
  env: Readonly<Record<string, string | undefined>>,
): Screen {
  const isTerminal = out.isTTY === true;
  const isPlain = !isTerminal || (env.NO_COLOR ?? '') !== '' || env.TERM === 'dumb';
  const isFull = /truecolor|24bit/i.test(env.COLORTERM ?? '');
  const colors = isPlain ? 0 : isFull ? 16777216 : 256;
  return { colors, isTerminal, columns: isTerminal ? (out.columns ?? 80) : null };
}
