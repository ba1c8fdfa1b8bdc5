/** Actions of the walk along the bottom of the page. */

import type { GapStrip, PathName } from '../../worker/protocol.ts';
import type { Action } from './action.ts';
import { toPlace } from './move.ts';
import type { Shop, Speed } from './shop.ts';

/** Places of the strip a second. */
export const RATES: Record<Speed, number> = { slow: 5, normal: 12, fast: 30 };

/** The strip of the walk that is chosen; null while the worker has not told it. */
export function stripOf({ play, results }: Pick<Shop, 'play' | 'results'>): GapStrip | null {
  if (play.walk === 'shop') return results.strip;
  return results.walked?.walk === play.walk ? results.walked.strip : null;
}

/** Stands at a place of the strip; between two of its places it is interpolated by their inputs. */
export function atStrip(shop: Shop, at: number): Partial<Shop> {
  const places = stripOf(shop)?.places ?? [];
  if (places.length === 0) return shop;
  const held = Math.min(places.length - 1, Math.max(0, at));
  const first = places[Math.floor(held)];
  const second = places[Math.min(places.length - 1, Math.floor(held) + 1)];
  if (!first || !second) return shop;
  const t = held - Math.floor(held);
  const mix = (a: number, b: number): number => a + t * (b - a);
  return {
    ...toPlace(shop, {
      left: mix(first.left, second.left),
      right: mix(first.right, second.right),
      steer: mix(first.steer, second.steer),
    }),
    play: { ...shop.play, at: held },
  };
}

export const togglePlay: Action = {
  name: 'togglePlay',
  label: 'Walk the axle, or stop',
  key: ' ',
  run: shop => ({
    play: { ...shop.play, isPlaying: !shop.play.isPlaying && stripOf(shop) !== null },
  }),
};

/** A scrub by hand stops the walk. */
export const scrubTo: Action<number> = {
  name: 'scrubTo',
  label: 'Scrub the walk',
  run(shop, at) {
    const there = atStrip(shop, at);
    return { ...there, play: { ...(there.play ?? shop.play), isPlaying: false } };
  },
};

/** One frame of the walk; from the end it begins again. */
export const stepPlay: Action<number> = {
  name: 'stepPlay',
  label: 'Walk on',
  run(shop, seconds) {
    const count = stripOf(shop)?.places.length ?? 0;
    const next = shop.play.at + seconds * RATES[shop.play.speed];
    return atStrip(shop, count > 0 ? next % Math.max(1, count - 1) : 0);
  },
};

export const setSpeed: Action<Speed> = {
  name: 'setSpeed',
  label: 'Walk slower or faster',
  run: (shop, speed) => ({ play: { ...shop.play, speed } }),
};

/** Another way to walk it; the axle stays where it is until it is walked. */
export const chooseWalk: Action<PathName> = {
  name: 'chooseWalk',
  label: 'Choose a walk',
  run: (shop, walk) => ({ play: { ...shop.play, walk, at: 0, isPlaying: false } }),
};

/** The worker has told what is left along a walk. */
export const walkTold: Action<{ walk: PathName; strip: GapStrip }> = {
  name: 'walkTold',
  label: 'Show a walk',
  run: (shop, walked) => ({ results: { ...shop.results, walked } }),
};
