/** A chart whose cursor is tied to the pose: dragging it moves the axle, moving the axle moves it. */
import {
  type KeyboardEvent,
  type PointerEvent,
  type ReactNode,
  useEffect,
  useRef,
  useState,
} from 'react';
import type uPlot from 'uplot';
import 'uplot/dist/uPlot.min.css';
import type { Measure } from '../../../../geometry/measure/measure.ts';
import {
  type Against,
  between,
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
import { type Shop, useShop } from '../../state/shop.ts';
import { innerTire } from '../../words/shopWords.ts';
import { useTheme } from '../../words/useTheme.ts';
import { axisText } from './ends.ts';
import type { Columns } from './useColumns.ts';

/** What a chart is written into while the axle moves. */
export interface Drawn {
  made: uPlot;
  line: HTMLElement;
  rings: readonly HTMLElement[];
  slider: HTMLElement | null;
  now: HTMLElement | null;
}

export interface DrivenChartProps {
  name: string;
  /** What the slider is called. */
  label: string;
  measure: Measure;
  spec: ChartSpec;
  /** What is walked: where the cursor may go. */
  columns: Columns;
  unit: 'in' | 'mm';
  /** Class of each ring on a line. */
  rings: readonly string[];
  /** Puts cursor, rings and words where the axle stands; kept as long as nothing of the chart changes. */
  write(drawn: Drawn, state: Shop): void;
  children?: ReactNode;
}

/** Height of a chart, px, as its sheet has it. */
const heightOf = (element: HTMLElement): number =>
  Number.parseFloat(getComputedStyle(element).getPropertyValue('--chart-height')) || 208;

export function DrivenChart(props: DrivenChartProps) {
  const { name, label, measure, spec, columns, unit, rings, write } = props;
  const { against, places, x } = columns;
  const host = useRef<HTMLDivElement>(null);
  const slider = useRef<HTMLDivElement>(null);
  const now = useRef<HTMLSpanElement>(null);
  const chart = useRef<uPlot | null>(null);
  const theme = useTheme();
  const [width, setWidth] = useState(0);

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
    const height = heightOf(element);
    const made = makeChart(element, spec, readPalette(element), { width, height });
    chart.current = made;
    const add = (className: string): HTMLElement => {
      const mark = made.over.appendChild(document.createElement('i'));
      mark.className = className;
      return mark;
    };
    const line = add('chart-cursor');
    const drawn: Drawn = {
      made,
      line,
      rings: rings.map(add),
      slider: slider.current,
      now: now.current,
    };
    // the chart lays itself out in a microtask of its own, before this one
    queueMicrotask(() => {
      if (chart.current === made) write(drawn, useShop.getState());
    });
    const end = useShop.subscribe((state, before) => {
      if (state.shown !== before.shown || state.comparing !== before.comparing) write(drawn, state);
    });
    return () => {
      end();
      made.destroy();
      chart.current = null;
    };
  }, [spec, rings, write, width, theme]);

  const goTo = (value: number): void => {
    const { index, share } = between(
      x,
      against === 'steering' ? value : value / inPageUnit(1, 'in', unit),
    );
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
    // as it is drawn: to the right is to the right
    const isAcross = event.key === 'ArrowRight' || event.key === 'ArrowLeft';
    const seen = isAcross && spec.isTurned ? -1 : 1;
    const from = Number(slider.current?.getAttribute('aria-valuenow') ?? 0);
    goTo(far ?? from + (way ?? 0) * size * seen);
  };

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
        aria-label={label}
        aria-valuemin={spec.x[0] ?? 0}
        aria-valuemax={spec.x[spec.x.length - 1] ?? 0}
        aria-valuenow={0}
        onPointerDown={drag}
        onPointerMove={drag}
        onKeyDown={step}
      >
        <div ref={host} />
      </div>
      {props.children}
    </figure>
  );
}

/** Both axes of a measure's chart: which way they run, where their marks may lie and what they say. */
export function axesOf(
  measure: Measure,
  directions: ChartSpec['directions'],
  against: Against,
  unit: 'in' | 'mm',
): Pick<ChartSpec, 'isTurned' | 'steps' | 'mark' | 'directions'> {
  const isSteering = against === 'steering';
  return {
    isTurned: isSteering,
    steps: {
      x: stepsOf(isSteering ? 'deg' : 'in', unit).filter(step => step >= (isSteering ? 5 : 0.5)),
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
        return `${value < 0 && !directions ? '−' : ''}${number}${suffix}`;
      },
    },
    directions,
  };
}

/** What is walked along, in the page's unit: travel, or the inner tire's turn in deg. */
export const alongIn = (against: Against, value: number, unit: 'in' | 'mm'): number =>
  against === 'steering' ? value : inPageUnit(value, 'in', unit);

/** Where a pose lies along a chart, in the page's unit. */
export function placeOn(
  rig: Rig,
  against: Against,
  { handle, pose }: Shown,
  unit: 'in' | 'mm',
): number {
  const isLeft = rig.build.driverSide === 'left';
  const at = onAxis(against, {
    driver: isLeft ? handle.left : handle.right,
    passenger: isLeft ? handle.right : handle.left,
    inner: (pose && innerTire(pose)) ?? 0,
  });
  return alongIn(against, at, unit);
}

/** Puts a ring at a value of the page's unit, unless that lies beside the chart: a pose may lie beside its walk. */
export function putRing(made: uPlot, ring: HTMLElement, x: number, value: number): void {
  const y = made.valToPos(value, 'y');
  ring.hidden = y < 0 || y > made.over.clientHeight;
  ring.style.transform = `translate(${x}px, ${y}px)`;
}
