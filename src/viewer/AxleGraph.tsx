/**
 * The parts of an axle as a scene graph: one group a part, named as it is, moved by the poses. Lights, floor and
 * camera are not in it, so that it can be tested without a picture.
 */
import { type ThreeEvent, useFrame, useThree } from '@react-three/fiber';
import { memo, useEffect, useLayoutEffect, useMemo, useRef } from 'react';
import { EdgesGeometry, type Group, type InstancedMesh, type Material, type Mesh } from 'three';
import { norm, scale, sub, type V3 } from '../../geometry/vector.ts';
import { colorCopies } from './copies.ts';
import type { Materials, Showing } from './looks.ts';
import { type Placed, type PoseSource, toHeld, toMatrix } from './placed.ts';
import type { PartShape, Shape } from './shapes/shape.ts';

export interface AxleGraphProps {
  shapes: readonly PartShape[];
  placed: Placed;
  poses: PoseSource;
  materials: Materials;
  /** How each part is shown, in their order; null: not at all. */
  showings: readonly (Showing | null)[];
  /** Told which part was pressed. */
  onPick?: (name: string) => void;
  /** Called after the parts have been moved. */
  onMoved?: () => void;
}

export function AxleGraph(props: AxleGraphProps) {
  const { shapes, placed, poses, materials, showings, onPick, onMoved } = props;
  const invalidate = useThree(state => state.invalidate);
  const movers = useMovers(shapes);
  const isStale = useRef(true);
  const moved = useRef(onMoved);
  moved.current = onMoved;

  useLayoutEffect(() => {
    const move = (): void => {
      placed.stand(poses.pose());
      for (let i = 0; i < movers.length; i++) movers[i]?.move(placed.places[i] as Float64Array);
      isStale.current = false;
      moved.current?.();
    };
    move();
    invalidate();
    moveNow.current = move;
    return poses.subscribe(() => {
      isStale.current = true;
      invalidate();
    });
  }, [movers, placed, poses, invalidate]);

  const moveNow = useRef<() => void>(() => undefined);
  useFrame(() => {
    if (isStale.current) moveNow.current();
  }, -1);

  return (
    <group name="axle">
      {shapes.map((shape, i) => (
        <PartView
          key={shape.part.name}
          shape={shape}
          mover={movers[i] as Mover}
          materials={materials}
          showing={showings[i] ?? null}
          onPick={onPick}
        />
      ))}
    </group>
  );
}

/** One for each part; a part that is drawn as before keeps its own, and is not gone through again. */
function useMovers(shapes: readonly PartShape[]): readonly Mover[] {
  const known = useRef<ReadonlyMap<PartShape, Mover>>(new Map());
  const movers = useMemo(() => {
    const moverOf = (shape: PartShape) => known.current.get(shape) ?? new Mover(shape.part.motion);
    return new Map(shapes.map(shape => [shape, moverOf(shape)]));
  }, [shapes]);
  useLayoutEffect(() => {
    known.current = movers;
  }, [movers]);
  return useMemo(() => [...movers.values()], [movers]);
}

/** Moves the groups of one part: all of it, and what keeps its length at either end. */
class Mover {
  readonly all: { current: Group | null } = { current: null };
  readonly held: readonly [{ current: Group | null }, { current: Group | null }] = [
    { current: null },
    { current: null },
  ];
  readonly winds: ((length: number) => void)[] = [];
  readonly #ends: readonly [V3, V3] | null;
  readonly #line: V3;
  readonly #length: number;

  constructor(motion: PartShape['part']['motion']) {
    this.#ends = motion.kind === 'ends' ? [motion.from.at, motion.to.at] : null;
    const line = this.#ends ? sub(this.#ends[1], this.#ends[0]) : ([0, 0, 1] as const);
    this.#length = norm(line);
    this.#line = scale(line, 1 / this.#length);
  }

  move(place: Float64Array): void {
    const group = this.all.current;
    if (group) {
      toMatrix(place, group.matrix.elements);
      group.matrixWorldNeedsUpdate = true;
    }
    if (!this.#ends) return;
    const stretch = this.#stretch(place);
    for (let end = 0; end < 2; end++) {
      const held = this.held[end]?.current;
      if (!held) continue;
      toHeld(place, this.#line, stretch, this.#ends[end] as V3, held.matrix.elements);
      held.matrixWorldNeedsUpdate = true;
    }
    for (let k = 0; k < this.winds.length; k++) this.winds[k]?.(stretch * this.#length);
  }

  #stretch(place: Float64Array): number {
    let square = 0;
    for (let row = 0; row < 3; row++) {
      const along =
        (place[3 * row] as number) * this.#line[0] +
        (place[3 * row + 1] as number) * this.#line[1] +
        (place[3 * row + 2] as number) * this.#line[2];
      square += along * along;
    }
    return Math.sqrt(square);
  }
}

interface PartViewProps {
  shape: PartShape;
  mover: Mover;
  materials: Materials;
  showing: Showing | null;
  onPick: ((name: string) => void) | undefined;
}

/** A press that moved further was a drag, px. */
const STILL_px = 5;

const PartView = memo(function PartView({
  shape,
  mover,
  materials,
  showing,
  onPick,
}: PartViewProps) {
  const { part, shapes } = shape;
  useLayoutEffect(() => {
    const winds = shapes.flatMap(({ wind }) => (wind ? [wind] : []));
    mover.winds.push(...winds);
    return () => {
      mover.winds.length = 0;
    };
  }, [mover, shapes]);
  const invalidate = useThree(state => state.invalidate);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a frame for each change of how it is shown
  useEffect(() => invalidate(), [showing, materials, invalidate]);

  const pick = (event: ThreeEvent<MouseEvent>): void => {
    if (event.delta > STILL_px) return;
    // through the frame what lies behind it is meant
    const isBehind = ({ eventObject }: ThreeEvent<MouseEvent>['intersections'][number]): boolean =>
      eventObject.userData.isSolid === true;
    if (showing === 'frame' && event.intersections.some(isBehind)) return;
    event.stopPropagation();
    onPick?.(part.name);
  };
  // what is seen through does not stand in the way of a press
  const isSolid = showing !== 'ghost' && showing !== 'faint' && showing !== 'ride';
  const view = (each: Shape) => (
    <ShapeView
      key={each.geometry.id}
      shape={each}
      materials={materials}
      showing={showing ?? 'solid'}
    />
  );
  return (
    <group
      name={part.name}
      userData={{ isSolid: isSolid && showing !== 'frame' && showing !== null }}
      visible={showing !== null}
      {...(onPick && isSolid && showing !== null ? { onClick: pick } : {})}
    >
      <group ref={mover.all} name="placed" matrixAutoUpdate={false}>
        {part.joints.map(joint => (
          <group key={joint.name} name={joint.name} position={[...joint.at]} />
        ))}
        {shapes.filter(each => each.hold === undefined).map(view)}
      </group>
      {([0, 1] as const).map(end => {
        const own = shapes.filter(each => each.hold === end);
        return own.length === 0 ? null : (
          <group key={end} ref={mover.held[end]} name={`held ${end}`} matrixAutoUpdate={false}>
            {own.map(view)}
          </group>
        );
      })}
    </group>
  );
});

interface ShapeViewProps {
  shape: Shape;
  materials: Materials;
  showing: Showing;
}

function ShapeView({ shape, materials, showing }: ShapeViewProps) {
  const { geometry, look, copies, wind } = shape;
  const isSeenThrough = showing === 'frame' || showing === 'faint';
  const casts =
    showing === 'solid' || showing === 'touch' || showing === 'chosen' || showing === 'frame';
  const material = materials.of(look, showing);
  if (copies) {
    return <Copies {...{ geometry, material, copies, casts, look }} theme={materials.theme} />;
  }
  return (
    <>
      {showing === 'frame' && (
        <mesh geometry={geometry} material={materials.depth} renderOrder={1} />
      )}
      <mesh
        name={`look ${look}`}
        geometry={geometry}
        material={material}
        castShadow={casts}
        frustumCulled={!wind}
        renderOrder={
          showing === 'frame'
            ? 2
            : showing === 'faint'
              ? 4
              : showing === 'ride' || showing === 'beside'
                ? 3
                : 0
        }
      />
      {isSeenThrough && <Edges geometry={geometry} material={materials.edges[showing]} />}
    </>
  );
}

function Edges({ geometry, material }: { geometry: Mesh['geometry']; material: Material }) {
  const edges = useMemo(() => new EdgesGeometry(geometry, 34), [geometry]);
  useEffect(() => () => edges.dispose(), [edges]);
  return <lineSegments geometry={edges} material={material} renderOrder={3} />;
}

interface CopiesProps {
  geometry: Mesh['geometry'];
  material: Material;
  copies: Float32Array;
  casts: boolean;
  look: Shape['look'];
  theme: Materials['theme'];
}

/** The same geometry many times; each copy has its own color, so that single ones can be marked. */
function Copies({ geometry, material, copies, casts, look, theme }: CopiesProps) {
  const mesh = useRef<InstancedMesh>(null);
  const count = copies.length / 16;
  useLayoutEffect(() => {
    const { current } = mesh;
    if (!current) return;
    current.instanceMatrix.array.set(copies);
    current.instanceMatrix.needsUpdate = true;
    current.computeBoundingSphere();
    colorCopies(current, look, theme);
    return () => {
      // fiber disposes geometry and material only where it made them; the copies' buffers are the mesh's own
      current.dispose();
    };
  }, [copies, look, theme]);
  return (
    <instancedMesh
      ref={mesh}
      name={`look ${look}`}
      args={[geometry, material, count]}
      material={material}
      castShadow={casts}
      dispose={null}
    />
  );
}
