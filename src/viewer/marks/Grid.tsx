/** The dimension grid of straight-on views, behind the picture: lines, and numbers along its edges. */
import { useFrame } from '@react-three/fiber';
import { type RefObject, useRef } from 'react';
import { type PerspectiveCamera, Vector3 } from 'three';
import { gridOf } from './gridLines.ts';
import { project, type Seen } from './project.ts';

export interface GridProps {
  canvas: RefObject<HTMLCanvasElement | null>;
  /** X of the axle: lengths along the vehicle count from it, in. */
  middle: number;
  unit: 'in' | 'mm';
  isFine: boolean;
  theme: string;
}

/** Views at a wider angle than this are not straight on, deg. */
const STRAIGHT = 3;
const forward = new Vector3();
const probe = { x: 0, y: 0, z: 0 };
const a: Seen = { x: 0, y: 0, isBefore: true };
const b: Seen = { x: 0, y: 0, isBefore: true };

export function GridDriver({ canvas, middle, unit, isFine, theme }: GridProps) {
  const drawn = useRef('');
  useFrame(({ camera, size }) => {
    const on = canvas.current;
    if (!on) return;
    camera.updateMatrixWorld();
    camera.getWorldDirection(forward);
    const axis = (['x', 'y', 'z'] as const).find(each => Math.abs(forward[each]) > 0.9999);
    const isStraight = axis !== undefined && (camera as PerspectiveCamera).fov < STRAIGHT;
    let key = `none ${size.width} ${size.height}`;
    if (isStraight) {
      const across = axis === 'y' ? 'x' : 'y';
      const up = axis === 'z' ? 'x' : 'z';
      probe.x = middle;
      probe.y = 0;
      probe.z = 0;
      project(camera, size.width, size.height, probe, a);
      probe[across] += 100;
      project(camera, size.width, size.height, probe, b);
      const perInch = (b.x - a.x) / 100;
      key = [a.x, a.y, perInch, size.width, size.height, unit, isFine, theme, up].join(' ');
      if (key !== drawn.current) {
        draw(on, { x: a.x, y: a.y, perInch: Math.abs(perInch), unit, isFine, ...size });
      }
    } else if (key !== drawn.current) {
      on.width = 0;
      on.height = 0;
    }
    drawn.current = key;
  }, 0);
  return null;
}

interface Drawn {
  x: number;
  y: number;
  perInch: number;
  unit: 'in' | 'mm';
  isFine: boolean;
  width: number;
  height: number;
}

function draw(
  canvas: HTMLCanvasElement,
  { x, y, perInch, unit, isFine, width, height }: Drawn,
): void {
  const ratio = window.devicePixelRatio;
  canvas.width = Math.round(width * ratio);
  canvas.height = Math.round(height * ratio);
  const c = canvas.getContext('2d');
  if (!c) return;
  c.scale(ratio, ratio);
  const style = getComputedStyle(canvas);
  const color = (name: string): string => style.getPropertyValue(name);
  const grid = gridOf({ x, y, perInch, unit, isFine, width, height });
  c.lineWidth = 1;
  for (const line of grid.lines) {
    c.globalAlpha = line.weight === 'fine' ? 0.4 : 1;
    c.strokeStyle = color(line.weight === 'zero' ? '--edge' : '--line');
    c.beginPath();
    const at = Math.round(line.at) + 0.5;
    if (line.way === 'up') {
      c.moveTo(at, 0);
      c.lineTo(at, height);
    } else {
      c.moveTo(0, at);
      c.lineTo(width, at);
    }
    c.stroke();
  }
  c.globalAlpha = 1;
  c.font = `600 13px Archivo, system-ui, sans-serif`;
  c.fillStyle = color('--ink3');
  c.strokeStyle = color('--page');
  c.lineWidth = 4;
  c.lineJoin = 'round';
  for (const { text, way, at } of grid.numbers) {
    c.textAlign = way === 'up' ? 'center' : 'right';
    c.textBaseline = way === 'up' ? 'alphabetic' : 'middle';
    const [tx, ty] = way === 'up' ? [at, height - 8] : [width - 8, at];
    c.strokeText(text, tx, ty);
    c.fillText(text, tx, ty);
  }
}
