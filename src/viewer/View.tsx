/**
 * The 3D view. It is a function of results: the build and its parts, a source of poses, and how it is to be looked
 * at. Drawn when something has changed, not all the time.
 */
import { Canvas, useThree } from '@react-three/fiber';
import { type ReactNode, useEffect, useMemo, useRef, useState } from 'react';
import { NeutralToneMapping, VSMShadowMap } from 'three';
import type { Axle, Build } from '../../geometry/build/build.ts';
import type { Part } from '../../geometry/gap/part.ts';
import { AxleGraph } from './AxleGraph.tsx';
import { type CameraHandle, Cameraman } from './Cameraman.tsx';
import type { Framing } from './framing.ts';
import { Materials, type Showing, type Theme } from './looks.ts';
import { Placed, type PoseSource } from './placed.ts';
import { useQuality } from './quality.ts';
import { ShadowKeeper } from './ShadowKeeper.tsx';
import { Surroundings } from './Surroundings.tsx';
import { disposeShapes, shapesOf } from './shapes/shapes.ts';
import { askGraphics } from './software.ts';

export interface ViewProps {
  build: Build;
  axle: Axle;
  parts: readonly Part[];
  poses: PoseSource;
  theme: Theme;
  unit: 'in' | 'mm';
  /** Height of the floor, in. */
  floor: number;
  showings: readonly (Showing | null)[];
  framing: Framing | null;
  framingCount: number;
  isQuick: boolean;
  isFine: boolean;
  hasFloor: boolean;
  onPick: (name: string | null) => void;
  onTaken: () => void;
  /** Told of the size of the picture, px. */
  onSize: (width: number, height: number) => void;
  children?: ReactNode;
}

export function View(props: ViewProps) {
  const [graphics] = useState(askGraphics);
  if (!graphics) throw new Error('no WebGL');
  return (
    <Canvas
      className="view"
      frameloop="demand"
      shadows={{ type: VSMShadowMap }}
      gl={{ antialias: !graphics.isSoftware, alpha: true, toneMapping: NeutralToneMapping }}
      camera={{ up: [0, 0, 1], position: [250, -78, 112], fov: 17, near: 1, far: 900 }}
      dpr={graphics.isSoftware ? 0.7 : 1}
      onPointerMissed={event => {
        if (event.type === 'click') props.onPick(null);
      }}
    >
      <Within {...props} isSoftware={graphics.isSoftware} />
    </Canvas>
  );
}

function Within(props: ViewProps & { isSoftware: boolean }) {
  const { build, axle, parts, poses, theme, showings, framing, isSoftware, onSize } = props;
  const { stir, hasShadow } = useQuality(isSoftware);
  const shapes = useMemo(() => shapesOf(build, axle, parts), [build, axle, parts]);
  useEffect(() => () => disposeShapes(shapes), [shapes]);
  const placed = useMemo(() => new Placed(parts), [parts]);
  const middle = axle.origin[0];
  const materials = useMemo(() => new Materials(theme, middle), [theme, middle]);
  useEffect(() => () => materials.dispose(), [materials]);
  const handle = useRef<CameraHandle>(null);
  const { width, height } = useThree(state => state.size);
  useEffect(() => onSize(width, height), [onSize, width, height]);

  return (
    <>
      <Surroundings
        theme={theme}
        middle={middle}
        floor={props.floor}
        way={axle.name === 'front' ? 1 : -1}
        unit={props.unit}
        isFine={props.isFine}
        hasShadow={hasShadow}
        hasFloor={props.hasFloor}
      />
      <ShadowKeeper isOn={hasShadow} version={() => placed.version} />
      <AxleGraph
        shapes={shapes}
        placed={placed}
        poses={poses}
        materials={materials}
        showings={showings}
        onPick={props.onPick}
        onMoved={stir}
      />
      {framing && (
        <Cameraman
          framing={framing}
          count={props.framingCount}
          isQuick={props.isQuick}
          handle={handle}
          onStir={stir}
          onTaken={props.onTaken}
        />
      )}
      {props.children}
    </>
  );
}

export default View;
