/** Reading a build file from disk: bytes, or one line on why there are none. */
import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import { resolve } from 'node:path';
import { LARGEST_FILE_bytes } from '../../geometry/build/fileSize.ts';
import { problemLine, shown } from '../../geometry/build/problem.ts';

const A_BUILD = 'a build file, NAME.axlewalk.json';

/**
 * The bytes of a file, no more than one beyond what a build may have: a pipe or a device has no size to look
 * at first.
 *
 * @param path as typed, relative to `folder`
 */
export function readBytes(path: string, folder: string): { bytes: Uint8Array } | { line: string } {
  let file: number | null = null;
  try {
    file = openSync(resolve(folder, path), 'r');
    const status = fstatSync(file);
    if (status.isDirectory()) return refuse(path, 'a folder');
    if (status.size > LARGEST_FILE_bytes) return tooLarge(path, status.size);
    const bytes = readUpTo(file, LARGEST_FILE_bytes + 1);
    return bytes.length > LARGEST_FILE_bytes ? tooLarge(path, null) : { bytes };
  } catch (error) {
    return refuse(path, found(error));
  } finally {
    if (file !== null) closeSync(file);
  }
}

function readUpTo(file: number, most: number): Uint8Array {
  const chunks: Uint8Array[] = [];
  let total = 0;
  while (total < most) {
    const chunk = new Uint8Array(Math.min(65536, most - total));
    const count = readSync(file, chunk);
    if (count === 0) break;
    chunks.push(chunk.subarray(0, count));
    total += count;
  }
  return Buffer.concat(chunks);
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'no file of that name',
  ENOTDIR: 'no file of that name',
  EISDIR: 'a folder',
  EACCES: 'a file that may not be read',
  EPERM: 'a file that may not be read',
  ENAMETOOLONG: 'a name that is too long',
  ELOOP: 'a link that leads back to itself',
};

function found(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  return REASONS[code] ?? `a file that can't be read (${code || 'no reason given'})`;
}

function tooLarge(path: string, size: number | null): { line: string } {
  const stands = size === null ? 'more than that' : `${(size / 1024 / 1024).toFixed(1)} MiB`;
  return refuse(path, stands, 'at most 8 MiB (meshes stand in files of their own)');
}

function refuse(path: string, stands: string, wanted = A_BUILD): { line: string } {
  return { line: problemLine({ path: shown(path), found: stands, message: '', wanted }) };
}
