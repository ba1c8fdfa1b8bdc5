import { useThree } from '@react-three/fiber';
import { useEffect, useMemo, useRef } from 'react';
import { CanvasTexture, MeshBasicMaterial, SRGBColorSpace, type Texture } from 'three';
import { drawRule } from './drawRule.ts';
import type { SurroundingsProps } from './Surroundings.tsx';

/** A steel rule on the floor before the axle; it counts from the middle. */
/** Before the axle: clear of the tires, near enough to be in the picture. */
const AHEAD_in = 33;

export function Rule({ theme, middle, floor, way, unit }: SurroundingsProps) {
  const texture = useRef<Texture | null>(null);
  const material = useMemo(
    () => new MeshBasicMaterial({ transparent: true, depthWrite: false, toneMapped: false }),
    [],
  );
  const invalidate = useThree(state => state.invalidate);
  const length = 128;
  useEffect(() => {
    let isGone = false;
    const draw = (): void => {
      const canvas = document.createElement('canvas');
      if (isGone || !drawRule(canvas, { theme, unit, length })) return;
      texture.current?.dispose();
      const made = new CanvasTexture(canvas);
      made.colorSpace = SRGBColorSpace;
      made.anisotropy = 8;
      texture.current = made;
      material.map = made;
      material.needsUpdate = true;
      invalidate();
    };
    draw();
    void document.fonts?.load('600 40px Archivo').then(draw);
    return () => {
      isGone = true;
    };
  }, [theme, unit, material, invalidate]);
  useEffect(
    () => () => {
      texture.current?.dispose();
      material.dispose();
    },
    [material],
  );
  const deep = 7;
  return (
    <mesh
      name="rule"
      position={[middle + AHEAD_in * way, 0, floor + 0.05]}
      rotation={[0, 0, (way * Math.PI) / 2]}
      material={material}
      renderOrder={-1}
    >
      <planeGeometry args={[length, deep]} />
    </mesh>
  );
}
