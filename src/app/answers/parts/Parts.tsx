/** What the page does not hide: every part as entered, all pairs with their gaps, what is left out or assumed. */
import { useEffect, useState } from 'react';
import { useShop } from '../../state/shop.ts';
import { AllPairs } from './AllPairs.tsx';
import { AssumedHere } from './AssumedHere.tsx';
import { NotCompared } from './NotCompared.tsx';
import { PartBench } from './PartBench.tsx';
import './Parts.css';
import { Variations } from './Variations.tsx';

const VIEWS = ['parts', 'variants', 'pairs', 'left out', 'assumed'] as const;
type View = (typeof VIEWS)[number];

export default function Parts() {
  const [view, setView] = useState<View>('parts');
  const part = useShop(shop => shop.look.part);
  const rig = useShop(shop => shop.rig);
  const gaps = useShop(shop => shop.results.gaps);
  useEffect(() => {
    if (part !== null) setView('parts');
  }, [part]);
  const variants = useShop(shop => shop.opened?.file.variants?.length);
  if (!rig) return <div className="sheet-head" />;
  const excluded = gaps?.excluded.reduce((sum, { count }) => sum + count, 0);
  const assumed = rig.build.entries.filter(({ from }) => from === 'assumed').length;
  const words: Record<View, readonly [text: string, count: number | undefined]> = {
    parts: ['Entered', undefined],
    variants: ['Variants', variants],
    pairs: ['Pairs', gaps?.pairs.length],
    'left out': ['Left out', excluded],
    assumed: ['Assumed', assumed],
  };
  return (
    <>
      <div className="sheet-head">
        <fieldset className="views" aria-label="Show">
          {VIEWS.map(each => {
            const [text, count] = words[each];
            return (
              <button
                key={each}
                type="button"
                aria-pressed={view === each}
                onClick={() => setView(each)}
              >
                {text}
                {count !== undefined && <small>{count.toLocaleString('en-US')}</small>}
              </button>
            );
          })}
        </fieldset>
      </div>
      {view === 'parts' && <PartBench />}
      {view === 'variants' && <Variations />}
      {view === 'pairs' && <AllPairs />}
      {view === 'left out' && <NotCompared />}
      {view === 'assumed' && <AssumedHere />}
    </>
  );
}
