/** Candidates for one part: each is walked with its gaps, and told against the build as it stands. */
import { type CandidateRow, candidateRow, rowAsBuilt } from '../../geometry/compare/candidates.ts';
import { named } from '../../geometry/gap/gapReport.ts';
import type { PairGap } from '../../geometry/gap/pairGap.ts';
import type { CandidateRequest, CandidateTold, GapThere, SideRequest } from './compareProtocol.ts';
import { quietly } from './pieces.ts';
import { type Draw, Walked } from './walked.ts';

/** @param walked finds the base, which may be known already */
export function* candidateRows(
  base: SideRequest,
  part: string,
  options: CandidateRequest['options'],
  draw: Draw,
  walked: (asked: SideRequest) => Generator<null, Walked>,
): Generator<CandidateTold | null> {
  const asBuilt = yield* walked(base);
  yield* quietly(asBuilt.search(base, draw));
  yield told(rowAsBuilt(asBuilt.side(), part));
  for (const { candidate, side } of options) {
    const own = yield* Walked.steps(side);
    yield* quietly(own.search(side, draw));
    yield told(candidateRow(asBuilt.side(), own.side(), candidate));
  }
}

function told({ candidate, touches, short, clear, changes }: CandidateRow): CandidateTold {
  return {
    option: candidate?.option ?? null,
    touches: touches.map(there),
    short: short.map(there),
    clear,
    changes,
  };
}

const there = (found: PairGap): GapThere => ({
  a: found.pair.a.name,
  b: found.pair.b.name,
  gap_in: found.gap,
  required_in: found.pair.required,
  pose: named(found),
});
