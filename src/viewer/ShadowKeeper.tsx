import { useFrame, useThree } from '@react-three/fiber';
import { useEffect, useRef } from 'react';
import type { Placed } from './placed.ts';

export interface ShadowKeeperProps {
  isOn: boolean;
  placed: Placed;
  /** What else throws a shadow: it is drawn anew when this changes. */
  shown: unknown;
}

/** The shadow is drawn anew when something has moved or is shown otherwise, not when only the camera has moved. */
export function ShadowKeeper({ isOn, placed, shown }: ShadowKeeperProps) {
  const gl = useThree(state => state.gl);
  const seen = useRef(-1);
  // biome-ignore lint/correctness/useExhaustiveDependencies: each change of what is shown
  useEffect(() => {
    seen.current = -1;
  }, [shown, isOn]);
  useFrame(() => {
    if (!isOn || placed.version === seen.current) return;
    gl.shadowMap.needsUpdate = true;
    seen.current = placed.version;
  }, 0);
  return null;
}
