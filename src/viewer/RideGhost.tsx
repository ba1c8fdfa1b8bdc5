/** Where the axle stands at ride height, seen through. */

import { useThree } from '@react-three/fiber';
import { useEffect, useMemo } from 'react';
import { Matrix4 } from 'three';
import type { Pose } from '../../geometry/pose/pose.ts';
import type { Materials } from './looks.ts';
import { Placed, toMatrix } from './placed.ts';
import type { PartShape } from './shapes/shape.ts';
import { isFrame } from './showing.ts';

export interface RideGhostProps {
  shapes: readonly PartShape[];
  ride: Pose;
  materials: Materials;
}

export function RideGhost({ shapes, ride, materials }: RideGhostProps) {
  const invalidate = useThree(state => state.invalidate);
  useEffect(() => {
    invalidate();
    return () => invalidate();
  }, [invalidate]);
  const moving = useMemo(() => shapes.filter(({ part }) => !isFrame(part)), [shapes]);
  const places = useMemo(() => {
    const placed = new Placed(moving.map(({ part }) => part));
    placed.stand(ride);
    return placed.places.map(place => {
      const matrix = new Matrix4();
      toMatrix(place, matrix.elements);
      return matrix;
    });
  }, [moving, ride]);
  return (
    <group name="ride height">
      {moving.map(({ part, shapes: own }, i) => (
        <group
          key={part.name}
          name={`${part.name} at ride`}
          matrixAutoUpdate={false}
          matrix={places[i] as Matrix4}
        >
          {own
            // a coil is wound for where the axle stands now, and tread is too fine for a ghost
            .filter(({ wind, copies }) => !wind && !copies)
            .map(({ geometry, look }) => (
              <mesh
                key={geometry.id}
                geometry={geometry}
                material={materials.of(look, 'ride')}
                renderOrder={5}
              />
            ))}
        </group>
      ))}
    </group>
  );
}
