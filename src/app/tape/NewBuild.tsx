/** Which layout is closest to yours, picked from pictures; a build of it is on the stands at once. */
import { useEffect, useState } from 'react';
import type { Axle, AxleName } from '../../../geometry/build/build.ts';
import type { Start } from '../../../geometry/build/start/answers.ts';
import {
  type AxleChoice,
  axleChoice,
  linkLayouts,
  type StartLayout,
  steeringLayouts,
  strapLayouts,
} from '../../../geometry/build/start/layouts.ts';
import { sentence } from '../../../geometry/finding/words.ts';
import { type About, layoutPicture } from '../../charts/layoutPicture.ts';
import { Over } from '../frame/Over.tsx';
import { act } from '../state/action.ts';
import { setLook, showDialog } from '../state/look.ts';
import { useShop } from '../state/shop.ts';
import './NewBuild.css';
import { Picture } from './Picture.tsx';
import { type Starter, theStarter } from './starter.ts';
import { startOf } from './startOf.ts';
import { beginBuild, changeStart } from './takeStart.ts';
import { inUnit, useTape } from './tapeState.ts';

const WHICH = { front: 'Front', rear: 'Rear', both: 'Front and rear' } as const;
type Which = keyof typeof WHICH;

export default function NewBuild() {
  const begun = useShop(startOf);
  const page = useShop(shop => shop.look.unit);
  const [from] = useState(() => (useTape.getState().isChange ? begun : null));
  const [start, setStart] = useState<Start>(() => from ?? fresh(page));
  const [starter, setStarter] = useState<Starter | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  useEffect(() => {
    theStarter().then(setStarter, () => {
      setProblem('Part of the page did not come through. Check the connection and try again.');
    });
  }, []);

  const { axles, driverSide } = start.layout;
  const which: Which = axles.length > 1 ? 'both' : (axles[0]?.name ?? 'front');
  const setLayout = (layout: StartLayout): void => setStart({ ...start, layout });
  const setAxle = (axle: AxleChoice): void =>
    setLayout({ driverSide, axles: axles.map(each => (each.name === axle.name ? axle : each)) });
  const begin = async (): Promise<void> => {
    const named = { ...start, name: start.name.trim() || 'new build' };
    const refused = from
      ? await changeStart('Another layout', now => ({
          ...inUnit(now, named.unit),
          name: named.name,
          layout: named.layout,
        }))
      : await beginBuild(named);
    if (refused !== null) {
      setProblem(refused);
      return;
    }
    useTape.setState({ view: 'walk', ...(from ? {} : { at: null }) });
    act(showDialog, null);
    act(setLook, { sheet: 'tape', phoneTab: 'tape', isGreeted: true });
  };

  return (
    <Over title="What are you building under it?" isWide>
      <p className="new-lead">
        Pick the layout closest to yours. About a dozen tape measurements, and you can walk it. Seen
        from above, front up.
      </p>
      <div className="new-vehicle">
        <Choice
          legend="Axle"
          options={WHICH}
          value={which}
          onChoose={next => setLayout({ driverSide, axles: axlesFor(next, axles, driverSide) })}
        />
        <Choice
          legend="Driver sits"
          options={{ left: 'Left', right: 'Right' }}
          value={driverSide}
          onChoose={side =>
            setLayout({
              driverSide: side,
              axles: axles.map(axle =>
                axle.differential === null ? axle : { ...axle, differential: side },
              ),
            })
          }
        />
        <Choice
          legend="Your tape"
          options={{ in: 'Inches', mm: 'Millimeters' }}
          value={start.unit}
          onChoose={unit => setStart({ ...start, unit })}
        />
        <label className="new-name">
          <span>Called</span>
          <input
            className="field"
            value={start.name}
            maxLength={80}
            placeholder="new build"
            autoComplete="off"
            onChange={event => setStart({ ...start, name: event.target.value })}
          />
        </label>
      </div>
      {axles.map(axle => (
        <section key={axle.name} className="new-axle" aria-label={`${axle.name} axle`}>
          <Cards
            legend={`What holds the ${axle.name} axle`}
            name={`${axle.name}-links`}
            options={linkLayouts}
            value={axle.links}
            onChoose={links => setAxle({ ...axle, links })}
            picture={links => pictureOf(starter, { ...axle, links }, driverSide, 'links')}
          />
          {axle.steering !== null && (
            <Cards
              legend="What steers it"
              name={`${axle.name}-steering`}
              options={steeringLayouts}
              value={axle.steering}
              onChoose={steering => setAxle({ ...axle, steering })}
              picture={steering =>
                pictureOf(starter, { ...axle, steering }, driverSide, 'steering')
              }
            />
          )}
          <div className="new-more">
            <label>
              <span>In droop</span>
              <select
                className="field"
                value={axle.straps}
                onChange={event => {
                  const straps = strapLayouts.find(({ id }) => id === event.target.value);
                  if (straps) setAxle({ ...axle, straps: straps.id });
                }}
              >
                {strapLayouts.map(({ id, label }) => (
                  <option key={id} value={id}>
                    {sentence(label)}
                  </option>
                ))}
              </select>
            </label>
            <label>
              <span>Differential</span>
              <select
                className="field"
                value={axle.differential ?? 'middle'}
                onChange={event => {
                  const { value } = event.target;
                  const differential = value === 'left' || value === 'right' ? value : null;
                  setAxle({ ...axle, differential });
                }}
              >
                <option value="left">On the left</option>
                <option value="middle">In the middle</option>
                <option value="right">On the right</option>
              </select>
            </label>
            {axle.steering !== null && axle.steering !== 'doubleRam' && (
              <label className="new-ram">
                <input
                  type="checkbox"
                  checked={axle.assistRam}
                  onChange={event => setAxle({ ...axle, assistRam: event.target.checked })}
                />
                A ram on the axle assists
              </label>
            )}
          </div>
        </section>
      ))}
      <div className="new-foot">
        {problem !== null && (
          <p className="entry-wrong" role="alert">
            {problem}
          </p>
        )}
        <p className="note">
          {from
            ? 'What was taped stays, and what was changed by hand.'
            : 'What you have open stays one step back.'}
        </p>
        <button type="button" className="button primary" onClick={() => void begin()}>
          {from ? 'Use this layout' : 'Start with the tape'}
        </button>
      </div>
    </Over>
  );
}

const fresh = (unit: Start['unit']): Start => ({
  name: '',
  unit,
  layout: { axles: [axleChoice('front')], driverSide: 'left' },
  answers: {},
});

function axlesFor(
  which: Which,
  now: readonly AxleChoice[],
  driverSide: StartLayout['driverSide'],
): AxleChoice[] {
  const names: AxleName[] = which === 'both' ? ['front', 'rear'] : [which];
  return names.map(
    name => now.find(each => each.name === name) ?? axleChoice(name, {}, driverSide),
  );
}

/** Pictures that were drawn; a layout's does not change. */
const drawn = new Map<string, ReturnType<typeof layoutPicture> | null>();

function pictureOf(
  starter: Starter | null,
  choice: AxleChoice,
  driverSide: StartLayout['driverSide'],
  about: About,
): ReturnType<typeof layoutPicture> | null {
  if (!starter) return null;
  const key = JSON.stringify([choice, driverSide, about]);
  const known = drawn.get(key);
  if (known !== undefined) return known;
  const [axle]: readonly Axle[] = starter.bareAxles({ axles: [choice], driverSide });
  const picture = axle ? layoutPicture(axle, about) : null;
  drawn.set(key, picture);
  return picture;
}

interface CardsProps<Id extends string> {
  legend: string;
  name: string;
  options: readonly { readonly id: Id; readonly label: string; readonly text: string }[];
  value: Id;
  onChoose: (id: Id) => void;
  picture: (id: Id) => ReturnType<typeof layoutPicture> | null;
}

/** One of a few pictures; arrow keys go from one to the next. */
function Cards<Id extends string>(props: CardsProps<Id>) {
  const { legend, name, options, value, onChoose, picture } = props;
  const chosen = options.find(({ id }) => id === value);
  return (
    <fieldset className="cards">
      <legend>{legend}</legend>
      <div className="cards-row">
        {options.map(({ id, label }) => {
          const shown = picture(id);
          return (
            <label key={id} className="card">
              <input
                type="radio"
                className="visually-hidden"
                name={name}
                value={id}
                checked={id === value}
                onChange={() => onChoose(id)}
              />
              <span className="card-picture">{shown && <Picture {...shown} />}</span>
              <span className="card-label">{sentence(label)}</span>
            </label>
          );
        })}
      </div>
      {chosen && <p className="note">{chosen.text}</p>}
    </fieldset>
  );
}

interface ChoiceProps<Id extends string> {
  legend: string;
  options: Readonly<Record<Id, string>>;
  value: Id;
  onChoose: (id: Id) => void;
}

function Choice<Id extends string>({ legend, options, value, onChoose }: ChoiceProps<Id>) {
  return (
    <fieldset className="new-choice">
      <legend>{legend}</legend>
      <div className="choice">
        {(Object.entries(options) as [Id, string][]).map(([id, label]) => (
          <button key={id} type="button" aria-pressed={id === value} onClick={() => onChoose(id)}>
            {label}
          </button>
        ))}
      </div>
    </fieldset>
  );
}
