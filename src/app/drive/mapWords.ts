/** What the travel map says aloud: where the axle stands, and what is tightest there. */
import { lengthWords, partWords } from '../../../geometry/finding/words.ts';
import { measures } from '../../../geometry/measure/list.ts';
import { nearestPlace } from '../../charts/bands.ts';
import type { GapStrip } from '../../worker/protocol.ts';
import type { Handle, Rig } from '../state/rig.ts';
import { measureName, valueText } from '../words/measureWords.ts';
import { pageShop, poseLine } from '../words/shopWords.ts';
import type { MapShown } from './useMapShown.ts';

type Unit = 'in' | 'mm';

/** 'drag link to differential, 3/16 in overlap'; '' where no pair moves. */
export function tightestWords(
  rig: Rig,
  unit: Unit,
  { gap, pair, pairs }: Pick<GapStrip, 'gap' | 'pair' | 'pairs'>,
  at: number,
): string {
  const found = pairs[pair[at] ?? -1];
  if (!found) return '';
  const shop = pageShop(rig.build, unit);
  const [a, b] = [found.a, found.b].map(name => partWords(shop, rig.axle, name));
  const here = gap[at] as number;
  const amount = lengthWords(shop, Math.abs(here));
  return `${a} to ${b}, ${here < 0 ? `${amount} overlap` : `${amount} gap`}`;
}

/** 'Driver 6 up, passenger 5 3/16 down. Tightest over all steering: drag link to differential, 3/16 in gap.' */
export function mapValue(rig: Rig, unit: Unit, { left, right }: Handle, shown: MapShown): string {
  const shop = pageShop(rig.build, unit);
  const where = poseLine(shop, left, right, '');
  const values = shown.gaps ?? shown.measure;
  const at = values && nearestPlace(values, [left, right]);
  if (at === null) return where;
  if (shown.gaps) {
    const words = tightestWords(rig, unit, shown.gaps, at);
    return words === '' ? where : `${where}. Tightest over all steering: ${words}`;
  }
  const value = shown.measure?.values[at] ?? Number.NaN;
  if (!shown.measure || Number.isNaN(value)) return where;
  const { id, target, unit: of } = shown.measure;
  const measure = measures.find(each => each.id === id);
  const name = measure ? measureName(shop, rig.axle, measure, target) : id;
  return `${where}. ${name}, straight ahead: ${valueText(shop, id, value, of)}`;
}
