/** A point of a part that a hand can take, as the view is told of it. */
import type { Pose } from '../../../geometry/pose/pose.ts';
import type { V3 } from '../../../geometry/vector.ts';
import { carry, type Placed } from '../placed.ts';
import type { Axes } from './dragged.ts';

export interface GripMark {
  id: string;
  label: string;
  /** Body that it rides on; null: its own part. */
  on: string | null;
  part: string;
  /** Vehicle axes as drawn, in. */
  at: V3;
  /** `along`: goes with the one that is held. */
  state: 'free' | 'held' | 'along';
  /** How far it has been moved, along the body's axes as drawn, in. */
  by: V3;
}

const out = { x: 0, y: 0, z: 0 };

/** A point that rides as the grip does: where it is now; null where its part is not there. */
export function standing(placed: Placed, { on, part }: GripMark, at: V3): V3 | null {
  const { pose } = placed;
  if (on !== null) return pose ? pose.point(on, at) : null;
  const place = placed.places[placed.indexOf(part)];
  if (!place) return null;
  carry(place, at, out);
  return [out.x, out.y, out.z];
}

/** The axes that the grip's coordinates run along, as its body stands now. */
export function axesNow(pose: Pose | null, { on }: GripMark): Axes {
  // what rides on its own part (a bend of a rod) is drawn at ride height, in vehicle axes
  const body = on ?? 'chassis';
  const way = (v: V3): V3 => (pose ? pose.direction(body, v) : v);
  return [way([1, 0, 0]), way([0, 1, 0]), way([0, 0, 1])];
}
