/** From vehicle axes to the picture. */
import { type Camera, Vector4 } from 'three';

const clip = new Vector4();

/** A point in the picture, px from its top left; `isBefore` false: behind the camera. */
export interface Seen {
  x: number;
  y: number;
  isBefore: boolean;
}

/** Writes where a point is seen. The camera's matrices are as they were last updated. */
export function project(
  camera: Camera,
  width: number,
  height: number,
  at: { x: number; y: number; z: number },
  out: Seen,
): void {
  clip.set(at.x, at.y, at.z, 1);
  clip.applyMatrix4(camera.matrixWorldInverse).applyMatrix4(camera.projectionMatrix);
  out.isBefore = clip.w > 1e-3;
  const w = out.isBefore ? clip.w : 1e-3;
  out.x = ((clip.x / w + 1) / 2) * width;
  out.y = ((1 - clip.y / w) / 2) * height;
}
