/** Shapes of the build file's values, each with its own words for what would be right. */
import { z } from 'zod';

/** One of a few words. */
export function oneOf<const T extends readonly string[]>(words: T) {
  const quoted = words.map(word => `"${word}"`);
  const last = quoted.pop();
  return z.enum(words, {
    error: quoted.length > 0 ? `${quoted.join(', ')} or ${last}` : `${last}`,
  });
}

/** An object with these fields and no others; `wanted` says what would be right, and describes it to editors. */
export const object = <S extends z.core.$ZodLooseShape>(wanted: string, shape: S) =>
  z
    .strictObject(shape, {
      error: issue => (issue.code === 'unrecognized_keys' ? undefined : wanted),
    })
    .describe(wanted);

/** An array of at most `most` items. */
export const list = <T extends z.core.$ZodType>(wanted: string, item: T, most = 200) =>
  z
    .array(item, { error: wanted })
    .max(most, { error: `at most ${most.toLocaleString('en-US')} items` })
    .describe(wanted);

export const flag = z.boolean({ error: 'true or false' });

const namePattern = /^(?! )[^.#[\]"\p{Cc}]{1,80}(?<! )$/u;
const nameWanted =
  'a name of 1 to 80 characters, without . # [ ] " or line breaks, and no space at its ends';

/**
 * Name of a part. It has no dot, since `part.end` is the name of a part's end, and no number sign,
 * since FILE#VARIANT names a variant.
 */
export const name = z
  .string({ error: nameWanted })
  .regex(namePattern, { error: nameWanted })
  .describe('Unique in the build; parts are addressed by it.');

/** A name that refers to something named elsewhere: a joint, `part.end`, a datum, a body. */
export const reference = (wanted: string) =>
  z.string({ error: wanted }).min(1, { error: wanted }).max(200, { error: wanted });

/** Free text. */
export const words = z.string({ error: 'text' });

/** `notes`: free, of any shape, kept as it is. */
export const notes = z.unknown().optional().describe('Free; kept as it is.');

/** A mirrored part is written once, for the left side. */
export const sides = oneOf(['mirror'])
  .nullish()
  .describe(
    'Written once for the left side: the right one has y of points and directions, and the sense of clockings and turns, negated. The parts are then called `left NAME` and `right NAME`.',
  );
