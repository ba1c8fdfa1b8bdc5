/** What keys do to the view while it has the focus. */
import type { CameraHandle } from '../../viewer/Cameraman.tsx';

const TURN = Math.PI / 24;
const MOVE = 0.05;
const ZOOM = 1.15;

/** Does what a key says; false where it says nothing here. */
export function cameraKey(
  {
    key,
    shiftKey,
    ctrlKey,
    metaKey,
    altKey,
  }: Pick<KeyboardEvent, 'key' | 'shiftKey' | 'ctrlKey' | 'metaKey' | 'altKey'>,
  camera: CameraHandle,
): boolean {
  if (ctrlKey || metaKey || altKey) return false;
  const arrow = (
    { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] } as const
  )[key as 'ArrowLeft'] as readonly [number, number] | undefined;
  if (arrow) {
    const [right, up] = arrow;
    if (shiftKey) camera.pan(right * MOVE, up * MOVE);
    else camera.orbit(right * TURN, up * TURN);
    return true;
  }
  if (key === '+' || key === '=') camera.zoom(ZOOM);
  else if (key === '-' || key === '_') camera.zoom(1 / ZOOM);
  else return false;
  return true;
}
