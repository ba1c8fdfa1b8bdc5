/** Whether a part is entered once for both sides or for each; taken apart, and made alike again after one of them. */
import { useMemo, useState } from 'react';
import { addressOf } from '../../../../geometry/build/address.ts';
import type { Side } from '../../../../geometry/build/build.ts';
import { followers } from '../../../../geometry/build/hanging.ts';
import { pairingOf } from '../../../../geometry/build/pairPlaces.ts';
import { listed, seat, sentence } from '../../../../geometry/finding/words.ts';
import { makeSidesAlike, takeSidesApart } from '../../edit/editSides.ts';
import { useShop } from '../../state/shop.ts';
import { pathWords } from '../../words/pathWords.ts';
import { pageShop } from '../../words/shopWords.ts';
import './Sides.css';
import type { Thing } from './things.ts';

const SIDES: readonly Side[] = ['left', 'right'];

/** How the sides of a thing of the file are entered; null for what has one or none. */
export function usePairing({ address }: Thing) {
  const file = useShop(shop => shop.opened?.file ?? null);
  return useMemo(
    () => (file ? pairingOf({ file, variant: null }, addressOf(address)) : null),
    [file, address],
  );
}

/** Parts that are entered once for both sides and hang on the left half: their right ones follow it too. */
function useHanging({ address }: Thing, isApart: boolean): string[] {
  const opened = useShop(shop => shop.opened);
  return useMemo(() => {
    if (!opened || !isApart) return [];
    const { file, build } = opened;
    const left = address.endsWith('"]')
      ? address.replace(/\["(?:left|right) (.*"\])$/, '["left $1')
      : `${address}.left`;
    const own = build.entries.map(({ path }) => path).filter(path => path.startsWith(left));
    const things = new Map(
      followers(build.entries, own).map(path => {
        const { thing, name } = pathWords(path);
        return [thing, name] as const;
      }),
    );
    const edited = { file, variant: null };
    return [...things]
      .filter(([thing]) => pairingOf(edited, addressOf(thing)) === 'alike')
      .map(([, name]) => name.toLowerCase());
  }, [opened, address, isApart]);
}

export function Sides({ thing }: { thing: Thing }) {
  const pairing = usePairing(thing);
  const rig = useShop(shop => shop.rig);
  const unit = useShop(shop => shop.look.unit);
  const [problem, setProblem] = useState<string | null>(null);
  const [isBusy, setBusy] = useState(false);
  const hanging = useHanging(thing, pairing === 'apart');
  if (!rig || pairing === null) return null;
  const shop = pageShop(rig.build, unit);
  const named = /\["(?:left|right) (.*)"\]$/.exec(thing.address)?.[1];
  const name = named ? sentence(named) : thing.name;
  const then = (done: Promise<string | null>): void => {
    setBusy(true);
    void done.then(setProblem).finally(() => setBusy(false));
  };
  // the driver's side first
  const sides = shop.driverSide === 'left' ? SIDES : SIDES.toReversed();
  return (
    <div className="sides">
      {pairing === 'alike' ? (
        <>
          <p className="note">Entered once for both sides.</p>
          <button
            type="button"
            className="quiet"
            disabled={isBusy}
            title="Two parts of their own, where they stand now: each can be moved and typed by itself"
            onClick={() => then(takeSidesApart(thing.address, name))}
          >
            Enter each side by itself
          </button>
        </>
      ) : (
        <>
          <p className="note">Entered for each side. Both alike again:</p>
          {sides.map(side => (
            <button
              key={side}
              type="button"
              className="quiet"
              disabled={isBusy}
              title={`The ${seat(shop, side)} one stays, the other becomes its mirror image`}
              onClick={() => then(makeSidesAlike(thing.address, name, side, seat(shop, side)))}
            >
              as the {seat(shop, side)} one
            </button>
          ))}
        </>
      )}
      {hanging.length > 0 && (
        <p className="note sides-hanging">
          Taped from here and entered once for both sides, after the {seat(shop, 'left')} one:{' '}
          <b className="strong">{listed(hanging)}</b>.
        </p>
      )}
      {problem !== null && (
        <p className="wish-problem" role="alert">
          It stays as it is: {problem}.
        </p>
      )}
    </div>
  );
}
