/** Holds the camera: moves it to framings, lets it be turned, moved and zoomed by mouse, finger and keys. */
import { OrbitControls } from '@react-three/drei/core/OrbitControls';
import { useFrame, useThree } from '@react-three/fiber';
import { type RefObject, useEffect, useImperativeHandle, useLayoutEffect, useRef } from 'react';
import { type PerspectiveCamera, Vector3 } from 'three';
import type { OrbitControls as Orbit } from 'three-stdlib';
import { add, norm, scale, sub, unit, type V3 } from '../../geometry/vector.ts';
import { axesOf, between, distanceOf, easeOut, type Framing } from './framing.ts';

/** What keys do to the camera. */
export interface CameraHandle {
  /** Turns it, rad. */
  orbit(aside: number, up: number): void;
  /** Moves it, shares of the picture's height. */
  pan(right: number, up: number): void;
  zoom(by: number): void;
}

export interface CameramanProps {
  framing: Framing;
  /** Grows with each framing that is to be gone to; else a new framing is taken at once. */
  count: number;
  isQuick: boolean;
  handle: RefObject<CameraHandle | null>;
  /** Called whenever it moves. */
  onStir: () => void;
  /** Called when a hand takes it. */
  onTaken: () => void;
}

const EASE_ms = 160;

export function Cameraman({ framing, count, isQuick, handle, onStir, onTaken }: CameramanProps) {
  const { camera, invalidate, size } = useThree();
  const orbit = useRef<Orbit>(null);
  const shift = useRef<readonly [number, number]>([0, 0]);
  const move = useRef<{ from: Framing; to: Framing; since: number } | null>(null);
  const shown = useRef(-1);
  const isTaken = useRef(false);
  const lens = camera as PerspectiveCamera;

  const stand = (at: Framing): void => {
    const away = distanceOf(at);
    lens.fov = at.fov;
    lens.near = Math.max(1, away - 420);
    lens.far = away + 520;
    shift.current = at.shift;
    lens.setViewOffset(
      size.width,
      size.height,
      -at.shift[0],
      -at.shift[1],
      size.width,
      size.height,
    );
    lens.position.set(...add(at.target, scale(at.direction, away)));
    const controls = orbit.current;
    if (controls) {
      controls.target.set(...at.target);
      controls.minDistance = away * 0.06;
      controls.maxDistance = away * 3;
      controls.update();
    } else lens.lookAt(...at.target);
    lens.updateProjectionMatrix();
  };

  const standing = (): Framing => {
    const target = orbit.current?.target ?? new Vector3();
    const from = sub([...lens.position] as unknown as V3, [...target] as unknown as V3);
    const away = norm(from);
    return {
      target: [target.x, target.y, target.z],
      direction: unit(from),
      height: 2 * away * Math.tan((lens.fov * Math.PI) / 360),
      fov: lens.fov,
      shift: shift.current,
    };
  };

  // a hand that holds the camera keeps it where a new framing comes without being asked for
  // biome-ignore lint/correctness/useExhaustiveDependencies: only a framing or another size of the picture
  useLayoutEffect(() => {
    const isAsked = shown.current !== count;
    if (!isAsked && isTaken.current) {
      stand(standing());
      return;
    }
    isTaken.current = false;
    if (isAsked && shown.current !== -1 && !isQuick) {
      move.current = { from: standing(), to: framing, since: -1 };
    } else {
      move.current = null;
      stand(framing);
    }
    shown.current = count;
    onStir();
    invalidate();
  }, [framing, count, size]);

  useFrame(() => {
    const going = move.current;
    if (!going) return;
    const now = performance.now();
    if (going.since < 0) going.since = now;
    const t = Math.min(1, (now - going.since) / EASE_ms);
    stand(between(going.from, going.to, easeOut(t)));
    if (t >= 1) move.current = null;
    onStir();
    invalidate();
  }, -2);

  useEffect(() => {
    const controls = orbit.current;
    if (!controls) return;
    const start = (): void => {
      move.current = null;
      isTaken.current = true;
    };
    const changed = (): void => {
      if (move.current === null) onStir();
    };
    let from = '';
    const began = (): void => {
      start();
      from = lens.position.toArray().join();
    };
    const end = (): void => {
      if (lens.position.toArray().join() !== from) onTaken();
    };
    controls.addEventListener('start', began);
    controls.addEventListener('change', changed);
    controls.addEventListener('end', end);
    return () => {
      controls.removeEventListener('start', began);
      controls.removeEventListener('change', changed);
      controls.removeEventListener('end', end);
    };
  }, [lens, onStir, onTaken]);

  useImperativeHandle(handle, () => {
    const to = (at: Framing): void => {
      move.current = null;
      isTaken.current = true;
      const limits = orbit.current && [orbit.current.minDistance, orbit.current.maxDistance];
      stand(at);
      if (orbit.current && limits) {
        orbit.current.minDistance = limits[0] as number;
        orbit.current.maxDistance = limits[1] as number;
      }
      onStir();
      onTaken();
      invalidate();
    };
    return {
      orbit(aside, up) {
        const at = standing();
        const azimuth = Math.atan2(at.direction[1], at.direction[0]) + aside;
        const high = Math.min(1.569, Math.max(-1.569, Math.asin(at.direction[2]) + up));
        const flat = Math.cos(high);
        const direction: V3 = [flat * Math.cos(azimuth), flat * Math.sin(azimuth), Math.sin(high)];
        to({ ...at, direction });
      },
      pan(right, up) {
        const at = standing();
        const axes = axesOf(at.direction);
        const by = add(scale(axes.right, right * at.height), scale(axes.up, up * at.height));
        to({ ...at, target: add(at.target, by) });
      },
      zoom(by) {
        const at = standing();
        to({ ...at, height: at.height / by });
      },
    };
  });

  return (
    <OrbitControls
      ref={orbit}
      makeDefault
      enableDamping={false}
      rotateSpeed={0.7}
      zoomSpeed={0.8}
    />
  );
}
