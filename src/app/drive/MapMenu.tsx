/** What the travel map shows: the tightest gap, one pair, or any measure; found by its words. */
import {
  Combobox,
  ComboboxGroup,
  ComboboxGroupLabel,
  ComboboxItem,
  ComboboxList,
  ComboboxProvider,
  Popover,
  PopoverDisclosure,
  PopoverProvider,
  usePopoverStore,
} from '@ariakit/react';
import { useMemo, useState } from 'react';
import { lengthWords, partWords, type Shop, sentence } from '../../../geometry/finding/words.ts';
import type { AxleGapReport } from '../../../geometry/gap/gapReport.ts';
import { measures } from '../../../geometry/measure/list.ts';
import '../answers/controls.css';
import { Chevron } from '../frame/Chevron.tsx';
import { act } from '../state/action.ts';
import { setLook } from '../state/look.ts';
import type { Rig } from '../state/rig.ts';
import { type MapOf, useShop } from '../state/shop.ts';
import { measureGroups, measureName } from '../words/measureWords.ts';
import { pageShop } from '../words/shopWords.ts';
import './MapMenu.css';

interface Option {
  key: string;
  group: string;
  label: string;
  /** Behind the label: how much is left. */
  note: string;
  of: MapOf;
}

/** Most pairs in the list at once, nearest first; a search finds the others. */
const PAIRS = 12;

export function MapMenu() {
  const of = useShop(shop => shop.look.mapOf);
  const rig = useShop(shop => shop.rig);
  const unit = useShop(shop => shop.look.unit);
  const gaps = useShop(shop => shop.results.gaps);
  const [search, setSearch] = useState('');
  const popover = usePopoverStore({ placement: 'bottom-start' });
  const isOpen = popover.useState('open');
  const options = useMemo(
    () => (isOpen && rig ? optionsOf(rig, pageShop(rig.build, unit), gaps) : []),
    [isOpen, rig, unit, gaps],
  );
  const groups = useMemo(() => found(options, search), [options, search]);
  const choose = (next: MapOf): void => {
    act(setLook, { mapOf: next });
    popover.hide();
  };
  const isMeasure = of.kind === 'measure';
  return (
    <header className="map-head">
      <PopoverProvider store={popover}>
        <PopoverDisclosure className="map-of">
          <h2>{rig ? nameOf(rig, of) : 'Tightest gap'}</h2>
          <Chevron />
        </PopoverDisclosure>
        <Popover className="menu map-menu" portal gutter={4} unmountOnHide aria-label="Map shows">
          <ComboboxProvider value={search} setValue={setSearch}>
            <Combobox
              autoFocus
              autoSelect
              className="field"
              placeholder="Search parts and measures"
              aria-label="Search parts and measures"
            />
            <ComboboxList alwaysVisible className="map-options" aria-label="What the map can show">
              {groups.map(([group, list]) => (
                <ComboboxGroup key={group}>
                  <ComboboxGroupLabel className="menu-label">{group}</ComboboxGroupLabel>
                  {list.map(({ key, label, note, of: next }) => (
                    <ComboboxItem
                      key={key}
                      className="menu-item"
                      hideOnClick={false}
                      setValueOnClick={false}
                      focusOnHover
                      onClick={() => choose(next)}
                    >
                      {label}
                      {note !== '' && <small>{note}</small>}
                    </ComboboxItem>
                  ))}
                </ComboboxGroup>
              ))}
              {groups.length === 0 && <p className="menu-label">Nothing of that name.</p>}
            </ComboboxList>
          </ComboboxProvider>
        </Popover>
      </PopoverProvider>
      <span className="note">
        {isMeasure || !rig?.axle.steered ? 'travel map' : 'travel map, over all steering'}
        {isMeasure && rig?.axle.steered ? ', straight ahead' : ''}
      </span>
    </header>
  );
}

function nameOf({ build, axle }: Rig, of: MapOf): string {
  const shop = pageShop(build, 'in');
  if (of.kind === 'gap') return 'Tightest gap';
  if (of.kind === 'pair') return pairName(shop, axle, of.a, of.b);
  const measure = measures.find(({ id }) => id === of.id);
  return measure ? measureName(shop, axle, measure, of.target) : of.id;
}

const pairName = (shop: Shop, axle: Rig['axle'], a: string, b: string): string =>
  sentence(`${partWords(shop, axle, a)} to ${partWords(shop, axle, b)}`);

function optionsOf({ build, axle }: Rig, shop: Shop, gaps: AxleGapReport | null): Option[] {
  const pairs = (gaps?.pairs ?? [])
    .filter(pair => pair.required_in > 0 || pair.gap_in < 0)
    .map(pair => ({ ...pair, share: pair.gap_in / (pair.required_in || 1) }))
    .sort((p, q) => p.share - q.share)
    .map(({ a, b, gap_in }): Option => {
      const amount = lengthWords(shop, Math.abs(gap_in));
      return {
        key: `${a}|${b}`,
        group: ONE_PAIR,
        label: pairName(shop, axle, a, b),
        note: gap_in < 0 ? `${amount} overlap` : amount,
        of: { kind: 'pair', a, b },
      };
    });
  const others = measureGroups().flatMap(({ title, measures: list }) =>
    list.flatMap(measure =>
      measure.targets(axle, build).map(
        (target): Option => ({
          key: `${measure.id}|${target.part}|${target.side}`,
          group: title,
          label: measureName(shop, axle, measure, target),
          note: '',
          of: { kind: 'measure', id: measure.id, target },
        }),
      ),
    ),
  );
  const all: Option = {
    key: 'gap',
    group: 'All pairs',
    label: 'Tightest gap',
    note: '',
    of: { kind: 'gap' },
  };
  return [all, ...pairs, ...others];
}

const ONE_PAIR = 'One pair, worst first';

/** Options whose words hold all that is searched for, by groups. */
function found(options: readonly Option[], search: string): [string, Option[]][] {
  const words = search.toLowerCase().split(/\s+/);
  const groups = new Map<string, Option[]>();
  for (const option of options) {
    const within = `${option.group} ${option.label}`.toLowerCase();
    if (!words.every(word => within.includes(word))) continue;
    const list = groups.get(option.group) ?? [];
    if (option.group === ONE_PAIR && list.length >= PAIRS) continue;
    list.push(option);
    groups.set(option.group, list);
  }
  return [...groups];
}
