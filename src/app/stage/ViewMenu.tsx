/** What is shown beside the parts. */
import {
  Menu,
  MenuButton,
  MenuItem,
  MenuItemCheckbox,
  MenuProvider,
  MenuSeparator,
} from '@ariakit/react';
import { act } from '../state/action.ts';
import { setLook } from '../state/look.ts';
import { type Look, useShop } from '../state/shop.ts';
import '../frame/menu.css';

type Switch = 'labels' | 'grid' | 'rideGhost' | 'construction';

const SWITCHES: readonly { name: Switch; label: string; note: string }[] = [
  { name: 'labels', label: 'Names of parts', note: '' },
  { name: 'grid', label: 'Fine grid', note: 'lines between the 12 in ones' },
  { name: 'rideGhost', label: 'Where it stands at ride height', note: '' },
  { name: 'construction', label: 'Roll axis and instant center', note: 'construction lines' },
];

export function ViewMenu() {
  const look = useShop(shop => shop.look);
  const set = (change: Partial<Look>): void => act(setLook, change);
  const away = look.hidden.size + look.ghosted.size;
  const drawn = look.swept.size + look.trails.size;
  return (
    <MenuProvider placement="top-start">
      <MenuButton className="button view-menu-button">Show</MenuButton>
      <Menu className="menu" gutter={6} overflowPadding={8} fitViewport portal unmountOnHide>
        {SWITCHES.map(({ name, label, note }) => (
          <MenuItemCheckbox
            key={name}
            className="item"
            name={name}
            checked={look[name]}
            onChange={() => set({ [name]: !look[name] })}
          >
            <span>
              {label}
              {note && <span className="note"> {note}</span>}
            </span>
          </MenuItemCheckbox>
        ))}
        <MenuSeparator className="rule" />
        <MenuItem
          className="item"
          disabled={away === 0}
          onClick={() => set({ hidden: new Set(), ghosted: new Set() })}
        >
          {away === 0 ? 'No part is hidden' : `Show all parts again (${away})`}
        </MenuItem>
        {drawn > 0 && (
          <MenuItem className="item" onClick={() => set({ swept: new Set(), trails: new Set() })}>
            Clear sweeps and trails
          </MenuItem>
        )}
      </Menu>
    </MenuProvider>
  );
}
