/** The room that metal mirrors: five plain boxes of light, so that nothing is fetched. */
import { useThree } from '@react-three/fiber';
import { useEffect } from 'react';
import {
  BackSide,
  BoxGeometry,
  Mesh,
  MeshBasicMaterial,
  PMREMGenerator,
  Scene,
  type WebGLRenderer,
  type WebGLRenderTarget,
} from 'three';
import type { Theme } from './looks.ts';

type Three = readonly [number, number, number];

const BOXES: readonly { at: Three; size: Three; light: number }[] = [
  // above, wide and soft
  { at: [0, 0, 6], size: [7, 9, 0.2], light: 3 },
  // front passenger, tall
  { at: [7, -5, 2], size: [0.3, 5, 5], light: 2.6 },
  // driver side, long
  { at: [1, 8, 2.5], size: [8, 0.3, 3], light: 1.2 },
  // behind
  { at: [-8, 0, 3], size: [0.3, 8, 2.5], light: 1.5 },
  // the floor throws some back
  { at: [0, 0, -5], size: [14, 14, 0.2], light: 0.35 },
];

/** Size of the mirrored picture, px: the metals are rough. */
const SIZE = 32;

export function Room({ theme }: { theme: Theme }) {
  const { gl, scene, invalidate } = useThree();
  useEffect(() => {
    const mirrored = mirror(gl, theme);
    scene.environment = mirrored.texture;
    invalidate();
    return () => {
      scene.environment = null;
      mirrored.dispose();
    };
  }, [gl, scene, theme, invalidate]);
  return null;
}

function mirror(gl: WebGLRenderer, theme: Theme): WebGLRenderTarget {
  const room = new Scene();
  const box = new BoxGeometry();
  const made: MeshBasicMaterial[] = [];
  const put = (material: MeshBasicMaterial, light: number): Mesh => {
    material.color.setScalar(light);
    made.push(material);
    const mesh = new Mesh(box, material);
    room.add(mesh);
    return mesh;
  };
  const walls = put(new MeshBasicMaterial({ side: BackSide }), theme === 'light' ? 0.3 : 0.1);
  walls.scale.setScalar(24);
  for (const { at, size, light } of BOXES) {
    const mesh = put(new MeshBasicMaterial(), light * (theme === 'light' ? 1 : 0.72));
    mesh.position.set(...at);
    mesh.scale.set(...size);
  }
  const generator = new PMREMGenerator(gl);
  const target = generator.fromScene(room, 0, 0.1, 60, { size: SIZE });
  generator.dispose();
  box.dispose();
  for (const each of made) each.dispose();
  return target;
}
