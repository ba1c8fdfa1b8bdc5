/** What a verb comes to. Nothing is printed before all is known, so that exit 2 leaves stdout empty. */
export interface Outcome {
  /** 0 done; 1 done, with something that must be fixed or can't be reached; 2 input refused. */
  code: 0 | 1 | 2;
  /** For stdout, line ends in it. */
  out: string;
  /** Lines for stderr. */
  err: readonly string[];
}

export const refused = (lines: readonly string[]): Outcome => ({ code: 2, out: '', err: lines });
