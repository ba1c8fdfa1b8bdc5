/** What the axle stands in: light, the room that metal mirrors, the floor with its grid and its rule. */
import { useMemo } from 'react';
import { Object3D } from 'three';
import { Floor } from './Floor.tsx';
import type { Theme } from './looks.ts';
import { Room } from './Room.tsx';
import { Rule } from './Rule.tsx';

export interface SurroundingsProps {
  theme: Theme;
  /** X of the axle, in. */
  middle: number;
  /** Height of the floor, in; negative: under the ground at ride height. */
  floor: number;
  /** Which way the corner view looks from: 1 from the front. */
  way: 1 | -1;
  unit: 'in' | 'mm';
  isFine: boolean;
  hasShadow: boolean;
  /** Whether the floor is seen from above; straight-on views have none. */
  hasFloor: boolean;
}

export function Surroundings(props: SurroundingsProps) {
  const { theme, middle, way } = props;
  return (
    <>
      <Room theme={theme} />
      <hemisphereLight
        args={theme === 'light' ? ['#ffffff', '#b9beba', 1.9] : ['#dfe6ea', '#3a3f42', 1.7]}
        position={[0, 0, 1]}
      />
      <Key theme={theme} middle={middle} way={way} />
      <directionalLight
        color="#ffffff"
        intensity={theme === 'light' ? 0.9 : 2}
        position={[middle - 140 * way, 120, 90]}
        target={useTarget(middle)}
      />
      {props.hasFloor && <Floor {...props} />}
      {props.hasFloor && <Rule {...props} />}
    </>
  );
}

function useTarget(middle: number): Object3D {
  const target = useMemo(() => {
    const object = new Object3D();
    object.position.set(middle, 0, 14);
    object.updateMatrixWorld();
    return object;
  }, [middle]);
  return target;
}

/** The key light, from front passenger and above, with the shadow. */
function Key({ theme, middle, way }: Pick<SurroundingsProps, 'theme' | 'middle' | 'way'>) {
  return (
    <directionalLight
      color="#ffffff"
      intensity={theme === 'light' ? 2.3 : 2.6}
      position={[middle + 95 * way, -70, 190]}
      target={useTarget(middle)}
      castShadow
      shadow-mapSize={[1024, 1024]}
      shadow-radius={6}
      shadow-blurSamples={12}
      shadow-normalBias={0.6}
      shadow-bias={-0.0004}
      shadow-camera-left={-92}
      shadow-camera-right={92}
      shadow-camera-top={92}
      shadow-camera-bottom={-92}
      shadow-camera-near={60}
      shadow-camera-far={360}
    />
  );
}
