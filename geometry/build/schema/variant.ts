/**
 * Variants and alternatives as written in the build file: sets of changes on the base that address
 * parts and fields by name.
 *
 * A part's address is its place in the file with names in place of positions:
 * `axles.front.links.lower link`, `axles.front.tire`, `solids.left rail`, `build` for the file itself.
 * Mirrored parts are addressed as they are written, once.
 */
import { z } from 'zod';
import { list, name, notes, object, reference, words } from './shape.ts';

const address = reference('the address of a part, such as "axles.front.links.lower link"');

const change = object('a change { "part", "field", "value" }', {
  part: address.describe('Part that changes.'),
  field: reference('a field of that part, such as "chassis.at"').describe(
    'Field within it; a coordinate as `chassis.at[2]`.',
  ),
  value: z
    .unknown()
    .describe('What stands there instead, written as in the base; null takes it out.'),
});

/** What a variant or an option does to the base: first `remove`, then `add`, then `changes`. */
const changeSet = {
  changes: list('a list of changes', change, 2000).nullish(),
  add: list(
    'a list of additions { "to", "part" }',
    object('an addition { "to", "part" }', {
      to: reference('a list of the file, such as "axles.front.links"'),
      part: z.record(z.string(), z.unknown(), { error: 'the new part, written as in the base' }),
    }),
    2000,
  ).nullish(),
  remove: list('a list of addresses of parts', address, 2000).nullish(),
};

const choice = object('a choice { "alternative", "option" }', {
  alternative: reference('the name of an alternative'),
  option: reference('the name of one of its options'),
});

export const variant = object('a variant { "name", "changes", "add", "remove" }', {
  name,
  ...changeSet,
  choose: list('a list of choices { "alternative", "option" }', choice)
    .nullish()
    .describe('Options of alternatives that it takes, before its own changes.'),
  notes,
});

/** Several candidates for one place: track bars, rams, fenders, places of a reservoir. */
export const alternative = object('an alternative { "name", "part", "options" }', {
  name,
  part: address.describe(
    'Part whose candidates these are; the base holds the one that is built now.',
  ),
  options: list(
    'a list of options',
    object('an option { "name", "changes", "add", "remove", "needs" }', {
      name,
      ...changeSet,
      needs: list('a list of choices { "alternative", "option" }', choice)
        .nullish()
        .describe('Options of other alternatives without which this one cannot be built.'),
      why: words.nullish(),
      notes,
    }),
  ),
  notes,
});
