/** What is about to be moved: the chosen point, those that go with it, and the marks that it goes by. */
import { create } from 'zustand';
import { INCH_mm } from '../../../geometry/build/units.ts';

/** Marks that a point is moved by. */
export const SNAPS = ['1/16', '1/8', '1 mm'] as const;
export type Snap = (typeof SNAPS)[number];

export const SNAP_in: Record<Snap, number> = { '1/16': 1 / 16, '1/8': 1 / 8, '1 mm': 1 / INCH_mm };

interface Mover {
  /** Path of the chosen point, or none. */
  point: string | null;
  /** Paths of points that sit on the same bracket and go with it. */
  together: ReadonlySet<string>;
  snap: Snap;
}

export const useMover = create<Mover>()(() => ({ point: null, together: new Set(), snap: '1/16' }));

/** Chooses a point, with what goes with it from the start. */
export function choosePoint(point: string | null, together: readonly string[] = []): void {
  useMover.setState({ point, together: new Set(together) });
}

export function setSnap(snap: Snap): void {
  useMover.setState({ snap });
}

/** Takes a point along, or leaves it where it is. */
export function toggleTogether(path: string): void {
  useMover.setState(({ together }) => {
    const next = new Set(together);
    if (!next.delete(path)) next.add(path);
    return { together: next };
  });
}
