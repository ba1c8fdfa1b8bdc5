/** Bare triangles, as the readers of mesh files give them. */
export interface Triangles {
  /** Three numbers a vertex, in the file's unit and axes. */
  readonly positions: Float64Array;
  /** Three vertices a triangle, counted from 0. */
  readonly triangles: Uint32Array;
}

/** What a reader gives back: triangles with sentences on what was left out, or what is wrong in one line. */
export type ReadTriangles =
  | { readonly mesh: Triangles; readonly notes: readonly string[] }
  | { readonly problem: string };

/** Most triangles of a mesh; more are refused before anything is allocated for them. */
export const MOST_TRIANGLES = 1_000_000;

/** The problem of a mesh with too many triangles. */
export function tooMany(count: number): string {
  return `the mesh has ${count} triangles; at most ${MOST_TRIANGLES} are read: thin it out`;
}

/** Inches in one of a file's units. */
export const INCHES_OF_UNIT = {
  in: 1,
  ft: 12,
  mm: 1 / 25.4,
  cm: 1 / 2.54,
  m: 1 / 0.0254,
} as const;
