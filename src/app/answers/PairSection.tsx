/** The section of a pair of parts, named and dimensioned in the words and unit of the page. */
import { useMemo } from 'react';
import { lengthWords, partWords } from '../../../geometry/finding/words.ts';
import type { PairReport } from '../../../geometry/gap/gapReport.ts';
import { SectionView } from '../../charts/SectionView.tsx';
import { useShop } from '../state/shop.ts';
import { Length } from '../words/Amount.tsx';
import { pageShop } from '../words/shopWords.ts';
import { useTheme } from '../words/useTheme.ts';
import { pairSection } from './pairSection.ts';

export function PairSection({ pair }: { pair: PairReport }) {
  const rig = useShop(shop => shop.rig);
  const unit = useShop(shop => shop.look.unit);
  const theme = useTheme();
  const section = useMemo(() => (rig ? pairSection(rig, pair) : null), [rig, pair]);
  if (!rig || !section) return null;
  const shop = pageShop(rig.build, unit);
  const names = [pair.a, pair.b].map(name => partWords(shop, rig.axle, name)) as [string, string];
  const size = Math.abs(pair.gap_in);
  const text = lengthWords(shop, size);
  return (
    <SectionView
      section={section}
      names={[brief(names[0], names[1]), brief(names[1], names[0])]}
      amount={<Length inches={size} unit={unit} mark={unit === 'in' ? 'prime' : 'unit'} fine />}
      label={`Section through the ${names[0]} and the ${names[1]} where they are nearest: ${
        pair.gap_in < 0 ? `${text} of overlap` : `${text} apart`
      }.`}
      theme={theme}
    />
  );
}

/** A name without its side, where that still tells both apart: 'driver tire' → 'tire'. */
function brief(name: string, other: string): string {
  const bare = (words: string): string => words.replace(/^(driver|passenger) /, '');
  return bare(name) === bare(other) ? name : bare(name);
}
