/** Parts of two halves that slide in each other: shocks and rams. */
import { type Piece, segmentPiece } from '../solid/piece.ts';
import { type Solid, solidOf } from '../solid/solid.ts';
import { add, distance, scale, sub, unit, type V3 } from '../vector.ts';
import type { Anchor } from './part.ts';
import type { PartList } from './partList.ts';
import { ASSUMED } from './partSizes.ts';

export interface Telescope {
  name: string;
  kind: 'shock' | 'ram';
  /** What its halves are called behind its name. */
  words: readonly [body: string, rod: string];
  /** Length of the body from its eye's center on; null: a share of the shortest length. */
  body: { anchor: Anchor; radius: number; length: number | null };
  rod: { anchor: Anchor; radius: number };
  /** Between the eyes. */
  shortest: number;
  longest: number;
  /** Whether sizes of the halves are assumed. */
  assumed: { body: boolean; rod: boolean };
}

/** A body with its eye and a rod with its eye, each held at its own end and pointing at the other one. */
export function telescope(part: Telescope, list: PartList): void {
  const { name, kind, words, body, rod, shortest, longest, assumed } = part;
  const a = body.anchor;
  const b = rod.anchor;
  const drawn = distance(a.at, b.at);
  const along = unit(sub(b.at, a.at));
  const bodyLength = Math.min(body.length ?? shortest * ASSUMED.bodyShare, drawn);
  // as long as what shows of it at full length; the rest of the time it reaches into the body
  const rodLength = Math.max(
    1,
    Math.min(Math.max(longest, drawn) - bodyLength, shortest - 2 * ASSUMED.eye),
  );
  const half = (
    word: string,
    held: Anchor,
    towards: Anchor,
    solid: Solid,
    radius: number,
    isAssumed: boolean,
  ): void => {
    const housing = 2 * Math.max(ASSUMED.eye, radius);
    list.put(`${name} ${word}`, kind, { kind: 'aim', at: held, towards }, solid, {
      of: name,
      assumed: isAssumed,
      joints: [{ name: `${name}.${word}`, at: held.at, body: held.on, end: 0, housing }],
    });
  };
  half(words[0], a, b, withEye(a.at, along, bodyLength, body.radius), body.radius, assumed.body);
  half(
    words[1],
    b,
    a,
    withEye(b.at, scale(along, -1), rodLength, rod.radius),
    rod.radius,
    assumed.rod,
  );
}

/** An eye, and the tube that begins behind it: a tube's round end does not stand out past its eye. */
function withEye(eye: V3, along: V3, length: number, radius: number): Solid {
  const start = Math.min(Math.max(0, radius - ASSUMED.eye) + ASSUMED.eye, length / 2);
  const end = Math.max(start, length - radius);
  const at = (by: number): V3 => add(eye, scale(along, by));
  const pieces: Piece[] = [
    segmentPiece(eye, eye, ASSUMED.eye, 0, 0),
    segmentPiece(at(start), at(end), radius, start / length, end / length),
  ];
  return solidOf('bentTube', pieces);
}
