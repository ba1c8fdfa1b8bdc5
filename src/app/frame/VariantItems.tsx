/** The base and the variants of the open build in a menu, one of them ticked. */
import { MenuGroup, MenuGroupLabel, MenuItemRadio, MenuSeparator } from '@ariakit/react';
import { useShallow } from 'zustand/react/shallow';
import { useShop } from '../state/shop.ts';
import { BASE, capital, variantNames } from './variantNames.ts';

interface VariantItemsProps {
  label: string;
  /** Name of the group of the ticks. */
  name: string;
  /** Null: the base; undefined: none of them. */
  now: string | null | undefined;
  choose(variant: string | null): Promise<void>;
}

export function VariantItems({ label, name, now, choose }: VariantItemsProps) {
  const names = useShop(useShallow(variantNames));
  return (
    <>
      <MenuGroup>
        <MenuGroupLabel className="group">{label}</MenuGroupLabel>
        {[null, ...names].map(each => (
          <MenuItemRadio
            key={each ?? ''}
            className="item"
            name={name}
            value={each ?? ''}
            checked={each === now}
            hideOnClick
            onChange={() => void choose(each)}
          >
            {capital(each ?? BASE)}
          </MenuItemRadio>
        ))}
      </MenuGroup>
      <MenuSeparator className="rule" />
    </>
  );
}
