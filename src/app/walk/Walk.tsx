/** The strip along the bottom: Walk, which walk and how fast, and its tape. */
import { Select, SelectItem, SelectPopover, SelectProvider } from '@ariakit/react';
import { useEffect } from 'react';
import type { PathName } from '../../worker/protocol.ts';
import '../answers/controls.css';
import { Chevron } from '../frame/Chevron.tsx';
import { act } from '../state/action.ts';
import { chooseWalk, setSpeed, stepPlay, stripOf, togglePlay } from '../state/play.ts';
import { type Speed, useShop } from '../state/shop.ts';
import { followPlay, followWalk } from './followWalk.ts';
import './Walk.css';
import { WalkTape } from './WalkTape.tsx';
import { WALK_NAMES, walkLabel } from './walks.ts';

const SPEEDS: readonly Speed[] = ['slow', 'normal', 'fast'];

export function Walk() {
  const isPlaying = useShop(shop => shop.play.isPlaying);
  const isReady = useShop(shop => stripOf(shop) !== null);
  useEffect(() => followWalk(), []);
  useEffect(() => followPlay(seconds => act(stepPlay, seconds)), []);
  return (
    <section className="walk" aria-label="Walk the axle">
      <button
        type="button"
        className="walk-button"
        disabled={!isReady && !isPlaying}
        onClick={() => act(togglePlay)}
      >
        <svg viewBox="0 0 14 14" aria-hidden="true">
          {isPlaying ? <path d="M2 2h10v10H2z" /> : <path d="m2.5 1 10 6-10 6z" />}
        </svg>
        {isPlaying ? 'Stop' : 'Walk'}
      </button>
      <div className="walk-choice">
        <WhichWalk />
        <HowFast />
      </div>
      <WalkTape />
    </section>
  );
}

function WhichWalk() {
  const walk = useShop(shop => shop.play.walk);
  const axle = useShop(shop => shop.rig?.axle) ?? { steered: true };
  const names = WALK_NAMES.filter(name => axle.steered || name !== 'lock-to-lock');
  return (
    <SelectProvider
      value={walk}
      setValue={(next: PathName) => act(chooseWalk, next)}
      placement="top-start"
    >
      <Select className="walk-which" aria-label="Which walk">
        <span>{walkLabel(walk, axle)}</span>
        <Chevron />
      </Select>
      <SelectPopover className="menu" portal gutter={8} unmountOnHide>
        {names.map(name => (
          <SelectItem key={name} className="menu-item" value={name}>
            {walkLabel(name, axle)}
          </SelectItem>
        ))}
      </SelectPopover>
    </SelectProvider>
  );
}

function HowFast() {
  const speed = useShop(shop => shop.play.speed);
  return (
    <fieldset className="walk-speed" aria-label="How fast">
      {SPEEDS.map(each => (
        <button
          key={each}
          type="button"
          aria-pressed={speed === each}
          onClick={() => act(setSpeed, each)}
        >
          {each}
        </button>
      ))}
    </fieldset>
  );
}
