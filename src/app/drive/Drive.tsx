/** The left zone: travel map, steering, and the eight poses of a shop. */
import { act } from '../state/action.ts';
import { POSE_LABELS, SHOP_POSES, toShopPose } from '../state/move.ts';

export function Drive() {
  return (
    <section className="drive" aria-label="Drive the axle">
      {SHOP_POSES.map(name => (
        <button key={name} type="button" className="button" onClick={() => act(toShopPose, name)}>
          {POSE_LABELS[name]}
        </button>
      ))}
    </section>
  );
}
