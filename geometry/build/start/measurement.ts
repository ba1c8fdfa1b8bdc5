/** What one measurement of a new build asks for. */
import type { AxleName } from '../build.ts';

/** How one looks at the vehicle: from the driver's side, from ahead, from above. */
export type View = 'side' | 'front' | 'top';

/** Where a tape may start for a height. Tapes start at the datum that is at hand. */
export type HeightDatum = 'floor' | 'wheelCenter' | 'railBottom';

/** A named point of the drawing; where it lies, `Proposal.anchors` says. */
export type Anchor = string;

export interface Measurement {
  /** `wheelbase`, `front.lowerFrameHeight` … */
  id: string;
  axle: AxleName | null;
  /** Short name: 'lower link, frame end'. */
  label: string;
  /** The question as one asks it in the shop. */
  question: string;
  /** How to do it, with the standard's or the trade's term. */
  hint: string;
  tool: 'tape' | 'plumb bob' | 'angle finder';
  view: View;
  /** From where to where; for an angle: the line whose angle is taken. */
  from: Anchor;
  to: Anchor;
  dimension: 'length' | 'angle';
  /** Plausible, in inches or radians. */
  least: number;
  most: number;
  /** An answer that would be right: '22 1/2'. */
  such: string;
  /** Whether left and right may be given apart. */
  sided: boolean;
  /** Where the tape may start; empty where that is fixed by `from`. */
  datums: readonly HeightDatum[];
}
