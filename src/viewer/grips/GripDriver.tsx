/** Writes where the grips and the arrows of the held one are, as frames are drawn. */
import { useFrame, useThree } from '@react-three/fiber';
import { type RefObject, useEffect, useImperativeHandle } from 'react';
import { type Camera, Vector3 } from 'three';
import { add, scale, sub, unit, type V3 } from '../../../geometry/vector.ts';
import { project, type Seen } from '../marks/project.ts';
import type { Placed } from '../placed.ts';
import type { Axes, Ray } from './dragged.ts';
import { axesNow, type GripMark, standing } from './grip.ts';

/** What the pointer of a drag needs of the picture. */
export interface Sight {
  /** From the eye through a place of the picture, px. */
  ray(x: number, y: number): Ray;
  /** Where a grip stands, and its axes; null where it is not in the picture. */
  stand(grip: GripMark): { at: V3; axes: Axes } | null;
}

export interface GripDriverProps {
  svg: RefObject<SVGSVGElement | null>;
  placed: Placed;
  grips: readonly GripMark[];
  sight: RefObject<Sight | null>;
}

/** Length of the longest arrow, px; a shorter one than the least is seen from its end. */
const ARROW_px = 58;
const LEAST_px = 24;
/** From the point to where an arrow begins, px. */
const RING_px = 17;

export function GripDriver({ svg, placed, grips, sight }: GripDriverProps) {
  const invalidate = useThree(state => state.invalidate);
  const camera = useThree(state => state.camera);
  const size = useThree(state => state.size);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a frame for each change of what is marked
  useEffect(() => invalidate(), [grips, invalidate]);

  useImperativeHandle(sight, () => ({
    ray: (x, y) => rayThrough(camera, (x / size.width) * 2 - 1, 1 - (y / size.height) * 2),
    stand: grip => {
      const at = standing(placed, grip, grip.at);
      return at && { at, axes: axesNow(placed.pose, grip) };
    },
  }));

  useFrame(() => {
    const groups = svg.current?.querySelectorAll<SVGGElement>('.grip');
    if (!groups) return;
    camera.updateMatrixWorld();
    for (let i = 0; i < grips.length; i++) {
      const grip = grips[i] as GripMark;
      const group = groups[i];
      const at = standing(placed, grip, grip.at);
      if (!group) continue;
      if (at) see(camera, size.width, size.height, at, here);
      const isShown = at !== null && here.isBefore;
      group.setAttribute('visibility', isShown ? 'visible' : 'hidden');
      if (!isShown || !at) continue;
      group.setAttribute('transform', `translate(${px(here.x)} ${px(here.y)})`);
      if (grip.state !== 'free') writeTrace(group, grip, at);
      if (grip.state === 'held') writeArrows(group, grip, at);
    }
  }, 0);

  /** A dashed line from where it was. */
  function writeTrace(group: SVGGElement, grip: GripMark, at: V3): void {
    const trace = group.querySelector('.grip-trace');
    const axes = axesNow(placed.pose, grip);
    const was = sub(at, inAxes(axes, grip.by));
    see(camera, size.width, size.height, was, there);
    trace?.setAttribute('d', `M0 0L${px(there.x - here.x)} ${px(there.y - here.y)}`);
  }

  function writeArrows(group: SVGGElement, grip: GripMark, at: V3): void {
    const axes = axesNow(placed.pose, grip);
    let longest = 0;
    for (let k = 0; k < 3; k++) {
      see(camera, size.width, size.height, add(at, axes[k as 0]), there);
      const [dx, dy] = [there.x - here.x, there.y - here.y];
      ways[2 * k] = dx;
      ways[2 * k + 1] = dy;
      longest = Math.max(longest, Math.hypot(dx, dy));
    }
    const arrows = group.querySelectorAll('.grip-arrow');
    for (let k = 0; k < 3; k++) {
      const arrow = arrows[k];
      const x = ((ways[2 * k] as number) / longest) * ARROW_px;
      const y = ((ways[2 * k + 1] as number) / longest) * ARROW_px;
      const length = Math.hypot(x, y);
      arrow?.setAttribute('visibility', length < LEAST_px ? 'hidden' : 'inherit');
      if (length < LEAST_px) continue;
      const turn = (Math.atan2(y, x) * 180) / Math.PI;
      arrow?.setAttribute('transform', `rotate(${px(turn)})`);
      const end = Math.max(RING_px + 14, length);
      for (const line of arrow?.querySelectorAll('.grip-shaft') ?? []) {
        line.setAttribute('d', `M${RING_px} 0H${px(end)}`);
      }
      arrow?.querySelector('.grip-head')?.setAttribute('transform', `translate(${px(end)} 0)`);
      const tag = group.querySelectorAll('.grip-tag')[k];
      const far = (end + 26) / length;
      tag?.setAttribute('transform', `translate(${px(x * far)} ${px(y * far)})`);
    }
  }
  return null;
}

const ways = new Float64Array(6);
const here: Seen = { x: 0, y: 0, isBefore: true };
const there: Seen = { x: 0, y: 0, isBefore: true };
const point = { x: 0, y: 0, z: 0 };
const px = (n: number): string => n.toFixed(1);

const inAxes = (axes: Axes, by: V3): V3 =>
  add(add(scale(axes[0], by[0]), scale(axes[1], by[1])), scale(axes[2], by[2]));

function see(camera: Camera, width: number, height: number, [x, y, z]: V3, to: Seen): void {
  point.x = x;
  point.y = y;
  point.z = z;
  project(camera, width, height, point, to);
}

/** @param x, y place in the picture, −1 to 1, up + */
function rayThrough(camera: Camera, x: number, y: number): Ray {
  const near = new Vector3(x, y, -1).unproject(camera);
  const far = new Vector3(x, y, 1).unproject(camera);
  const from: V3 = [near.x, near.y, near.z];
  return { from, way: unit(sub([far.x, far.y, far.z], from)) };
}
