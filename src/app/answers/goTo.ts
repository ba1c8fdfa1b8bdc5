/** Puts the axle at a pose that a result names. */
import type { PoseName } from '../../../geometry/cycle/walkReport.ts';
import { SHOWN } from '../../../geometry/measure/measure.ts';
import type { Action } from '../state/action.ts';
import { toPlace } from '../state/move.ts';

export const goToPose: Action<PoseName> = {
  name: 'goToPose',
  label: 'Go to a pose that is named',
  run(shop, pose) {
    const steer = pose.steer ? pose.steer.value / (pose.steer.unit === 'deg' ? SHOWN.deg : 1) : 0;
    return {
      ...toPlace(shop, { left: pose.left_in, right: pose.right_in, steer }),
      play: { ...shop.play, isPlaying: false },
    };
  },
};
