/**
 * The travel map: left travel across, right travel up. The still part is painted once; the handle, its hairlines and
 * tags lie on a canvas of their own, which alone is painted while the axle moves.
 */
import {
  type KeyboardEvent,
  type PointerEvent,
  type ReactNode,
  type RefObject,
  useEffect,
  useMemo,
  useRef,
  useState,
} from 'react';
import { seat, sentence } from '../../../geometry/finding/words.ts';
import { edgeStretches, endWords } from '../../charts/edgeStretches.ts';
import { type MapFrame, mapFrame, travelsAt } from '../../charts/mapFrame.ts';
import { drawHandle, type Grip, gripAt, type Handled } from '../../charts/mapHandle.ts';
import { mapMargins } from '../../charts/mapRules.ts';
import type { Palette } from '../../charts/palette.ts';
import type { PlacedPin } from '../../charts/pins.ts';
import { drawTravelMap, type MapPicture, type NamedStretch } from '../../charts/travelMap.ts';
import type { RangeTold } from '../../worker/protocol.ts';
import { act } from '../state/action.ts';
import { chooseFinding, moveTo, toShopPose } from '../state/move.ts';
import { useShop } from '../state/shop.ts';
import { pageShop } from '../words/shopWords.ts';
import { mapPins } from './mapPins.ts';
import { mapValue } from './mapWords.ts';
import { noteSize } from './noteSize.ts';
import { type Paint, Surface, type SurfaceHandle } from './Surface.tsx';
import './TravelMap.css';
import type { MapShown } from './useMapShown.ts';
import { usePalette } from './usePalette.ts';
import { useSettled } from './useSettled.ts';

/** Steps of the arrow keys: plain, with Shift, with Alt, in the page's unit; in. */
const STEPS = {
  in: { plain: 1 / 4, shift: 1, alt: 1 / 16 },
  mm: { plain: 5 / 25.4, shift: 25 / 25.4, alt: 1 / 25.4 },
};
const ARROWS: Record<string, readonly [left: number, right: number]> = {
  ArrowRight: [1, 0],
  ArrowLeft: [-1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};
/** A press that moves no further than this chooses what it is on, px. */
const TAP_px = 4;

interface Drag {
  grip: Grip;
  pointer: number;
  /** From the pointer to the handle, px: it does not jump when it is taken. */
  dx: number;
  dy: number;
  from: readonly [x: number, y: number];
  /** Index of the finding whose pin was pressed. */
  pin: number | null;
}

export function TravelMap({ shown, onBlocked }: TravelMapProps) {
  const palette = usePalette();
  const rig = useShop(shop => shop.rig);
  const range = useShop(shop => shop.results.range);
  const unit = useShop(shop => shop.look.unit);
  const findings = useShop(shop => shop.results.findings);
  const chosen = useShop(shop => shop.look.finding);
  const moving = useRef<SurfaceHandle>(null);
  const frame = useRef<MapFrame | null>(null);
  const placed = useRef<PlacedPin[]>([]);
  const drag = useRef<Drag | null>(null);
  const wished = useRef<readonly [number, number] | null>(null);
  const [isDragging, setDragging] = useState(false);

  const edge = useMemo(() => range?.edge ?? [], [range]);
  const stretches = useMemo((): NamedStretch[] => {
    // what ends the travel is called as when it was found: another axle brings another edge
    const { rig: now } = useShop.getState();
    if (!now) return [];
    return edgeStretches(edge).map(stretch => {
      const words = endWords(pageShop(now.build, 'in'), now.axle, stretch);
      return { ...stretch, words: [words, words.replace('Passenger', 'Pass.')] };
    });
  }, [edge]);
  const pins = useMemo(() => {
    const build = useShop.getState().rig?.build;
    return build ? mapPins(build, findings, chosen) : [];
  }, [findings, chosen]);
  const driverSide = rig?.build.driverSide;
  const names = useMemo(() => {
    const of = (side: 'left' | 'right'): string =>
      driverSide ? `${sentence(seat({ driverSide, unit }, side))} wheel` : '';
    return { across: of('left'), up: of('right') };
  }, [driverSide, unit]);

  const { bands } = shown;
  const paintStill = useMemo(
    () =>
      painterOfStill(
        palette,
        edge,
        { unit, bands, stretches, pins, ...names },
        { frame, placed, moving },
      ),
    [edge, unit, bands, stretches, pins, names, palette],
  );
  const paintMoving = useMemo(() => painterOfHandle(palette, unit, frame, wished), [palette, unit]);

  useEffect(
    () =>
      useShop.subscribe(
        shop => shop.shown.handle,
        () => moving.current?.repaint(),
      ),
    [],
  );

  const at = (event: PointerEvent): [x: number, y: number] => {
    const rect = event.currentTarget.getBoundingClientRect();
    return [event.clientX - rect.left, event.clientY - rect.top];
  };

  const press = (event: PointerEvent): void => {
    if (!frame.current || !rig || event.button !== 0) return;
    const [x, y] = at(event);
    const { handle } = useShop.getState().shown;
    const grip = gripAt(frame.current, { ...handle, wished: null }, x, y);
    if (!grip) return;
    const f = frame.current;
    const [hx, hy] = [
      f.x + (handle.left - f.left) * f.scale,
      f.y + f.size - (handle.right - f.right) * f.scale,
    ];
    // what is near the ring is taken by it; from elsewhere the ring comes to the pointer
    const isNear = Math.hypot(x - hx, y - hy) <= 24;
    const isTag = grip !== 'both';
    const pin = isNear
      ? undefined
      : placed.current.find(p => Math.hypot(p.at.x - x, p.at.y - y) < 14);
    drag.current = {
      grip,
      pointer: event.pointerId,
      dx: isNear || isTag ? hx - x : 0,
      dy: isNear || isTag ? hy - y : 0,
      from: [x, y],
      pin: pin?.index ?? null,
    };
    event.currentTarget.setPointerCapture(event.pointerId);
    setDragging(true);
    if (!pin && !isNear && !isTag) follow(x, y);
  };

  const follow = (x: number, y: number): void => {
    const f = frame.current;
    const now = drag.current;
    if (!f || !now) return;
    const [left, right] = travelsAt(f, x + now.dx, y + now.dy);
    const to = now.grip === 'left' ? { left } : now.grip === 'right' ? { right } : { left, right };
    act(moveTo, to);
    const { handle } = useShop.getState().shown;
    const isHeld =
      Math.abs(handle.left - (to.left ?? handle.left)) > 0.05 ||
      Math.abs(handle.right - (to.right ?? handle.right)) > 0.05;
    wished.current = isHeld ? [to.left ?? handle.left, to.right ?? handle.right] : null;
    onBlocked(isHeld ? [handle.left, handle.right] : null);
    moving.current?.repaint();
  };

  const move = (event: PointerEvent): void => {
    const now = drag.current;
    if (!now || now.pointer !== event.pointerId) return;
    const [x, y] = at(event);
    if (now.pin !== null) {
      if (Math.hypot(x - now.from[0], y - now.from[1]) < TAP_px) return;
      now.pin = null;
    }
    follow(x, y);
  };

  const release = (event: PointerEvent): void => {
    const now = drag.current;
    if (!now || now.pointer !== event.pointerId) return;
    drag.current = null;
    wished.current = null;
    onBlocked(null);
    setDragging(false);
    moving.current?.repaint();
    if (now.pin !== null && event.type === 'pointerup') act(chooseFinding, now.pin);
  };

  const key = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey) return;
    const way = ARROWS[event.key];
    if (way) {
      const { plain, shift, alt } = STEPS[unit];
      const step = event.altKey ? alt : event.shiftKey ? shift : plain;
      const { left, right } = useShop.getState().shown.handle;
      act(moveTo, { left: left + step * way[0], right: right + step * way[1] });
    } else if (event.key === 'Home') act(toShopPose, 'ride');
    else return;
    event.preventDefault();
  };

  return (
    <div className="travel-map">
      <MapSlider shown={shown}>
        {value => (
          <div
            className={isDragging ? 'held' : undefined}
            role="slider"
            tabIndex={0}
            aria-label={`Travel map: ${names.across.toLowerCase()} across, ${names.up.toLowerCase()} up`}
            aria-roledescription="two-way slider"
            aria-valuemin={value.least}
            aria-valuemax={value.most}
            aria-valuenow={value.now}
            aria-valuetext={value.text}
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
      </MapSlider>
    </div>
  );
}

// Painters know only what they are given: one that was made within the component would hold on to the other of its time,
// and that one to the one before it, and so on to the first axle of all.

function painterOfStill(
  palette: Palette,
  edge: RangeTold['edge'],
  picture: Omit<MapPicture, 'frame' | 'note'>,
  to: {
    frame: RefObject<MapFrame | null>;
    placed: RefObject<PlacedPin[]>;
    moving: RefObject<SurfaceHandle | null>;
  },
): Paint {
  return (ctx, width, height) => {
    const { left, bottom, right, top } = mapMargins(picture.unit);
    const size = Math.max(80, Math.min(width - left - right, height - top - bottom));
    const frame = mapFrame(edge, left, top, size);
    // the legend under it is as wide
    const zone = ctx.canvas.closest<HTMLElement>('.map-zone');
    zone?.style.setProperty('--map-side', `${size}px`);
    zone?.style.setProperty('--map-left', `${left}px`);
    to.frame.current = frame;
    to.placed.current = drawTravelMap(ctx, palette, { ...picture, frame, note: noteSize() });
    to.moving.current?.repaint();
  };
}

function painterOfHandle(
  palette: Palette,
  unit: MapPicture['unit'],
  frame: RefObject<MapFrame | null>,
  wished: RefObject<readonly [number, number] | null>,
): Paint {
  return ctx => {
    const { rig, shown } = useShop.getState();
    if (!frame.current || !rig) return;
    const { left, right } = shown.handle;
    const handled: Handled = { left, right, wished: wished.current };
    drawHandle(ctx, palette, frame.current, handled, unit);
  };
}

export interface TravelMapProps {
  shown: MapShown;
  /** Told where the edge holds the handle while the pointer is beyond it; null where it does not. */
  onBlocked(at: readonly [left: number, right: number] | null): void;
}

interface Value {
  least: number;
  most: number;
  now: number;
  text: string;
}

/** The spoken value: it follows the handle, a few times a second. */
function MapSlider({ shown, children }: { shown: MapShown; children(value: Value): ReactNode }) {
  const handle = useSettled();
  const rig = useShop(shop => shop.rig);
  const unit = useShop(shop => shop.look.unit);
  const box = useShop(shop => shop.results.range?.box);
  const round = (v: number): number => Math.round(v * 100) / 100;
  return children({
    least: round(-(box?.left.down ?? 0)),
    most: round(box?.left.up ?? 0),
    now: round(handle.left),
    text: rig ? mapValue(rig, unit, handle, shown) : 'No axle yet',
  });
}
