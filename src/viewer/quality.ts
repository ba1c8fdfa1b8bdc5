/**
 * How finely is drawn: all on where a graphics card draws; where the processor does, coarse and without shadow
 * while something moves, and one fine frame once it rests.
 */
import { useCallback, useEffect, useRef, useState } from 'react';

/** After this long without a move it rests, ms. */
const REST_ms = 150;
const MOVING_RATIO = 0.7;
const RESTING_RATIO = 1.5;
const MOST_RATIO = 2;
/** A frame that takes longer is one of a slow machine, ms; so many of them running decide. */
const SLOW_ms = 60;
const SLOW_FRAMES = 6;

export interface Quality {
  /** Pixels drawn a pixel of the page. */
  ratio: number;
  hasShadow: boolean;
  /** Says that something moves. */
  stir: () => void;
}

export function useQuality(isSoftware: boolean): Quality {
  const [isMoving, setMoving] = useState(true);
  const [isSlow, setSlow] = useState(isSoftware);
  const moving = useRef(true);
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const last = useRef({ at: 0, slow: 0 });

  const stir = useCallback(() => {
    const now = performance.now();
    const since = now - last.current.at;
    last.current.at = now;
    if (since > SLOW_ms && since < 4 * SLOW_ms) last.current.slow++;
    else if (since < SLOW_ms) last.current.slow = 0;
    if (last.current.slow > SLOW_FRAMES) setSlow(true);
    if (!moving.current) {
      moving.current = true;
      setMoving(true);
    }
    clearTimeout(timer.current);
    timer.current = setTimeout(() => {
      moving.current = false;
      setMoving(false);
    }, REST_ms);
  }, []);

  useEffect(() => () => clearTimeout(timer.current), []);
  const best = Math.min(MOST_RATIO, window.devicePixelRatio);
  const resting = Math.min(RESTING_RATIO, best * RESTING_RATIO);
  return {
    ratio: isSlow ? (isMoving ? MOVING_RATIO : resting) : best,
    hasShadow: !(isSlow && isMoving),
    stir,
  };
}
