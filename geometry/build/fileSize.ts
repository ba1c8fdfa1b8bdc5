/** How large a build file may be; in a file of its own for those who know the size before they read it. */
import type { Problem } from './problem.ts';

/** Largest build file, in bytes: 8 MiB. Refused before anything of it is read. */
export const LARGEST_FILE_bytes = 8 * 1024 * 1024;

/** The problem of a file of that many bytes. */
export function tooLarge(size_bytes: number): Problem {
  return {
    path: '',
    found: `${(size_bytes / 1024 / 1024).toFixed(1)} MiB`,
    wanted: 'at most 8 MiB (meshes stand in files of their own)',
    message: '',
  };
}
