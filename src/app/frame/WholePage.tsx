/** On a phone: the axle alone, over the whole page, and back. */
import { act } from '../state/action.ts';
import { setLook } from '../state/look.ts';
import { useShop } from '../state/shop.ts';
import './WholePage.css';

export function WholePage() {
  const isAlone = useShop(shop => shop.look.isAxleAlone);
  return (
    <button
      type="button"
      className="button whole-page"
      aria-pressed={isAlone}
      onClick={() => act(setLook, { isAxleAlone: !isAlone })}
    >
      <svg viewBox="0 0 16 16" aria-hidden="true">
        <path
          d={
            isAlone ? 'M7 2v5H2M9 14V9h5M7 7 2 2M9 9l5 5' : 'M10 2h4v4M6 14H2v-4M14 2 9 7M2 14l5-5'
          }
        />
      </svg>
      {isAlone ? 'Back to the page' : 'Full screen'}
    </button>
  );
}
