/** What the page and its worker say to each other about two axles side by side. All of it is plain, as in protocol.ts. */
import type { Candidate } from '../../geometry/compare/candidates.ts';
import type { Comparison } from '../../geometry/compare/compare.ts';
import type { Sentence } from '../../geometry/compare/paragraph.ts';
import type { WithFile } from '../../geometry/compare/shifted.ts';
import type { WalkName } from '../../geometry/cycle/walk.ts';
import type { PoseName } from '../../geometry/cycle/walkReport.ts';
import type { Target } from '../../geometry/measure/measure.ts';
import type {
  AxleRequest,
  GapMap,
  MeasureColumn,
  MeasureMap,
  Place,
  RangeTold,
} from './protocol.ts';

/** One of the two. */
export interface SideRequest extends AxleRequest {
  /** Of the same build's axle the same: what is known of it is kept. */
  key: number;
  /** What the build was read from: it is shifted to find what differences are worth. */
  file: WithFile['file'];
}

export interface CompareRequest {
  /** Grows with each wish; only the newest is worked on. */
  generation: number;
  a: SideRequest;
  b: SideRequest;
}

/** Something of both. */
export type Both<Value> = Record<'a' | 'b', Value>;

/** What a report holds so far: measures and ranges; gaps and findings too; what the differences are worth too. */
export const STAGES = ['measures', 'gaps', 'worth'] as const;
export type Stage = (typeof STAGES)[number];

export type CompareEvent = { generation: number } & (
  | { kind: 'ranges'; ranges: Both<RangeTold> }
  /** `sentences`: those of the report with lengths in either unit. */
  | {
      kind: 'report';
      report: Comparison;
      sentences: Record<'in' | 'mm', Sentence[]>;
      stage: Stage;
    }
  /** On one grid of travels, that holds both ranges. */
  | { kind: 'maps'; maps: Both<GapMap> }
  | { kind: 'progress'; what: 'gaps' | 'maps' | 'worth'; share: number }
  | { kind: 'failed'; message: string }
  | { kind: 'done' }
);

/** Candidates for one part, each with all that it brings along. */
export interface CandidateRequest {
  generation: number;
  /** The build as it stands. */
  base: SideRequest;
  /** Address of the part. */
  part: string;
  options: { candidate: Candidate; side: SideRequest }[];
}

/** A gap of two parts where it is least. */
export interface GapThere {
  a: string;
  b: string;
  gap_in: number;
  required_in: number;
  pose: PoseName;
}

/** One candidate: where it clears, where not, and what else it changes. */
export interface CandidateTold {
  /** Null: the build as it stands. */
  option: string | null;
  touches: GapThere[];
  short: GapThere[];
  clear: number;
  changes: Sentence[];
}

/** The comparison as the page calls it. */
export interface CompareDesk {
  /** Compares two axles; answers through `tell` as it goes, and ends early when a newer wish comes. */
  compare(request: CompareRequest, tell: (event: CompareEvent) => void): Promise<void>;
  /** Walks candidates for one part; tells each as it is known, and ends early when newer ones are asked for. */
  candidates(request: CandidateRequest, tell: (row: CandidateTold) => void): Promise<void>;
  /** Lets go of all work. */
  stop(): void;
  /** Maps of one pair of parts; null where one of the two has no such pair, or the gaps are not there yet. */
  pairMaps(a: string, b: string): Promise<Both<GapMap> | null>;
  /** Maps of a measure, straight ahead, on the grid of both; null as with `pairMaps`. */
  measureMaps(id: string, target: Target): Promise<Both<MeasureMap> | null>;
  /** Measures along a walk of each. */
  columns(
    walk: WalkName,
    wanted: { id: string; target: Target }[],
    at: readonly [number, number],
  ): Promise<Both<{ places: Place[]; columns: MeasureColumn[] }> | null>;
}
