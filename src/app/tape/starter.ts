/** What starts a build: large, since it reads files, and fetched when it is wanted. */
import type * as starting from './starting.ts';

export type Starter = typeof starting;

let loading: Promise<Starter> | null = null;

/** Loaded once; a load that failed is tried again at the next call. */
export function theStarter(): Promise<Starter> {
  loading ??= import('./starting.ts').catch((error: unknown) => {
    loading = null;
    throw error;
  });
  return loading;
}
