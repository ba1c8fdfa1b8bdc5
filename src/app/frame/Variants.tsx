/** The variants of the build, side by side; where they are many or the page is narrow, the build's menu has them. */
import { useShallow } from 'zustand/react/shallow';
import { showVariant } from '../files/openFiles.ts';
import { useShop } from '../state/shop.ts';
import { BASE, capital, variantNames } from './variantNames.ts';

/** Letters that fit beside the rest of the bar at 1280 px. */
const MOST_LETTERS = 48;

export function Variants() {
  const names = useShop(useShallow(variantNames));
  const variant = useShop(shop => shop.variant);
  const letters = names.reduce((sum, name) => sum + name.length + 4, BASE.length);
  if (names.length === 0 || letters > MOST_LETTERS) return null;
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
