/** What a measurement would read on a proposal: shown where nobody has taped it yet. */
import type { Measurement } from './measurement.ts';
import type { Proposal } from './propose.ts';

/** In inches or radians, heights from the floor; null where the drawing lacks one of the points. */
export function readOff(measurement: Measurement, { anchors }: Proposal): number | null {
  const { from, to, dimension } = measurement;
  const [a, b] = [anchors[from], anchors[to]];
  if (!a || !b) return null;
  const [x, y, z] = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
  if (from === 'floor') return z;
  return dimension === 'angle' ? Math.atan2(z, Math.hypot(x, y)) : Math.hypot(x, y, z);
}
