/** What the worker is at: a word, a bar, and how far it has come. */
import type { Results, Shop } from '../state/shop.ts';
import { useShop } from '../state/shop.ts';

type Working = NonNullable<Results['working']>;

const WORDS: Record<Working['what'], string> = {
  rest: 'Still refining',
  range: 'Finding the travel',
  gaps: 'Checking gaps',
  extremes: 'Measuring',
  proof: 'Proving gaps',
};

/** 'Checking gaps', 0.75, '6 of 8 pairs'. */
export function progressWords({ working, map }: Results): {
  what: string;
  share: number | null;
  count: string;
} | null {
  if (!working) return null;
  const { what, done, of } = working;
  const isRefining = what === 'gaps' && done >= of && map?.isCoarse === true;
  if (isRefining) return { what: 'Refining', share: null, count: 'the map' };
  const isCounted = what !== 'rest' && what !== 'range' && of > 1;
  return {
    what: WORDS[what],
    share: isCounted ? done / of : null,
    count: isCounted ? `${done} of ${of} ${what === 'extremes' ? 'measures' : 'pairs'}` : '',
  };
}

const shownOf = (shop: Shop): string => {
  if (shop.reading !== null) return JSON.stringify({ what: 'Reading', share: null, count: '' });
  if (shop.trial && shop.results.working) {
    return JSON.stringify({ what: 'Refining', share: null, count: 'newest change' });
  }
  return JSON.stringify(progressWords(shop.results));
};

export function Progress() {
  const shown = useShop(shownOf);
  const progress: ReturnType<typeof progressWords> = JSON.parse(shown);
  if (!progress) return <div className="progress" />;
  const { what, share, count } = progress;
  return (
    <div className="progress">
      <span className="what">{what}</span>
      <progress aria-label={what} {...(share === null ? {} : { value: share })} />
      <span className="count">{count}</span>
    </div>
  );
}
