/** What is seldom wanted: light and dark, the list of commands, cautions, what is assumed, printing. */
import {
  Menu,
  MenuButton,
  MenuGroup,
  MenuGroupLabel,
  MenuItem,
  MenuItemRadio,
  MenuProvider,
  MenuSeparator,
} from '@ariakit/react';
import { toggleComparing } from '../compare/chooseBeside.ts';
import { copyLink } from '../files/openLink.ts';
import { openGuide } from '../guide/openGuide.ts';
import { KeyHint } from '../keyboard/KeyHint.tsx';
import { act } from '../state/action.ts';
import { chooseUnit, setLook, showDialog } from '../state/look.ts';
import { type Look, type Theme, useShop } from '../state/shop.ts';
import './menu.css';

const THEMES: Record<Theme, string> = {
  system: 'As the device is set',
  light: 'Light',
  dark: 'Dark',
};

type Unit = Look['unit'];

const UNITS: Record<Unit, string> = { in: 'Inches, as on a tape', mm: 'Millimeters' };

export function MoreMenu() {
  const unit = useShop(shop => shop.look.unit);
  const theme = useShop(shop => shop.look.theme);
  const opened = useShop(shop => shop.opened !== null);
  const isComparing = useShop(shop => shop.comparing !== null);
  return (
    <MenuProvider placement="bottom-end">
      <MenuButton className="more" aria-label="More">
        <svg viewBox="0 0 20 4" aria-hidden="true">
          <circle cx="2" cy="2" r="2" />
          <circle cx="10" cy="2" r="2" />
          <circle cx="18" cy="2" r="2" />
        </svg>
      </MenuButton>
      <Menu className="menu" gutter={4} overflowPadding={8} fitViewport portal unmountOnHide>
        <MenuItem className="item" onClick={() => act(showDialog, 'commands')}>
          What can I do here?
          <KeyHint command="commands" />
        </MenuItem>
        <MenuItem className="item" onClick={() => openGuide()}>
          Guide
          <KeyHint command="guide" />
        </MenuItem>
        <MenuItem className="item" disabled={!opened} onClick={toggleComparing}>
          {isComparing ? 'Show one axle alone' : 'Compare with another'}
          <KeyHint command="compare" />
        </MenuItem>
        <MenuItem className="item" disabled={!opened} onClick={() => act(showDialog, 'assumed')}>
          What is assumed
        </MenuItem>
        <MenuItem className="item" onClick={() => act(showDialog, 'cautions')}>
          Cautions
        </MenuItem>
        <MenuItem className="item" disabled={!opened} onClick={() => void copyLink()}>
          Copy a link that carries the build
        </MenuItem>
        <MenuItem className="item" onClick={() => window.print()}>
          Print this page …
        </MenuItem>
        <MenuSeparator className="rule" />
        <MenuGroup>
          <MenuGroupLabel className="group">Lengths</MenuGroupLabel>
          {Object.entries(UNITS).map(([each, label]) => (
            <MenuItemRadio
              key={each}
              className="item"
              name="unit"
              value={each}
              checked={unit === each}
              hideOnClick
              onChange={() => act(chooseUnit, each as Unit)}
            >
              {label}
            </MenuItemRadio>
          ))}
        </MenuGroup>
        <MenuSeparator className="rule" />
        <MenuGroup>
          <MenuGroupLabel className="group">Colors</MenuGroupLabel>
          {Object.entries(THEMES).map(([each, label]) => (
            <MenuItemRadio
              key={each}
              className="item"
              name="theme"
              value={each}
              checked={theme === each}
              hideOnClick
              onChange={() => act(setLook, { theme: each as Theme })}
            >
              {label}
            </MenuItemRadio>
          ))}
        </MenuGroup>
      </Menu>
    </MenuProvider>
  );
}
