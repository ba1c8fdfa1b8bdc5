/** The 3D view over the page's state: what it shows, how it is framed, and what a press chooses. */
import { useCallback, useEffect, useMemo, useRef, useState, useSyncExternalStore } from 'react';
import {
  CORNER_FOV,
  corners,
  directionOf,
  type Framing,
  fit as frameBox,
  type Size,
  STRAIGHT_FOV,
} from '../../viewer/framing.ts';
import type { Theme } from '../../viewer/looks.ts';
import type { PoseSource } from '../../viewer/placed.ts';
import { plainShowing, showingOf } from '../../viewer/showing.ts';
import { View } from '../../viewer/View.tsx';
import { act } from '../state/action.ts';
import { setLook } from '../state/look.ts';
import type { Rig } from '../state/rig.ts';
import { useShop } from '../state/shop.ts';
import { floorOf } from './floor.ts';
import { freeOf } from './free.ts';
import { useTaken } from './taken.ts';

/** Poses as the page's state has them, heard outside React. */
const poses: PoseSource = {
  pose: () => useShop.getState().shown.pose,
  subscribe: hear => useShop.subscribe(shop => shop.shown.pose, hear),
};

export default function AxleView() {
  const rig = useShop(shop => shop.rig);
  if (!rig) return null;
  return (
    <div className="view-box">
      <Shown key={rig.axle.name} rig={rig} />
    </div>
  );
}

function Shown({ rig }: { rig: Rig }) {
  const { build, axle, parts } = rig;
  const theme = useTheme();
  const unit = useShop(shop => shop.look.unit);
  const view = useShop(shop => shop.look.view);
  const isFine = useShop(shop => shop.look.grid);
  const range = useShop(shop => shop.results.range);
  const showings = useShowings(rig);
  const [size, setSize] = useState<Size | null>(null);
  const onSize = useCallback((width: number, height: number) => setSize({ width, height }), []);
  const setTaken = useTaken(state => state.setTaken);
  const onTaken = useCallback(() => setTaken(true), [setTaken]);
  const floor = floorOf(rig, range);
  const { framing, count } = useFraming(rig, size, floor);

  return (
    <View
      build={build}
      axle={axle}
      parts={parts}
      poses={poses}
      theme={theme}
      unit={unit}
      floor={floor}
      showings={showings}
      framing={framing}
      framingCount={count}
      isQuick={window.matchMedia('(prefers-reduced-motion: reduce)').matches}
      isFine={isFine}
      hasFloor={view === 'corner' || view === 'top'}
      onPick={name => act(setLook, { part: name })}
      onTaken={onTaken}
      onSize={onSize}
    />
  );
}

/** Light or dark, as the page is. */
function useTheme(): Theme {
  return useSyncExternalStore(
    hear => {
      const observer = new MutationObserver(hear);
      observer.observe(document.documentElement, { attributeFilter: ['data-theme'] });
      return () => observer.disconnect();
    },
    () => (document.documentElement.dataset.theme === 'dark' ? 'dark' : 'light'),
  );
}

function useShowings({ axle, parts }: Rig) {
  const hidden = useShop(shop => shop.look.hidden);
  const ghosted = useShop(shop => shop.look.ghosted);
  const part = useShop(shop => shop.look.part);
  const plain = useMemo(() => parts.map(each => plainShowing(each, axle)), [parts, axle]);
  return useMemo(
    () =>
      parts.map((each, i) =>
        showingOf(each, plain[i] ?? 'solid', { hidden, ghosted, part, touching: null }),
      ),
    [parts, plain, hidden, ghosted, part],
  );
}

/** Where the camera is to stand, and how often it was asked to go somewhere. */
function useFraming(
  { axle, build }: Rig,
  size: Size | null,
  floor: number,
): { framing: Framing | null; count: number } {
  const view = useShop(shop => shop.look.view);
  const asked = useShop(shop => shop.look.framing);
  const isAlone = useShop(shop => shop.look.isAxleAlone);
  const setTaken = useTaken(state => state.setTaken);
  const count = useRef({ of: '', n: 0 });
  const of = `${view} ${asked.count}`;
  if (count.current.of !== of) count.current = { of, n: count.current.n + 1 };
  // biome-ignore lint/correctness/useExhaustiveDependencies: each wish gives the camera back to the view
  useEffect(() => setTaken(false), [of, setTaken]);

  const framing = useMemo(() => {
    if (!size) return null;
    const [x, , z] = axle.origin;
    const reach = axle.tire.diameter / 2;
    const aside = (axle.wheelCenters + axle.tire.width) / 2;
    const isCorner = view === 'corner';
    const low = view === 'top' || isCorner ? floor + 12 : floor;
    const box = corners([x - 0.7 * reach, -aside, low], [x + 0.7 * reach, aside, z + 1.35 * reach]);
    const direction = directionOf(view, axle.name, build.driverSide);
    const fov = isCorner ? CORNER_FOV : STRAIGHT_FOV;
    return frameBox(box, [x, 0, z - 5], direction, fov, size, freeOf(size, isAlone));
  }, [axle, build, view, size, floor, isAlone]);
  return { framing, count: count.current.n };
}
