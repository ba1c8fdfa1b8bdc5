/** From where the chosen point is shown and typed: as it was taped, or from any place of the build. */
import { useMemo } from 'react';
import { create } from 'zustand';
import type { Place } from '../../../../geometry/build/build.ts';
import type { Grip, GripSpot } from '../../../../geometry/build/grips.ts';
import { nameFor, startsIn, startsOf } from '../../../../geometry/build/tapeStarts.ts';
import { listed } from '../../../../geometry/finding/words.ts';
import type { Rig } from '../../state/rig.ts';
import { useShop } from '../../state/shop.ts';
import { Sentence } from '../../words/Amount.tsx';
import { pointWritten, startWords } from '../../words/offsetWords.ts';

/** The name of the place that was chosen last, as parts of either side call it; null: as taped. */
const useStart = create<{ name: string | null }>()(() => ({ name: null }));

/** The chosen place where this point can be taped from it, and all that it can be. */
export function useStarts(
  rig: Rig | null,
  grip: Grip | undefined,
  spot: GripSpot | undefined,
): { starts: readonly Place[]; place: Place | null } {
  const name = useStart(start => start.name);
  const starts = useMemo(
    () => (rig && grip && spot ? startsOf(rig.build, rig.axle, grip, spot) : []),
    [rig, grip, spot],
  );
  const found = starts.find(each => each.name === name);
  const twin = starts.find(each => spot && rig && nameFor(rig.build.places, each, spot) === name);
  return { starts, place: found ?? twin ?? null };
}

/** Places that x, y and z are taped from in the file, in words; null for the vehicle's own axes. */
export function useTapedFrom(rig: Rig | null, grip: Grip | undefined): (string | null)[] {
  const file = useShop(shop => shop.opened?.file ?? null);
  return useMemo(() => {
    const names = grip && startsIn(pointWritten(file, grip.path));
    return (names ?? [null, null, null]).map(name => {
      if (!rig || name === null || name === 'ground' || name === 'centerline') return null;
      const place = rig.build.places.find(each => each.name === name);
      return place
        ? startWords(rig, place)
        : name.replace(/\.chassis$/, '.frame').replace('.', ', ');
    });
  }, [file, grip, rig]);
}

export interface FromProps {
  rig: Rig;
  starts: readonly Place[];
  place: Place | null;
  spot: GripSpot;
  tapedFrom: readonly (string | null)[];
}

export function From({ rig, starts, place, spot, tapedFrom }: FromProps) {
  const groups: [string, Place[]][] = [
    ['The vehicle', starts.filter(({ path }) => path === null)],
    ['Datums', starts.filter(({ path }) => path?.startsWith('datums'))],
    ['On the frame', starts.filter(each => isEnd(each) && each.body === 'chassis')],
    ['On the axle', starts.filter(each => isEnd(each) && each.body !== 'chassis')],
  ];
  const note = place && (
    <small>
      Typed here it is kept as taped from there; a way turns it round, as in{' '}
      <Sentence text="5 1/2 below" />.
    </small>
  );
  const taped = [...new Set(tapedFrom.filter(each => each !== null))];
  return (
    <label className="points-from">
      <span>Measured from</span>
      <select
        className="field"
        value={place?.name ?? ''}
        onChange={event => {
          const chosen = starts.find(({ name }) => name === event.target.value);
          useStart.setState({
            name: chosen ? nameFor(rig.build.places, chosen, spot) : null,
          });
        }}
      >
        <option value="">
          as taped{taped.length > 0 ? `: ${listed(taped)}` : ': ground below the front axle'}
        </option>
        {groups.map(
          ([group, places]) =>
            places.length > 0 && (
              <optgroup key={group} label={group}>
                {places.map(each => (
                  <option key={each.name} value={each.name}>
                    {startWords(rig, each)}
                  </option>
                ))}
              </optgroup>
            ),
        )}
      </select>
      {note}
    </label>
  );
}

const isEnd = ({ path }: Place): boolean => path !== null && !path.startsWith('datums');
