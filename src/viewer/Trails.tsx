/** Paths of points along the walk. */
import { useThree } from '@react-three/fiber';
import { useEffect, useMemo } from 'react';
import { BufferGeometry, Float32BufferAttribute, Line, LineBasicMaterial } from 'three';
import { type Theme, TONES } from './looks.ts';

export interface Trail {
  /** `part.end`. */
  name: string;
  /** Three numbers a place, vehicle axes, in. */
  points: Float32Array;
}

export function Trails({ trails, theme }: { trails: readonly Trail[]; theme: Theme }) {
  const invalidate = useThree(state => state.invalidate);
  const lines = useMemo(
    () =>
      trails.map(({ name, points }) => {
        const geometry = new BufferGeometry();
        geometry.setAttribute('position', new Float32BufferAttribute(points, 3));
        const material = new LineBasicMaterial({ color: TONES[theme].dye, depthTest: false });
        const line = new Line(geometry, material);
        line.name = `trail ${name}`;
        line.renderOrder = 6;
        return line;
      }),
    [trails, theme],
  );
  useEffect(() => {
    invalidate();
    return () => {
      for (const line of lines) {
        line.geometry.dispose();
        line.material.dispose();
      }
      invalidate();
    };
  }, [lines, invalidate]);
  return lines.map(line => <primitive key={line.uuid} object={line} />);
}
