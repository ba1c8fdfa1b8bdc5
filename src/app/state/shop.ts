/** The page's state: what is open, where the axle stands, what the worker has found, and how it is looked at. */

import { temporal } from 'zundo';
import { create } from 'zustand';
import { subscribeWithSelector } from 'zustand/middleware';
import type { AxleName } from '../../../geometry/build/build.ts';
import type { Problem } from '../../../geometry/build/problem.ts';
import type { OpenedBuild } from '../../../geometry/cycle/open.ts';
import type { WalkReport } from '../../../geometry/cycle/walkReport.ts';
import type { Finding } from '../../../geometry/finding/finding.ts';
import type { AxleGapReport } from '../../../geometry/gap/gapReport.ts';
import type { Target } from '../../../geometry/measure/measure.ts';
import type { GapMap, GapStrip, PathName, RangeTold } from '../../worker/protocol.ts';
import type { Comparing } from '../compare/comparing.ts';
import type { Did } from './did.ts';
import { RIDE, type Rig, type Shown } from './rig.ts';
import type { Trial } from './trial.ts';

/** A build file as it is open. */
export interface Document {
  /** As the file is called; examples have their own. */
  fileName: string;
  /** The file's text. */
  text: string;
  /** What was done to it last, in words; none as it was opened. */
  step?: string;
  /** Mesh files that were given with it, by name. */
  meshes: ReadonlyMap<string, Uint8Array>;
}

/** What the worker has told of the axle that is shown. */
export interface Results {
  generation: number;
  range: RangeTold | null;
  map: GapMap | null;
  /** Along the shop's walk. */
  strip: GapStrip | null;
  /** Along the walk that was chosen in its place. */
  walked: { walk: PathName; strip: GapStrip } | null;
  findings: Finding[];
  gaps: AxleGapReport | null;
  extremes: WalkReport['extremes'];
  /** False while findings may still change. */
  isFinal: boolean;
  /** Null once all work is done; `rest`: it waits until nobody types. */
  working: {
    what: 'rest' | 'range' | 'gaps' | 'extremes' | 'proof';
    done: number;
    of: number;
  } | null;
  failed: string | null;
}

export const NO_RESULTS: Results = {
  generation: 0,
  range: null,
  map: null,
  strip: null,
  walked: null,
  findings: [],
  gaps: null,
  extremes: [],
  isFinal: false,
  working: null,
  failed: null,
};

export type ViewName = 'corner' | 'front' | 'side' | 'top';
export type Sheet = 'findings' | 'charts' | 'parts' | 'tape';
export type Theme = 'system' | 'light' | 'dark';
/** What may lie over the page. */
export type Dialog = 'cautions' | 'assumed' | 'commands' | 'newBuild' | 'guide' | 'addMesh';
export type Speed = 'slow' | 'normal' | 'fast';
/** What the travel map shows: the tightest gap, one pair, or a measure. */
export type MapOf =
  | { kind: 'gap' }
  | { kind: 'pair'; a: string; b: string }
  | { kind: 'measure'; id: string; target: Target };

/** How it is looked at; nothing of it is part of the build. */
export interface Look {
  unit: 'in' | 'mm';
  /** Until somebody chooses a unit, it is that of the build. */
  isUnitChosen: boolean;
  theme: Theme;
  view: ViewName;
  /** Grows with each wish to frame something: the view moves its camera then. */
  framing: { count: number; part: string | null; spot: readonly [number, number, number] | null };
  sheet: Sheet;
  /** On a phone, one of these fills the page. */
  phoneTab: 'walk' | Sheet;
  mapOf: MapOf;
  labels: boolean;
  grid: boolean;
  rideGhost: boolean;
  /** Roll axis and instant center. */
  construction: boolean;
  hidden: ReadonlySet<string>;
  ghosted: ReadonlySet<string>;
  /** Parts whose swept volume is drawn. */
  swept: ReadonlySet<string>;
  /** Points whose trail along the walk is drawn, `part.end`. */
  trails: ReadonlySet<string>;
  part: string | null;
  /** Index into the findings. */
  finding: number | null;
  /** The axle alone fills the page. */
  isAxleAlone: boolean;
  dialog: Dialog | null;
  /** The greeting of the first visit was put away. */
  isGreeted: boolean;
  /** Single letters act; some people's speech or hands make them turn that off. */
  hasLetterKeys: boolean;
}

export interface Play {
  isPlaying: boolean;
  speed: Speed;
  walk: PathName;
  /** Place on the strip, a fraction of an index. */
  at: number;
}

export interface Shop {
  document: Document | null;
  /** A file that was refused, with its problems; what was open before stays open. */
  refused: { fileName: string; problems: Problem[] } | null;
  /** Name of the file that is being read. */
  reading: string | null;
  /** Something to know about what was just done, until it is put away. */
  notice: string | null;
  variant: string | null;
  axleName: AxleName | null;
  opened: OpenedBuild | null;
  rig: Rig | null;
  shown: Shown;
  results: Results;
  /** A change that is being tried, as long as a hand holds it; the document knows nothing of it. */
  trial: Trial | null;
  /** What was known before the last change of the build. */
  did: Did | null;
  look: Look;
  play: Play;
  /** Null while one axle is shown alone. */
  comparing: Comparing | null;
}

export const NOT_SHOWN: Shown = {
  handle: RIDE,
  pose: null,
  status: 'solved',
  part: null,
  interval: null,
};

export const START: Shop = {
  document: null,
  refused: null,
  reading: null,
  notice: null,
  variant: null,
  axleName: null,
  opened: null,
  rig: null,
  shown: NOT_SHOWN,
  results: NO_RESULTS,
  trial: null,
  did: null,
  look: {
    unit: 'in',
    isUnitChosen: false,
    theme: 'system',
    view: 'corner',
    framing: { count: 0, part: null, spot: null },
    sheet: 'findings',
    phoneTab: 'walk',
    mapOf: { kind: 'gap' },
    labels: false,
    grid: false,
    rideGhost: false,
    construction: false,
    hidden: new Set(),
    ghosted: new Set(),
    swept: new Set(),
    trails: new Set(),
    part: null,
    finding: null,
    isAxleAlone: false,
    dialog: null,
    isGreeted: false,
    hasLetterKeys: true,
  },
  play: { isPlaying: false, speed: 'normal', walk: 'shop', at: 0 },
  comparing: null,
};

/** Steps that can be undone. */
const STEPS = 200;

/** The part of the state that undo brings back: the build, and which variant of it was shown. */
export type Remembered = Pick<Shop, 'document' | 'variant'>;

export const useShop = create<Shop>()(
  temporal(
    subscribeWithSelector(() => START),
    {
      partialize: ({ document, variant }): Remembered => ({ document, variant }),
      // meshes that come later are no step
      equality: (before, now) => before.document?.text === now.document?.text,
      limit: STEPS,
    },
  ),
);
