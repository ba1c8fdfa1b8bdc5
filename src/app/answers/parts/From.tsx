/** From where the chosen point is shown and typed: as it was taped, or from any place of the build. */
import { memo, useMemo } from 'react';
import { create } from 'zustand';
import type { Place } from '../../../../geometry/build/build.ts';
import { type GripSpot, gripsOf } from '../../../../geometry/build/grips.ts';
import { nameFor, startsIn, startsOf, whyNotFrom } from '../../../../geometry/build/tapeStarts.ts';
import { listed } from '../../../../geometry/finding/words.ts';
import { chosenSpot } from '../../edit/chosenSpot.ts';
import type { Rig } from '../../state/rig.ts';
import { useShop } from '../../state/shop.ts';
import { Sentence } from '../../words/Amount.tsx';
import { pointWritten, startWords } from '../../words/offsetWords.ts';

/** The name of the place that was chosen last, as parts of either side call it; null: as taped. */
const useStart = create<{ name: string | null }>()(() => ({ name: null }));

export interface Starts {
  /** The axle as it stood before a hand took the point: what is offered stays while it is held. */
  rig: Rig;
  spot: GripSpot;
  places: readonly Place[];
  /** Name of the chosen one; null: as taped. */
  chosen: string | null;
}

/** The places from which a point can be taped, and the chosen one where it is among them. */
export function useStarts(path: string | null): Starts | null {
  const rig = useShop(shop => shop.trial?.rig ?? shop.rig);
  const part = useShop(shop => shop.look.part);
  const name = useStart(start => start.name);
  return useMemo(() => {
    const grip = rig && gripsOf(rig.build, rig.axle).find(each => each.path === path);
    const spot = grip && chosenSpot(rig, grip.spots, part);
    if (!rig || !grip || !spot) return null;
    const places = startsOf(rig.build, rig.axle, grip, spot);
    const found = places.find(each => each.name === name);
    const twin = places.find(each => nameFor(rig.build.places, each, spot) === name);
    return { rig, spot, places, chosen: (found ?? twin)?.name ?? null };
  }, [rig, path, part, name]);
}

/** Places that x, y and z are taped from in the file, in words; null for the vehicle's own axes. */
export function useTapedFrom(path: string | null): readonly (string | null)[] {
  const file = useShop(shop => shop.opened?.file ?? null);
  const rig = useShop(shop => shop.trial?.rig ?? shop.rig);
  return useMemo(() => {
    const names = path === null ? null : startsIn(pointWritten(file, path));
    return (names ?? [null, null, null]).map(name => {
      if (!rig || name === null || name === 'ground' || name === 'centerline') return null;
      const place = rig.build.places.find(each => each.name === name);
      return place
        ? startWords(rig, place)
        : name.replace(/\.chassis$/, '.frame').replace('.', ', ');
    });
  }, [file, path, rig]);
}

export interface FromProps {
  starts: Starts;
  tapedFrom: readonly (string | null)[];
}

/** It stays as it is while a hand moves the point. */
export const From = memo(function From({ starts, tapedFrom }: FromProps) {
  const { rig, spot, places, chosen } = starts;
  const file = useShop(shop => shop.opened?.file ?? null);
  const groups: [string, Place[]][] = [
    ['The vehicle', places.filter(({ path }) => path === null)],
    ['Datums', places.filter(({ path }) => path?.startsWith('datums'))],
    ['On the frame', places.filter(each => isEnd(each) && each.body === 'chassis')],
    ['On the axle', places.filter(each => isEnd(each) && each.body !== 'chassis')],
  ];
  const place = places.find(({ name }) => name === chosen);
  const why = place && file ? whyNotFrom({ build: rig.build, file }, spot, place, 2) : null;
  const taped = [...new Set(tapedFrom.filter(each => each !== null))];
  return (
    <label className="points-from">
      <span>Measured from</span>
      <select
        className="field"
        value={chosen ?? ''}
        onChange={event => {
          const place = places.find(({ name }) => name === event.target.value);
          useStart.setState({ name: place ? nameFor(rig.build.places, place, spot) : null });
        }}
      >
        <option value="">
          as taped{taped.length > 0 ? `: ${listed(taped)}` : ': ground below the front axle'}
        </option>
        {groups.map(
          ([group, list]) =>
            list.length > 0 && (
              <optgroup key={group} label={group}>
                {list.map(each => (
                  <option key={each.name} value={each.name}>
                    {startWords(rig, each)}
                  </option>
                ))}
              </optgroup>
            ),
        )}
      </select>
      {place && (
        <small>
          {why === null ? (
            <>
              Typed here it is kept as taped from there. A way turns it round:{' '}
              <Sentence text="5 1/2 below" />.
            </>
          ) : (
            `Shown as it stands at ride height. It can't be typed from here: ${why}.`
          )}
        </small>
      )}
    </label>
  );
});

const isEnd = ({ path }: Place): boolean => path !== null && !path.startsWith('datums');
