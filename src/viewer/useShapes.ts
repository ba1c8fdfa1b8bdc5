/** Shapes of an axle's parts for as long as they are shown. */
import { useEffect, useMemo, useRef } from 'react';
import type { Axle, Build } from '../../geometry/build/build.ts';
import type { Part } from '../../geometry/gap/part.ts';
import type { PartShape } from './shapes/shape.ts';
import { disposeShapes, shapesOf } from './shapes/shapes.ts';

/** After a change only parts that look otherwise are drawn anew; what goes out of use is disposed. */
export function useShapes(build: Build, axle: Axle, parts: readonly Part[]): PartShape[] {
  const shown = useRef<readonly PartShape[]>([]);
  const shapes = useMemo(() => shapesOf(build, axle, parts, shown.current), [build, axle, parts]);
  useEffect(() => {
    disposeShapes(shown.current, shapes);
    shown.current = shapes;
  }, [shapes]);
  useEffect(
    () => () => {
      disposeShapes(shown.current);
      shown.current = [];
    },
    [],
  );
  return shapes;
}
