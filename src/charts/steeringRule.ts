/** The steering from stop to stop, as the driver sits: left on the left, in the inner tire's turn. */
import { type GapSamples, gapRuns } from './gapRuns.ts';
import { isOverlap } from './gapScale.ts';
import { hatch } from './hatch.ts';
import type { Palette } from './palette.ts';

export interface SteeringPicture {
  /** Most that is shown either way, deg. */
  most: number;
  /** Ends of the steering here, deg, + left; and what they come from. */
  left: { turn: number; words: string };
  right: { turn: number; words: string };
  /** Gaps from full right to full left, and the turn of each, rising; null while they are not known. */
  strip: (GapSamples & { turns: readonly number[] }) | null;
}

export interface SteeringFrame {
  /** Left and right end of the track, px. */
  from: number;
  to: number;
  /** Middle of the track. */
  y: number;
}

export const STEERING_HEIGHT = 74;
/** Room beside the track for the handle, px. */
const BESIDE = 18;
const TRACK = 13;

export const steeringFrame = (width: number): SteeringFrame => ({
  from: BESIDE,
  to: width - BESIDE,
  y: 36,
});

export const xOfTurn = ({ from, to }: SteeringFrame, most: number, turn: number): number =>
  (from + to) / 2 - ((turn / most) * (to - from)) / 2;

export const turnAtX = ({ from, to }: SteeringFrame, most: number, x: number): number =>
  (((from + to) / 2 - x) * 2 * most) / (to - from);

export function drawSteering(
  ctx: CanvasRenderingContext2D,
  palette: Palette,
  frame: SteeringFrame,
  picture: SteeringPicture,
  turn: number,
  note: number,
): void {
  const { most, left, right, strip } = picture;
  const { y } = frame;
  const x = (value: number): number => xOfTurn(frame, most, value);
  const [start, end] = [Math.round(x(left.turn)), Math.round(x(right.turn))];
  const top = y - TRACK / 2;
  ctx.save();
  ctx.fillStyle = palette.raise;
  ctx.fillRect(start, top, end - start, TRACK);
  if (strip) {
    const runs = gapRuns(strip, start, end, px => placeOf(strip.turns, turnAtX(frame, most, px)));
    for (const run of runs) {
      ctx.fillStyle = palette.gaps[run.step] ?? palette.raise;
      ctx.fillRect(run.from, top, run.to - run.from, TRACK);
      if (isOverlap(run.step)) hatch(ctx, palette.page, run.from, top, run.to - run.from, TRACK);
    }
    // where touching begins and ends
    ctx.strokeStyle = palette.ink;
    ctx.lineWidth = 1.5;
    ctx.setLineDash([2.5, 2]);
    ctx.beginPath();
    for (const [i, run] of runs.entries()) {
      const before = runs[i - 1];
      if (!before || isOverlap(before.step) === isOverlap(run.step)) continue;
      ctx.moveTo(run.from, top - 3);
      ctx.lineTo(run.from, top + TRACK + 3);
    }
    ctx.stroke();
    ctx.setLineDash([]);
  }
  ctx.strokeStyle = palette.edge;
  ctx.lineWidth = 1;
  ctx.globalAlpha = 0.6;
  ctx.strokeRect(start + 0.5, top - 0.5, end - start - 1, TRACK + 1);
  ctx.globalAlpha = 1;
  // the stops
  ctx.fillStyle = palette.ink;
  ctx.fillRect(start - 4, y - 12, 4, 24);
  ctx.fillRect(end, y - 12, 4, 24);

  ctx.font = `500 ${note}px ${palette.font}`;
  ctx.textBaseline = 'alphabetic';
  ctx.fillStyle = palette.ink2;
  ctx.textAlign = 'left';
  ctx.fillText(left.words, Math.max(0, start - 4), 13);
  ctx.textAlign = 'right';
  ctx.fillText(right.words, Math.min(frame.to + BESIDE, end + 4), 13);
  drawDegrees(ctx, palette, frame, most, turn, note);

  const at = x(turn);
  for (const [color, width] of [
    [palette.page, 8],
    [palette.dye, 4],
  ] as const) {
    ctx.strokeStyle = color;
    ctx.lineWidth = width;
    ctx.beginPath();
    ctx.arc(at, y, 15, 0, 2 * Math.PI);
    ctx.stroke();
  }
  ctx.restore();
}

function drawDegrees(
  ctx: CanvasRenderingContext2D,
  palette: Palette,
  frame: SteeringFrame,
  most: number,
  turn: number,
  note: number,
): void {
  const x = (value: number): number => xOfTurn(frame, most, value);
  const top = frame.y + TRACK / 2 + 4;
  const base = top + 10 + note;
  const at = x(turn);
  const here = Math.abs(turn) < 0.5 ? '' : `${Math.abs(turn).toFixed(0)}°`;
  ctx.textAlign = 'center';
  for (let degrees = 5; degrees <= most; degrees += 5) {
    for (const way of [1, -1]) {
      const isLong = degrees % 10 === 0;
      const px = Math.round(x(way * degrees));
      ctx.fillStyle = isLong ? palette.ink : palette.ink3;
      ctx.fillRect(px - 0.75, top, 1.5, isLong ? 9 : 5);
      if (!isLong || (here !== '' && Math.abs(px - at) < 30)) continue;
      ctx.font = `600 ${note}px ${palette.font}`;
      ctx.fillText(`${degrees}°`, px, base);
    }
  }
  const middle = Math.round(x(0));
  ctx.fillStyle = palette.ink;
  ctx.fillRect(middle - 0.75, top, 1.5, 9);
  ctx.font = `680 ${note}px ${palette.font}`;
  if (here === '' || Math.abs(at - middle) > 46) {
    ctx.fillStyle = here === '' ? palette.dye : palette.ink;
    ctx.fillText('straight', middle, base);
  }
  if (here === '') return;
  ctx.fillStyle = palette.dye;
  const wide = ctx.measureText(here).width / 2;
  ctx.fillText(here, Math.min(frame.to + BESIDE - wide, Math.max(wide, at)), base);
}

/** Place of a turn among rising turns, a fraction of an index. */
function placeOf(turns: readonly number[], turn: number): number {
  let low = 0;
  let high = turns.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((turns[middle] as number) <= turn) low = middle;
    else high = middle;
  }
  const [a, b] = [turns[low] ?? 0, turns[high] ?? 0];
  return low + (b > a ? Math.min(1, Math.max(0, (turn - a) / (b - a))) : 0);
}
