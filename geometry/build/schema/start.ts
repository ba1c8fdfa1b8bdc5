/** What a build was started from, as written in its file: layout and answers. Nothing is solved from it. */
import { z } from 'zod';
import { linkLayouts, steeringLayouts, strapLayouts } from '../start/layouts.ts';
import { flag, list, object, oneOf, reference, words } from './shape.ts';

const idsOf = <Id extends string>(choices: readonly { id: Id }[]): Id[] =>
  choices.map(({ id }) => id);

const axle = object('an axle { "name", "links", "steering", … }', {
  name: oneOf(['front', 'rear']),
  links: oneOf(idsOf(linkLayouts)).nullish().describe('What holds it.'),
  steering: oneOf(idsOf(steeringLayouts)).nullish().describe('What steers it; a front axle only.'),
  assistRam: flag.nullish().describe('Whether a ram from the axle helps the tie rod.'),
  straps: oneOf(idsOf(strapLayouts)).nullish().describe('What holds it in droop.'),
  differential: oneOf(['left', 'right', 'middle']).nullish(),
});

const answerWanted = '"22 1/2", { "left", "right" } or { "value", "from" }';
const reading = z.union([z.string(), z.number()], { error: 'a tape entry such as "22 1/2"' });
const bothSides = object('both sides { "left", "right" }', { left: reading, right: reading });
const answer = z.union(
  [
    z.string(),
    z.number(),
    bothSides,
    object('an answer { "value", "from" }', {
      value: z.union([z.string(), z.number(), bothSides], { error: answerWanted }),
      from: oneOf(['floor', 'wheelCenter', 'railBottom'])
        .nullish()
        .describe('Where the tape started; "floor" unless given.'),
    }),
  ],
  { error: answerWanted },
);

export const start = object('a start { "rules", "axles", "answers", … }', {
  rules: z
    .int({ error: 'the version of the rules, a whole number' })
    .min(1, { error: 'the version of the rules, from 1' })
    .describe('Version of the rules by which everything else was proposed.'),
  axles: list('a list of one or two axles', axle, 2).min(1, { error: 'one or two axles' }),
  stands: object('how it stood { "rake", "roll", "rise" }', {
    rake: words.nullish(),
    roll: words.nullish(),
    rise: words.nullish(),
  }).nullish(),
  near: list('a list of what stands near', reference('a kind of thing that stands near')).nullish(),
  answers: z
    .record(z.string(), answer, { error: 'an object with an answer for each measurement' })
    .describe('As typed, by the id of the measurement; one that is missing was skipped.'),
});
