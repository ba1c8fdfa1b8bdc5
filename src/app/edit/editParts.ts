/** Parts added, copied and taken out, and variants made and named, by hand: one step each. */
import { findPart, isLost, valueAt } from '../../../geometry/build/address.ts';
import { appliedFile, type Edit, withoutPart, withPart } from '../../../geometry/build/edit.ts';
import { type NewPart, newPart } from '../../../geometry/build/newParts.ts';
import {
  withNewVariant,
  withoutVariant,
  withVariantCalled,
} from '../../../geometry/build/variants.ts';
import { useShop } from '../state/shop.ts';
import { change, type Refused } from './edit.ts';

/** `axles["front"].links["lower link"]` → `axles.front.links.lower link`, as the file addresses parts. */
export const addressOf = (path: string): string =>
  path.replace(/\[("(?:[^"\\]|\\.)*")\]/g, (_, name: string) => `.${JSON.parse(name)}`);

/** True of parts that stand in a list and can be taken out of it. */
export const isListed = (path: string): boolean => /\["(?:[^"\\]|\\.)*"\]$/.test(path);

export function addPart(kind: NewPart, name: string): Promise<Refused> {
  const { rig } = useShop.getState();
  if (!rig) return Promise.resolve('no build is open');
  const { to, part } = newPart(kind, name, rig.axle);
  return change(`${name}: added`, edited => withPart(edited, to, part), to);
}

/** The same part once more by another name, where the first one is. */
export function copyPart(path: string, name: string): Promise<Refused> {
  const address = addressOf(path);
  return change(
    `${name}: copied`,
    (edited): Edit => {
      const file = appliedFile(edited);
      const steps = findPart(file, address);
      if (isLost(steps)) return { ok: false, message: steps.message };
      const part = valueAt(file, steps) as { name: string };
      const list = address.slice(0, address.length - part.name.length - 1);
      return withPart(edited, list, { ...part, name });
    },
    '',
  );
}

export function removePart(path: string, name: string): Promise<Refused> {
  return change(`${name}: taken out`, edited => withoutPart(edited, addressOf(path)), '');
}

/** A variant of what is shown, which is shown from then on: what is changed then is its own. */
export function newVariant(name: string): Promise<Refused> {
  return change(`Variant ${name}: made`, edited => withNewVariant(edited, name), 'variants', name);
}

export function renameVariant(variant: string, name: string): Promise<Refused> {
  const { variant: shown } = useShop.getState();
  return change(
    `Variant ${variant}: now ${name}`,
    ({ file }) => withVariantCalled(file, variant, name),
    'variants',
    shown === variant ? name : shown,
  );
}

/** Without the variant; where it is shown, the base is. */
export function removeVariant(variant: string): Promise<Refused> {
  const { variant: shown } = useShop.getState();
  return change(
    `Variant ${variant}: taken out`,
    ({ file }) => withoutVariant(file, variant),
    'variants',
    shown === variant ? null : shown,
  );
}
