/** A new part, by what it is and what it is called; it stands where one like it could, all of it assumed. */
import { useState } from 'react';
import type { Axle } from '../../../../geometry/build/build.ts';
import {
  isSingle,
  isSteeringLayout,
  type NewPart,
  newPartsFor,
  type Offered,
  pathOfNew,
  type RamEnds,
  ramTargets,
} from '../../../../geometry/build/newParts.ts';
import type { Hanging } from '../../../../geometry/build/takeOut.ts';
import { seat } from '../../../../geometry/finding/words.ts';
import type { Refused } from '../../edit/edit.ts';
import { addPart, displacedBy } from '../../edit/editParts.ts';
import { pickMeshes } from '../../files/pickFiles.ts';
import { useShop } from '../../state/shop.ts';
import { pageShop } from '../../words/shopWords.ts';
import { AddForm, GroupedSelect } from './AddForm.tsx';
import { HangingList } from './HangingList.tsx';

interface AddPartProps {
  /** It stands now. @param address of the thing that it is */
  onAdded(address: string): void;
}

export function AddPart({ onAdded }: AddPartProps) {
  const axle = useShop(shop => shop.rig?.axle ?? null);
  const [isOpen, setOpen] = useState(false);
  if (!axle) return null;
  return isOpen ? (
    <Form axle={axle} onAdded={onAdded} close={() => setOpen(false)} />
  ) : (
    <div className="add-parts">
      <button type="button" className="quiet" onClick={() => setOpen(true)}>
        Add a part …
      </button>
      <button type="button" className="quiet" onClick={pickMeshes}>
        Add a mesh …
      </button>
    </div>
  );
}

const NAMED = {
  label: 'What it is called',
  placeholder: 'What it is called',
  such: 'battery tray',
} as const;

function Form({ axle, onAdded, close }: AddPartProps & { axle: Axle; close(): void }) {
  const offered = newPartsFor(axle);
  const [id, setId] = useState<string>('box');
  const [ends, setEnds] = useState<RamEnds>({
    body: 'axle',
    rod: ramTargets(axle)[0] ?? 'tie rod',
  });
  // what other steering has no place for, once it is known
  const [goes, setGoes] = useState<readonly Hanging[]>([]);
  const chosen = offered.find(each => each.id === id) ?? offered[0];
  if (!chosen) return null;
  const add = async (name: string): Promise<Refused | undefined> => {
    const part = partOf(chosen.id, name, ends);
    if (part.kind === 'steering' && goes.length === 0) {
      const found = await displacedBy(part);
      if (!Array.isArray(found)) return found;
      setGoes(found);
      if (found.length > 0) return undefined;
    }
    const refused = await addPart(part, chosen.isNamed ? name : chosen.label);
    if (refused === null) onAdded(pathOfNew(part, axle));
    return refused;
  };
  return (
    <AddForm
      label="Add a part"
      named={chosen.isNamed ? NAMED : null}
      add={add}
      close={close}
      button={goes.length > 0 ? 'Add it, and let these go' : 'Add it'}
    >
      <GroupedSelect
        label="What it is"
        items={offered}
        words={each => [each.id, each.group, each.label]}
        value={chosen.id}
        choose={to => {
          setId(to);
          setGoes([]);
        }}
      />
      {chosen.id === 'ram' && <RamFields axle={axle} ends={ends} change={setEnds} />}
      {isSteeringLayout(chosen.id) && axle.steering && (
        <p className="note">It takes the place of all that steers now, rams too.</p>
      )}
      {goes.length > 0 && (
        <div role="alert">
          <p className="strong">This has no place with it, and goes:</p>
          <HangingList hanging={goes} />
        </div>
      )}
    </AddForm>
  );
}

function partOf(id: Offered['id'], name: string, ends: RamEnds): NewPart {
  if (isSteeringLayout(id)) return { kind: 'steering', layout: id };
  if (isSingle(id)) return { kind: id };
  return id === 'ram' ? { kind: id, name, ends } : { kind: id, name };
}

interface RamFieldsProps {
  axle: Axle;
  ends: RamEnds;
  change(ends: RamEnds): void;
}

const BODY: Record<RamEnds['body'], string> = {
  axle: 'Body on the axle',
  chassis: 'Body on the frame',
};

/** What carries the ram, and what it pushes. */
function RamFields({ axle, ends, change }: RamFieldsProps) {
  const build = useShop(shop => shop.rig?.build ?? null);
  const unit = useShop(shop => shop.look.unit);
  if (!build) return null;
  const shop = pageShop(build, unit);
  const pushes = (rod: RamEnds['rod']): string => {
    const side = /^(left|right) knuckle$/.exec(rod)?.[1] as 'left' | 'right' | undefined;
    return side ? `${seat(shop, side)} knuckle` : rod;
  };
  return (
    <>
      <select
        className="field"
        aria-label="What carries the ram"
        value={ends.body}
        onChange={event => change({ ...ends, body: event.target.value as RamEnds['body'] })}
      >
        {Object.entries(BODY).map(([body, words]) => (
          <option key={body} value={body}>
            {words}
          </option>
        ))}
      </select>
      <select
        className="field"
        aria-label="What the ram pushes"
        value={ends.rod}
        onChange={event => change({ ...ends, rod: event.target.value as RamEnds['rod'] })}
      >
        {ramTargets(axle).map(rod => (
          <option key={rod} value={rod}>
            Rod on the {pushes(rod)}
          </option>
        ))}
      </select>
    </>
  );
}
