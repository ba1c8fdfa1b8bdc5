/** Marks of a line drawing, each with a tone in place of a color: the page and scripts paint them as they like. */

export type Spot = readonly [x: number, y: number];

/** What a mark is of; a painter knows a color for each. */
export type Tone =
  | 'ground'
  | 'floor'
  | 'tire'
  | 'frame'
  | 'part'
  | 'link'
  | 'bar'
  | 'rod'
  | 'drag'
  | 'joint'
  | 'tape';

export type Mark =
  | { kind: 'line'; tone: Tone; points: readonly Spot[]; width: number; isDashed?: boolean }
  | { kind: 'circle'; tone: Tone; at: Spot; radius: number }
  | { kind: 'box'; tone: Tone; at: Spot; size: Spot; round: number }
  /** A number or an amount on what is taped. */
  | { kind: 'tag'; at: Spot; text: string };

export const line = (tone: Tone, width: number, ...points: Spot[]): Mark => ({
  kind: 'line',
  tone,
  points,
  width,
});
