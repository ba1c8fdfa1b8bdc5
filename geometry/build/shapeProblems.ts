/** What the schema finds wrong with a file, as problems: zod's issues in our words. */
import { z } from 'zod';
import { nearest } from './nearest.ts';
import { fieldPath, own, type Problem, shown } from './problem.ts';
import { keysOf, likelyBranch, schemaOf, settled } from './schema/walk.ts';

type Issue = z.core.$ZodIssue;
type Path = readonly PropertyKey[];

/** Everything in `file` that does not fit `schema`; empty where it fits. */
export function shapeProblems(schema: z.core.$ZodType, file: unknown): Problem[] {
  const issues = z.safeParse(schema, file).error?.issues ?? [];
  return issues.flatMap(issue => problemsOf(issue, [], schema, file));
}

function problemsOf(issue: Issue, before: Path, schema: z.core.$ZodType, file: unknown): Problem[] {
  const path = [...before, ...issue.path];
  const value = valueAt(file, path);
  if (issue.code === 'unrecognized_keys') {
    const known = keysOf(schemaAt(schema, file, path)).filter(key => key !== '$schema');
    return issue.keys.map(key => unknownKey(file, path, key, known));
  }
  if (issue.code === 'invalid_union') {
    const branch = likelyBranch(issue.errors);
    const issues = branch === null ? undefined : issue.errors[branch];
    if (issues !== undefined && value !== undefined) {
      return issues.flatMap(inner => problemsOf(inner, path, schema, file));
    }
  }
  const isMissing = value === undefined;
  return [
    {
      path: fieldPath(file, path),
      found: isMissing ? '' : shown(value),
      message: isMissing ? 'missing' : tooLong(issue, value),
      wanted: issue.message,
    },
  ];
}

function tooLong(issue: Issue, value: unknown): string {
  return issue.code === 'too_big' && Array.isArray(value)
    ? `it has ${value.length.toLocaleString('en-US')} items`
    : '';
}

function unknownKey(file: unknown, path: Path, key: string, known: readonly string[]): Problem {
  const near = nearest(key, known);
  return {
    path: fieldPath(file, [...path, key]),
    found: shown(valueAt(file, [...path, key])),
    message: 'there is no such field',
    wanted: near === null ? `one of the fields ${known.join(', ')}` : `the field "${near}"`,
  };
}

function schemaAt(schema: z.core.$ZodType, file: unknown, path: Path): z.core.$ZodType | null {
  let here = settled(schema, file);
  let value = file;
  for (const key of path) {
    const next = here === null ? null : schemaOf(here, key);
    value = step(value, key);
    here = next === null ? null : settled(next, value);
  }
  return here;
}

function valueAt(file: unknown, path: Path): unknown {
  return path.reduce(step, file);
}

function step(value: unknown, key: PropertyKey): unknown {
  return Array.isArray(value) ? value[Number(key)] : own(value, String(key));
}
