/** Walks a value along its schema: what both the messages and the tape reader need to know of it. */
import { z } from 'zod';
import { own } from '../problem.ts';

type Schema = z.core.$ZodType;
type Def = z.core.$ZodTypes['_zod']['def'];
type DiscriminatedDef = z.core.$ZodDiscriminatedUnionDef<readonly Schema[]>;

export const defOf = (schema: Schema): Def => schema._zod.def as Def;

/** The schema without its `optional` and `nullable` wrappings. */
export function unwrapped(schema: Schema): Schema {
  const def = defOf(schema);
  return def.type === 'optional' || def.type === 'nullable' ? unwrapped(def.innerType) : schema;
}

/** Whether a schema is another one, or that one with a description of its own. */
export function isOf(schema: Schema, another: Schema): boolean {
  for (let each: Schema | undefined = schema; each; each = each._zod.parent) {
    if (each === another) return true;
  }
  return false;
}

/** How far an issue list is from a fit: unknown keys count one each. */
const weight = (issues: readonly z.core.$ZodIssue[]): number =>
  issues.reduce(
    (sum, issue) => sum + (issue.code === 'unrecognized_keys' ? issue.keys.length : 1),
    0,
  );

const isOfAnotherType = (issues: readonly z.core.$ZodIssue[]): boolean =>
  issues.some(issue => issue.path.length === 0 && issue.code === 'invalid_type');

/** Index of the branch of a union that was most likely meant: right type, fewest issues, first; or null. */
export function likelyBranch(branches: readonly (readonly z.core.$ZodIssue[])[]): number | null {
  let best: number | null = null;
  let least = Number.POSITIVE_INFINITY;
  branches.forEach((issues, i) => {
    if (!isOfAnotherType(issues) && weight(issues) < least) {
      best = i;
      least = weight(issues);
    }
  });
  return best;
}

/** The schema that this value was meant for, with unions settled by the value; null where none fits. */
export function settled(schema: Schema, value: unknown): Schema | null {
  const plain = unwrapped(schema);
  const def = defOf(plain);
  if (def.type !== 'union') return plain;
  if ('discriminator' in def) return byDiscriminator(def as DiscriminatedDef, value);
  const issues = def.options.map(option => z.safeParse(option, value).error?.issues ?? []);
  const branch = likelyBranch(issues);
  const option = branch === null ? undefined : def.options[branch];
  return option === undefined ? null : settled(option, value);
}

function byDiscriminator(
  { discriminator, options }: DiscriminatedDef,
  value: unknown,
): Schema | null {
  const kind = own(value, discriminator) as z.core.util.Primitive;
  return options.find(option => option._zod.propValues?.[discriminator]?.has(kind)) ?? null;
}

/** The schema of one field or element of a value whose own schema is settled; null where there is none. */
export function schemaOf(schema: Schema, key: PropertyKey): Schema | null {
  const def = defOf(schema);
  if (def.type === 'object') {
    return Object.hasOwn(def.shape, key) ? (def.shape[String(key)] ?? null) : null;
  }
  if (def.type === 'array') return def.element;
  if (def.type === 'tuple') return def.items[Number(key)] ?? null;
  return null;
}

/** Keys of an object schema, none for others. */
export function keysOf(schema: Schema | null): string[] {
  const def = schema === null ? null : defOf(schema);
  return def?.type === 'object' ? Object.keys(def.shape) : [];
}
