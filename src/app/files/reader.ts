/**
 * The file reader: schema and tape entries are half of the page's code, so that they are loaded beside the page
 * and not before it.
 */
import type { movedEntries, withMoves } from '../../../geometry/build/moves.ts';
import type { Problem } from '../../../geometry/build/problem.ts';
import type { BuildFile } from '../../../geometry/build/schema/file.ts';
import type { Shifts } from '../../../geometry/build/shift.ts';
import type { fitted, takenOut } from '../../../geometry/build/takeOut.ts';
import type { withNewPart } from '../../../geometry/build/withNewPart.ts';
import type { Opened } from '../../../geometry/cycle/open.ts';

export interface Reader {
  /** Reads a file as the command line does; never throws. */
  read(bytes: Uint8Array | string, variant?: string | null): Opened;
  /** The base of a file that was read without a problem. */
  baseOf(text: string): BuildFile;
  /** What shifts entries of a file that was read without a problem, its variant applied. */
  shifts(file: BuildFile, variant: string | null): Shifts;
  movedEntries: typeof movedEntries;
  withMoves: typeof withMoves;
  withNewPart: typeof withNewPart;
  takenOut: typeof takenOut;
  fitted: typeof fitted;
  /** A length as it was typed, in; or what is wrong with it. */
  lengthOf(typed: string, unit: 'in' | 'mm'): number | { problem: string };
}

let loading: Promise<Reader> | null = null;

/** The reader, loaded once; a load that failed is tried again at the next call. */
export function theReader(): Promise<Reader> {
  loading ??= import('./read.ts').then(
    reader => {
      loaded = reader;
      return reader;
    },
    (error: unknown) => {
      loading = null;
      throw error;
    },
  );
  return loading;
}

let loaded: Reader | null = null;

/** The reader where it is there already. */
export const readerAtHand = (): Reader | null => loaded;

/** Text of a file as an editor shows it. */
export const textOf = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);

export type { Opened, Problem };
