/**
 * Proves the gaps of one axle's pairs: `Prover` holds what they share, `PairProof` does one of them.
 */
import { type EdgePoint, inside } from '../cycle/edge.ts';
import type { Range } from '../cycle/range.ts';
import type { Reach } from '../cycle/reach.ts';
import type { Pose } from '../pose/pose.ts';
import { DistanceSolver } from '../solid/distance.ts';
import { PLACEMENT_SIZE } from '../solid/placement.ts';
import { cornerOf } from './cells.ts';
import { LowerBound } from './lowerBound.ts';
import { PairProof, type Proof, type ProofTools } from './pairProof.ts';
import type { Pair } from './pairs.ts';
import { placePart, placeRolled } from './place.ts';
import { insideRange, Spaces } from './spaces.ts';

export type { Proof } from './pairProof.ts';

/** How far from the edge a cell must lie to be beyond it where poses are missing, in: the edge is known to EDGE_in. */
const BEYOND_in = 0.02;

/**
 * @example
 *   const prover = new Prover(range, reach);
 *   const proof = prover.prove(pair, 0.02, { gap: found.gap, pose: found.pose });
 */
export class Prover {
  readonly spaces: Spaces;
  readonly #bound = new LowerBound();
  readonly #tools: ProofTools;
  readonly #solver = new DistanceSolver();

  constructor(range: Range, reach: Reach) {
    this.spaces = new Spaces(range, reach);
    const a = new Float64Array(PLACEMENT_SIZE);
    const b = new Float64Array(PLACEMENT_SIZE);
    const another = new DistanceSolver();
    this.#tools = {
      solver: this.#solver,
      bound: this.#bound,
      inside: (pose, space) => insideRange(pose, space, reach),
      gapAt: (pair, pose, roll) => {
        for (const [part, out] of [
          [pair.a, a],
          [pair.b, b],
        ] as const) {
          if (!roll || part.roll?.of !== roll.of) placePart(part, pose, out);
          else if (!placeRolled(part, pose, roll.angle, out)) return Number.POSITIVE_INFINITY;
        }
        another.run(pair.solidA, a, pair.solidB, b);
        return another.gap;
      },
      isBeyond: (space, cell) => {
        if (!space.parameters.travels) return false;
        return isBeyondEdge(
          range.edge,
          [0, 1].map(c => space.value(c, cornerOf(cell, 0)[c] as number)) as [number, number],
          [0, 1].map(c => space.value(c, cornerOf(cell, 3)[c] as number)) as [number, number],
        );
      },
    };
  }

  /** Multiplies the slack of cells; 1 but in the test that shows what happens without it. */
  set slack(factor: number) {
    this.#bound.slackFactor = factor;
  }

  /**
   * The proof of one pair, to be stepped; null where its motion can't be bounded.
   *
   * @param start least gap known so far, with its pose inside the range
   */
  begin(
    pair: Pair,
    resolution: number,
    start: { gap: number; pose: Pose },
    which = 0,
  ): PairProof | null {
    const found = this.spaces.of(pair)[which];
    if (!found) return null;
    return new PairProof(pair, found.space, found.stops, this.#tools, resolution, start);
  }

  /**
   * Proves one pair down to a resolution, in its fewest parameters; where those leave it open (they may allow what
   * the steering's other stops do not), in the steering input.
   *
   * @param stop asked between cells: true ends the proof with what is known
   */
  prove(
    pair: Pair,
    resolution: number,
    start: { gap: number; pose: Pose },
    stop: () => boolean = () => false,
  ): Proof {
    const none = { upper: start.gap, pose: start.pose, roll: null, cells: 0 };
    if (pair.still) return { ...none, lower: start.gap, undecided: false };
    let best: Proof = { ...none, lower: Number.NEGATIVE_INFINITY, undecided: true };
    for (let which = 0; ; which++) {
      const known = { gap: best.upper, pose: best.pose };
      const proof = this.begin(pair, resolution, known, which);
      if (!proof) return best;
      while (!proof.isDone && !stop()) proof.step();
      const found = proof.proof;
      best = {
        ...found,
        roll: found.upper < best.upper ? found.roll : best.roll,
        lower: Math.max(found.lower, best.lower),
        cells: found.cells + best.cells,
      };
      if (!found.undecided || stop()) return best;
    }
  }
}

/** Whether a rectangle of travels lies outside the edge, and away from it. */
function isBeyondEdge(
  edge: readonly EdgePoint[],
  low: readonly [number, number],
  high: readonly [number, number],
): boolean {
  if (inside(edge, (low[0] + high[0]) / 2, (low[1] + high[1]) / 2)) return false;
  const [l0, r0] = [low[0] - BEYOND_in, low[1] - BEYOND_in];
  const [l1, r1] = [high[0] + BEYOND_in, high[1] + BEYOND_in];
  for (const [i, p] of edge.entries()) {
    const q = edge[(i + 1) % edge.length] as EdgePoint;
    // the piece of the chord within the rectangle (Liang and Barsky; from memory)
    let [from, to] = [0, 1];
    for (const [at, d, least, most] of [
      [p.left, q.left - p.left, l0, l1],
      [p.right, q.right - p.right, r0, r1],
    ] as const) {
      if (d === 0) {
        if (at < least || at > most) to = -1;
        continue;
      }
      const [s, t] = [(least - at) / d, (most - at) / d];
      from = Math.max(from, Math.min(s, t));
      to = Math.min(to, Math.max(s, t));
    }
    if (from <= to) return false;
  }
  return true;
}
