import { PerspectiveCamera } from 'three';
import { describe, expect, it } from 'vitest';
import { add, dot, norm, scale, type V3 } from '../../geometry/vector.ts';
import {
  axesOf,
  between,
  corners,
  directionOf,
  distanceOf,
  type Framing,
  fit as frameBox,
} from '../../src/viewer/framing.ts';
import { project, type Seen } from '../../src/viewer/marks/project.ts';

const SIZE = { width: 1000, height: 430 };
const FREE = { left: 330, top: 10, right: 860, bottom: 410 };
const BOX = corners([-20, -42, -10], [20, 42, 48]);

/** A camera of the general-purpose library, stood as the page stands it. */
function cameraOf(at: Framing): PerspectiveCamera {
  const camera = new PerspectiveCamera(at.fov, SIZE.width / SIZE.height, 1, 1e5);
  camera.up.set(0, 0, 1);
  camera.position.set(...add(at.target, scale(at.direction, distanceOf(at))));
  camera.lookAt(...at.target);
  const [x, y] = at.shift;
  camera.setViewOffset(SIZE.width, SIZE.height, -x, -y, SIZE.width, SIZE.height);
  camera.updateMatrixWorld();
  return camera;
}

function seen(camera: PerspectiveCamera, [x, y, z]: V3): Seen {
  const out: Seen = { x: 0, y: 0, isBefore: false };
  project(camera, SIZE.width, SIZE.height, { x, y, z }, out);
  return out;
}

describe.each(['corner', 'front', 'side', 'top'] as const)('the %s view', view => {
  it('keeps all that is framed in the free rectangle, and fills it one way', () => {
    const direction = directionOf(view, 'front', 'left');
    const framing = frameBox(BOX, [0, 0, 14], direction, view === 'corner' ? 17 : 1.2, SIZE, FREE);
    const camera = cameraOf(framing);
    const points = BOX.map(point => seen(camera, point));
    const [xs, ys] = [points.map(({ x }) => x), points.map(({ y }) => y)];
    expect(Math.min(...xs)).toBeGreaterThan(FREE.left - 1);
    expect(Math.max(...xs)).toBeLessThan(FREE.right + 1);
    expect(Math.min(...ys)).toBeGreaterThan(FREE.top - 1);
    expect(Math.max(...ys)).toBeLessThan(FREE.bottom + 1);
    const filled = Math.max(
      (Math.max(...xs) - Math.min(...xs)) / (FREE.right - FREE.left),
      (Math.max(...ys) - Math.min(...ys)) / (FREE.bottom - FREE.top),
    );
    // FILL, in the perspective that its last round came to
    expect(filled).toBeCloseTo(0.97, 2);
  });
});

describe('directions', () => {
  it('shows the driver on the right from the front corner, on the left from behind and from above', () => {
    const left: V3 = [0, 30, 20];
    expect(dot(axesOf(directionOf('corner', 'front', 'left')).right, left)).toBeGreaterThan(0);
    expect(dot(axesOf(directionOf('front', 'front', 'left')).right, left)).toBeLessThan(0);
    expect(dot(axesOf(directionOf('top', 'front', 'left')).right, left)).toBeCloseTo(-30, 6);
  });

  it('has forward up in the view from above', () => {
    const { up } = axesOf(directionOf('top', 'front', 'left'));
    expect(up[0]).toBeCloseTo(1, 6);
  });
});

describe('between two framings', () => {
  const a = frameBox(BOX, [0, 0, 14], directionOf('corner', 'front', 'left'), 17, SIZE, FREE);
  const b = frameBox(BOX, [0, 0, 20], directionOf('front', 'front', 'left'), 1.2, SIZE, FREE);

  it('begins at the one and ends at the other', () => {
    for (const [t, end] of [
      [0, a],
      [1, b],
    ] as const) {
      const at = between(a, b, t);
      expect(at.height).toBeCloseTo(end.height, 9);
      expect(at.fov).toBeCloseTo(end.fov, 9);
      expect(norm(at.direction)).toBeCloseTo(1, 12);
      expect(dot(at.direction, end.direction)).toBeCloseTo(1, 9);
    }
  });

  it('goes over the top between opposite directions', () => {
    const back = { ...b, direction: scale(b.direction, -1) };
    expect(between(b, back, 0.5).direction[2]).toBeGreaterThan(0.9);
  });
});
