/** The poses that a shop asks for, each with its stamp; one is pressed while the axle stands there. */
import { useMemo } from 'react';
import { Stamp } from '../../charts/Stamp.tsx';
import { act } from '../state/action.ts';
import { POSE_LABELS, SHOP_POSES, type ShopPoseName, shopPose, toShopPose } from '../state/move.ts';
import type { Handle } from '../state/rig.ts';
import { type Shop, useShop } from '../state/shop.ts';
import './PoseButtons.css';
import { useSettled, useSettledValue } from './useSettled.ts';

/** Nearer than this it stands there: a tape's finest mark, in; and of the steering, rad or in. */
const THERE = { travel: 1 / 32, steer: 0.005 };

const rigOf = (shop: Shop) => shop.rig;
const rangeOf = (shop: Shop) => shop.results.range;

export function PoseButtons() {
  // the ends of the range are looked for: not in every frame of a point that is moved
  const rig = useSettledValue(rigOf);
  const range = useSettledValue(rangeOf);
  const worst = useShop(shop => shop.results.findings[0]);
  const handle = useSettled();
  const steers = rig?.axle.steered ?? false;
  const names = SHOP_POSES.filter(name => steers || (name !== 'fullLeft' && name !== 'fullRight'));
  // biome-ignore lint/correctness/useExhaustiveDependencies: where the poses are hangs on all three
  const poses = useMemo(() => {
    const shop = useShop.getState();
    return new Map(names.map(name => [name, shopPose(shop, name)]));
  }, [rig, range, worst]);
  return (
    <fieldset className="poses" aria-label="Poses of the shop">
      {names.map(name => {
        const pose = poses.get(name) ?? null;
        return (
          <button
            key={name}
            type="button"
            data-pose={name}
            aria-label={POSE_LABELS[name]}
            aria-pressed={pose !== null && isThere(handle, pose, name)}
            disabled={name === 'worst' && !worst}
            onClick={() => act(toShopPose, name)}
          >
            <Stamp {...stampOf(useShop.getState(), name, pose)} />
            <span>
              {name === 'passengerUp' ? (
                <>
                  Pass<i>enger</i> up
                </>
              ) : (
                POSE_LABELS[name]
              )}
            </span>
          </button>
        );
      })}
    </fieldset>
  );
}

function isThere(handle: Handle, pose: Partial<Handle>, name: ShopPoseName): boolean {
  const { left, right, steer, lock } = pose;
  const isNear = (a: number, b: number | undefined, by: number): boolean =>
    b === undefined || Math.abs(a - b) <= by;
  if (name === 'fullLeft' || name === 'fullRight') {
    const { interval } = useShop.getState().shown;
    const end = lock === 1 ? interval?.greatest : interval?.least;
    return end !== undefined && isNear(handle.steer, end.value, 1e-6);
  }
  return (
    isNear(handle.left, left, THERE.travel) &&
    isNear(handle.right, right, THERE.travel) &&
    isNear(handle.steer, steer, THERE.steer)
  );
}

/** Where the dot of each pose stands; that of the worst as shares of the range. */
function stampOf(
  { results, rig }: Shop,
  name: ShopPoseName,
  pose: Partial<Handle> | null,
): { driver: number; passenger: number; steer: number | null } {
  const fixed = STAMPS[name];
  if (fixed) return { driver: fixed[0], passenger: fixed[1], steer: fixed[2] };
  const edge = results.range?.edge ?? [];
  const most = edge.reduce((m, p) => Math.max(m, Math.abs(p.left), Math.abs(p.right)), 1);
  const shares = [(pose?.left ?? 0) / most, (pose?.right ?? 0) / most] as const;
  const [driver, passenger] = rig?.build.driverSide === 'right' ? [shares[1], shares[0]] : shares;
  const interval = rig?.axle.steered && pose ? rig.reach.steering(rig.model.ride) : null;
  const steer = pose?.steer ?? 0;
  const end = steer > 0 ? interval?.greatest.value : interval?.least.value;
  return { driver, passenger, steer: end ? steer / Math.abs(end) : steer === 0 ? null : 0 };
}

const STAMPS: Partial<Record<ShopPoseName, readonly [number, number, number | null]>> = {
  ride: [0, 0, null],
  bothUp: [0.6, 0.6, null],
  bothDown: [-0.6, -0.6, null],
  driverUp: [0.9, -0.9, null],
  passengerUp: [-0.9, 0.9, null],
  fullLeft: [0, 0, 1],
  fullRight: [0, 0, -1],
};
