/** The variants of the build, side by side; where they are many or the page is narrow, the build's menu has them. */
import { useShallow } from 'zustand/react/shallow';
import { showVariant } from '../files/openFiles.ts';
import { useShop } from '../state/shop.ts';
import { BASE, capital, variantNames } from './variantNames.ts';

/** Letters that fit beside the rest of the bar at 1280 px. */
const MOST_LETTERS = 48;

/** Whether the bar has room to show these side by side, on a page that is wide enough. */
export const fitSideBySide = (names: readonly string[]): boolean =>
  names.reduce((sum, name) => sum + name.length + 4, BASE.length) <= MOST_LETTERS;

export function Variants() {
  const names = useShop(useShallow(variantNames));
  const variant = useShop(shop => shop.variant);
  if (names.length === 0 || !fitSideBySide(names)) return null;
  return (
    <fieldset className="choice variants">
      <legend className="visually-hidden">Variant</legend>
      {[null, ...names].map(name => (
        <button
          key={name ?? ''}
          type="button"
          aria-pressed={variant === name}
          onClick={() => void showVariant(name)}
        >
          {capital(name ?? BASE)}
        </button>
      ))}
    </fieldset>
  );
}
