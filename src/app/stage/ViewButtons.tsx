/** Where the axle is looked at from. */
import { act } from '../state/action.ts';
import { setLook } from '../state/look.ts';
import { useShop, type ViewName } from '../state/shop.ts';
import { useTaken } from './taken.ts';
import { ViewMenu } from './ViewMenu.tsx';

const VIEWS: readonly { name: ViewName; label: string; note?: string }[] = [
  { name: 'corner', label: 'Corner' },
  { name: 'front', label: 'Front', note: 'as the driver sits' },
  { name: 'side', label: 'Side' },
  { name: 'top', label: 'Top' },
];

export function ViewButtons() {
  const view = useShop(shop => shop.look.view);
  const isTaken = useTaken(state => state.isTaken);
  const go = (name: ViewName): void => {
    const { framing } = useShop.getState().look;
    act(setLook, { view: name, framing: { count: framing.count + 1, part: null, spot: null } });
  };
  return (
    <div className="view-buttons">
      <fieldset className="choice" aria-label="View">
        {VIEWS.map(({ name, label, note }) => (
          <button
            key={name}
            type="button"
            aria-pressed={view === name && !isTaken}
            onClick={() => go(name)}
          >
            {label}
            {note && <span className="view-note">{note}</span>}
          </button>
        ))}
      </fieldset>
      <ViewMenu />
    </div>
  );
}
