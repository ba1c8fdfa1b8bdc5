/** Reads the JSON of a GLB file piece by piece, each with a check that says what stands there. */

/** Thrown by the files that read GLB alone, and caught at their door, readGlb. */
export class Problem extends Error {}

export type Json = Record<string, unknown>;

export function objectOf(value: unknown, where: string): Json {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    throw new Problem(`${where} is ${said(value)}; it must be an object`);
  }
  return value as Json;
}

export function listOf(json: Json, key: string, where: string): readonly unknown[] {
  const value = json[key];
  if (value === undefined) return [];
  if (!Array.isArray(value))
    throw new Problem(`${where}${key} is ${said(value)}; it must be a list`);
  return value;
}

/** A whole number from 0 up; `otherwise` where it is missing. */
export function wholeOf(json: Json, key: string, where: string, otherwise?: number): number {
  const value = json[key] ?? otherwise;
  if (typeof value !== 'number' || !Number.isSafeInteger(value) || value < 0) {
    throw new Problem(`${where}.${key} is ${said(value)}; it must be a whole number from 0 up`);
  }
  return value;
}

/** Item `i` of a list of the file. */
export function itemOf(json: Json, list: string, i: number, named: string): Json {
  const items = listOf(json, list, '');
  if (i >= items.length) {
    throw new Problem(`${named} names ${list}[${i}]; there are ${items.length}`);
  }
  return objectOf(items[i], `${list}[${i}]`);
}

export function said(value: unknown): string {
  if (value === undefined) return 'missing';
  return (JSON.stringify(value) ?? String(value)).slice(0, 40);
}
