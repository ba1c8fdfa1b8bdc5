/** The steel rule that lies on the floor, drawn into a canvas: ticks and numbers counted from its middle. */
import { type Theme, TONES } from './looks.ts';

export interface RuleLooks {
  theme: Theme;
  unit: 'in' | 'mm';
  /** In. */
  length: number;
}

/** Pixels an inch: sharp enough where it is nearest. */
const DENSITY = 16;

/** False where there is no 2D canvas. */
export function drawRule(canvas: HTMLCanvasElement, { theme, unit, length }: RuleLooks): boolean {
  canvas.width = length * DENSITY;
  canvas.height = 7 * DENSITY;
  const c = canvas.getContext('2d');
  if (!c) return false;
  const { ink } = TONES[theme];
  const [w, h] = [canvas.width, canvas.height];
  c.fillStyle = theme === 'light' ? 'rgb(255 255 255 / 0.92)' : 'rgb(42 48 51 / 0.92)';
  c.fillRect(0, 0, w, h);
  c.fillStyle = ink;
  c.fillRect(0, 0, w, 3);
  const [small, middle, large] = unit === 'in' ? [1, 6, 12] : [20 / 25.4, 100 / 25.4, 200 / 25.4];
  const half = w / 2;
  c.textAlign = 'center';
  c.textBaseline = 'alphabetic';
  c.font = `600 ${2.9 * DENSITY}px Archivo, system-ui, sans-serif`;
  const count = Math.floor(length / 2 / small);
  for (let k = -count; k <= count; k++) {
    const at = k * small;
    const isLarge = isMultiple(at, large);
    const isMiddle = isMultiple(at, middle);
    const tall = isLarge ? 2.5 : isMiddle ? 1.9 : 1.1;
    c.fillRect(half + at * DENSITY - (isLarge ? 2 : 1.5), 0, isLarge ? 4 : 3, tall * DENSITY);
    const room = Math.abs(half + at * DENSITY - half) < half - 2 * DENSITY;
    if (!isLarge || !room) continue;
    const number = unit === 'in' ? Math.abs(at) : Math.abs(at * 25.4);
    c.fillText(String(Math.round(number)), half + at * DENSITY, h - 1.2 * DENSITY);
  }
  return true;
}

function isMultiple(value: number, of: number): boolean {
  const share = value / of;
  return Math.abs(share - Math.round(share)) < 1e-6;
}
