/** A travel map without rules: a press or a drag on it moves both axles. */
import { type PointerEvent, useEffect, useRef } from 'react';
import { drawRing } from '../../charts/besideMaps.ts';
import { type MapFrame, mapFrame, travelsAt } from '../../charts/mapFrame.ts';
import type { Palette } from '../../charts/palette.ts';
import { type Paint, Surface, type SurfaceHandle } from '../drive/Surface.tsx';
import { usePalette } from '../drive/usePalette.ts';
import { act } from '../state/action.ts';
import { moveTo } from '../state/move.ts';
import { useShop } from '../state/shop.ts';

export interface SmallMapProps {
  /** Edges that all maps beside each other span. */
  over: readonly { left: number; right: number }[];
  /** What it shows, in words. */
  label: string;
  paint(ctx: CanvasRenderingContext2D, palette: Palette, frame: MapFrame): void;
  /** Whether the axle of this map does not reach where the other stands. */
  isOfB: boolean;
}

export function SmallMap({ over, label, paint, isOfB }: SmallMapProps) {
  const palette = usePalette();
  const frame = useRef<MapFrame | null>(null);
  const moving = useRef<SurfaceHandle>(null);
  const still: Paint = (ctx, width, height) => {
    const size = Math.min(width, height);
    frame.current = mapFrame(over, (width - size) / 2, 0, size);
    paint(ctx, palette, frame.current);
    moving.current?.repaint();
  };
  const ring: Paint = ctx => {
    const { shown, comparing } = useShop.getState();
    if (!frame.current) return;
    const isBeyond = isOfB && comparing?.isBeyond === true;
    drawRing(ctx, palette, frame.current, shown.handle, isBeyond);
  };
  useEffect(
    () =>
      useShop.subscribe(
        shop => shop.shown,
        () => moving.current?.repaint(),
      ),
    [],
  );
  const follow = (event: PointerEvent<HTMLDivElement>): void => {
    if (!frame.current || (event.type === 'pointermove' && event.buttons === 0)) return;
    if (event.type === 'pointerdown') event.currentTarget.setPointerCapture(event.pointerId);
    const box = event.currentTarget.getBoundingClientRect();
    const [x, y] = [event.clientX - box.left, event.clientY - box.top];
    const [left, right] = travelsAt(frame.current, x, y);
    act(moveTo, { left, right });
  };
  return (
    <div
      className="small-map"
      role="img"
      aria-label={label}
      onPointerDown={follow}
      onPointerMove={follow}
    >
      <Surface paint={still} />
      <Surface paint={ring} handle={moving} />
    </div>
  );
}
