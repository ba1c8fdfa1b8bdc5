/**
 * A change that a hand tries while it holds something: the axle stands as it would with it, and the build file
 * stays as it is until the hand lets go.
 */
import type { Shift } from '../../../geometry/build/shift.ts';
import type { OpenedAxle } from '../../../geometry/cycle/openAxle.ts';
import type { V3 } from '../../../geometry/vector.ts';
import type { Action } from './action.ts';
import { makeRig, place, type Rig } from './rig.ts';
import type { Results, Shop } from './shop.ts';

export interface Trial {
  /** What is moved, in words. */
  words: string;
  /** How far the hand has moved it, in, along the axes that its coordinates are typed in. */
  by: V3;
  /** Entries that move. */
  moves: readonly Shift[];
  /** Why the axle is not shown where the hand is; null where it is. */
  refused: string | null;
  /** The axle and what was known of it before. */
  rig: Rig;
  results: Results;
}

/** Something is taken hold of. */
export const startTrial: Action<string> = {
  name: 'startTrial',
  label: 'Take hold of a point',
  run(shop, words) {
    const { rig, results, trial } = shop;
    if (!rig || trial) return shop;
    return {
      trial: { words, by: [0, 0, 0], moves: [], refused: null, rig, results },
      play: { ...shop.play, isPlaying: false },
    };
  },
};

interface Tried extends Pick<Trial, 'by' | 'moves'> {
  /** The axle as it would be, or why it can't be. */
  axle: OpenedAxle | string;
}

/** It is moved: where no axle comes of it, the last one stays. */
export const tryMove: Action<Tried> = {
  name: 'tryMove',
  label: 'Move what is held',
  run(shop, { by, moves, axle }) {
    const { trial, document, results, shown } = shop;
    if (!trial || !document) return shop;
    if (typeof axle === 'string') return { trial: { ...trial, refused: axle } };
    return {
      trial: { ...trial, by, moves, refused: null },
      ...stood(shop, makeRig(axle, document.meshes, shop.rig), shown),
      results: {
        ...results,
        generation: results.generation + 1,
        working: { what: 'range', done: 0, of: 1 },
        isFinal: false,
        failed: null,
      },
    };
  },
};

/** The hand lets go and nothing was changed. */
export const dropTrial: Action = {
  name: 'dropTrial',
  label: 'Put what is held back',
  run(shop) {
    const { trial, rig, results, shown } = shop;
    if (!trial) return shop;
    if (rig === trial.rig) return { trial: null };
    return {
      trial: null,
      ...stood(shop, trial.rig, shown),
      // the worker has let go of that axle: it is asked again, and what it told before stays
      results: {
        ...trial.results,
        generation: results.generation + 1,
        working: { what: 'range', done: 0, of: 1 },
        isFinal: false,
      },
    };
  },
};

/** Another axle in place of the one that stands there, at the same handle. */
function stood(shop: Shop, rig: Rig, { handle }: Shop['shown']): Pick<Shop, 'rig' | 'shown'> {
  const box = shop.rig?.reach.box;
  // known better once the worker has told
  if (box) rig.reach.box = box;
  return { rig, shown: place(rig, handle, null) };
}
