/** What is written over the axle: names, the worst gaps, construction lines, trails. */
import { useEffect, useMemo, useState } from 'react';
import { lengthWords } from '../../../geometry/finding/words.ts';
import { type Pair, pairsOf } from '../../../geometry/gap/pairs.ts';
import type { Pose } from '../../../geometry/pose/pose.ts';
import { type ConstructionLine, constructionAt } from '../../viewer/marks/construction.ts';
import { type Label, labelsOf } from '../../viewer/marks/labels.ts';
import type { Trail } from '../../viewer/Trails.tsx';
import type { Rig } from '../state/rig.ts';
import { useShop } from '../state/shop.ts';
import { pageShop } from '../words/shopWords.ts';

export function useLabels({ build, axle, parts }: Rig): Label[] {
  const isAll = useShop(shop => shop.look.labels);
  const chosen = useShop(shop => shop.look.part);
  const unit = useShop(shop => shop.look.unit);
  return useMemo(
    () => labelsOf(pageShop(build, unit), axle, parts, isAll, chosen),
    [build, axle, parts, isAll, chosen, unit],
  );
}

/** How many of the worst gaps are marked where no finding is chosen. */
const WORST = 3;

/** Pairs whose nearest points are marked: the chosen finding's, else the worst ones. */
export function usePairs({ build, axle, parts }: Rig): { pairs: Pair[]; chosenPair: number } {
  const findings = useShop(shop => shop.results.findings);
  const chosen = useShop(shop => shop.look.finding);
  return useMemo(() => {
    const ofGaps = findings.filter(({ kind }) => kind === 'partsTouch' || kind === 'gapShort');
    const own = chosen === null ? undefined : findings[chosen];
    const told = own ? (ofGaps.includes(own) ? [own] : []) : ofGaps.slice(0, WORST);
    const pairs = told.flatMap(({ parts: names }) => {
      const two = parts.filter(part => names.slice(0, 2).includes(part.name));
      return two.length === 2 ? pairsOf(build, axle.name, two).pairs : [];
    });
    return { pairs, chosenPair: own && pairs.length > 0 ? 0 : -1 };
  }, [build, axle, parts, findings, chosen]);
}

export function useGapWords({ build }: Rig): (inches: number) => string {
  const unit = useShop(shop => shop.look.unit);
  return useMemo(() => {
    const shop = pageShop(build, unit);
    return inches => (inches < 0 ? `−${lengthWords(shop, -inches)}` : lengthWords(shop, inches));
  }, [build, unit]);
}

const NO_LINES: ConstructionLine[] = [];
/** Construction lines follow the pose at this rate, ms: they are read at rest. */
const FOLLOW_ms = 120;

export function useConstruction({ build, axle, model }: Rig): ConstructionLine[] {
  const isOn = useShop(shop => shop.look.construction);
  const [lines, setLines] = useState(NO_LINES);
  useEffect(() => {
    if (!isOn) return;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const show = (): void => {
      timer = undefined;
      const { pose } = useShop.getState().shown;
      setLines(pose ? constructionAt(build, axle, model, pose) : NO_LINES);
    };
    show();
    const end = useShop.subscribe(
      shop => shop.shown.pose,
      () => {
        timer ??= setTimeout(show, FOLLOW_ms);
      },
    );
    return () => {
      end();
      clearTimeout(timer);
    };
  }, [build, axle, model, isOn]);
  return isOn ? lines : NO_LINES;
}

/** Paths of the marked points along the walk that is at the bottom of the page. */
export function useTrails({ model }: Rig): Trail[] {
  const names = useShop(shop => shop.look.trails);
  const strip = useShop(shop => shop.results.strip);
  return useMemo(() => {
    const points = model.mechanism.named.filter(({ name }) => names.has(name));
    if (!strip || points.length === 0) return [];
    const poses: Pose[] = [];
    let last = model.ride;
    for (const { left, right, steer } of strip.places) {
      const { pose } = model.near(last, left, right, steer);
      if (pose) poses.push(pose);
      last = pose ?? last;
    }
    return points.map(({ name, on, at }): Trail => {
      const path = new Float32Array(3 * poses.length);
      for (const [i, pose] of poses.entries()) path.set(pose.point(on, at), 3 * i);
      return { name, points: path };
    });
  }, [model, names, strip]);
}
