import { useFrame, useThree } from '@react-three/fiber';
import { useEffect, useRef } from 'react';

/** The shadow is drawn anew when something has moved, not when only the camera has. */
export function ShadowKeeper({ isOn, version }: { isOn: boolean; version: () => number }) {
  const gl = useThree(state => state.gl);
  const seen = useRef(-1);
  const wasOn = useRef(false);
  useEffect(() => {
    gl.shadowMap.autoUpdate = false;
  }, [gl]);
  useFrame(() => {
    const now = version();
    if (!isOn) wasOn.current = false;
    else if (now !== seen.current || !wasOn.current) {
      gl.shadowMap.needsUpdate = true;
      seen.current = now;
      wasOn.current = true;
    }
  }, 0);
  return null;
}
