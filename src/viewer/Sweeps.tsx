/** What parts pass over in the whole range, seen through. */
import { useThree } from '@react-three/fiber';
import { useEffect, useMemo } from 'react';
import { BufferAttribute, BufferGeometry, MeshLambertMaterial } from 'three';
import { type Theme, TONES } from './looks.ts';

export interface Sweep {
  part: string;
  /** Vehicle axes, in; null: it sweeps nothing. */
  mesh: { positions: Float64Array; triangles: Uint32Array } | null;
}

const OPACITY: Readonly<Record<Theme, number>> = { light: 0.34, dark: 0.36 };

export function Sweeps({ sweeps, theme }: { sweeps: readonly Sweep[]; theme: Theme }) {
  return sweeps.map(({ part, mesh }) =>
    mesh && mesh.triangles.length > 0 ? (
      <Swept key={part} part={part} mesh={mesh} theme={theme} />
    ) : null,
  );
}

interface SweptProps {
  part: string;
  mesh: NonNullable<Sweep['mesh']>;
  theme: Theme;
}

function Swept({ part, mesh, theme }: SweptProps) {
  const invalidate = useThree(state => state.invalidate);
  const geometry = useMemo(() => {
    const made = new BufferGeometry();
    made.setAttribute('position', new BufferAttribute(Float32Array.from(mesh.positions), 3));
    made.setIndex(new BufferAttribute(mesh.triangles, 1));
    made.computeVertexNormals();
    return made;
  }, [mesh]);
  const material = useMemo(
    () =>
      new MeshLambertMaterial({
        color: TONES[theme].dye,
        transparent: true,
        opacity: OPACITY[theme],
        depthWrite: false,
        toneMapped: false,
      }),
    [theme],
  );
  useEffect(() => {
    invalidate();
    return () => {
      geometry.dispose();
      invalidate();
    };
  }, [geometry, invalidate]);
  useEffect(() => () => material.dispose(), [material]);
  return <mesh name={`swept by ${part}`} geometry={geometry} material={material} renderOrder={5} />;
}
