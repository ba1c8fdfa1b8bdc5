/** Says that the frame is on stands: a drooped tire must not look planted. */
import { useShop } from '../state/shop.ts';
import { Length } from '../words/Amount.tsx';
import { UNDER_TIRE_in } from './floor.ts';

export function StandsNote() {
  const unit = useShop(shop => shop.look.unit);
  const view = useShop(shop => shop.look.view);
  const hasRig = useShop(shop => shop.rig !== null);
  if (!hasRig) return null;
  return (
    <p className="stands-note">
      <b>Frame on stands.</b> Floor is <Length inches={UNDER_TIRE_in} unit={unit} /> under the
      lowest tire{view === 'corner' ? '; rule counts from center' : ''}.
    </p>
  );
}
