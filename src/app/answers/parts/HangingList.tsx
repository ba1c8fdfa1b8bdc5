/** What goes with a change of a part, in words. */
import type { Hanging } from '../../../../geometry/build/takeOut.ts';
import { hangingWords } from '../../edit/hangingWords.ts';
import { useShop } from '../../state/shop.ts';

export function HangingList({ hanging }: { hanging: readonly Hanging[] }) {
  const file = useShop(shop => shop.opened?.file ?? null);
  if (!file) return null;
  return (
    <ul className="said">
      {hanging.map(each => (
        <li key={each.path}>{hangingWords(each, file)}</li>
      ))}
    </ul>
  );
}
