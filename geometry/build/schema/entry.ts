/**
 * Entries: the numbers of the build file, each with its dimension and the range that it may lie in.
 *
 * Every schema of the file carries its own `error`: what would be right at that place. The reader puts
 * the path and what stands there in front of it.
 */
import { z } from 'zod';
import { type Dimension, type LengthUnit, wantedOf } from '../units.ts';
import { oneOf } from './shape.ts';

/** What an entry may hold; `any` where its place does not settle the dimension. */
export type EntryDimension = Dimension | 'any';

/** Values that an entry may take, in internal units; `wanted` says it in words. */
export interface Range {
  least: number;
  /** Whether `least` itself is out. */
  isOpen: boolean;
  greatest: number;
  wanted: string;
}

/** What each entry's schema holds, by which the tape reader refuses '3 kg' or '-2' for a tube's diameter. */
export const entrySchemas = z.registry<{ dimension: EntryDimension; range: Range }>();

/** What would be right where an entry of this dimension stands. */
export const wantedEntry = (dimension: EntryDimension, unit: LengthUnit): string =>
  dimension === 'any' ? 'a number or a tape entry such as 23 5/8' : wantedOf(dimension, unit);

/** Beyond these no vehicle is described, and squares would no longer be finite or exact. */
const LONGEST_in = 1e5;
const GREATEST = 1e12;

const makeEntry = (id: string, dimension: EntryDimension, range: Partial<Range> = {}) => {
  const wanted = wantedEntry(dimension, 'in');
  const most = dimension === 'length' ? LONGEST_in : GREATEST;
  const written = () => z.union([z.number(), z.string()], { error: wanted });
  const schema = z
    .union(
      [
        z.number(),
        z.string(),
        z.strictObject({
          value: written().describe('The value as it was read off the tape.'),
          from: oneOf(['measured', 'drawing', 'assumed'])
            .nullish()
            .describe('Where it came from; "drawing" unless given.'),
          tolerance: written()
            .nullish()
            .describe(
              'Half-width of the band in which the true value lies, in the same dimension.',
            ),
        }),
      ],
      { error: wanted },
    )
    .brand<'entry'>()
    .meta({
      id,
      description: `${[wanted, range.wanted].filter(Boolean).join('; ')}; or { "value", "from", "tolerance" }`,
    });
  const size = most.toLocaleString('en-US');
  entrySchemas.add(schema, {
    dimension,
    range: {
      least: -most,
      greatest: most,
      isOpen: false,
      wanted: `at most ${size} either way`,
      ...range,
    },
  });
  return schema;
};

const above0 = (wanted: string) => ({ least: 0, isOpen: true, wanted });

/** A length of either sign, e.g. `23.625`, `"23 5/8"`, `"1'11 5/8"`, `"600 mm"`, `"railFace - 1.5 in"`. */
export const length = makeEntry('length', 'length');
/** A length above 0: a diameter, a width, a length between ends. */
export const size = makeEntry('size', 'length', above0('a length above 0'));
/** A length of 0 or more: a rounding, a give. */
export const amount = makeEntry('amount', 'length', { least: 0, wanted: 'a length of 0 or more' });
/** An angle; a bare number is in degrees. */
export const angle = makeEntry('angle', 'angle');
/** How far something may turn or tilt: above 0, at most 90 deg. */
export const angleLimit = makeEntry('angleLimit', 'angle', {
  ...above0('an angle above 0, at most 90 deg'),
  greatest: Math.PI / 2,
});
/** An angle between −89 and 89 deg: an elevation, an attitude. */
export const tilt = makeEntry('tilt', 'angle', {
  least: (-89 * Math.PI) / 180,
  greatest: (89 * Math.PI) / 180,
  wanted: 'an angle from -89 deg to 89 deg',
});
/** A share of a whole, 0 to 1: 0.6, `"60 %"`. */
export const share = makeEntry('share', 'ratio', {
  least: 0,
  greatest: 1,
  wanted: 'a share from 0 to 1',
});
/** A plain number: a component of a direction. */
export const number = makeEntry('number', 'number');
/** A plain number above 0: a count, a gear ratio. */
export const count = makeEntry('count', 'number', above0('a number above 0'));
/** A force of 0 or more; a bare number is in lbf. */
export const force = makeEntry('force', 'force', { least: 0, wanted: 'a force of 0 or more' });
/** A weight above 0; a bare number is in lbf. */
export const weight = makeEntry('weight', 'force', above0('a weight above 0'));
/** A rate above 0; a bare number is in lbf/in. */
export const rate = makeEntry('rate', 'rate', above0('a rate above 0'));
/** A torsional or conical rate; a bare number is in in·lbf/deg. */
export const torsionalRate = makeEntry('torsionalRate', 'torsionalRate', {
  least: 0,
  wanted: 'a rate of 0 or more',
});
/** A pressure, stress or modulus above 0; a bare number is in psi. */
export const pressure = makeEntry('pressure', 'pressure', above0('a pressure above 0'));
/** A value whose dimension its place does not settle: named dimensions, bands of measures. */
export const anyEntry = makeEntry('anyEntry', 'any');

/** The evaluated file: the same shape with every entry replaced by its value in internal units. */
export type Evaluated<T> =
  T extends z.core.$brand<'entry'>
    ? number
    : T extends object
      ? { [K in keyof T]: Evaluated<T[K]> }
      : T;
