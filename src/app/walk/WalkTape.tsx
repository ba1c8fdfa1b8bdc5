/** The tape along the bottom: what is left along the walk, and the handle that scrubs it. */
import {
  type KeyboardEvent,
  type PointerEvent,
  type ReactNode,
  useEffect,
  useMemo,
  useRef,
  useState,
} from 'react';
import {
  drawScrub,
  drawWalk,
  placeAtX,
  type TapeFrame,
  tapeFrame,
  xOfPlace,
} from '../../charts/walkTape.ts';
import { tightestWords } from '../drive/mapWords.ts';
import { noteSize } from '../drive/noteSize.ts';
import { type Paint, Surface, type SurfaceHandle } from '../drive/Surface.tsx';
import { usePalette } from '../drive/usePalette.ts';
import { useSettledPlace } from '../drive/useSettled.ts';
import { act } from '../state/action.ts';
import { scrubTo, stripOf } from '../state/play.ts';
import { useShop } from '../state/shop.ts';
import { markName, placeWords } from './walks.ts';

/** Keys step by places; with Shift by this many. */
const SHIFT = 8;

export function WalkTape() {
  const palette = usePalette();
  const strip = useShop(stripOf);
  const moving = useRef<SurfaceHandle>(null);
  const frame = useRef<TapeFrame | null>(null);
  const drag = useRef<{ pointer: number; dx: number } | null>(null);
  const [isDragging, setDragging] = useState(false);
  const count = strip?.places.length ?? 0;

  const paintStill = useMemo((): Paint => {
    const picture = strip && {
      samples: strip,
      marks: strip.marks.map(mark => ({ ...mark, name: markName(mark) })),
    };
    return (ctx, width, height) => {
      frame.current = tapeFrame(width, height);
      drawWalk(ctx, palette, frame.current, picture, noteSize());
      moving.current?.repaint();
    };
  }, [strip, palette]);
  const paintMoving = useMemo((): Paint => {
    return ctx => {
      if (!frame.current || count === 0) return;
      const { at } = useShop.getState().play;
      const where = (): string => placeWords(strip?.marks ?? [], at);
      drawScrub(ctx, palette, frame.current, count, at, where, noteSize());
    };
  }, [palette, count, strip]);
  useEffect(
    () =>
      useShop.subscribe(
        shop => shop.play.at,
        () => moving.current?.repaint(),
      ),
    [],
  );

  const xOf = (event: PointerEvent): number =>
    event.clientX - event.currentTarget.getBoundingClientRect().left;
  const press = (event: PointerEvent): void => {
    if (event.button !== 0 || !frame.current || count === 0) return;
    const x = xOf(event);
    const at = xOfPlace(frame.current, count, useShop.getState().play.at);
    const isNear = Math.abs(x - at) <= 16;
    drag.current = { pointer: event.pointerId, dx: isNear ? at - x : 0 };
    event.currentTarget.setPointerCapture(event.pointerId);
    setDragging(true);
    if (!isNear) act(scrubTo, placeAtX(frame.current, count, x));
  };
  const move = (event: PointerEvent): void => {
    const now = drag.current;
    if (!now || now.pointer !== event.pointerId || !frame.current) return;
    act(scrubTo, placeAtX(frame.current, count, xOf(event) + now.dx));
  };
  const release = (event: PointerEvent): void => {
    if (drag.current?.pointer !== event.pointerId) return;
    drag.current = null;
    setDragging(false);
  };
  const key = (event: KeyboardEvent): void => {
    if (!strip || event.ctrlKey || event.metaKey || event.altKey) return;
    const { at } = useShop.getState().play;
    const step = event.shiftKey ? SHIFT : 1;
    const target = {
      ArrowRight: Math.floor(at + 1e-9) + step,
      ArrowUp: Math.floor(at + 1e-9) + step,
      ArrowLeft: Math.ceil(at - 1e-9) - step,
      ArrowDown: Math.ceil(at - 1e-9) - step,
      Home: 0,
      End: count - 1,
      // from mark to mark
      PageUp: strip.marks.find(mark => mark.at > at + 1e-9)?.at ?? count - 1,
      PageDown: strip.marks.findLast(mark => mark.at < at - 1e-9)?.at ?? 0,
    }[event.key];
    if (target === undefined) return;
    act(scrubTo, target);
    event.preventDefault();
  };

  return (
    <ScrubSlider>
      {({ now, text }) => (
        <div
          className={isDragging ? 'walk-tape held' : 'walk-tape'}
          role="slider"
          tabIndex={0}
          aria-label="Place on the walk"
          aria-valuemin={0}
          aria-valuemax={Math.max(0, count - 1)}
          aria-valuenow={now}
          aria-valuetext={text}
          onPointerDown={press}
          onPointerMove={move}
          onPointerUp={release}
          onPointerCancel={release}
          onKeyDown={key}
        >
          <Surface paint={paintStill} />
          <Surface paint={paintMoving} handle={moving} />
        </div>
      )}
    </ScrubSlider>
  );
}

function ScrubSlider({ children }: { children(value: { now: number; text: string }): ReactNode }) {
  const at = useSettledPlace();
  const strip = useShop(stripOf);
  const rig = useShop(shop => shop.rig);
  const unit = useShop(shop => shop.look.unit);
  if (!strip || !rig) return children({ now: 0, text: 'The walk is not worked out yet' });
  const where = placeWords(strip.marks, at);
  const tightest = tightestWords(rig, unit, strip, Math.round(at));
  const text = [where, tightest === '' ? '' : `tightest: ${tightest}`]
    .filter(each => each !== '')
    .join('; ');
  return children({ now: Math.round(at), text });
}
