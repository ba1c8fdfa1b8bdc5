/** Actions that move the axle. */
import { furthest } from '../../../geometry/cycle/edge.ts';
import type { Finding } from '../../../geometry/finding/finding.ts';
import { SHOWN } from '../../../geometry/measure/measure.ts';
import type { Place } from '../../worker/protocol.ts';
import type { Action } from './action.ts';
import { type Handle, intoRange, place, RIDE } from './rig.ts';
import type { Shop } from './shop.ts';

/** Moves the handle, kept inside the range. */
function moved(shop: Shop, to: Partial<Handle>): Partial<Shop> {
  const { rig, shown, results } = shop;
  if (!rig) return shop;
  const wanted = { ...shown.handle, ...to };
  const [left, right] = intoRange(results.range, wanted.left, wanted.right);
  return { shown: place(rig, { ...wanted, left, right }, shown) };
}

/** By hand: the walk stops, and what was chosen stays chosen. */
export const moveTo: Action<Partial<Handle>> = {
  name: 'moveTo',
  label: 'Move the axle',
  run: (shop, to) => ({
    ...moved(shop, to.steer !== undefined && to.lock === undefined ? { ...to, lock: 0 } : to),
    play: { ...shop.play, isPlaying: false },
  }),
};

/** To a place that the worker told, exactly. */
export function toPlace(shop: Shop, { left, right, steer }: Place): Partial<Shop> {
  const { rig, shown } = shop;
  return rig ? { shown: place(rig, { left, right, steer, lock: 0 }, shown) } : shop;
}

export const SHOP_POSES = [
  'ride',
  'bothUp',
  'bothDown',
  'driverUp',
  'passengerUp',
  'fullLeft',
  'fullRight',
  'worst',
] as const;
export type ShopPoseName = (typeof SHOP_POSES)[number];

export const POSE_LABELS: Record<ShopPoseName, string> = {
  ride: 'Ride',
  bothUp: 'Both up',
  bothDown: 'Both down',
  driverUp: 'Driver up',
  passengerUp: 'Passenger up',
  fullLeft: 'Full left',
  fullRight: 'Full right',
  worst: 'Worst',
};

/**
 * Where a pose of the shop is; what it leaves as it is stands in none. Locks keep the travel, travels keep the
 * steering. Of two that are compared, as far as both go. Null where it is not known yet.
 */
export function shopPose(
  { rig, results, comparing }: Pick<Shop, 'rig' | 'results' | 'comparing'>,
  name: ShopPoseName,
): Partial<Handle> | null {
  if (!rig) return null;
  const driver = rig.build.driverSide === 'left' ? 1 : -1;
  const to = (direction: readonly [number, number]): Partial<Handle> => {
    const both = [rig, comparing?.other?.rig].flatMap(each => each ?? []);
    const ends = both.map(({ reach }) => furthest(reach, [0, 0], direction));
    const t = Math.min(...ends.map(({ left }) => Math.abs(left)));
    return { left: t * direction[0], right: t * direction[1] };
  };
  switch (name) {
    case 'ride':
      return RIDE;
    case 'bothUp':
      return to([1, 1]);
    case 'bothDown':
      return to([-1, -1]);
    case 'driverUp':
      return to([driver, -driver]);
    case 'passengerUp':
      return to([-driver, driver]);
    case 'fullLeft':
      return { lock: 1 };
    case 'fullRight':
      return { lock: -1 };
    case 'worst': {
      const [worst] = results.findings;
      return worst ? handleOf(worst) : null;
    }
  }
}

/** One of the eight poses that a shop asks for. */
export const toShopPose: Action<ShopPoseName> = {
  name: 'toShopPose',
  label: 'Go to a pose',
  run(shop, name) {
    if (name === 'worst' && shop.results.findings.length > 0) return chooseFinding.run(shop, 0);
    const pose = shopPose(shop, name);
    return { ...(pose ? moved(shop, pose) : {}), play: { ...shop.play, isPlaying: false } };
  },
};

/** The handle that a finding's pose is. */
export function handleOf({ pose }: Finding): Place {
  const steer = pose.steer ? pose.steer.value / (pose.steer.unit === 'deg' ? SHOWN.deg : 1) : 0;
  return { left: pose.left_in, right: pose.right_in, steer };
}

/** Chooses a finding: the axle goes to its pose. */
export const chooseFinding: Action<number | null> = {
  name: 'chooseFinding',
  label: 'Go to a finding',
  run(shop, index) {
    const finding = index === null ? undefined : shop.results.findings[index];
    const look = { ...shop.look, finding: finding ? index : null };
    if (!finding) return { look };
    const { framing } = look;
    return {
      ...toPlace(shop, handleOf(finding)),
      play: { ...shop.play, isPlaying: false },
      look: {
        ...look,
        framing: { count: framing.count + 1, part: finding.parts[0] ?? null, spot: null },
      },
    };
  },
};

/** The next finding, or the one before; from none, the worst. */
export const stepFinding: Action<1 | -1> = {
  name: 'stepFinding',
  label: 'Go to the next finding',
  run(shop, step) {
    const { findings } = shop.results;
    if (findings.length === 0) return shop;
    const from = shop.look.finding ?? (step === 1 ? -1 : 0);
    const next = (from + step + findings.length) % findings.length;
    return chooseFinding.run(shop, next);
  },
};
