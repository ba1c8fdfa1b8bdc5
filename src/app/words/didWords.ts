/** What a change of the build did, in words. */
import type { Axle } from '../../../geometry/build/build.ts';
import { lengthWords, partWords, type Shop, sentence } from '../../../geometry/finding/words.ts';
import type { GapChange, WhatItDid } from '../edit/whatItDid.ts';
import { numberWord } from './findingWords.ts';

/** A sentence that ends with an amount: 'Track bar clears the gear housing by', 3/16 in. */
export interface DidLead {
  before: string;
  amount: number | null;
  isTouch: boolean;
}

export function didLead(shop: Shop, axle: Axle, { gaps, went, came }: WhatItDid): DidLead {
  const [first] = gaps;
  if (!first || first.after === null) {
    const text =
      went.length + came.length > 0
        ? 'No gap that lacked something has changed.'
        : 'Nothing that was found has changed.';
    return { before: text, amount: null, isTouch: false };
  }
  const [a, b] = [first.a, first.b].map(part => partWords(shop, axle, part));
  const isTouch = first.after < 0;
  const verb = !isTouch ? 'clears' : (first.before ?? 0) < 0 ? 'still hits' : 'now hits';
  return {
    before: `${sentence(a ?? '')} ${verb} the ${b} by`,
    amount: Math.abs(first.after),
    isTouch,
  };
}

/** 'Clear, but short of the 1/2 in wanted'. */
export function changeWords(shop: Shop, { before, after, required }: GapChange): string {
  if (after === null) return 'no longer compared';
  if (before === null) return after < 0 ? 'new, and it hits' : 'new';
  const wanted = `${lengthWords(shop, required)} wanted`;
  if (after < 0)
    return before < 0 ? (after > before ? 'hits by less' : 'hits by more') : 'now it hits';
  if (after < required) {
    if (before < 0) return `clear, but short of the ${wanted}`;
    return after > before ? `further, still short of the ${wanted}` : `closer, ${wanted}`;
  }
  return before < 0 ? `clear, with the ${wanted}` : `has the ${wanted}`;
}

/** 'Two findings went, one came.' */
export function countWords({ went, came }: WhatItDid): string {
  const said = [
    went.length > 0
      ? `${numberWord(went.length)} ${went.length > 1 ? 'findings' : 'finding'} went`
      : '',
    came.length > 0
      ? `${numberWord(came.length)} ${went.length > 0 ? '' : came.length > 1 ? 'findings ' : 'finding '}came`
      : '',
  ].filter(each => each !== '');
  return said.length > 0 ? `${sentence(said.join(', ')).replace(/ +/g, ' ')}.` : '';
}
