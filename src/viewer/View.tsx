/**
 * The 3D view. It is a function of results: the build and its parts, a source of poses, and how it is to be looked
 * at. Drawn when something has changed, not all the time.
 */
import { Canvas, useThree } from '@react-three/fiber';
import { type RefObject, useEffect, useMemo, useRef, useState } from 'react';
import { NeutralToneMapping, VSMShadowMap } from 'three';
import type { Axle, Build } from '../../geometry/build/build.ts';
import type { Pair } from '../../geometry/gap/pairs.ts';
import type { Part } from '../../geometry/gap/part.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import { AxleGraph } from './AxleGraph.tsx';
import { type CameraHandle, Cameraman } from './Cameraman.tsx';
import type { Framing } from './framing.ts';
import { GripDriver, type Sight } from './grips/GripDriver.tsx';
import { type GripHand, Grips } from './grips/Grips.tsx';
import type { GripMark } from './grips/grip.ts';
import { Materials, type Showing, type Theme } from './looks.ts';
import type { ConstructionLine } from './marks/construction.ts';
import { GridDriver } from './marks/Grid.tsx';
import type { Label } from './marks/labels.ts';
import { MarkDriver, type MarkDriverProps } from './marks/MarkDriver.tsx';
import { Marks } from './marks/Marks.tsx';
import { type Spot, Spots } from './marks/spots.ts';
import { type Beside, OtherAxle } from './OtherAxle.tsx';
import { PaperPicture } from './PaperPicture.tsx';
import { Placed, type PoseSource } from './placed.ts';
import { type Quality, useQuality } from './quality.ts';
import { RideGhost } from './RideGhost.tsx';
import { ShadowKeeper } from './ShadowKeeper.tsx';
import { Stands } from './Stands.tsx';
import { Surroundings } from './Surroundings.tsx';
import { type Sweep, Sweeps } from './Sweeps.tsx';
import { askGraphics } from './software.ts';
import { standPoints } from './standPoints.ts';
import { TouchMarker } from './TouchMarker.tsx';
import { type Trail, Trails } from './Trails.tsx';
import { useShapes } from './useShapes.ts';

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
  /** False in straight-on views: floor and stands would only hide what is measured. */
  hasFloor: boolean;
  /** The pose at ride height, where its ghost is to be shown. */
  ride: Pose | null;
  /** Another axle to be seen through this one. */
  beside: Beside | null;
  trails: readonly Trail[];
  sweeps: readonly Sweep[];
  labels: readonly Label[];
  lines: readonly ConstructionLine[];
  /** Pairs whose nearest points are marked. */
  pairs: readonly Pair[];
  /** Index among them of the chosen finding's pair, or −1. */
  chosenPair: number;
  words: MarkDriverProps['words'];
  section: MarkDriverProps['section'];
  /** Points of the chosen part that a hand can take. */
  grips: readonly GripMark[];
  hand: GripHand;
  /** A moved amount as it is written. */
  moved: (inches: number) => string;
  camera: RefObject<CameraHandle | null>;
  onPick: (name: string | null) => void;
  onTaken: () => void;
  /** Told of the size of the picture, px. */
  onSize: (width: number, height: number) => void;
}

/** @throws where there is no WebGL: to be caught by who shows it */
export function View(props: ViewProps) {
  const [graphics] = useState(askGraphics);
  if (!graphics) throw new Error('no WebGL');
  const quality = useQuality(graphics.isSoftware);
  const { pairs, chosenPair, labels, lines, parts } = props;
  const svg = useRef<SVGSVGElement>(null);
  const grid = useRef<HTMLCanvasElement>(null);
  const gripsSvg = useRef<SVGSVGElement>(null);
  const sight = useRef<Sight>(null);
  const spots = useMemo(() => new Spots(pairs), [pairs]);
  const chosen = spots.spots[chosenPair] ?? null;
  const placed = useMemo(() => new Placed(parts), [parts]);
  return (
    <>
      <div className="view-grid" aria-hidden="true">
        <canvas ref={grid} />
      </div>
      <Canvas
        frameloop="demand"
        shadows={{ type: VSMShadowMap }}
        gl={{ antialias: !graphics.isSoftware, alpha: true, toneMapping: NeutralToneMapping }}
        camera={{ up: [0, 0, 1], position: [250, -78, 112], fov: 17, near: 1, far: 900 }}
        dpr={quality.ratio}
        onCreated={({ gl }) => {
          // the first frame comes without a shadow, and no frame waits to hear that its shaders are right
          gl.shadowMap.autoUpdate = false;
          gl.shadowMap.needsUpdate = false;
          gl.debug.checkShaderErrors = import.meta.env.DEV;
        }}
        onPointerMissed={event => {
          if (event.type === 'click') props.onPick(null);
        }}
      >
        <Within {...props} quality={quality} placed={placed} spots={spots} chosen={chosen} />
        <MarkDriver
          svg={svg}
          placed={placed}
          labels={labels}
          spots={spots}
          chosen={chosen}
          lines={lines}
          words={props.words}
          section={props.section}
        />
        <PaperPicture marks={svg} />
        <GripDriver svg={gripsSvg} placed={placed} grips={props.grips} sight={sight} />
        <GridDriver
          canvas={grid}
          middle={props.axle.origin[0]}
          unit={props.unit}
          isFine={props.isFine}
          theme={props.theme}
        />
      </Canvas>
      <Marks svg={svg} labels={labels} spots={spots.spots} chosen={chosen} lines={lines} />
      {props.grips.length > 0 && (
        <Grips
          svg={gripsSvg}
          grips={props.grips}
          sight={sight}
          hand={props.hand}
          words={props.moved}
        />
      )}
    </>
  );
}

interface WithinProps extends ViewProps {
  quality: Quality;
  placed: Placed;
  spots: Spots;
  chosen: Spot | null;
}

function Within(props: WithinProps) {
  const { build, axle, parts, poses, theme, framing, onSize, placed, spots } = props;
  const { stir, hasShadow } = props.quality;
  const shapes = useShapes(build, axle, parts);
  const middle = axle.origin[0];
  const materials = useMemo(() => new Materials(theme, middle), [theme, middle]);
  useEffect(() => () => materials.dispose(), [materials]);
  const { width, height } = useThree(state => state.size);
  useEffect(() => onSize(width, height), [onSize, width, height]);
  const [touching, setTouching] = useState<string | null>(null);
  const showings = useMemo(
    () =>
      props.showings.map((showing, i) =>
        showing !== null && parts[i]?.name === touching ? 'touch' : showing,
      ),
    [props.showings, parts, touching],
  );
  const under = useMemo(() => standPoints(axle, parts), [axle, parts]);

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
      <ShadowKeeper isOn={hasShadow} placed={placed} shown={showings} />
      <AxleGraph
        shapes={shapes}
        placed={placed}
        poses={poses}
        materials={materials}
        showings={showings}
        onPick={props.onPick}
        onMoved={stir}
      />
      {props.hasFloor && under.length > 0 && (
        <Stands under={under} floor={props.floor} materials={materials} />
      )}
      <TouchMarker
        spots={spots}
        chosen={props.chosen}
        placed={placed}
        theme={theme}
        onTouching={setTouching}
      />
      {props.ride && <RideGhost shapes={shapes} ride={props.ride} materials={materials} />}
      {props.beside && <OtherAxle {...props.beside} theme={theme} />}
      <Sweeps sweeps={props.sweeps} theme={theme} />
      <Trails trails={props.trails} theme={theme} />
      {framing && (
        <Cameraman
          framing={framing}
          count={props.framingCount}
          isQuick={props.isQuick}
          handle={props.camera}
          onStir={stir}
          onTaken={props.onTaken}
        />
      )}
    </>
  );
}
