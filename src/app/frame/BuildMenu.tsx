/** What is open, and its menu: the axle, the variant, a file, the examples. */
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
import { useShallow } from 'zustand/react/shallow';
import { openExample, showVariant } from '../files/openFiles.ts';
import { pickFiles } from '../files/pickFiles.ts';
import { saveBuild } from '../files/save.ts';
import { KeyHint } from '../keyboard/KeyHint.tsx';
import { act } from '../state/action.ts';
import { chooseAxle } from '../state/open.ts';
import { useShop } from '../state/shop.ts';
import { startNew } from '../tape/startNew.ts';
import { Chevron } from './Chevron.tsx';
import { ExampleItems } from './ExampleItems.tsx';
import { KeptItems } from './KeptItems.tsx';
import './menu.css';
import { VariantItems } from './VariantItems.tsx';
import { fitSideBySide } from './Variants.tsx';
import { capital, variantNames } from './variantNames.ts';

export function BuildMenu() {
  const name = useShop(shop => shop.opened?.build.name ?? null);
  const axleName = useShop(shop => shop.axleName);
  const variant = useShop(shop => shop.variant);
  const isBeside = useShop(shop => fitSideBySide(variantNames(shop)));
  return (
    <MenuProvider placement="bottom-start">
      <MenuButton className="build">
        {name === null ? (
          <span className="name">Open a build</span>
        ) : (
          <>
            <span className="name">{capital(name)}</span>
            {axleName && <span className="axle">{axleName} axle</span>}
            {variant !== null && (
              <span className={isBeside ? 'variant beside' : 'variant'}>{capital(variant)}</span>
            )}
          </>
        )}
        <Chevron />
      </MenuButton>
      <Menu className="menu" gutter={4} overflowPadding={8} fitViewport portal unmountOnHide>
        <Axles />
        <Variants />
        <MenuItem className="item" onClick={startNew}>
          New build …
          <KeyHint command="newBuild" />
        </MenuItem>
        <MenuItem className="item" onClick={pickFiles}>
          Open a file …
          <KeyHint command="openFile" />
        </MenuItem>
        {name !== null && (
          <MenuItem className="item" onClick={() => void saveBuild()}>
            Save the build
            <KeyHint command="save" />
          </MenuItem>
        )}
        <KeptItems />
        <MenuSeparator className="rule" />
        <ExampleItems open={openExample} />
      </Menu>
    </MenuProvider>
  );
}

function Axles() {
  const axles = useShop(useShallow(shop => shop.opened?.axles.map(({ axle }) => axle.name) ?? []));
  const axleName = useShop(shop => shop.axleName);
  if (axles.length < 2) return null;
  return (
    <>
      <MenuGroup>
        <MenuGroupLabel className="group">Axle</MenuGroupLabel>
        {axles.map(each => (
          <MenuItemRadio
            key={each}
            className="item"
            name="axle"
            value={each}
            checked={each === axleName}
            hideOnClick
            onChange={() => act(chooseAxle, each)}
          >
            {each === 'front' ? 'Front axle' : 'Rear axle'}
          </MenuItemRadio>
        ))}
      </MenuGroup>
      <MenuSeparator className="rule" />
    </>
  );
}

function Variants() {
  const hasVariants = useShop(shop => variantNames(shop).length > 0);
  const variant = useShop(shop => shop.variant);
  if (!hasVariants) return null;
  return <VariantItems label="Variant" name="variant" now={variant} choose={showVariant} />;
}
