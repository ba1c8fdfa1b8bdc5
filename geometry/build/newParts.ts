/**
 * Parts as they are added by hand: a place and size that can stand there, every number of it assumed until it is
 * moved or typed. Where they are put is a rule of thumb, no source: they are there to be moved.
 */
import type { Axle } from './build.ts';

export const NEW_PARTS = {
  box: 'Box on the frame',
  tube: 'Round tube on the frame',
  axleBox: 'Box on the axle',
  link: 'Link',
  shock: 'Shock, both sides',
  strap: 'Limit strap, both sides',
  bumpStop: 'Bump stop, both sides',
  line: 'Line or hose',
} as const;
export type NewPart = keyof typeof NEW_PARTS;

const inches = (value: number) => ({ value: `${Number(value.toFixed(3))} in`, from: 'assumed' });
const point = (x: number, y: number, z: number) => [inches(x), inches(y), inches(z)];

/** A part of a kind, and the address of the list that it goes to. */
export function newPart(
  kind: NewPart,
  name: string,
  axle: Pick<Axle, 'name' | 'origin' | 'wheelCenters'>,
): { to: string; part: { name: string } & Record<string, unknown> } {
  const [x, , z] = axle.origin;
  const out = axle.wheelCenters / 4;
  const own = `axles.${axle.name}`;
  const mirrored = { name, sides: 'mirror' };
  // links run away from the end of the vehicle that the axle is at
  const toMiddle = axle.name === 'front' ? -1 : 1;
  switch (kind) {
    case 'box':
    case 'axleBox': {
      const isOnAxle = kind === 'axleBox';
      const center = point(x, 0, z + (isOnAxle ? 6 : 22));
      const box = { center, size: [inches(4), inches(4), inches(4)] };
      const on = isOnAxle ? { on: 'axle', axle: axle.name } : {};
      return { to: 'solids', part: { name, ...on, box } };
    }
    case 'tube': {
      const ends = { from: point(x - 6, 0, z + 22), to: point(x + 6, 0, z + 22) };
      return { to: 'solids', part: { name, capsule: { ...ends, radius: inches(0.75) } } };
    }
    case 'link':
      return {
        to: `${own}.links`,
        part: {
          name,
          axle: { at: point(x, out / 2, z + 4) },
          chassis: { at: point(x + 34 * toMiddle, out / 2, z + 5) },
          tube: { od: inches(2), wall: inches(0.25) },
        },
      };
    case 'shock':
      return {
        to: `${own}.shocks`,
        part: {
          ...mirrored,
          axle: point(x + 6 * toMiddle, 1.3 * out, z + 3),
          chassis: point(x + 6 * toMiddle, 1.1 * out, z + 24),
          shortest: inches(14),
          longest: inches(28),
        },
      };
    case 'strap':
      return {
        to: `${own}.straps`,
        part: {
          ...mirrored,
          axle: point(x, 1.2 * out, z + 2),
          chassis: point(x, 1.2 * out, z + 16),
          length: inches(22),
        },
      };
    case 'bumpStop':
      return {
        to: `${own}.bumpStops`,
        part: {
          ...mirrored,
          kind: 'rubber',
          pad: { on: 'axle', at: point(x, 1.1 * out, z + 3) },
          strike: { on: 'chassis', at: point(x, 1.1 * out, z + 14) },
          contactHeight: inches(3),
          solidHeight: inches(1),
        },
      };
    case 'line':
      return {
        to: `${own}.lines`,
        part: {
          name,
          from: { on: 'axle', at: point(x, 6, z + 4) },
          to: { on: 'chassis', at: point(x, 6, z + 16) },
          length: inches(26),
        },
      };
  }
}
