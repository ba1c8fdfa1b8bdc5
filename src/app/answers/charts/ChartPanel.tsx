/** One measure as a chart, its cursor tied to the pose: dragging it moves the axle, moving the axle moves it. */
import { type KeyboardEvent, type PointerEvent, useEffect, useMemo, useRef, useState } from 'react';
import type uPlot from 'uplot';
import 'uplot/dist/uPlot.min.css';
import {
  type Measure,
  MeasureContext,
  SHOWN,
  type Target,
} from '../../../../geometry/measure/measure.ts';
import {
  between,
  briefNames,
  inPageUnit,
  onAxis,
  stepsOf,
  tapeMark,
} from '../../../charts/chartData.ts';
import { type ChartSpec, makeChart } from '../../../charts/measureChart.ts';
import { readPalette } from '../../../charts/palette.ts';
import { act } from '../../state/action.ts';
import { moveTo } from '../../state/move.ts';
import type { Rig, Shown } from '../../state/rig.ts';
import { useShop } from '../../state/shop.ts';
import { directionsOf, measureName, targetWords, valueText } from '../../words/measureWords.ts';
import { innerTire, pageShop } from '../../words/shopWords.ts';
import { useTheme } from '../../words/useTheme.ts';
import { chartBounds } from './bounds.ts';
import { axisText, endsOf } from './ends.ts';
import type { Columns } from './useColumns.ts';

export interface ChartPanelProps {
  rig: Rig;
  measure: Measure;
  columns: Columns;
  unit: 'in' | 'mm';
}

/** Height of a chart, px, as its sheet has it. */
const heightOf = (element: HTMLElement): number =>
  Number.parseFloat(getComputedStyle(element).getPropertyValue('--chart-height')) || 208;

export function ChartPanel({ rig, measure, columns, unit }: ChartPanelProps) {
  const host = useRef<HTMLDivElement>(null);
  const slider = useRef<HTMLDivElement>(null);
  const now = useRef<HTMLSpanElement>(null);
  const chart = useRef<uPlot | null>(null);
  const theme = useTheme();
  const [width, setWidth] = useState(0);
  const shop = useMemo(() => pageShop(rig.build, unit), [rig, unit]);
  const { against } = columns;

  const lines = useMemo(
    () => columns.columns.filter(({ id }) => id === measure.id),
    [columns, measure],
  );
  const spec = useMemo((): ChartSpec => {
    const page = (value: number): number => inPageUnit(value, measure.unit, unit);
    const along = (value: number): number =>
      against === 'steering' ? value : inPageUnit(value, 'in', unit);
    const directions = directionsOf(shop, measure.id);
    const names = briefNames(lines.map(({ target }) => targetWords(shop, rig.axle, target)));
    const sign = (value: number, text: string): string =>
      value < 0 && !directions ? `−${text}` : text;
    return {
      x: columns.x.map(along),
      lines: lines.map(({ values }, i) => ({ name: names[i] ?? '', values: values.map(page) })),
      bounds: chartBounds(
        rig,
        shop,
        measure,
        lines.map(({ target }) => target),
      ),
      ends: endsOf(rig, against),
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
          const digits = size > 0 && size < 0.1 ? 3 : 2;
          const number =
            measure.unit === 'in' && unit === 'in'
              ? tapeMark(value)
              : String(Number(size.toFixed(digits)));
          const suffix = measure.unit === 'deg' ? '°' : measure.unit === '%' ? ' %' : '';
          return `${sign(value, number)}${suffix}`;
        },
      },
      directions,
    };
  }, [columns, lines, rig, shop, measure, unit, against]);

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
    const made = makeChart(element, spec, readPalette(element), {
      width,
      height: heightOf(element),
    });
    chart.current = made;
    const over = made.over;
    const line = over.appendChild(document.createElement('i'));
    line.className = 'chart-cursor';
    const rings = spec.lines.map(() => {
      const ring = over.appendChild(document.createElement('i'));
      ring.className = 'chart-ring';
      return ring;
    });
    const write = (shown: Shown): void =>
      writeCursor(
        { rig, measure, targets: lines.map(({ target }) => target), against, unit },
        shown,
        {
          made,
          line,
          rings,
          slider: slider.current,
          now: now.current,
        },
      );
    // the chart lays itself out in a microtask of its own, before this one
    queueMicrotask(() => {
      if (chart.current === made) write(useShop.getState().shown);
    });
    const end = useShop.subscribe(state => state.shown, write);
    return () => {
      end();
      made.destroy();
      chart.current = null;
    };
  }, [spec, width, theme]);

  const goTo = (value: number): void => {
    const { index, share } = between(spec.x, value);
    const [p, q] = [columns.places[index], columns.places[index + 1]];
    if (!p || !q) return;
    const mix = (a: number, b: number): number => a + share * (b - a);
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
    // as it is drawn: to the right is to the right
    const seen =
      event.key === 'ArrowRight' || event.key === 'ArrowLeft' ? (spec.isTurned ? -1 : 1) : 1;
    goTo(
      far ?? Number(slider.current?.getAttribute('aria-valuenow') ?? 0) + (way ?? 0) * size * seen,
    );
  };

  const name = measureName(shop, rig.axle, measure, { part: null, side: null });
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
        aria-label={`${name}: place along the walk`}
        aria-valuemin={spec.x[0] ?? 0}
        aria-valuemax={spec.x[spec.x.length - 1] ?? 0}
        aria-valuenow={0}
        onPointerDown={drag}
        onPointerMove={drag}
        onKeyDown={step}
      >
        <div ref={host} />
      </div>
      <p className="visually-hidden">{summary(shop, measure, lines, spec)}</p>
    </figure>
  );
}

interface Of {
  rig: Rig;
  measure: Measure;
  targets: readonly Target[];
  against: Columns['against'];
  unit: 'in' | 'mm';
}

interface Drawn {
  made: uPlot;
  line: HTMLElement;
  rings: readonly HTMLElement[];
  slider: HTMLElement | null;
  now: HTMLElement | null;
}

/** Puts the cursor where the axle stands: rings at the true values there, even beside the walk. */
function writeCursor(of: Of, { pose, handle }: Shown, drawn: Drawn): void {
  const { rig, measure, targets, against, unit } = of;
  const { made, line, rings, slider, now } = drawn;
  const isLeft = rig.build.driverSide === 'left';
  const at = onAxis(against, {
    driver: isLeft ? handle.left : handle.right,
    passenger: isLeft ? handle.right : handle.left,
    inner: (pose && innerTire(pose)) ?? 0,
  });
  const value = against === 'steering' ? at : inPageUnit(at, 'in', unit);
  const x = made.valToPos(value, 'x');
  line.style.transform = `translateX(${x}px)`;
  const context = pose && new MeasureContext(rig.build, rig.axle, rig.model, pose);
  const shop = pageShop(rig.build, unit);
  const said: string[] = [];
  for (const [i, target] of targets.entries()) {
    const ring = rings[i];
    const reading = context ? measure.value(context, target) : null;
    if (!ring) continue;
    ring.hidden = true;
    if (typeof reading !== 'number') continue;
    const shown = reading * SHOWN[measure.unit];
    const y = made.valToPos(inPageUnit(shown, measure.unit, unit), 'y');
    // beside the walk a value may lie beyond what the chart shows
    ring.hidden = y < 0 || y > made.over.clientHeight;
    ring.style.transform = `translate(${x}px, ${y}px)`;
    said.push(valueText(shop, measure.id, shown, measure.unit));
  }
  const text = targets.length <= 2 ? said.join(', ') : '';
  if (now && now.textContent !== text) now.textContent = text;
  slider?.setAttribute('aria-valuenow', value.toFixed(3));
  slider?.setAttribute('aria-valuetext', said.slice(0, 4).join(', '));
}

/** What a line does, in words: for those who do not see it. */
function summary(
  shop: ReturnType<typeof pageShop>,
  measure: Measure,
  lines: Columns['columns'],
  spec: ChartSpec,
): string {
  return lines
    .map(({ values }, i) => {
      const known = Array.from(values).filter(value => Number.isFinite(value));
      const name = spec.lines[i]?.name ?? '';
      const head = name === '' ? '' : `${name}: `;
      if (known.length === 0) return `${head}no value along this walk.`;
      const words = (value: number): string => valueText(shop, measure.id, value, measure.unit);
      return `${head}from ${words(known[0] as number)} to ${words(known.at(-1) as number)}, least ${words(Math.min(...known))}, greatest ${words(Math.max(...known))}.`;
    })
    .join(' ');
}
