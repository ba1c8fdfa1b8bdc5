/** Names are unique in a build: where there are two axles, the parts of the rear one are called so. */
import type { AxlePlace } from './axlePlace.ts';
import type { Rule } from './taped.ts';

/** 'lower link' → 'rear lower link', 'left lower link' → 'left rear lower link'. */
export function rearName(name: string): string {
  const [, side = '', rest = ''] = /^(left |right )?(.*)$/.exec(name) ?? [];
  return rest.startsWith('rear ') ? name : `${side}rear ${rest}`;
}

/** The axle with its parts renamed, where it is the rear one of two. */
export function named(place: AxlePlace, axle: object): object {
  const isSecond = place.name === 'rear' && place.taped.start.layout.axles.length > 1;
  return isSecond ? (renamed(axle) as object) : axle;
}

/** Every `name` and every reference to a joint below this value. */
function renamed(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(renamed);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, inner]) => [
      key,
      (key === 'name' || key === 'joint') && typeof inner === 'string' && inner !== 'rear'
        ? rearName(inner)
        : renamed(inner),
    ]),
  );
}

/** The same for the path of a rule. */
export const renamedRule = ({ path, ...rest }: Rule): Rule => ({
  ...rest,
  path: path.replace(
    /^(axles\["rear"\][^[]*)\["([^"]+)"\]/,
    (_, head: string, name: string) => `${head}["${rearName(name)}"]`,
  ),
});
