/** A new part, by what it is and what it is called; it stands where one like it could, all of it assumed. */
import { type FormEvent, useState } from 'react';
import { NEW_PARTS, type NewPart } from '../../../../geometry/build/newParts.ts';
import { addPart } from '../../edit/editParts.ts';
import { act } from '../../state/action.ts';
import { setLook } from '../../state/look.ts';
import { useShop } from '../../state/shop.ts';

export function AddPart() {
  const [isOpen, setOpen] = useState(false);
  const [kind, setKind] = useState<NewPart>('box');
  const [name, setName] = useState('');
  const [problem, setProblem] = useState<string | null>(null);
  if (!isOpen) {
    return (
      <button type="button" className="quiet add-part" onClick={() => setOpen(true)}>
        Add a part …
      </button>
    );
  }
  const add = (event: FormEvent): void => {
    event.preventDefault();
    const called = name.trim();
    if (called === '') {
      setProblem('Write what it is called, such as battery tray');
      return;
    }
    void addPart(kind, called).then(refused => {
      setProblem(refused);
      if (refused !== null) return;
      setOpen(false);
      setName('');
      const { rig } = useShop.getState();
      const made = rig?.parts.find(part => part.name === called || part.name === `left ${called}`);
      act(setLook, { part: made?.name ?? null });
    });
  };
  return (
    <form className="add-part" onSubmit={add}>
      <select
        className="field"
        aria-label="What it is"
        value={kind}
        onChange={event => setKind(event.target.value as NewPart)}
      >
        {Object.entries(NEW_PARTS).map(([each, words]) => (
          <option key={each} value={each}>
            {words}
          </option>
        ))}
      </select>
      <input
        className="field"
        aria-label="What it is called"
        placeholder="What it is called"
        value={name}
        autoComplete="off"
        onChange={event => setName(event.target.value)}
      />
      <button type="submit" className="button">
        Add it
      </button>
      <button type="button" className="quiet" onClick={() => setOpen(false)}>
        Not now
      </button>
      {problem !== null && (
        <p className="wish-problem" role="alert">
          {problem}.
        </p>
      )}
    </form>
  );
}
