/** The ranges of two builds over each other, as a picture for a page: A solid in ink, B dashed. */
import type { EdgePoint } from '../../geometry/cycle/edge.ts';
import { escaped } from './html.ts';

const SIZE = 300;
const LEFT = 34;
const BELOW = 34;

interface Labels {
  across: string;
  up: string;
  unit: 'in' | 'mm';
}

/** Empty where neither has a range. */
export function rangePicture(
  a: readonly EdgePoint[],
  b: readonly EdgePoint[],
  { across, up, unit }: Labels,
): string {
  const all = [...a, ...b];
  if (all.length === 0) return '';
  const most = Math.ceil(
    Math.max(...all.flatMap(p => [Math.abs(p.left), Math.abs(p.right)])) + 0.5,
  );
  const scale = (SIZE - LEFT) / (2 * most);
  const x = (travel: number): number => LEFT + (travel + most) * scale;
  const y = (travel: number): number => SIZE - BELOW - (travel + most) * scale * FIT;
  const points = (edge: readonly EdgePoint[]): string =>
    edge.map(p => `${x(p.left).toFixed(1)},${y(p.right).toFixed(1)}`).join(' ');
  const [low, high] = [-most, most];
  const ticks = Array.from({ length: 2 * most + 1 }, (_, i) => i - most).filter(t => t % 4 === 0);
  const factor = unit === 'mm' ? 25.4 : 1;
  const label = (t: number): string =>
    `${t > 0 ? '+' : ''}${Math.round(t * factor)}`.replace('-', '−');
  const grid = ticks.map(t => {
    const kind = t === 0 ? 'axis' : 'grid';
    return (
      `<line class="${kind}" x1="${x(t)}" x2="${x(t)}" y1="${y(low)}" y2="${y(high)}"/>` +
      `<line class="${kind}" x1="${x(low)}" x2="${x(high)}" y1="${y(t)}" y2="${y(t)}"/>` +
      `<text x="${x(t)}" y="${y(low) + 14}" text-anchor="middle">${label(t)}</text>` +
      `<text x="${LEFT - 4}" y="${y(t) + 4}" text-anchor="end">${label(t)}</text>`
    );
  });
  const title = `Range of A and B: ${across} across, ${up} up, in ${unit}`;
  return `<svg viewBox="0 0 ${SIZE} ${SIZE}" role="img" aria-label="${escaped(title)}">
${grid.join('\n')}
<polygon class="edgeA" points="${points(a)}"/>
<polygon class="edgeB" points="${points(b)}"/>
<text x="${(LEFT + SIZE) / 2}" y="${SIZE - 3}" text-anchor="middle">${escaped(across)}, ${escaped(up)} up</text>
</svg>`;
}

/** The picture is square in travel. */
const FIT = (SIZE - BELOW) / (SIZE - LEFT);
