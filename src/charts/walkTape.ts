/** A walk as a tape: the curve of what is left over it, a mark at each pose, and the handle on it. */
import { type GapSamples, gapRuns, sampleAt } from './gapRuns.ts';
import { isOverlap } from './gapScale.ts';
import { hatch } from './hatch.ts';
import { triangle } from './mapRules.ts';
import type { Palette } from './palette.ts';

export interface TapeMark {
  /** Index of the place. */
  at: number;
  /** What is written; '' for none. */
  name: string;
  kind: 'pose' | 'left' | 'right';
}

export interface TapePicture {
  samples: GapSamples;
  marks: readonly TapeMark[];
}

export interface TapeFrame {
  from: number;
  to: number;
  /** Top and base of the curve, top and bottom of the tape, px. */
  top: number;
  base: number;
  tape: number;
  bottom: number;
}

export function tapeFrame(width: number, height: number): TapeFrame {
  const low = height < 80;
  const bottom = height - (low ? 4 : 8);
  const tape = bottom - (low ? 25 : 29);
  return { from: 14, to: width - 14, top: low ? 10 : 9, base: tape - 4, tape, bottom };
}

export const xOfPlace = ({ from, to }: TapeFrame, count: number, at: number): number =>
  from + (count > 1 ? (at / (count - 1)) * (to - from) : 0);

export const placeAtX = ({ from, to }: TapeFrame, count: number, x: number): number =>
  Math.min(count - 1, Math.max(0, ((x - from) / (to - from)) * (count - 1)));

/** A low strip has no room for names: it tells where the handle is instead. */
const isLow = ({ top, base }: TapeFrame): boolean => base - top < 30;

/** Shares at the top and at the base of the curve: beyond them it runs flat. */
const TOP_share = 1.75;
const BASE_share = -0.75;
/** The curve's least height: what touches stays to be seen, px. */
const LEAST = 5;

function yOfShare({ top, base }: TapeFrame, share: number): number {
  const t = (Math.min(TOP_share, share) - BASE_share) / (TOP_share - BASE_share);
  return base - LEAST - Math.max(0, t) * (base - LEAST - top);
}

/** All that stands still while it is walked. */
export function drawWalk(
  ctx: CanvasRenderingContext2D,
  palette: Palette,
  frame: TapeFrame,
  picture: TapePicture | null,
  note: number,
): void {
  ctx.save();
  if (picture && picture.samples.share.length > 1) drawCurve(ctx, palette, frame, picture, note);
  drawTapeBox(ctx, palette, frame, picture);
  if (picture && !isLow(frame)) drawNames(ctx, palette, frame, picture, note);
  ctx.restore();
}

function drawCurve(
  ctx: CanvasRenderingContext2D,
  palette: Palette,
  frame: TapeFrame,
  { samples }: TapePicture,
  note: number,
): void {
  const { from, to, top, base } = frame;
  const count = samples.share.length;
  const line = new Path2D();
  for (let x = from; x <= to; x++) {
    const y = yOfShare(frame, sampleAt(samples.share, placeAtX(frame, count, x)));
    if (x === from) line.moveTo(x, y);
    else line.lineTo(x, y);
  }
  const area = new Path2D(line);
  area.lineTo(to, base);
  area.lineTo(from, base);
  area.closePath();
  ctx.save();
  ctx.clip(area);
  for (const run of gapRuns(samples, from, to, x => placeAtX(frame, count, x))) {
    ctx.fillStyle = palette.gaps[run.step] ?? palette.raise;
    ctx.fillRect(run.from, top - 2, run.to - run.from, base - top + 2);
    if (isOverlap(run.step)) {
      hatch(ctx, palette.page, run.from, top - 2, run.to - run.from, base - top + 2);
    }
  }
  ctx.restore();
  const wanted = Math.round(yOfShare(frame, 1)) + 0.5;
  ctx.strokeStyle = palette.ink;
  ctx.lineWidth = 1;
  ctx.setLineDash([1.5, 2.5]);
  ctx.beginPath();
  ctx.moveTo(from, wanted);
  ctx.lineTo(to, wanted);
  ctx.stroke();
  ctx.setLineDash([]);
  ctx.lineWidth = 1.75;
  ctx.lineJoin = 'round';
  ctx.stroke(line);
  if (isLow(frame)) return;
  ctx.font = `500 ${note}px ${palette.font}`;
  ctx.textAlign = 'left';
  ctx.textBaseline = 'alphabetic';
  const low = yOfShare(frame, sampleAt(samples.share, 0)) > wanted + 2;
  // above its line where the curve is under it
  const y = low ? wanted - 4 : wanted + note;
  ctx.strokeStyle = low ? palette.sheet : (palette.gaps[4] ?? palette.sheet);
  ctx.lineWidth = 3;
  ctx.strokeText('wanted', from + 16, y);
  ctx.fillStyle = palette.ink2;
  ctx.fillText('wanted', from + 16, y);
}

function drawTapeBox(
  ctx: CanvasRenderingContext2D,
  palette: Palette,
  frame: TapeFrame,
  picture: TapePicture | null,
): void {
  const { from, to, tape, bottom } = frame;
  ctx.fillStyle = palette.raise;
  ctx.fillRect(from, tape, to - from, bottom - tape);
  ctx.strokeStyle = palette.edge;
  ctx.globalAlpha = 0.6;
  ctx.lineWidth = 1;
  ctx.strokeRect(from + 0.5, tape + 0.5, to - from - 1, bottom - tape - 1);
  ctx.globalAlpha = 1;
  ctx.fillStyle = palette.ink;
  // the hook
  ctx.fillRect(from - 4, tape - 3, 4, bottom - tape + 6);
  ctx.fillRect(from - 4, bottom, 12, 3);
  const count = picture?.samples.share.length ?? 0;
  if (!picture || count < 2) return;
  // a small mark for each place, or for every second, fourth …
  let every = 1;
  while (((to - from) / (count - 1)) * every < 6) every *= 2;
  ctx.fillStyle = palette.ink3;
  for (let i = 0; i < count; i += every) {
    ctx.fillRect(Math.round(xOfPlace(frame, count, i)) - 0.5, tape, 1, 4);
  }
  ctx.fillStyle = palette.ink;
  for (const { at, kind } of picture.marks) {
    const x = Math.round(xOfPlace(frame, count, at));
    ctx.fillRect(x - 0.75, tape, 1.5, kind === 'pose' ? 10 : 7);
  }
}

function drawNames(
  ctx: CanvasRenderingContext2D,
  palette: Palette,
  frame: TapeFrame,
  { samples, marks }: TapePicture,
  note: number,
): void {
  const { from, to, tape, bottom } = frame;
  const count = samples.share.length;
  ctx.font = `600 ${note}px ${palette.font}`;
  ctx.textAlign = 'center';
  ctx.textBaseline = 'alphabetic';
  const base = (tape + bottom) / 2 + 0.36 * note + 4;
  const taken: [number, number][] = [];
  const isFree = (a: number, b: number): boolean =>
    a >= from && b <= to && taken.every(([p, q]) => b + 3 < p || a - 3 > q);
  const named: { i: number; start: number; end: number }[] = [];
  for (const [i, { at, name, kind }] of marks.entries()) {
    if (kind !== 'pose' || name === '') continue;
    const half = ctx.measureText(name).width / 2;
    const x = Math.min(to - 6 - half, Math.max(from + 6 + half, xOfPlace(frame, count, at)));
    if (!isFree(x - half, x + half)) continue;
    taken.push([x - half, x + half]);
    named.push({ i, start: x - half, end: x + half });
    ctx.fillStyle = palette.ink;
    ctx.fillText(name, x, base);
  }
  // full left and full right where they are, or right beside the name
  ctx.fillStyle = palette.ink3;
  const point = (x: number, way: 1 | -1): void => {
    if (!isFree(x - 4, x + 4)) return;
    taken.push([x - 4, x + 4]);
    triangle(ctx, x, base - 0.34 * note, way);
  };
  for (const { i, start, end } of named) {
    const [before, after] = [marks[i - 1], marks[i + 1]];
    if (before?.kind === 'left') point(Math.min(xOfPlace(frame, count, before.at), start - 10), -1);
    if (after?.kind === 'right') point(Math.max(xOfPlace(frame, count, after.at), end + 10), 1);
  }
}

/**
 * The handle, on a canvas of its own.
 *
 * @param where what is told on a low strip, in place of names
 */
export function drawScrub(
  ctx: CanvasRenderingContext2D,
  palette: Palette,
  frame: TapeFrame,
  count: number,
  at: number,
  where: () => string,
  note: number,
): void {
  const x = xOfPlace(frame, count, at);
  if (isLow(frame)) {
    const words = where();
    ctx.font = `600 ${note}px ${palette.font}`;
    ctx.textAlign = 'center';
    ctx.textBaseline = 'alphabetic';
    ctx.fillStyle = palette.ink;
    const half = ctx.measureText(words).width / 2 + 6;
    const middle = Math.min(frame.to - half, Math.max(frame.from + half, x));
    ctx.fillText(words, middle, frame.bottom - 5);
  }
  // down to the marks; the names stay free
  const low = frame.tape + (isLow(frame) ? 5 : 10);
  ctx.fillStyle = palette.page;
  ctx.fillRect(x - 3, frame.top, 6, low - frame.top);
  ctx.fillStyle = palette.dye;
  ctx.fillRect(x - 1.25, frame.top, 2.5, low - frame.top);
  ctx.beginPath();
  ctx.roundRect(x - 12, frame.top - 8, 24, 18, 4);
  ctx.fill();
  ctx.fillStyle = palette.onDye;
  for (const dx of [-4.5, 0, 4.5]) ctx.fillRect(x + dx - 0.75, frame.top - 4, 1.5, 10);
}
