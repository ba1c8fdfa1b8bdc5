/** Another axle that this one is compared with: all that moves of it, seen through, in one dye. */
import { useThree } from '@react-three/fiber';
import { useEffect, useMemo } from 'react';
import type { Axle, Build } from '../../geometry/build/build.ts';
import type { Part } from '../../geometry/gap/part.ts';
import { AxleGraph } from './AxleGraph.tsx';
import { Materials, type Theme } from './looks.ts';
import { Placed, type PoseSource } from './placed.ts';
import { isFrame } from './showing.ts';
import { useShapes } from './useShapes.ts';

export interface Beside {
  build: Build;
  axle: Axle;
  parts: readonly Part[];
  poses: PoseSource;
  /** False where it does not reach the pose that is shown. */
  isThere: boolean;
}

export function OtherAxle(props: Beside & { theme: Theme }) {
  const { build, axle, parts, poses, isThere, theme } = props;
  const invalidate = useThree(state => state.invalidate);
  const moving = useMemo(() => parts.filter(part => !isFrame(part)), [parts]);
  const shapes = useShapes(build, axle, moving);
  // tread is too fine to be seen through
  const shown = useMemo(
    () => shapes.map(each => ({ ...each, shapes: each.shapes.filter(({ copies }) => !copies) })),
    [shapes],
  );
  const placed = useMemo(() => new Placed(moving), [moving]);
  const materials = useMemo(() => new Materials(theme, axle.origin[0]), [theme, axle]);
  useEffect(() => () => materials.dispose(), [materials]);
  const showings = useMemo(
    () => moving.map(() => (isThere ? ('beside' as const) : null)),
    [moving, isThere],
  );
  useEffect(() => {
    invalidate();
    return () => invalidate();
  }, [invalidate]);
  return (
    <AxleGraph
      shapes={shown}
      placed={placed}
      poses={poses}
      materials={materials}
      showings={showings}
    />
  );
}
