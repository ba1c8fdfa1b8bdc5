/** The steering under the map, from stop to stop as the driver sits. */
import {
  type KeyboardEvent,
  type PointerEvent,
  type ReactNode,
  useEffect,
  useMemo,
  useRef,
  useState,
} from 'react';
import type { SteerEnd } from '../../../geometry/cycle/reach.ts';
import {
  drawSteering,
  type SteeringFrame,
  steeringFrame,
  turnAtX,
  xOfTurn,
} from '../../charts/steeringRule.ts';
import { act } from '../state/action.ts';
import { moveTo } from '../state/move.ts';
import type { Rig, Shown } from '../state/rig.ts';
import { useShop } from '../state/shop.ts';
import { innerTire } from '../words/shopWords.ts';
import './Steering.css';
import { noteSize } from './noteSize.ts';
import { type Paint, Surface, type SurfaceHandle } from './Surface.tsx';
import { readAcross, type SteeringTable, steeringTable } from './steeringTable.ts';
import { usePalette } from './usePalette.ts';
import { useSettled } from './useSettled.ts';
import { useSteeringStrip } from './useSteeringStrip.ts';

export function Steering() {
  const axle = useShop(shop => shop.rig?.axle);
  if (!axle) return null;
  if (!axle.steered) {
    return (
      <p className="steering-none">
        <b>Steering</b> The {axle.name} axle does not steer.
      </p>
    );
  }
  return <Steered />;
}

/** Steps of the arrow keys, deg: plain, with Shift, with Alt. */
const STEPS = { plain: 1, shift: 5, alt: 0.25 };
/** Nearer to a stop than this it is taken to it, deg. */
const AT_STOP_deg = 0.4;

function Steered() {
  const palette = usePalette();
  const rig = useShop(shop => shop.rig);
  const surface = useRef<SurfaceHandle>(null);
  const strip = useSteeringStrip(() => surface.current?.repaint());
  const frame = useRef<SteeringFrame>(steeringFrame(400));
  const most = useMemo(() => (rig ? mostAtRide(rig) : 35), [rig]);
  const drag = useRef<{ pointer: number; dx: number } | null>(null);
  const [isDragging, setDragging] = useState(false);
  const here = useRef<Here | null>(null);

  const paint = useMemo((): Paint => {
    return (ctx, width) => {
      const { shown, rig: now } = useShop.getState();
      if (!now) return;
      here.current = hereOf(now, shown, here.current);
      const { table, ends } = here.current;
      frame.current = steeringFrame(width);
      if (!table || !ends) return;
      const shownStrip = strip.current;
      const reach = Math.max(most, ...table.turns.map(Math.abs));
      here.current.most = reach;
      drawSteering(
        ctx,
        palette,
        frame.current,
        {
          most: reach,
          left: { turn: table.turns.at(-1) ?? 0, words: `Left, ${endWords(ends.greatest)}` },
          right: { turn: table.turns[0] ?? 0, words: `Right, ${endWords(ends.least)}` },
          strip: shownStrip && {
            ...shownStrip,
            turns: shownStrip.places.map(({ steer }) =>
              readAcross(table.steers, table.turns, steer),
            ),
          },
        },
        turnOf(shown),
        noteSize(),
      );
    };
  }, [palette, most, strip]);

  useEffect(
    () =>
      useShop.subscribe(
        shop => shop.shown,
        () => surface.current?.repaint(),
      ),
    [],
  );

  const turnTo = (turn: number): void => {
    const table = here.current?.table;
    if (!table) return;
    const [least, greatest] = [table.turns[0] ?? 0, table.turns.at(-1) ?? 0];
    if (turn >= greatest - AT_STOP_deg) act(moveTo, { lock: 1 });
    else if (turn <= least + AT_STOP_deg) act(moveTo, { lock: -1 });
    else act(moveTo, { steer: readAcross(table.turns, table.steers, turn) });
  };

  const xOf = (event: PointerEvent): number =>
    event.clientX - event.currentTarget.getBoundingClientRect().left;

  const press = (event: PointerEvent): void => {
    if (event.button !== 0 || !here.current) return;
    const x = xOf(event);
    const at = xOfTurn(frame.current, here.current.most, turnOf(useShop.getState().shown));
    const isNear = Math.abs(x - at) <= 24;
    drag.current = { pointer: event.pointerId, dx: isNear ? at - x : 0 };
    event.currentTarget.setPointerCapture(event.pointerId);
    setDragging(true);
    if (!isNear) turnTo(turnAtX(frame.current, here.current.most, x));
  };
  const move = (event: PointerEvent): void => {
    const now = drag.current;
    if (!now || now.pointer !== event.pointerId || !here.current) return;
    turnTo(turnAtX(frame.current, here.current.most, xOf(event) + now.dx));
  };
  const release = (event: PointerEvent): void => {
    if (drag.current?.pointer !== event.pointerId) return;
    drag.current = null;
    setDragging(false);
  };
  const key = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey) return;
    const step = event.altKey ? STEPS.alt : event.shiftKey ? STEPS.shift : STEPS.plain;
    const turn = turnOf(useShop.getState().shown);
    if (event.key === 'ArrowLeft' || event.key === 'ArrowDown') turnTo(away(turn, step));
    else if (event.key === 'ArrowRight' || event.key === 'ArrowUp') turnTo(away(turn, -step));
    else if (event.key === 'Home') act(moveTo, { steer: 0 });
    else return;
    event.preventDefault();
  };
  /** From a stop a small step must get away from it. */
  const away = (turn: number, step: number): number => {
    const { lock } = useShop.getState().shown.handle;
    const isBack = lock !== 0 && Math.sign(step) !== lock;
    return turn + (isBack ? Math.sign(step) * Math.max(Math.abs(step), 1.1 * AT_STOP_deg) : step);
  };

  return (
    <SteeringSlider>
      {value => (
        <div
          className={isDragging ? 'steering-rule held' : 'steering-rule'}
          role="slider"
          tabIndex={0}
          aria-label="Steering, as the driver sits"
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
          <Surface paint={paint} handle={surface} />
        </div>
      )}
    </SteeringSlider>
  );
}

/** What depends on the travels alone, kept while only the steering moves. */
interface Here {
  left: number;
  right: number;
  rig: Rig;
  table: SteeringTable | null;
  ends: Shown['interval'];
  most: number;
}

function hereOf(rig: Rig, shown: Shown, last: Here | null): Here {
  const { left, right } = shown.handle;
  if (last && last.rig === rig && last.left === left && last.right === right) return last;
  const table = steeringTable(rig, shown);
  return { left, right, rig, table, ends: shown.interval, most: last?.most ?? 35 };
}

const turnOf = ({ pose }: Shown): number => (pose && innerTire(pose)) ?? 0;

/** The inner tire's most turn at ride height, deg. */
function mostAtRide(rig: Rig): number {
  const { ride } = rig.model;
  const interval = rig.reach.steering(ride);
  const shown = { pose: ride, interval } as Shown;
  const table = steeringTable(rig, shown);
  return table ? Math.max(...table.turns.map(Math.abs)) : 35;
}

/** 'to its stop', 'to the end of the box'. */
function endWords({ by }: SteerEnd): string {
  switch (by) {
    case 'steeringStop':
      return 'to its stop';
    case 'boxSweep':
      return 'to the end of the box';
    case 'ramEnd':
      return 'to the end of the ram';
    case 'noPose':
      return 'to where the rods end';
    default:
      return 'to an assumed end';
  }
}

const AT_END: Record<string, string> = {
  steeringStop: 'at its stop',
  boxSweep: 'at the end of the box',
  ramEnd: 'at the end of the ram',
};

interface Value {
  least: number;
  most: number;
  now: number;
  text: string;
}

function SteeringSlider({ children }: { children(value: Value): ReactNode }) {
  const handle = useSettled();
  const shown = useShop.getState().shown;
  const turn = turnOf(shown);
  const { interval } = shown;
  const isAtEnd = (end: SteerEnd | undefined): boolean =>
    end !== undefined && Math.abs(handle.steer - end.value) < 1e-6;
  const end = isAtEnd(interval?.greatest)
    ? interval?.greatest
    : isAtEnd(interval?.least)
      ? interval?.least
      : undefined;
  const size = Math.abs(turn);
  const isStraight = size < 0.05 && !end;
  const number = `${size.toFixed(size < 10 && size % 1 > 0.05 && size % 1 < 0.95 ? 1 : 0)}° ${turn > 0 ? 'left' : 'right'}`;
  const at = end ? (AT_END[end.by] ?? 'at its end') : '';
  const text = isStraight ? 'straight ahead' : `inner tire ${number}${at === '' ? '' : `, ${at}`}`;
  // to the right is more, as the handle goes
  const round = (v: number): number => Math.round(v * 10) / 10;
  return (
    <>
      <header className="steering-head">
        <h2>Steering</h2>
        <span className="note">as the driver sits</span>
        <output>
          {isStraight ? (
            <b>straight ahead</b>
          ) : (
            <>
              inner tire <b>{number}</b>
              {at !== '' && `, ${at}`}
            </>
          )}
        </output>
      </header>
      {children({ least: -90, most: 90, now: round(-turn), text })}
    </>
  );
}
