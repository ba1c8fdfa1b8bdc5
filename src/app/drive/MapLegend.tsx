/** What the map's colors say, in the unit of the page; and why the handle goes no further, while it is held. */
import { useMemo } from 'react';
import { formatLength } from '../../../geometry/build/format.ts';
import { lengthWords } from '../../../geometry/finding/words.ts';
import { GAP_LEVELS, GAP_STEPS, isOverlap } from '../../charts/gapScale.ts';
import type { MeasureScale } from '../../charts/measureScale.ts';
import type { PairTold } from '../../worker/protocol.ts';
import { useShop } from '../state/shop.ts';
import { Sentence } from '../words/Amount.tsx';
import { directionsOf } from '../words/measureWords.ts';
import { pageShop } from '../words/shopWords.ts';
import './MapLegend.css';
import type { MapShown } from './useMapShown.ts';

type Unit = 'in' | 'mm';

export interface MapLegendProps {
  shown: MapShown;
  /** Why the handle goes no further; null while it is free. */
  blocked: string | null;
}

export function MapLegend({ shown, blocked }: MapLegendProps) {
  const unit = useShop(shop => shop.look.unit);
  const scale = shown.bands?.scale;
  return (
    <div className="map-legend">
      {scale && shown.measure ? (
        <MeasureLegend scale={scale} of={shown.measure.unit} unit={unit} />
      ) : (
        <GapLegend unit={unit} />
      )}
      {blocked !== null ? (
        <p className="note blocked" role="status">
          <b>Can’t go there.</b> {blocked}.
        </p>
      ) : (
        <p className="note">
          {scale && shown.measure ? (
            <DirectionLine id={shown.measure.id} />
          ) : (
            <WantedLine shown={shown} unit={unit} />
          )}
        </p>
      )}
    </div>
  );
}

const GAP_LABELS = ['touch', '1/2', 'wanted', '2 ×', '4 ×'] as const;

function GapLegend({ unit }: { unit: Unit }) {
  const deep = unit === 'in' ? '1/4 in' : '6 mm';
  const labels = [deep, ...GAP_LABELS];
  return (
    <div className="legend-steps" role="img" aria-label={LEGEND}>
      {GAP_STEPS.map((step, i) => (
        <span
          key={step}
          className={isOverlap(i) ? 'step hatched' : 'step'}
          data-line={GAP_LEVELS[i - 1] === 1 ? '' : undefined}
        >
          <i style={{ background: `var(--gap-${step})` }} />
          {labels[i] !== undefined && (
            <em>
              <Sentence text={labels[i]} />
            </em>
          )}
        </span>
      ))}
    </div>
  );
}

const LEGEND =
  'Colors, from the most ink to the least: overlap over 1/4 inch, overlap, under half of the wanted gap, short of it, up to twice, up to four times, more';

function MeasureLegend({ scale, of, unit }: { scale: MeasureScale; of: string; unit: Unit }) {
  const { levels, colors } = scale;
  const every = levels.length > 6 ? 2 : 1;
  const label = (value: number): string =>
    of === 'in'
      ? formatLength(value, { unit }).replace('-', '−')
      : `${Number(value.toPrecision(6))}`.replace('-', '−');
  const shown = of === 'in' ? unit : of === 'deg' ? '°' : of === '1' ? '' : of;
  return (
    <div
      className="legend-steps"
      role="img"
      aria-label={`Colors: from ${levels.map(label).join(', ')} ${shown}`}
    >
      {colors.map((color, i) => (
        <span
          className="step"
          key={levels[i] ?? 'last'}
          data-line={levels[i - 1] === 0 ? '' : undefined}
        >
          <i style={{ background: `var(--measure-${color + 1})` }} />
          {levels[i] !== undefined && i % every === 0 && (
            <em>
              <Sentence text={label(levels[i])} />
            </em>
          )}
        </span>
      ))}
      <small className="legend-unit">{shown}</small>
    </div>
  );
}

/** 'Wanted: tires 1 1/2 in, rods 1/2 in. Left of the line: short.' */
function WantedLine({ shown, unit }: { shown: MapShown; unit: Unit }) {
  const all = useShop(shop => shop.results.gaps?.pairs);
  const kinds = useShop(shop => shop.rig?.parts);
  const text = useMemo(() => {
    const words = (inches: number): string => lengthWords({ driverSide: 'left', unit }, inches);
    if (shown.of.kind === 'pair') {
      const required = shown.gaps?.pairs[0]?.required;
      return required === undefined ? '' : `Wanted: ${words(required)}. Left of the line: short.`;
    }
    const tires = new Set((kinds ?? []).filter(p => p.kind === 'tire').map(p => p.name));
    const pairs: PairTold[] = all
      ? all.map(({ a, b, required_in }) => ({ a, b, required: required_in }))
      : [...(shown.gaps?.pairs ?? [])];
    const isTire = ({ a, b }: PairTold): boolean => tires.has(a) || tires.has(b);
    const tire = usual(pairs.filter(isTire));
    const rod = usual(pairs.filter(pair => !isTire(pair)));
    const list = [
      ...(tire === null ? [] : [`tires ${words(tire)}`]),
      ...(rod === null ? [] : [`rods ${words(rod)}`]),
    ];
    return list.length === 0 ? '' : `Wanted: ${list.join(', ')}. Left of the line: short.`;
  }, [shown, unit, all, kinds]);
  return <Sentence text={text} />;
}

/** '+ is left, − is right.' */
function DirectionLine({ id }: { id: string }) {
  const build = useShop(shop => shop.rig?.build);
  const words = build && directionsOf(pageShop(build, 'in'), id);
  return words ? `+ is ${words[0]}, − is ${words[1]}.` : null;
}

/** What most of the pairs want, in; null where none wants anything. */
function usual(pairs: readonly PairTold[]): number | null {
  const counts = new Map<number, number>();
  for (const { required } of pairs) {
    if (required > 0) counts.set(required, (counts.get(required) ?? 0) + 1);
  }
  const [most] = [...counts].sort((a, b) => b[1] - a[1]);
  return most?.[0] ?? null;
}
