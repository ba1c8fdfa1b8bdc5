/** The flat cut through the tightest spot of the chosen finding, set into the stage. */
import { useMemo } from 'react';
import { pairOf } from '../answers/facts.ts';
import { PairSection } from '../answers/PairSection.tsx';
import { useShop } from '../state/shop.ts';
import './SectionInset.css';

export function SectionInset() {
  const finding = useShop(shop =>
    shop.look.finding === null ? undefined : shop.results.findings[shop.look.finding],
  );
  const gaps = useShop(shop => shop.results.gaps);
  const pair = useMemo(() => (finding ? pairOf(gaps, finding) : null), [gaps, finding]);
  if (!pair) return null;
  return (
    <figure className={pair.gap_in < 0 ? 'section-inset touch' : 'section-inset'}>
      <PairSection pair={pair} />
    </figure>
  );
}
