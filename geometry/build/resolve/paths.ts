/** Paths of fields in a build file. */

/** The path of the object or list that a field is in; names in paths hold neither dot nor bracket. */
export const parentOf = (path: string): string =>
  path.slice(0, Math.max(0, path.lastIndexOf('.'), path.lastIndexOf('[')));
