/** Numbers at the handle, always readable. Rows are made once; their values are written as the axle moves. */
import { useEffect, useMemo, useRef } from 'react';
import { partWords, sentence } from '../../../../geometry/finding/words.ts';
import { MeasureContext } from '../../../../geometry/measure/measure.ts';
import { type Shop as State, useShop } from '../../state/shop.ts';
import { valueWords } from '../../words/measureWords.ts';
import { pageShop } from '../../words/shopWords.ts';
import { choose, useChoices } from '../choices.ts';
import { Did } from '../did/Did.tsx';
import { Picker } from '../Picker.tsx';
import './Here.css';
import { firstKeys, hereItems } from './items.ts';
import { TightestHere } from './tightest.ts';

/** After a change of the build, until it is put away: what the change did, in place of the numbers. */
export function Here() {
  const hasChanged = useShop(shop => shop.did?.isPutAway === false);
  return hasChanged ? <Did /> : <Numbers />;
}

function Numbers() {
  const rig = useShop(shop => shop.rig);
  const unit = useShop(shop => shop.look.unit);
  const map = useShop(shop => shop.results.map);
  const findings = useShop(shop => shop.results.findings);
  const picked = useChoices(choices => choices.here);
  const list = useRef<HTMLDListElement>(null);
  const shop = useMemo(() => (rig ? pageShop(rig.build, unit) : null), [rig, unit]);
  const items = useMemo(() => (rig && shop ? hereItems(rig, shop) : []), [rig, shop]);
  const keys = useMemo(() => picked ?? firstKeys(items), [picked, items]);
  const rows = useMemo(
    () =>
      keys.flatMap(key => {
        const item = items.find(each => each.key === key);
        return item ? [item] : [];
      }),
    [keys, items],
  );
  const tightest = useMemo(
    () => (rig ? new TightestHere(rig, { map, findings }) : null),
    [rig, map, findings],
  );

  useEffect(() => {
    const element = list.current;
    if (!element || !rig || !shop) return;
    const cells = [...element.querySelectorAll<HTMLElement>('[data-row]')].map(cell => ({
      cell,
      whole: cell.querySelector('.whole') as HTMLElement,
      fraction: cell.querySelector('.frac') as HTMLElement,
      after: cell.querySelector('.after') as HTMLElement,
    }));
    const pair = element.querySelector<HTMLElement>('.tightest-pair');
    const write = ({ shown: { pose } }: Pick<State, 'shown'>): void => {
      const context = pose && new MeasureContext(rig.build, rig.axle, rig.model, pose);
      const near = pose && tightest ? tightest.at(pose) : null;
      for (const [i, { cell, whole, fraction, after }] of cells.entries()) {
        const item = rows[i];
        const value = item ? context && item.read(context) : (near?.gap ?? null);
        const words =
          value === null
            ? { whole: '–', fraction: '', after: '' }
            : valueWords(shop, item?.id ?? '', value, item?.unit ?? 'in');
        put(whole, words.whole);
        put(fraction, words.fraction);
        put(after, words.after);
        if (!item) cell.classList.toggle('touch', (value ?? 0) < 0);
      }
      if (pair) {
        const names = near ? [near.a, near.b].map(name => partWords(shop, rig.axle, name)) : [];
        put(pair, names.length > 0 ? sentence(names.join(', ')) : '');
      }
    };
    write(useShop.getState());
    return useShop.subscribe(
      state => state.shown,
      shown => {
        // of another axle the rows are made anew
        if (useShop.getState().rig === rig) write({ shown });
      },
    );
  }, [rig, shop, rows, tightest]);

  return (
    <section className="here" aria-label="Numbers at the handle">
      <header className="here-head">
        <h2>Here</h2>
        <Picker
          label="Numbers at the handle: choose"
          text="at the handle"
          options={items}
          chosen={keys}
          choose={here => choose({ here })}
          reset={() => choose({ here: null })}
        />
      </header>
      <dl className="here-list" ref={list} tabIndex={0}>
        {rows.map(({ key, label, definition, source }) => (
          <div className="here-row" key={key} title={`${definition}\n${source}`}>
            <dt>{label}</dt>
            <Value />
          </div>
        ))}
        <div
          className="here-row"
          title="At this very pose, of the pairs that are the tightest somewhere on the travel map or in a finding. Negative is overlap. Parts rigid."
        >
          <dt>
            Tightest gap
            <span className="tightest-pair" />
          </dt>
          <Value />
        </div>
      </dl>
    </section>
  );
}

function Value() {
  return (
    <dd data-row>
      <b className="whole" />
      <span className="frac-space"> </span>
      <b className="frac" />
      <span className="after" />
    </dd>
  );
}

function put(element: HTMLElement, text: string): void {
  if (element.textContent !== text) element.textContent = text;
}
