/** A rod that can roll about its own line before it steers. */

import { SHOWN } from '../measure/measure.ts';
import { rodSlop } from '../measure/rodSlop.ts';
import { JOINT } from './fields.ts';
import type { Draft, Rule } from './finding.ts';
import { partWords } from './words.ts';

/** Slop above which it is told, rad: 0.05° is what nobody feels. Common practice, no source. */
const FELT = 0.05 / SHOWN.deg;
/** Slop above which it is to be watched, rad. Common practice, no source. */
const WATCHED = 0.5 / SHOWN.deg;

export const slop: Rule = {
  kinds: ['slop'],
  find: ({ build, axle, finder }) =>
    (finder?.extremesOf(rodSlop) ?? []).flatMap(({ target, greatest }): Draft[] => {
      const part = target.part;
      if (!greatest || part === null || greatest.value < FELT) return [];
      const { value, pose } = greatest;
      const degrees = value * SHOWN.deg;
      const isRam = axle.steering?.rams.some(ram => ram.name === part) ?? false;
      const name = partWords(build, axle, part);
      const rods = isRam ? [part, 'tie rod', 'drag link'] : [part];
      return [
        {
          kind: 'slop',
          severity: value > WATCHED ? 'watch' : 'note',
          parts: [part],
          pose,
          amount: { value: degrees, unit: 'deg' },
          fields: rods.flatMap(rod => [
            { part: rod, only: /^\.roll/ },
            { part: rod, only: /^\.(body|rod)\.(at|by)/ },
            { part: `${rod}.from`, only: JOINT },
            { part: `${rod}.to`, only: JOINT },
          ]),
          text: where =>
            isRam
              ? `The rod that the ${name} pushes beside its line can roll over its studs: ${degrees.toFixed(2)}° of steer is slop: ${where}.`
              : `The ${name} can roll over its studs before it steers: ${degrees.toFixed(2)}° of steer is slop: ${where}.`,
        },
      ];
    }),
};
