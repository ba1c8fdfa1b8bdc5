/** How far the chosen point is from a place along one axis, which way in words; typed, it is taped from there. */
import type { Place } from '../../../../geometry/build/build.ts';
import { formatLength } from '../../../../geometry/build/format.ts';
import type { Grip, GripSpot } from '../../../../geometry/build/grips.ts';
import {
  nameFor,
  offsetFrom,
  startsIn,
  whyNotFrom,
} from '../../../../geometry/build/tapeStarts.ts';
import { gripWords, nudge } from '../../edit/drag.ts';
import { readOffset, typeOffset } from '../../edit/typeOffset.ts';
import type { Rig } from '../../state/rig.ts';
import { useShop } from '../../state/shop.ts';
import { offsetWay, pointWritten } from '../../words/offsetWords.ts';
import { useTyped } from '../useTyped.ts';
import { Stepper } from './Stepper.tsx';

/** Nearer than this it is level with the place, in. */
const LEVEL_in = 1e-9;

export interface OffsetProps {
  rig: Rig;
  axis: 0 | 1 | 2;
  grip: Grip;
  spot: GripSpot;
  place: Place;
  /** The place in words. */
  words: string;
}

export function Offset({ rig: { build }, axis, grip, spot, place, words }: OffsetProps) {
  const file = useShop(shop => shop.opened?.file ?? null);
  const inches = offsetFrom(spot, place)[axis];
  const isMirrored = spot.image !== null;
  const from = nameFor(build.places, place, spot);
  const entry = grip.entries[axis];
  const why = file && whyNotFrom({ build, file }, spot, place, axis);
  const isSo = file && !why && startsIn(pointWritten(file, grip.path))?.[axis] === from;
  // taped from there it is shown as typed
  const plain = isSo ? entry.typed.replace(/^[-−–]\s*/, '') : '';
  const used =
    isSo && /^[^+()]*$/.test(plain)
      ? plain
      : formatLength(Math.abs(inches), { unit: build.unit, denominator: 64 });
  const isLevel = Math.abs(inches) < LEVEL_in;
  const now = inches < 0 && !isLevel ? -1 : 1;
  const typed = useTyped(used, async text => {
    const driver = build.driverSide === 'left' ? 1 : -1;
    const seats: Record<string, 1 | -1> = { driver, passenger: driver === 1 ? -1 : 1 };
    if (why) return `It can't be typed from here: ${why}; type it as taped`;
    const read = readOffset(text, axis, now, isMirrored ? {} : seats);
    const way = offsetWay(build, axis, read.way, isMirrored);
    const step = `${gripWords(grip)}: ${read.typed} ${way} ${words}`;
    return typeOffset(grip.path, step, { axis, from, ...read });
  });
  return (
    <Stepper
      axis={axis}
      typed={typed}
      used={isLevel ? '0' : `${used} ${offsetWay(build, axis, now, isMirrored)} it`}
      isMirrored={isMirrored}
      step={sense => void nudge(axis, sense)}
    >
      <small>
        {isLevel ? 'level with it' : offsetWay(build, axis, now, isMirrored).replace(/ of$/, '')}
      </small>
    </Stepper>
  );
}
