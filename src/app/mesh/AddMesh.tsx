/** A scan or an export from drawing software becomes a part: its name, what it rides on, its unit, where it lies. */
import { type FormEvent, useEffect, useMemo, useState } from 'react';
import { attitudeOf, type MeshUnit } from '../../../geometry/build/meshPart.ts';
import { sentence } from '../../../geometry/finding/words.ts';
import { INCHES_OF_UNIT } from '../../../geometry/solid/triangles.ts';
import { Over } from '../frame/Over.tsx';
import { act } from '../state/action.ts';
import { setLook } from '../state/look.ts';
import type { Rig } from '../state/rig.ts';
import { useShop } from '../state/shop.ts';
import { Length } from '../words/Amount.tsx';
import './AddMesh.css';
import { addMesh } from './addMesh.ts';
import { ByOrigin, type Origin } from './ByOrigin.tsx';
import { ByPoints, NO_POINTS, type Points, placeOf } from './ByPoints.tsx';
import { type Looked, lookAt, nameOf } from './lookAt.ts';
import { meshBodies } from './meshBodies.ts';
import { nextMesh, type OfferedMesh, useOffered } from './offered.ts';

export default function AddMesh() {
  const [first, second] = useOffered(({ queue }) => queue);
  const rig = useShop(shop => shop.rig);
  if (!first || !rig) return null;
  return (
    <Over title="Add a mesh">
      <Asked key={first.name} rig={rig} offered={first} isLast={second === undefined} />
    </Over>
  );
}

interface AskedProps {
  rig: Rig;
  offered: OfferedMesh;
  isLast: boolean;
}

/** The file, read; a bad one says what is wrong with it and can't be added. */
function Asked({ rig, offered, isLast }: AskedProps) {
  const [looked, setLooked] = useState<Looked | { problem: string } | null>(null);
  useEffect(() => {
    // a large one takes a moment: the question stands before it is read
    const timer = setTimeout(() => setLooked(lookAt(offered.name, offered.bytes)), 30);
    return () => clearTimeout(timer);
  }, [offered]);
  if (looked === null) return <p className="note">Reading {offered.name}.</p>;
  if (!('problem' in looked)) return <Form rig={rig} offered={offered} looked={looked} />;
  return (
    <>
      <p className="mesh-problem" role="alert">
        {looked.problem}.
      </p>
      <button type="button" className="button" onClick={nextMesh}>
        {isLast ? 'Put away' : 'Next file'}
      </button>
    </>
  );
}

const UNITS: Record<MeshUnit, string> = {
  mm: 'Millimeters',
  cm: 'Centimeters',
  m: 'Meters',
  in: 'Inches',
  ft: 'Feet',
};

type Way = 'origin' | 'points';
const WAYS: Record<Way, string> = { origin: 'By its origin', points: 'By three points' };

interface FormProps {
  rig: Rig;
  offered: OfferedMesh;
  looked: Looked;
}

function Form({ rig, offered, looked }: FormProps) {
  const shownUnit = useShop(shop => shop.look.unit);
  const bodies = useMemo(() => meshBodies(rig), [rig]);
  const [name, setName] = useState(() => nameOf(offered.name));
  const [body, setBody] = useState('chassis');
  const [unit, setUnit] = useState<MeshUnit>(looked.unit);
  const [way, setWay] = useState<Way>('origin');
  const [origin, setOrigin] = useState<Origin>({
    at: ['', '', ''],
    forward: looked.forward,
    up: looked.up,
  });
  const [points, setPoints] = useState<Points>(NO_POINTS);
  const [isNew, setNew] = useState(false);
  const [mayBeCut, setCut] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);

  const submit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const called = name.trim();
    if (called === '') {
      setProblem('Write what it is called, such as engine scan');
      return;
    }
    const place = way === 'points' ? await placeOf(points, unit, rig.build.unit) : ofOrigin(origin);
    if ('problem' in place) {
      setProblem(place.problem);
      return;
    }
    const axle = bodies.find(({ on }) => on === body)?.axle ?? null;
    const refused = await addMesh(
      { name: called, on: body, axle, unit, place, isNew, mayBeCut },
      offered,
    );
    setProblem(refused);
    if (refused !== null) return;
    act(setLook, { sheet: 'parts', phoneTab: 'parts', part: called });
    nextMesh();
  };

  return (
    <form className="mesh-form" onSubmit={event => void submit(event)}>
      <p>
        <span className="strong">{offered.name}</span>: {looked.triangles.toLocaleString('en-US')}{' '}
        triangles, {bytesWords(offered.bytes.length)}. The file stays beside the build: keep both in
        one folder.
      </p>
      {looked.notes.map(note => (
        <p key={note} className="note">
          {sentence(note)}.
        </p>
      ))}
      <div className="mesh-fields">
        <label>
          <span className="mesh-label">What it is called</span>
          <input
            className="field"
            value={name}
            autoComplete="off"
            onChange={event => setName(event.target.value)}
          />
        </label>
        <label>
          <span className="mesh-label">Rides on</span>
          <select className="field" value={body} onChange={event => setBody(event.target.value)}>
            {bodies.map(({ on, words }) => (
              <option key={on} value={on}>
                {words}
              </option>
            ))}
          </select>
        </label>
        <label>
          <span className="mesh-label">Unit of the file</span>
          <select
            className="field"
            value={unit}
            onChange={event => setUnit(event.target.value as MeshUnit)}
          >
            {Object.entries(UNITS).map(([each, words]) => (
              <option key={each} value={each}>
                {words}
              </option>
            ))}
          </select>
        </label>
        <p className="mesh-size">
          <span className="mesh-label">So it is as large as</span>
          <b>
            {looked.size.map((each, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: the axes of the file have no other name
              <span key={i}>
                {i > 0 && ' × '}
                <Length
                  inches={each * INCHES_OF_UNIT[unit]}
                  unit={shownUnit}
                  mark={i < 2 ? 'none' : undefined}
                />
              </span>
            ))}
          </b>
        </p>
      </div>
      <div className="mesh-way">
        <span className="mesh-label">Where it lies</span>
        <fieldset className="choice" aria-label="Where it lies">
          {(Object.keys(WAYS) as Way[]).map(each => (
            <button
              key={each}
              type="button"
              aria-pressed={way === each}
              onClick={() => setWay(each)}
            >
              {WAYS[each]}
            </button>
          ))}
        </fieldset>
      </div>
      {way === 'origin' ? (
        <ByOrigin origin={origin} unit={rig.build.unit} change={setOrigin} />
      ) : (
        <ByPoints points={points} unit={rig.build.unit} change={setPoints} />
      )}
      <label className="mesh-check">
        <input type="checkbox" checked={isNew} onChange={event => setNew(event.target.checked)} />
        <span>
          New part <small>it is compared with the parts of its own body too</small>
        </span>
      </label>
      <label className="mesh-check">
        <input
          type="checkbox"
          checked={mayBeCut}
          onChange={event => setCut(event.target.checked)}
        />
        <span>
          May be cut <small>or bent away, where something hits it</small>
        </span>
      </label>
      {problem !== null && (
        <p className="mesh-problem" role="alert">
          {problem}.
        </p>
      )}
      <div className="mesh-buttons">
        <button type="submit" className="button primary">
          Add it
        </button>
        <button type="button" className="button" onClick={nextMesh}>
          Not now
        </button>
      </div>
    </form>
  );
}

function ofOrigin({ at, forward, up }: Origin) {
  const attitude = attitudeOf(forward, up);
  if (!attitude) {
    return {
      problem: 'Forward and up lie along one line of the file: choose another for one of them',
    };
  }
  const typed = at.map(each => (each.trim() === '' ? 0 : each.trim()));
  return { at: typed as [string | number, string | number, string | number], ...attitude };
}

function bytesWords(count: number): string {
  if (count < 1024) return `${count} bytes`;
  const kib = count / 1024;
  return kib < 1024 ? `${Math.round(kib)} KiB` : `${(kib / 1024).toFixed(1)} MiB`;
}
