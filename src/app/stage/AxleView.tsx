/** The 3D view over the page's state: what it shows, how it is framed, and what a press chooses. */
import { useCallback, useMemo, useRef, useState } from 'react';
import type { CameraHandle } from '../../viewer/Cameraman.tsx';
import type { Size } from '../../viewer/framing.ts';
import { plainShowing, showingOf } from '../../viewer/showing.ts';
import { View } from '../../viewer/View.tsx';
import { act } from '../state/action.ts';
import { setLook } from '../state/look.ts';
import type { Rig } from '../state/rig.ts';
import { useShop } from '../state/shop.ts';
import { useTheme } from '../words/useTheme.ts';
import { cameraKey } from './cameraKeys.ts';
import { posesOf } from './poses.ts';
import { useTaken } from './taken.ts';
import { useBeside } from './useBeside.ts';
import { useFraming } from './useFraming.ts';
import { useGrips, useMovedWords } from './useGrips.ts';
import { useConstruction, useGapWords, useLabels, usePairs, useTrails } from './useMarks.ts';
import { useSpokenView } from './useSpokenView.ts';
import { useSteady } from './useSteady.ts';
import { useSwept } from './useSwept.ts';

export default function AxleView() {
  const rig = useShop(shop => shop.rig);
  return rig ? <Shown key={rig.axle.name} rig={rig} /> : null;
}

function Shown({ rig }: { rig: Rig }) {
  const { build, axle, parts, model } = rig;
  const theme = useTheme();
  const unit = useShop(shop => shop.look.unit);
  const view = useShop(shop => shop.look.view);
  const isFine = useShop(shop => shop.look.grid);
  const rideGhost = useShop(shop => shop.look.rideGhost);
  const range = useShop(shop => shop.results.range);
  const showings = useShowings(rig);
  const [size, setSize] = useState<Size | null>(null);
  const onSize = useCallback((width: number, height: number) => setSize({ width, height }), []);
  const setTaken = useTaken(state => state.setTaken);
  const onTaken = useCallback(() => setTaken(true), [setTaken]);
  const poses = useMemo(() => posesOf(rig), [rig]);
  const steady = useSteady(rig, range);
  const { floor, top } = steady;
  const { framing, count } = useFraming(steady.rig, size, floor, top);
  const { grips, hand } = useGrips(rig);
  const labels = useLabels(rig);
  const { pairs, chosenPair } = usePairs(rig);
  const camera = useRef<CameraHandle>(null);
  const box = useRef<HTMLDivElement>(null);
  useSpokenView(rig, box);

  /** The section's frame, in the stage's own pixels. */
  const section = useCallback(() => {
    const stage = box.current?.parentElement;
    const inset = stage?.querySelector('.section-inset');
    if (!stage || !inset) return null;
    const [out, from] = [inset.getBoundingClientRect(), stage.getBoundingClientRect()];
    return {
      left: out.left - from.left,
      top: out.top - from.top,
      right: out.right - from.left,
      bottom: out.bottom - from.top,
    };
  }, []);

  return (
    <div
      ref={box}
      className="view-box"
      role="application"
      aria-roledescription="3D view"
      // biome-ignore lint/a11y/noNoninteractiveTabindex: arrow keys turn it
      tabIndex={0}
      onKeyDown={event => {
        if (event.target === box.current && camera.current && cameraKey(event, camera.current)) {
          event.preventDefault();
          event.stopPropagation();
        }
      }}
    >
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
        hasFloor={view === 'corner'}
        ride={rideGhost ? model.ride : null}
        beside={useBeside()}
        trails={useTrails(rig)}
        sweeps={useSwept()}
        // the rings say which part it is, and the card its name
        labels={grips.length > 0 ? labels.filter(each => !each.isChosen) : labels}
        lines={useConstruction(rig)}
        pairs={pairs}
        chosenPair={chosenPair}
        words={useGapWords(rig)}
        section={section}
        grips={grips}
        hand={hand}
        moved={useMovedWords()}
        camera={camera}
        onPick={pick}
        onTaken={onTaken}
        onSize={onSize}
      />
    </div>
  );
}

/** The same part again is put away. */
function pick(name: string | null): void {
  const { part } = useShop.getState().look;
  act(setLook, { part: name === part ? null : name });
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
