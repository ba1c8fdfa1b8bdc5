/** Numbers of both at the handle. Rows are made once; their values are written as the axles move, in one frame. */
import { useEffect, useMemo, useRef } from 'react';
import type { Shop as Words } from '../../../geometry/finding/words.ts';
import { MeasureContext } from '../../../geometry/measure/measure.ts';
import { endWords } from '../../charts/edgeStretches.ts';
import { useChoices } from '../answers/choices.ts';
import '../answers/here/Here.css';
import { firstKeys, type HereItem, hereItems } from '../answers/here/items.ts';
import { useSettledValue } from '../drive/useSettled.ts';
import type { Rig } from '../state/rig.ts';
import { type Shop, useShop } from '../state/shop.ts';
import { valueWords } from '../words/measureWords.ts';
import { pageShop } from '../words/shopWords.ts';
import { endBefore } from './beside.ts';
import { NONE } from './compareWords.ts';
import { Scroll } from './Scroll.tsx';

export function HereOfBoth() {
  const a = useShop(shop => shop.rig);
  const b = useShop(({ comparing }) => comparing?.other?.rig ?? null);
  const unit = useShop(({ look }) => look.unit);
  return (
    <section className="here here-of-both" aria-label="Numbers of both at the handle">
      <header className="here-head">
        <h2>
          Here <small>{unit === 'in' ? 'in inches' : 'in mm'}</small>
        </h2>
      </header>
      <Beyond />
      {a && b && <Rows a={a} b={b} />}
    </section>
  );
}

function Rows({ a, b }: { a: Rig; b: Rig }) {
  const unit = useShop(shop => shop.look.unit);
  const picked = useChoices(choices => choices.here);
  const list = useRef<HTMLTableSectionElement>(null);
  const shop = useMemo(() => pageShop(a.build, unit), [a, unit]);
  const rows = useMemo(() => {
    const items = hereItems(a, shop);
    const others = new Map(hereItems(b, shop).map(item => [item.key, item]));
    return (picked ?? firstKeys(items)).flatMap(key => {
      const item = items.find(each => each.key === key);
      return item ? [{ item, other: others.get(key) ?? null }] : [];
    });
  }, [a, b, shop, picked]);

  useEffect(() => {
    const element = list.current;
    if (!element) return;
    const cells = [...element.querySelectorAll('tr')].map(row =>
      [...row.querySelectorAll('td')].map(cellOf),
    );
    const write = ({ rig, shown, comparing }: Shop): void => {
      // of other axles the rows are made anew
      if (rig !== a || comparing?.other?.rig !== b) return;
      const poseB = comparing.isBeyond ? null : comparing.shown.pose;
      const inA = shown.pose && new MeasureContext(a.build, a.axle, a.model, shown.pose);
      const inB = poseB && new MeasureContext(b.build, b.axle, b.model, poseB);
      for (const [i, { item, other }] of rows.entries()) {
        const [cellA, cellB, cellD] = cells[i] ?? [];
        const valueA = inA && item.read(inA);
        const valueB = inB && other ? other.read(inB) : null;
        writeValue(cellA, valueA, item, shop);
        writeValue(cellB, valueB, item, shop);
        writeLess(cellD, valueA, valueB, item, shop);
      }
    };
    write(useShop.getState());
    return useShop.subscribe(write);
  }, [a, b, shop, rows]);

  return (
    <Scroll label="Numbers at the handle" className="here-list">
      <table className="here-table">
        <thead>
          <tr>
            <th scope="col">
              <span className="visually-hidden">What</span>
            </th>
            <th scope="col">A</th>
            <th scope="col" className="b">
              B
            </th>
            <th scope="col">B − A</th>
          </tr>
        </thead>
        <tbody ref={list}>
          {rows.map(({ item: { key, label, definition, source } }) => (
            <tr key={key} title={`${definition}\n${source}`}>
              <th scope="row" className="here-label">
                {label}
              </th>
              <td className="here-value">
                <Value />
              </td>
              <td className="here-value b">
                <Value />
              </td>
              <td className="here-value">
                <Value />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </Scroll>
  );
}

const placeOfBoth = ({ comparing, shown }: Shop) => (comparing?.isBeyond ? shown : null);

/** Told where B does not go: a pose that only one of the two reaches. */
function Beyond() {
  const beyond = useSettledValue(placeOfBoth);
  const a = useShop(shop => shop.rig);
  const b = useShop(({ comparing }) => comparing?.other?.rig ?? null);
  const unit = useShop(shop => shop.look.unit);
  const words = useMemo(() => {
    if (!beyond || !a || !b) return null;
    const end = endBefore(a, b, beyond.handle);
    return end ? endWords(pageShop(b.build, unit), b.axle, end) : 'Its links do not reach there';
  }, [beyond, a, b, unit]);
  if (words === null) return null;
  return (
    <p className="here-beyond" role="status">
      <b>Only A goes here.</b> B: {words.charAt(0).toLowerCase() + words.slice(1)}.
    </p>
  );
}

function Value() {
  return (
    <>
      <span className="whole" />
      <span className="frac-space"> </span>
      <span className="frac" />
      <span className="after" />
    </>
  );
}

type Item = Pick<HereItem, 'id' | 'unit'>;

function writeValue(cell: Cell | undefined, value: number | null, item: Item, shop: Words): void {
  if (value === null) put(cell, NONE);
  else {
    const { whole, fraction, after } = valueWords(shop, item.id, value, item.unit);
    put(cell, whole, fraction, withoutLength(after, shop));
  }
}

/** The difference with its sign: a direction word of the values would be no direction of theirs. */
function writeLess(
  cell: Cell | undefined,
  a: number | null,
  b: number | null,
  { unit }: Item,
  shop: Words,
): void {
  if (a === null || b === null) {
    put(cell, NONE);
    return;
  }
  const { whole, fraction, after } = valueWords(shop, '', Math.abs(b - a), unit);
  const isSame = Number.parseFloat(whole || '1') === 0 && fraction === '';
  const sign = b < a ? '−' : '+';
  cell?.box.classList.toggle('is-same', isSame);
  if (isSame) put(cell, 'same');
  else put(cell, `${sign}${whole}`, fraction, withoutLength(after, shop));
}

/** The head names the unit of lengths once. */
const withoutLength = (after: string, { unit }: Words): string =>
  after === unit ? '' : after.startsWith(`${unit} `) ? after.slice(unit.length + 1) : after;

interface Cell {
  box: HTMLElement;
  parts: readonly HTMLElement[];
}

const cellOf = (box: HTMLElement): Cell => ({
  box,
  parts: ['.whole', '.frac', '.after'].flatMap(each => box.querySelector<HTMLElement>(each) ?? []),
});

function put(cell: Cell | undefined, ...texts: readonly string[]): void {
  if (!cell) return;
  for (const [i, part] of cell.parts.entries()) {
    const text = texts[i] ?? '';
    if (part.textContent !== text) part.textContent = text;
  }
}
