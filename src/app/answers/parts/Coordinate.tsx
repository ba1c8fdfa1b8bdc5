/** One coordinate of the chosen point as it is typed, from where it was taped, and what it was before a hand took it. */
import type { Entry } from '../../../../geometry/build/build.ts';
import type { Grip } from '../../../../geometry/build/grips.ts';
import { gripWords, nudge } from '../../edit/drag.ts';
import { useShop } from '../../state/shop.ts';
import { Sentence } from '../../words/Amount.tsx';
import { useEntry } from '../useTyped.ts';
import { AXES, Stepper } from './Stepper.tsx';

export interface CoordinateProps {
  entry: Entry;
  axis: 0 | 1 | 2;
  grip: Grip;
  /** The place that it was taped from, in words; null for the vehicle's own axes. */
  from: string | null;
}

export function Coordinate({ entry, axis, grip, from }: CoordinateProps) {
  const typed = useEntry(entry, `${gripWords(grip)}, ${AXES[axis].toLowerCase()}`);
  const was = useShop(
    shop => shop.trial?.rig.build.entries.find(({ path }) => path === entry.path)?.typed ?? null,
  );
  return (
    <Stepper
      axis={axis}
      typed={typed}
      used={entry.typed}
      isMirrored={grip.spots.length > 1}
      step={sense => void nudge(axis, sense)}
    >
      {from !== null && <small>from {from}</small>}
      {was !== null && was !== entry.typed && (
        <small>
          was <Sentence text={was} />
        </small>
      )}
    </Stepper>
  );
}
