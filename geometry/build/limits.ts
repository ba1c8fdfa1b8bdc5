/** How large a build may be: told before the file is looked at closely, so that no size makes it slow. */
import { fieldPath, type Problem } from './problem.ts';

/** Longest list anywhere in a file, and most values in it altogether. */
export const LONGEST_LIST = 2000;
export const MOST_VALUES = 100_000;

/** Lists that are too long, or one problem for a file that is too large; empty for any sensible build. */
export function tooMuch(file: Record<string, unknown>): Problem[] {
  const problems: Problem[] = [];
  let values = 0;
  const visit = (value: unknown, steps: PropertyKey[]): void => {
    values += 1;
    if (values > MOST_VALUES || typeof value !== 'object' || value === null) return;
    if (Array.isArray(value) && value.length > LONGEST_LIST) {
      problems.push({
        path: fieldPath(file, steps),
        found: `a list of ${value.length.toLocaleString('en-US')} items`,
        message: '',
        wanted: `at most ${LONGEST_LIST.toLocaleString('en-US')} items`,
      });
      return;
    }
    for (const [key, inner] of Object.entries(value)) {
      visit(inner, [...steps, Array.isArray(value) ? Number(key) : key]);
    }
  };
  for (const [key, value] of Object.entries(file)) if (key !== 'notes') visit(value, [key]);
  if (values <= MOST_VALUES) return problems;
  const most = MOST_VALUES.toLocaleString('en-US');
  const large: Problem = {
    path: '',
    found: `more than ${most} values`,
    message: '',
    wanted: `at most ${most} values; scans and other large shapes stand in mesh files of their own`,
  };
  return [large, ...problems];
}
