/** Travel maps of both, side by side, and what differs between them. */
import { useMemo } from 'react';
import { formatLength } from '../../../geometry/build/format.ts';
import type { Shop } from '../../../geometry/finding/words.ts';
import { measures } from '../../../geometry/measure/list.ts';
import { drawDifferenceMap, drawPlainMap } from '../../charts/besideMaps.ts';
import { edgeStretches } from '../../charts/edgeStretches.ts';
import type { Both } from '../../worker/compareProtocol.ts';
import type { RangeTold } from '../../worker/protocol.ts';
import { noteSize } from '../drive/noteSize.ts';
import { type MapOf, useShop } from '../state/shop.ts';
import { measureName, valueText } from '../words/measureWords.ts';
import { travelOf } from '../words/shopWords.ts';
import { pairWords } from './compareWords.ts';
import { DifferenceLegend } from './DifferenceLegend.tsx';
import { Scroll } from './Scroll.tsx';
import { SmallMap } from './SmallMap.tsx';
import { type BothKnown, useBoth } from './useBoth.ts';
import { type MapsOfBoth, useMapsOfBoth } from './useMapsOfBoth.ts';

export function Maps() {
  const both = useBoth();
  const ranges = useShop(({ comparing }) => comparing?.compared.ranges ?? null);
  const maps = useMapsOfBoth();
  if (!both || !ranges) return <p className="note compared-note">Finding how far both go.</p>;
  return <Shown both={both} ranges={ranges} maps={maps} />;
}

interface ShownProps {
  both: BothKnown;
  ranges: Both<RangeTold>;
  maps: MapsOfBoth | null;
}

function Shown({ both, ranges, maps }: ShownProps) {
  const { names, shop } = both;
  const of = useShop(({ look }) => look.mapOf);
  const what = mapName(both, of);
  const over = useMemo(() => [...ranges.a.edge, ...ranges.b.edge], [ranges]);
  const stretches = useMemo(
    () => ({ a: edgeStretches(ranges.a.edge), b: edgeStretches(ranges.b.edge) }),
    [ranges],
  );
  const words = (value: number): string => {
    const size = Math.abs(value);
    if (maps?.unit === 'in') return formatLength(size, { unit: shop.unit });
    // parts of the wanted gap are told like those of an inch
    if (maps?.unit === '') return formatLength(size, { unit: 'in' });
    return valueText(shop, '', size, maps?.unit ?? '');
  };
  return (
    <Scroll label="Maps of both">
      <div className="maps-of-both">
        {(['a', 'b'] as const).map(side => (
          <figure key={side}>
            <figcaption>
              <span className={`side-mark small ${side}`}>{side.toUpperCase()}</span> {names[side]}
            </figcaption>
            <SmallMap
              over={over}
              isOfB={side === 'b'}
              label={`${what} of ${names[side]} over its travel${maps ? '' : ', still being found'}`}
              paint={(ctx, palette, frame) =>
                drawPlainMap(ctx, palette, frame, {
                  bands: maps?.bands[side] ?? null,
                  stretches: stretches[side],
                })
              }
            />
          </figure>
        ))}
        <figure>
          <figcaption>B against A</figcaption>
          <SmallMap
            over={over}
            isOfB={false}
            label={maps ? spoken(shop, maps, words) : 'What differs is still being found'}
            paint={(ctx, palette, frame) =>
              drawDifferenceMap(ctx, palette, frame, {
                bands: maps?.difference.bands ?? null,
                edges: { a: ranges.a.edge, b: ranges.b.edge },
                most: maps?.difference.most ?? null,
                least: maps?.difference.least ?? null,
                words,
                note: noteSize(),
              })
            }
          />
          <DifferenceLegend maps={maps} words={words} />
        </figure>
      </div>
      <p className="note">
        {what}
        {of.kind === 'measure'
          ? ', straight ahead'
          : ', over all steering; room in parts of the wanted gap'}
        . Hatched: only one of the two goes there. Edge of A solid, of B dashed. The travel map’s
        menu chooses what is mapped.
      </p>
    </Scroll>
  );
}

function mapName({ a, b, shop }: BothKnown, of: MapOf): string {
  if (of.kind === 'gap') return 'Tightest gap';
  if (of.kind === 'pair') return `Gap of ${pairWords(shop, a, b, [of.a, of.b]).toLowerCase()}`;
  const measure = measures.find(({ id }) => id === of.id);
  return measure ? measureName(shop, a.axle, measure, of.target) : of.id;
}

/** Where B has most more and most less, for those who do not see the map. */
function spoken(shop: Shop, { difference, of }: MapsOfBoth, words: (v: number) => string): string {
  const [more, less] = of.kind === 'measure' ? ['more', 'less'] : ['more room', 'less room'];
  const { most, least } = difference;
  const at = ({ left, right }: { left: number; right: number }): string => {
    const { both, driver, passenger } = travelOf(shop, left, right);
    return both === null ? `driver ${driver}, passenger ${passenger}` : `both wheels ${both}`;
  };
  const parts = [
    most &&
      `up to ${words(most.value)}${of.kind === 'measure' ? '' : ' of the wanted gap'} ${more} at ${at(most)}`,
    least &&
      `up to ${words(least.value)}${of.kind === 'measure' ? '' : ' of the wanted gap'} ${less} at ${at(least)}`,
  ].filter(each => each !== null);
  return parts.length === 0
    ? 'B against A: no difference where both go'
    : `B against A: ${parts.join('; ')}`;
}
