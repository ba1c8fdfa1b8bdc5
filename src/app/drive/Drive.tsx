/** The zone that moves the axle: travel map, steering, and the poses of a shop. */
import { useState } from 'react';
import { edgeStretches, endWords } from '../../charts/edgeStretches.ts';
import { useShop } from '../state/shop.ts';
import { pageShop } from '../words/shopWords.ts';
import './Drive.css';
import { MapLegend } from './MapLegend.tsx';
import { MapMenu } from './MapMenu.tsx';
import { PoseButtons } from './PoseButtons.tsx';
import { Steering } from './Steering.tsx';
import { TravelMap } from './TravelMap.tsx';
import { useMapShown } from './useMapShown.ts';

export function Drive() {
  const shown = useMapShown();
  const [blocked, setBlocked] = useState<string | null>(null);
  return (
    <section className="drive" aria-label="Drive the axle">
      <div className="map-zone">
        <MapMenu />
        <TravelMap shown={shown} onBlocked={at => setBlocked(at && stopAt(at))} />
        <MapLegend shown={shown} blocked={blocked} />
      </div>
      <div className="turn-zone">
        <div className="steering">
          <Steering />
        </div>
        <PoseButtons />
      </div>
    </section>
  );
}

/** What ends the travel nearest to there, in words. */
function stopAt([left, right]: readonly [number, number]): string | null {
  const { rig, results } = useShop.getState();
  if (!rig || !results.range) return null;
  let words: string | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const stretch of edgeStretches(results.range.edge)) {
    for (const [i, p] of stretch.points.entries()) {
      const q = stretch.points[i + 1] ?? p;
      const [dl, dr] = [q.left - p.left, q.right - p.right];
      const square = dl * dl + dr * dr;
      const t = square === 0 ? 0 : ((left - p.left) * dl + (right - p.right) * dr) / square;
      const held = Math.min(1, Math.max(0, t));
      const away = Math.hypot(left - p.left - held * dl, right - p.right - held * dr);
      if (away < least) {
        least = away;
        words = endWords(pageShop(rig.build, 'in'), rig.axle, stretch);
      }
    }
  }
  return words;
}
