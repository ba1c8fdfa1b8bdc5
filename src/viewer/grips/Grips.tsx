/**
 * Points of the chosen part that a hand can take: a ring each, and arrows along the axes of the one that is held. The
 * ring goes in the plane that is seen most squarely, an arrow along its axis.
 */
import { type KeyboardEvent, type PointerEvent, type RefObject, useRef } from 'react';
import type { V3 } from '../../../geometry/vector.ts';
import { drag, type Held } from './dragged.ts';
import type { Sight } from './GripDriver.tsx';
import type { GripMark } from './grip.ts';
import './Grips.css';

/** What a hand does with the grips. */
export interface GripHand {
  choose(id: string): void;
  /** Begins to move the chosen one; false where it is not ready. */
  take(): boolean;
  /** Moves it so far from where it was, along the body's axes, in; the hand is on this grip. */
  move(id: string, by: V3): void;
  letGo(): void;
  putBack(): void;
  /** True where the key was for the grip. */
  key(id: string, event: KeyboardEvent): boolean;
}

export interface GripsProps {
  svg: RefObject<SVGSVGElement | null>;
  grips: readonly GripMark[];
  sight: RefObject<Sight | null>;
  hand: GripHand;
  /** A moved amount as it is written: '+3/4'. */
  words: (inches: number) => string;
}

/** A press that moved no further was none, px. */
const STILL_px = 3;

interface Pull {
  grip: string;
  pointer: number;
  x: number;
  y: number;
  by: ReturnType<typeof drag>;
  isTaken: boolean;
}

export function Grips({ svg, grips, sight, hand, words }: GripsProps) {
  const pull = useRef<Pull | null>(null);
  const place = (event: PointerEvent): [number, number] => {
    const box = svg.current?.getBoundingClientRect();
    return [event.clientX - (box?.left ?? 0), event.clientY - (box?.top ?? 0)];
  };
  const down = (event: PointerEvent<SVGElement>, grip: GripMark, held: Held): void => {
    if (event.button !== 0 || pull.current) return;
    const stand = sight.current?.stand(grip);
    if (!sight.current || !stand) return;
    event.stopPropagation();
    event.currentTarget.setPointerCapture(event.pointerId);
    if (grip.state !== 'held') hand.choose(grip.id);
    const [x, y] = place(event);
    pull.current = {
      grip: grip.id,
      pointer: event.pointerId,
      x,
      y,
      by: drag(held, sight.current.ray(x, y), stand.at, stand.axes),
      isTaken: false,
    };
  };
  const move = (event: PointerEvent): void => {
    const now = pull.current;
    if (!now || !sight.current || event.pointerId !== now.pointer) return;
    const [x, y] = place(event);
    if (!now.isTaken) {
      if (Math.hypot(x - now.x, y - now.y) < STILL_px || !hand.take()) return;
      now.isTaken = true;
    }
    const by = now.by(sight.current.ray(x, y));
    if (by) hand.move(now.grip, by);
  };
  const up = (event: PointerEvent): void => {
    const now = pull.current;
    if (!now || event.pointerId !== now.pointer) return;
    pull.current = null;
    if (!now.isTaken) return;
    if (event.type === 'pointercancel') hand.putBack();
    else hand.letGo();
  };
  const pulls = (grip: GripMark, held: Held) => ({
    onPointerDown: (event: PointerEvent<SVGElement>) => down(event, grip, held),
    onPointerMove: move,
    onPointerUp: up,
    onPointerCancel: up,
  });
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset holds no drawing
    <svg ref={svg} className="grips" role="group" aria-label="Points that can be moved">
      {grips.map(grip => (
        <g
          key={grip.id}
          className="grip"
          data-grip={grip.id}
          data-state={grip.state}
          visibility="hidden"
        >
          {grip.state !== 'free' && (
            <>
              <path className="grip-trace grip-halo" />
              <path className="grip-trace" />
            </>
          )}
          {grip.state === 'held' &&
            ([0, 1, 2] as const).map(axis => (
              <g key={axis} className="grip-arrow" data-axis={axis} {...pulls(grip, axis)}>
                <path className="grip-shaft grip-reach" />
                <path className="grip-shaft grip-halo" />
                <path className="grip-shaft" />
                <path className="grip-head" d="M-3 -7L9 0L-3 7Z" />
              </g>
            ))}
          {/* biome-ignore lint/a11y/useSemanticElements: a drawing holds no button */}
          <g
            className="grip-point"
            role="button"
            tabIndex={grip.state === 'along' ? -1 : 0}
            aria-label={`${grip.label}: move`}
            aria-pressed={grip.state === 'held'}
            {...pulls(grip, 'point')}
            onKeyDown={event => {
              if (!hand.key(grip.id, event)) return;
              event.preventDefault();
              event.stopPropagation();
            }}
          >
            <circle className="grip-reach" r="22" />
            <circle className="grip-halo" r={grip.state === 'held' ? 13 : 7} />
            <circle className="grip-ring" r={grip.state === 'held' ? 13 : 7} />
            <circle className="grip-dot" r="2.5" />
          </g>
          {grip.state === 'held' &&
            ([0, 1, 2] as const).map(axis => (
              <g
                key={axis}
                className="grip-tag"
                visibility={grip.by[axis] === 0 ? 'hidden' : 'inherit'}
              >
                <rect x="-34" y="-13" width="68" height="26" rx="4" />
                <text textAnchor="middle" dy="0.36em">
                  <Words text={words(grip.by[axis])} />
                </text>
              </g>
            ))}
        </g>
      ))}
    </svg>
  );
}

/** '+1 3/4' with its fraction in small figures. */
function Words({ text }: { text: string }) {
  const fraction = /\d+\/\d+/.exec(text);
  if (!fraction) return <tspan>{text}</tspan>;
  return (
    <>
      <tspan>{text.slice(0, fraction.index).trimEnd()}</tspan>
      <tspan className="mark-fraction">{fraction[0]}</tspan>
      <tspan>{text.slice(fraction.index + fraction[0].length)}</tspan>
    </>
  );
}
