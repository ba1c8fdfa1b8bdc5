/** Parts by groups, and beside them everything that was entered of the chosen one. */
import { useEffect, useMemo, useState } from 'react';
import { useApart } from '../../edit/base.ts';
import { act } from '../../state/action.ts';
import { setLook } from '../../state/look.ts';
import { useShop } from '../../state/shop.ts';
import { Chip } from '../EntryRow.tsx';
import { AddPart } from './AddPart.tsx';
import { ThingSheet } from './ThingSheet.tsx';
import { type Thing, thingAt, thingsOf } from './things.ts';
import { useThings } from './useThings.ts';

export function PartBench() {
  const part = useShop(shop => shop.look.part);
  const hidden = useShop(shop => shop.look.hidden);
  const ghosted = useShop(shop => shop.look.ghosted);
  const [search, setSearch] = useState('');
  const [address, setAddress] = useState<string | null>(null);
  const [isOpen, setOpen] = useState(false);
  const things = useThings();
  // what is chosen in the view is chosen here
  useEffect(() => {
    const of = things.find(({ parts }) => parts.some(({ name }) => name === part));
    if (!of) return;
    setAddress(of.address);
    setOpen(true);
  }, [part, things]);

  const entries = useMemo(
    () => things.flatMap(each => each.entries.map(({ entry }) => entry)),
    [things],
  );
  const apart = new Set(useApart(entries));
  const chosen = thingAt(things, address) ?? things[0];
  const groups = useMemo(() => {
    const words = search.toLowerCase().split(/\s+/);
    const found = new Map<string, Thing[]>();
    for (const thing of things) {
      const within = `${thing.group} ${thing.name} ${thing.parts.map(({ name }) => name).join(' ')}`;
      if (!words.every(word => within.toLowerCase().includes(word))) continue;
      found.set(thing.group, [...(found.get(thing.group) ?? []), thing]);
    }
    return [...found];
  }, [things, search]);

  const choose = (thing: Thing): void => {
    setAddress(thing.address);
    setOpen(true);
    act(setLook, { part: thing.parts[0]?.name ?? null });
  };
  // some parts have no body that could be chosen in the view
  const added = (made: string): void => {
    setAddress(made);
    setOpen(true);
    const { rig: now } = useShop.getState();
    const all = now ? thingsOf(now.build, now.axle.name, now.parts) : [];
    act(setLook, { part: all.find(each => each.address === made)?.parts[0]?.name ?? null });
  };
  return (
    <div className={isOpen ? 'bench open' : 'bench'}>
      <nav className="bench-list" aria-label="Parts">
        <input
          className="field"
          type="search"
          placeholder="Search parts"
          aria-label="Search parts"
          value={search}
          onChange={event => setSearch(event.target.value)}
        />
        <AddPart onAdded={added} />
        {groups.map(([group, list]) => (
          <section key={group}>
            <h3 className="menu-label">{group}</h3>
            <ul>
              {list.map(thing => {
                const isHidden =
                  thing.parts.length > 0 && thing.parts.every(each => hidden.has(each.name));
                const isGhost = thing.parts.some(each => ghosted.has(each.name));
                return (
                  <li key={thing.address}>
                    <button
                      type="button"
                      className="bench-item"
                      aria-current={thing === chosen ? 'true' : undefined}
                      onClick={() => choose(thing)}
                    >
                      <span>{thing.name}</span>
                      {isHidden && <small className="bench-mark">hidden</small>}
                      {isGhost && !isHidden && <small className="bench-mark">ghost</small>}
                      {thing.entries.some(({ entry }) => apart.has(entry)) && (
                        <small className="bench-mark apart">differs</small>
                      )}
                      {thing.entries.some(({ entry }) => entry.from === 'assumed') && (
                        <Chip assumed text="assumed" />
                      )}
                    </button>
                  </li>
                );
              })}
            </ul>
          </section>
        ))}
        {groups.length === 0 && <p className="menu-label">No part of that name.</p>}
      </nav>
      <div className="bench-sheet" key={chosen?.address}>
        <button type="button" className="quiet bench-back" onClick={() => setOpen(false)}>
          All parts
        </button>
        {chosen && <ThingSheet thing={chosen} />}
      </div>
    </div>
  );
}
