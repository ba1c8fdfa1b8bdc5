/** One measure of both axles as a chart, its cursor tied to the pose: dragging it moves both. */
import { type KeyboardEvent, type PointerEvent, useEffect, useMemo, useRef, useState } from 'react';
import type uPlot from 'uplot';
import 'uplot/dist/uPlot.min.css';
import {
  type Measure,
  MeasureContext,
  SHOWN,
  type Target,
} from '../../../geometry/measure/measure.ts';
import type { Pose } from '../../../geometry/pose/pose.ts';
import {
  between,
  inPageUnit,
  joined,
  onAxis,
  resampled,
  stepsOf,
  tapeMark,
} from '../../charts/chartData.ts';
import { type ChartSpec, makeChart } from '../../charts/measureChart.ts';
import { readPalette } from '../../charts/palette.ts';
import type { Both } from '../../worker/compareProtocol.ts';
import { chartBounds } from '../answers/charts/bounds.ts';
import { axisText } from '../answers/charts/ends.ts';
import type { Columns } from '../answers/charts/useColumns.ts';
import { act } from '../state/action.ts';
import { moveTo } from '../state/move.ts';
import type { Rig, Shown } from '../state/rig.ts';
import { type Shop, useShop } from '../state/shop.ts';
import { directionsOf, measureName, targetWords, valueText } from '../words/measureWords.ts';
import { innerTire } from '../words/shopWords.ts';
import { useTheme } from '../words/useTheme.ts';
import { NONE, signed } from './compareWords.ts';
import type { BothKnown } from './useBoth.ts';

export interface ChartOfBothProps {
  both: BothKnown;
  measure: Measure;
  columns: Both<Columns>;
}

const HEIGHT = 208;
/** Sides that are drawn of a measure that has more of them: two lines each are enough to read. */
const MOST_SIDES = 2;

export function ChartOfBoth({ both, measure, columns }: ChartOfBothProps) {
  const { a, b, shop } = both;
  const { unit } = shop;
  const { against } = columns.a;
  const host = useRef<HTMLDivElement>(null);
  const slider = useRef<HTMLDivElement>(null);
  const now = useRef<HTMLSpanElement>(null);
  const theme = useTheme();
  const chart = useRef<uPlot | null>(null);
  const [width, setWidth] = useState(0);
  const targets = useMemo(
    () =>
      columns.a.columns
        .filter(({ id }) => id === measure.id)
        .map(({ target }) => target)
        .slice(0, MOST_SIDES),
    [columns, measure],
  );
  const spec = useMemo((): ChartSpec => {
    const page = (value: number): number => inPageUnit(value, measure.unit, unit);
    const along = (value: number): number =>
      against === 'steering' ? value : inPageUnit(value, 'in', unit);
    const x = joined(columns.a.x, columns.b.x);
    const lines = targets.flatMap(target =>
      (['a', 'b'] as const).map(of => {
        const own = columns[of].columns.find(
          ({ id, target: each }) =>
            id === measure.id && each.part === target.part && each.side === target.side,
        );
        const side = targets.length > 1 ? ` ${targetWords(shop, a.axle, target)}` : '';
        return {
          name: `${of.toUpperCase()}${side}`,
          values: resampled(columns[of].x, own?.values ?? [], x).map(page),
          isOther: of === 'b',
        };
      }),
    );
    const directions = directionsOf(shop, measure.id);
    return {
      x: x.map(along),
      lines,
      between: targets.map((_, i) => [2 * i, 2 * i + 1] as const),
      bounds: chartBounds(a, shop, measure, targets),
      ends: ['', ''],
      isTurned: against === 'steering',
      steps: {
        x: stepsOf(against === 'steering' ? 'deg' : 'in', unit).filter(step =>
          against === 'steering' ? step >= 5 : step >= 0.5,
        ),
        y: stepsOf(measure.unit, unit),
      },
      mark: {
        x: value => axisText(against, value),
        y: value => {
          const size = Math.abs(value);
          const number =
            measure.unit === 'in' && unit === 'in'
              ? tapeMark(value)
              : String(Number(size.toFixed(size > 0 && size < 0.1 ? 3 : 2)));
          const suffix = measure.unit === 'deg' ? '°' : measure.unit === '%' ? ' %' : '';
          return `${value < 0 && !directions ? '−' : ''}${number}${suffix}`;
        },
      },
      directions,
    };
  }, [columns, targets, a, shop, measure, unit, against]);

  useEffect(() => {
    const element = host.current;
    if (!element) return;
    const watch = new ResizeObserver(() => setWidth(element.clientWidth));
    watch.observe(element);
    return () => watch.disconnect();
  }, []);

  // biome-ignore lint/correctness/useExhaustiveDependencies: the theme changes the colors that are read
  useEffect(() => {
    const element = host.current;
    if (!element || width < 60) return;
    const made = makeChart(element, spec, readPalette(element), { width, height: HEIGHT });
    chart.current = made;
    const add = (name: string): HTMLElement => {
      const mark = made.over.appendChild(document.createElement('i'));
      mark.className = name;
      return mark;
    };
    const line = add('chart-cursor');
    const rings = targets.flatMap(() => [add('chart-ring of-a'), add('chart-ring of-b')]);
    const drawn = { made, line, rings, slider: slider.current, now: now.current };
    const write = (state: Shop): void => {
      if (state.rig === a && state.comparing?.other?.rig === b) {
        writeCursor({ both, measure, targets, against }, state, drawn);
      }
    };
    // the chart lays itself out in a microtask of its own, before this one
    queueMicrotask(() => {
      if (chart.current === made) write(useShop.getState());
    });
    const end = useShop.subscribe(write);
    return () => {
      end();
      made.destroy();
      chart.current = null;
    };
  }, [spec, width, theme]);

  const goTo = (value: number): void => {
    const { x, places } = columns.a;
    const inside = against === 'steering' ? value : value / inPageUnit(1, 'in', unit);
    const { index, share } = between(x, inside);
    const [p, q] = [places[index], places[index + 1]];
    if (!p || !q) return;
    const mix = (from: number, to: number): number => from + share * (to - from);
    act(moveTo, {
      left: mix(p.left, q.left),
      right: mix(p.right, q.right),
      ...(against === 'steering' ? { steer: mix(p.steer, q.steer) } : {}),
    });
  };
  const drag = (event: PointerEvent<HTMLDivElement>): void => {
    if (!chart.current || (event.type === 'pointermove' && event.buttons === 0)) return;
    if (event.type === 'pointerdown') event.currentTarget.setPointerCapture(event.pointerId);
    const box = chart.current.over.getBoundingClientRect();
    goTo(chart.current.posToVal(event.clientX - box.left, 'x'));
  };
  const step = (event: KeyboardEvent): void => {
    const way = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 }[event.key];
    const far = { Home: spec.x[0], End: spec.x[spec.x.length - 1] }[event.key];
    if (way === undefined && far === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    const size = against === 'steering' ? 1 : inPageUnit(0.25, 'in', unit);
    const isAcross = event.key === 'ArrowRight' || event.key === 'ArrowLeft';
    const seen = isAcross && spec.isTurned ? -1 : 1;
    goTo(
      far ?? Number(slider.current?.getAttribute('aria-valuenow') ?? 0) + (way ?? 0) * size * seen,
    );
  };

  const name = measureName(shop, a.axle, measure, { part: null, side: null });
  return (
    <figure className="chart">
      <figcaption className="chart-head" title={`${measure.definition}\n${measure.source}`}>
        <h3>{name}</h3>
        <span className="chart-now" ref={now} />
      </figcaption>
      <div
        ref={slider}
        className="chart-plot"
        role="slider"
        tabIndex={0}
        aria-label={`${name} of both: place along the walk`}
        aria-valuemin={spec.x[0] ?? 0}
        aria-valuemax={spec.x[spec.x.length - 1] ?? 0}
        aria-valuenow={0}
        onPointerDown={drag}
        onPointerMove={drag}
        onKeyDown={step}
      >
        <div ref={host} />
      </div>
    </figure>
  );
}

interface Of {
  both: BothKnown;
  measure: Measure;
  targets: readonly Target[];
  against: Columns['against'];
}

interface Drawn {
  made: uPlot;
  line: HTMLElement;
  rings: readonly HTMLElement[];
  slider: HTMLElement | null;
  now: HTMLElement | null;
}

/** Puts the cursor where A stands, with rings at the true values of both. */
function writeCursor(
  { both, measure, targets, against }: Of,
  { shown, comparing }: Shop,
  { made, line, rings, slider, now }: Drawn,
): void {
  const { a, b, shop } = both;
  const isLeft = a.build.driverSide === 'left';
  const along = ({ handle, pose }: Shown): number => {
    const at = onAxis(against, {
      driver: isLeft ? handle.left : handle.right,
      passenger: isLeft ? handle.right : handle.left,
      inner: (pose && innerTire(pose)) ?? 0,
    });
    return against === 'steering' ? at : inPageUnit(at, 'in', shop.unit);
  };
  const contextOf = (rig: Rig, pose: Pose | null | undefined) =>
    pose ? new MeasureContext(rig.build, rig.axle, rig.model, pose) : null;
  const contexts = [
    contextOf(a, shown.pose),
    contextOf(b, comparing?.isBeyond ? null : comparing?.shown.pose),
  ];
  const places = [along(shown), along(comparing?.shown ?? shown)];
  const at = places[0] as number;
  line.style.transform = `translateX(${made.valToPos(at, 'x')}px)`;
  const said: string[] = [];
  for (const [i, target] of targets.entries()) {
    const values = contexts.map((context, of) => {
      const ring = rings[2 * i + of];
      const reading = context ? measure.value(context, target) : null;
      if (ring) ring.hidden = true;
      if (typeof reading !== 'number' || !ring) return null;
      const value = reading * SHOWN[measure.unit];
      const y = made.valToPos(inPageUnit(value, measure.unit, shop.unit), 'y');
      // beside the walk a value may lie beyond what the chart shows
      ring.hidden = y < 0 || y > made.over.clientHeight;
      ring.style.transform = `translate(${made.valToPos(places[of] as number, 'x')}px, ${y}px)`;
      return value;
    });
    const [inA, inB] = values;
    const words = values.map(value =>
      value === null ? NONE : valueText(shop, measure.id, value, measure.unit),
    );
    const less =
      typeof inA === 'number' && typeof inB === 'number'
        ? `, B − A ${signed(shop, inB - inA, measure.unit)}`
        : '';
    said.push(`A ${words[0]}, B ${words[1]}${less}`);
  }
  const text = said.length === 1 ? (said[0] ?? '') : '';
  if (now && now.textContent !== text) now.textContent = text;
  slider?.setAttribute('aria-valuenow', at.toFixed(3));
  slider?.setAttribute('aria-valuetext', said.join('; '));
}
