/** Chooses one of the two: a variant of the open build, an alternative of one part, an example, another file. */
import {
  Menu,
  MenuButton,
  MenuGroup,
  MenuGroupLabel,
  MenuItem,
  MenuProvider,
  MenuSeparator,
} from '@ariakit/react';
import { openExample, showVariant } from '../files/openFiles.ts';
import { pickFiles } from '../files/pickFiles.ts';
import { Chevron } from '../frame/Chevron.tsx';
import { ExampleItems } from '../frame/ExampleItems.tsx';
import '../frame/menu.css';
import { VariantItems } from '../frame/VariantItems.tsx';
import { capital } from '../frame/variantNames.ts';
import { type Shop, useShop } from '../state/shop.ts';
import { besideCandidate, besideExample, besideVariant, pickBeside } from './chooseBeside.ts';

export function SideMenu({ of, name }: { of: 'a' | 'b'; name: string }) {
  const isB = of === 'b';
  return (
    <MenuProvider placement="bottom-start">
      <MenuButton className="side-choose" aria-label={`${isB ? 'B' : 'A'}: ${name}. Choose`}>
        <span className="side-name">{name}</span>
        <Chevron />
      </MenuButton>
      <Menu className="menu" gutter={4} overflowPadding={8} fitViewport portal unmountOnHide>
        <Variants of={of} />
        {isB && <Candidates />}
        <MenuItem className="item" onClick={isB ? pickBeside : pickFiles}>
          Open a file …
        </MenuItem>
        <MenuSeparator className="rule" />
        <ExampleItems open={isB ? besideExample : openExample} />
      </Menu>
    </MenuProvider>
  );
}

/** The variant that stands there, if it is one of the open build; undefined where it is not. */
function variantOf({ document, variant, comparing }: Shop, of: 'a' | 'b') {
  if (of === 'a') return variant;
  const other = comparing?.other;
  return other && other.document.text === document?.text ? other.opened.build.variant : undefined;
}

function Variants({ of }: { of: 'a' | 'b' }) {
  const now = useShop(shop => variantOf(shop, of));
  const choose = of === 'a' ? showVariant : besideVariant;
  return <VariantItems label="This build" name="side" now={now} choose={choose} />;
}

const NO_ALTERNATIVES: NonNullable<NonNullable<Shop['opened']>['file']['alternatives']> = [];

/** Options of single parts, each with what it needs. */
function Candidates() {
  const alternatives = useShop(({ opened }) => opened?.file.alternatives ?? NO_ALTERNATIVES);
  return alternatives.map(({ name, options }) => (
    <MenuGroup key={name}>
      <MenuGroupLabel className="group">Alternatives: {name}</MenuGroupLabel>
      {options.map(option => (
        <MenuItem
          key={option.name}
          className="item"
          onClick={() => void besideCandidate(name, option.name)}
        >
          {capital(option.name)}
        </MenuItem>
      ))}
      <MenuSeparator className="rule" />
    </MenuGroup>
  ));
}
