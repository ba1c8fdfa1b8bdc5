/**
 * Two axles side by side: A is the one that stands on the page and is driven and edited there, B is another that
 * follows it. Exchanging them puts B on the page and A beside it.
 */
import type { Comparison } from '../../../geometry/compare/compare.ts';
import type { Sentence } from '../../../geometry/compare/paragraph.ts';
import type { OpenedBuild } from '../../../geometry/cycle/open.ts';
import type { Both, CompareEvent, Stage } from '../../worker/compareProtocol.ts';
import type { GapMap, RangeTold } from '../../worker/protocol.ts';
import { capital } from '../frame/variantNames.ts';
import type { Action } from '../state/action.ts';
import { stand } from '../state/open.ts';
import type { Rig, Shown } from '../state/rig.ts';
import { type Document, NOT_SHOWN, type Remembered } from '../state/shop.ts';

/** The axle that is set beside the one on the page. */
export interface Other {
  document: Document;
  opened: OpenedBuild;
  rig: Rig;
  /** As the chooser calls it. */
  name: string;
  /** Steps that can be undone and done again of a build that stood on the page. */
  steps?: { pastStates: Partial<Remembered>[]; futureStates: Partial<Remembered>[] };
}

/** What is looked at of a comparison. */
export const COMPARE_SHEETS = [
  'trade',
  'findings',
  'numbers',
  'maps',
  'charts',
  'reach',
  'built',
  'options',
] as const;
export type CompareSheet = (typeof COMPARE_SHEETS)[number];

/** What the worker has told of the two. */
export interface Compared {
  generation: number;
  ranges: Both<RangeTold> | null;
  report: Comparison | null;
  /** Of the report, with lengths in either unit. */
  sentences: Record<'in' | 'mm', Sentence[]>;
  stage: Stage | null;
  maps: Both<GapMap> | null;
  /** Null once all work is done. */
  working: { what: 'range' | 'gaps' | 'maps' | 'worth'; share: number } | null;
  failed: string | null;
}

export interface Comparing {
  /** Null while nothing is chosen yet. */
  other: Other | null;
  /** Where B stands: where A does, at equal travel and steering. */
  shown: Shown;
  /** B's stops do not let it go where A stands. */
  isBeyond: boolean;
  compared: Compared;
  sheet: CompareSheet;
}

const NOTHING: Compared = {
  generation: 0,
  ranges: null,
  report: null,
  sentences: { in: [], mm: [] },
  stage: null,
  maps: null,
  working: null,
  failed: null,
};

const START: Comparing = {
  other: null,
  shown: NOT_SHOWN,
  isBeyond: false,
  compared: NOTHING,
  sheet: 'trade',
};

/** Begins to compare; what B is may still be open. */
export const startComparing: Action = {
  name: 'startComparing',
  label: 'Set two axles side by side',
  run: ({ comparing }) => ({ comparing: comparing ?? START }),
};

export const endComparing: Action = {
  name: 'endComparing',
  label: 'Show one axle alone',
  run: () => ({ comparing: null }),
};

/** Sets an axle beside the one on the page. */
export const setBeside: Action<Other> = {
  name: 'setBeside',
  label: 'Choose what to compare with',
  run: ({ comparing }, other) => ({
    comparing: {
      ...(comparing ?? START),
      other,
      shown: NOT_SHOWN,
      isBeyond: false,
      compared: NOTHING,
    },
    reading: null,
    refused: null,
  }),
};

/** Exchanges the two: B comes on the page where A stood, and A beside it. */
export const exchange: Action = {
  name: 'exchange',
  label: 'Exchange A and B',
  run(shop) {
    const { comparing, document, opened, rig, shown } = shop;
    const other = comparing?.other;
    if (!other || !document || !opened || !rig) return shop;
    const fresh = stand(shop, {
      document: other.document,
      opened: other.opened,
      axle: other.rig.axle.name,
      near: shown,
    });
    const name = capital(opened.build.variant ?? opened.build.name);
    // what is known of both is known of them the other way round too
    const { ranges, maps } = comparing.compared;
    const turned: Compared = {
      ...NOTHING,
      ranges: ranges && { a: ranges.b, b: ranges.a },
      maps: maps && { a: maps.b, b: maps.a },
    };
    const results = fresh.results ?? shop.results;
    return {
      ...fresh,
      results: { ...results, range: turned.ranges?.a ?? null },
      comparing: {
        ...comparing,
        other: { document, opened, rig, name },
        shown: NOT_SHOWN,
        isBeyond: false,
        compared: turned,
      },
    };
  },
};

export const chooseCompareSheet: Action<CompareSheet> = {
  name: 'chooseCompareSheet',
  label: 'Show something else of the comparison',
  run: ({ comparing, look }, sheet) => ({
    comparing: comparing && { ...comparing, sheet },
    // on a phone the sheet is a page of its own
    look: { ...look, phoneTab: look.phoneTab === 'walk' ? 'charts' : look.phoneTab },
  }),
};

/** The worker is asked anew; unless A is another axle now, what it told stays until it tells it again. */
export const askAnew: Action<{ generation: number; isAnother: boolean }> = {
  name: 'askAnew',
  label: 'Compare again',
  run: ({ comparing }, { generation, isAnother }) => ({
    comparing: comparing && {
      ...comparing,
      compared: {
        ...(isAnother ? NOTHING : comparing.compared),
        generation,
        working: { what: 'range', share: 0 },
        failed: null,
      },
    },
  }),
};

/** The worker has told something of the two. */
export const hearOfBoth: Action<CompareEvent> = {
  name: 'hearOfBoth',
  label: 'Take in what the worker has found',
  run(shop, event) {
    const { comparing } = shop;
    if (!comparing || event.generation !== comparing.compared.generation) return shop;
    const heard = { ...comparing.compared, ...told(event) };
    return { comparing: { ...comparing, compared: heard } };
  },
};

function told(event: CompareEvent): Partial<Compared> {
  switch (event.kind) {
    case 'ranges':
      return { ranges: event.ranges };
    case 'report':
      return { report: event.report, sentences: event.sentences, stage: event.stage };
    case 'maps':
      return { maps: event.maps };
    case 'progress':
      return { working: { what: event.what, share: event.share } };
    case 'failed':
      return { failed: event.message, working: null };
    case 'done':
      return { working: null };
  }
}

/** Where B stands now. */
export const standBeside: Action<{ shown: Shown; isBeyond: boolean }> = {
  name: 'standBeside',
  label: 'Let B follow',
  run: ({ comparing }, there) => ({ comparing: comparing && { ...comparing, ...there } }),
};
