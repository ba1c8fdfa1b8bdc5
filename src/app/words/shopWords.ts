/** Words of the shop on screens: lengths in the unit of the page, driver and passenger for left and right. */
import type { Build } from '../../../geometry/build/build.ts';
import type { PoseName } from '../../../geometry/cycle/walkReport.ts';
import { lockAt, shareAt } from '../../../geometry/finding/place.ts';
import {
  type Lock,
  riseWords,
  type Shop,
  seat,
  sentence,
} from '../../../geometry/finding/words.ts';
import { SHOWN } from '../../../geometry/measure/measure.ts';
import type { Pose } from '../../../geometry/pose/pose.ts';
import type { Rig } from '../state/rig.ts';

/** What words depend on, with the unit of the page in place of the build's. */
export const pageShop = (build: Pick<Build, 'driverSide'>, unit: Shop['unit']): Shop => ({
  driverSide: build.driverSide,
  unit,
});

/** Words of a file as the shop says them: 'Left lower link' → 'Driver lower link'. */
export const seated = (shop: Pick<Shop, 'driverSide'>, words: string): string =>
  words.replace(/^(left|right)\b/i, (side: string) => {
    const seats = seat({ ...shop, unit: 'in' }, side.toLowerCase() === 'left' ? 'left' : 'right');
    return side.startsWith('l') || side.startsWith('r') ? seats : sentence(seats);
  });

/** A named pose, solved; null where it can't be. */
export function poseOf({ model }: Rig, name: PoseName): Pose | null {
  const steer = name.steer ? name.steer.value / (name.steer.unit === 'deg' ? SHOWN.deg : 1) : 0;
  return model.near(model.ride, name.left_in, name.right_in, steer).pose;
}

/** The inner tire's turn on the axle, deg, + left; null where nothing steers. */
export function innerTire(pose: Pose): number | null {
  const turn = pose.knuckleTurn(pose.input.steer >= 0 ? 'left' : 'right');
  return turn === null ? null : turn * SHOWN.deg;
}

/** How the steering stands: 'full left', 'wheels straight', 'inner tire 12° right'; '' where nothing steers. */
export function steeringWords(rig: Rig, pose: Pose): string {
  const inner = innerTire(pose);
  if (inner === null) return '';
  const lock = lockAt(rig, pose);
  if (lock === 'full left' || lock === 'full right') return lock;
  if (lock === 'straight' || Math.abs(inner) < 0.5) return 'wheels straight';
  return `inner tire ${Math.abs(inner).toFixed(0)}° ${pose.input.steer > 0 ? 'left' : 'right'}`;
}

/** Where the steering stands: its share of what the stops allow there, and its lock. */
export const steeringAt = (rig: Rig, pose: Pose): { share: number; lock: Lock } => ({
  share: shareAt(rig, pose),
  lock: lockAt(rig, pose),
});

/** Travel from which a wheel counts as up or down when the axle is told to be flexed, in. */
const FLEXED_in = 1;

/** Both wheels' travel in words: '8 7/8 up', '9 3/8 down'. `both` where they stand alike. */
export interface TravelWords {
  isFlexed: boolean;
  both: string | null;
  driver: string;
  passenger: string;
}

export function travelOf(shop: Shop, left: number, right: number): TravelWords {
  const [driver, passenger] = shop.driverSide === 'left' ? [left, right] : [right, left];
  const words = { driver: riseWords(shop, driver), passenger: riseWords(shop, passenger) };
  return {
    isFlexed: Math.min(left, right) < -FLEXED_in && Math.max(left, right) > FLEXED_in,
    both: words.driver === words.passenger ? words.driver : null,
    ...words,
  };
}

/** A pose on one line: 'Driver 8 7/8 up, passenger 9 3/8 down, full right'. */
export function poseLine(shop: Shop, left: number, right: number, steering: string): string {
  const { both, driver, passenger } = travelOf(shop, left, right);
  const travel =
    both === null
      ? `Driver ${driver}, passenger ${passenger}`
      : both === 'at ride height'
        ? 'Ride height'
        : `Both wheels ${both}`;
  return steering === '' ? travel : `${travel}, ${steering}`;
}
