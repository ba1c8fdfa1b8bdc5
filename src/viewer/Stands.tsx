/** Jack stands under the frame: the axle hangs from it. */
import { useEffect, useMemo } from 'react';
import type { V3 } from '../../geometry/vector.ts';
import type { Materials } from './looks.ts';
import { Shaper } from './shapes/shaper.ts';

export interface StandsProps {
  /** Where the frame is held from below, vehicle axes, in. */
  under: readonly V3[];
  floor: number;
  materials: Materials;
}

export function Stands({ under, floor, materials }: StandsProps) {
  const geometry = useMemo(() => standsOf(under, floor), [under, floor]);
  useEffect(() => () => geometry.dispose(), [geometry]);
  return (
    <mesh name="stands" geometry={geometry} material={materials.of('frame', 'solid')} castShadow />
  );
}

function standsOf(under: readonly V3[], floor: number) {
  const shaper = new Shaper();
  for (const [x, y, z] of under) {
    const tall = z - floor;
    const neck = floor + 0.55 * tall;
    // a saddle on a post, and four legs
    shaper.block(
      [x, y, z - 0.4],
      [
        [1, 0, 0],
        [0, 1, 0],
        [0, 0, 1],
      ],
      [1.6, 2.2, 0.4],
    );
    shaper.bar([x, y, neck - 2], [x, y, z - 0.5], 0.9, 0.9, 12);
    shaper.ring([x, y, neck], [0, 0, 1], 1.8, 1, 2.4, 16);
    for (const [sx, sy] of [
      [1, 1],
      [1, -1],
      [-1, 1],
      [-1, -1],
    ] as const) {
      const foot: V3 = [x + sx * 5.5, y + sy * 5.5, floor + 0.4];
      shaper.tube([[x + sx * 0.9, y + sy * 0.9, neck], foot], 0.55, 8);
      shaper.drum([foot[0], foot[1], floor + 0.25], [0, 0, 1], 1.1, 0.5, 10);
    }
    const low = floor + 0.3 * (neck - floor);
    const reach = 5.5 - (4.6 * (low - floor)) / (neck - floor);
    for (const s of [1, -1]) {
      shaper.bar([x + s * reach, y - reach, low], [x + s * reach, y + reach, low], 0.35, 0.35, 8);
    }
  }
  return shaper.geometry();
}
