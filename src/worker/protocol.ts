/**
 * What the page and its worker say to each other. All of it is plain: objects, numbers and flat arrays that a
 * structured clone carries. Inside units: in, rad (steering input: rad of pitman, or in of ram rod).
 */
import type { Settled, Slopes } from '../../geometry/advice/nextMeasurement.ts';
import type { EdgePoint } from '../../geometry/cycle/edge.ts';
import type { OpenedAxle } from '../../geometry/cycle/openAxle.ts';
import type { Range } from '../../geometry/cycle/range.ts';
import type { TravelBox } from '../../geometry/cycle/reach.ts';
import type { WalkName } from '../../geometry/cycle/walk.ts';
import type { WalkReport } from '../../geometry/cycle/walkReport.ts';
import type { Finding } from '../../geometry/finding/finding.ts';
import type { AxleGapReport } from '../../geometry/gap/gapReport.ts';
import type { Target } from '../../geometry/measure/measure.ts';
import type { Mechanism } from '../../geometry/mechanism/mechanism.ts';
import type { CompareDesk } from './compareProtocol.ts';

/** One axle to be walked. */
export interface AxleRequest {
  build: OpenedAxle['build'];
  /** Name of the axle. */
  axle: string;
  mechanism: Mechanism;
  /** Mesh files that the build names, by name; one that is missing is told and left out. */
  meshes: ReadonlyMap<string, Uint8Array>;
}

export interface StudyRequest extends Omit<AxleRequest, 'meshes'> {
  /** Grows with each change; only the newest is worked on. */
  generation: number;
  /** Null: those of the last request. */
  meshes: AxleRequest['meshes'] | null;
  /** A hand still moves it: it is looked at quickly first, and thoroughly once the hand rests. */
  isTrial: boolean;
}

/** A position of the axle: travels in in, steering input in rad or in. */
export interface Place {
  left: number;
  right: number;
  steer: number;
}

export interface RangeTold {
  edge: EdgePoint[];
  ends: Range['ends'];
  unstopped: Range['unstopped'];
  holdsRide: boolean;
  box: TravelBox;
}

/** Two parts that are compared, and the gap that is wanted between them, in. */
export interface PairTold {
  a: string;
  b: string;
  required: number;
}

/**
 * What is left of the wanted gap over a grid of travels, row by row of right travel, left travel running. The pair
 * with the least share of what it wants counts; one that wants nothing counts where it touches.
 */
export interface GapMap {
  /** Coarse squares are shown while it is refined. */
  isCoarse: boolean;
  left: Float64Array;
  right: Float64Array;
  /** 1 at places of the range. Places next to it have values too, for lines that run up to its edge. */
  inside: Uint8Array;
  /** By place: the tightest pair's gap as a share of what that pair wants; NaN where there is none. */
  share: Float64Array;
  /** Its gap, in. */
  gap: Float64Array;
  /** Index into `pairs`; −1 where no pair moves. */
  pair: Int32Array;
  /** Steering input at which it is tightest, rad or in. */
  steer: Float64Array;
  pairs: readonly PairTold[];
}

/** Ways that the axle is walked: all poses of a shop from lock to lock, and parts of that. */
export type PathName =
  | 'shop'
  | 'both'
  | 'crossed'
  | 'driver'
  | 'passenger'
  | 'lock-to-lock'
  | 'edge';

/** A place on a strip that has a name; 'left' and 'right' are full lock at the pose of that name. */
export interface StripMark {
  /** Index of the place. */
  at: number;
  name: string;
  kind: 'pose' | 'left' | 'right';
}

/** What is left along an ordered path of poses. */
export interface GapStrip {
  places: Place[];
  /** Tightest gap as a share of what its pair wants. */
  share: Float64Array;
  gap: Float64Array;
  pair: Int32Array;
  pairs: readonly PairTold[];
  marks: StripMark[];
}

/** A measure, of what, over a grid or along a path; values as shown (deg, in, …), NaN where missing. */
export interface MeasureColumn {
  id: string;
  target: Target;
  unit: string;
  values: Float64Array;
}

/** A measure over the map's grid, straight ahead. */
export interface MeasureMap extends MeasureColumn, Pick<GapMap, 'left' | 'right' | 'inside'> {}

/** All that a part passes over in the range, as triangles; vehicle axes, in. */
export interface SweptMesh {
  positions: Float64Array;
  triangles: Uint32Array;
  /** No point of it is further from the part in some pose than this, in. */
  tolerance: number;
}

export type StudyEvent = { generation: number } & (
  | { kind: 'range'; range: RangeTold }
  | { kind: 'map'; map: GapMap }
  /** Range and coarse map of what a hand moves, together. */
  | { kind: 'glance'; range: RangeTold; map: GapMap }
  | { kind: 'strip'; strip: GapStrip }
  /** Pairs checked so far; `isProved` once all of them are. */
  | { kind: 'progress'; what: 'gaps' | 'extremes' | 'proof'; done: number; of: number }
  /** `isFinal` false: from what is known so far. */
  | { kind: 'findings'; findings: Finding[]; gaps: AxleGapReport; isFinal: boolean }
  | { kind: 'extremes'; extremes: WalkReport['extremes'] }
  | { kind: 'failed'; message: string }
  | { kind: 'done' }
);

/** The worker as the page calls it. */
export interface Workshop {
  /** Works one axle through; answers through `tell` as it goes, and ends early when a newer one is asked for. */
  study(request: StudyRequest, tell: (event: StudyEvent) => void): Promise<void>;
  /** Everything older than this generation may stop. */
  newest(generation: number): void;
  /** What sets two axles side by side, loaded when it is first asked for. */
  compareDesk(): Promise<CompareDesk>;
  /** What is left over the steering at a place, from full right to full left; null where there is none yet. */
  steeringStrip(left: number, right: number): GapStrip | null;
  /** What is left along a path; null where the study has not come so far, or a newer one is asked for. */
  strip(path: PathName, at: readonly [left: number, right: number]): Promise<GapStrip | null>;
  /** The map of one pair alone; null as with `strip`. */
  pairMap(a: string, b: string): Promise<GapMap | null>;
  /** A measure over the map's grid, straight ahead; null as with `strip`. */
  measureMap(id: string, target: Target): Promise<MeasureMap | null>;
  /** What a part sweeps over the whole range; null as with `strip`, or where there is no such part. */
  swept(part: string): Promise<SweptMesh | null>;
  /**
   * What is worth taping next for the axle of the study; null as with `strip`, or where it has not been walked.
   *
   * @param slopes of its build, by `entrySlopes`
   */
  nextMeasurements(slopes: Slopes): Promise<Settled | null>;
  /** Measures along a walk. */
  columns(
    walk: WalkName,
    wanted: { id: string; target: Target }[],
    at: readonly [number, number],
  ): Promise<{ places: Place[]; columns: MeasureColumn[] } | null>;
}
