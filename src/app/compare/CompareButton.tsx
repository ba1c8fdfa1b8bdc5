/** In the bar at the top: sets another axle beside the one that is shown, or puts it away. */
import { useShop } from '../state/shop.ts';
import { toggleComparing } from './chooseBeside.ts';
import './CompareButton.css';

export function CompareButton() {
  const isComparing = useShop(shop => shop.comparing !== null);
  const isEmpty = useShop(shop => shop.rig === null);
  return (
    <button
      type="button"
      className="compare-button"
      aria-pressed={isComparing}
      disabled={isEmpty}
      onClick={toggleComparing}
    >
      Compare
    </button>
  );
}
