/**
 * Moves hardpoints while a hand holds them: each move shifts their entries, settles the axle anew and shows it, all
 * within a frame. Letting go writes the new tape readings as one step, Escape puts everything back.
 */
import { keepAlike } from '../../../geometry/alike.ts';
import type { Build } from '../../../geometry/build/build.ts';
import { type Grip, gripsOf } from '../../../geometry/build/grips.ts';
import type { Shift, Shifts } from '../../../geometry/build/shift.ts';
import type { OpenedBuild } from '../../../geometry/cycle/open.ts';
import { axleOf, type OpenedAxle, openAxle } from '../../../geometry/cycle/openAxle.ts';
import { sentence } from '../../../geometry/finding/words.ts';
import type { V3 } from '../../../geometry/vector.ts';
import { type Reader, theReader } from '../files/reader.ts';
import { act } from '../state/action.ts';
import { type Shop, useShop } from '../state/shop.ts';
import { dropTrial, startTrial, tryMove } from '../state/trial.ts';
import { pathWords } from '../words/pathWords.ts';
import { keepTrial } from './edit.ts';
import { SNAP_in, useMover } from './mover.ts';

interface Ready {
  shifts: Shifts;
  /** Entries as they would be typed once they are moved. */
  entries: Reader['movedEntries'];
}

let ready: { of: OpenedBuild; with: Ready } | null = null;

/** Gets ready what moves points of the build that is open. */
export async function readyToMove(): Promise<void> {
  const reader = await theReader();
  const { opened } = useShop.getState();
  if (!opened || ready?.of === opened) return;
  const shifts = reader.shifts(opened.file, opened.build.variant);
  ready = { of: opened, with: { shifts, entries: reader.movedEntries } };
}

/** A point's field in words: 'frame end', 'bend 2'; '' where the part has no other. */
export const pointWords = (path: string): string =>
  pathWords(`${path}[0]`).field.replace(/,? ?fore and aft$/, '');

/** 'Lower link, frame end'. */
export function gripWords({ path }: Grip): string {
  const words = pointWords(path);
  const { name } = pathWords(path);
  return words === '' ? name : `${name}, ${words}`;
}

/** The chosen point first, then those that go with it. */
export function heldGrips({ opened, axleName }: Shop): Grip[] {
  const axle = opened && axleOf(opened, axleName);
  const { point, together } = useMover.getState();
  if (!axle || point === null) return [];
  const all = gripsOf(opened.build, axle.axle);
  const held = all.find(({ path }) => path === point);
  return held ? [held, ...all.filter(({ path }) => path !== point && together.has(path))] : [];
}

/** Takes hold of the chosen point; false where there is none, or what moves it is not ready yet. */
export function takeHold(): boolean {
  const shop = useShop.getState();
  const [grip, ...more] = heldGrips(shop);
  if (!grip || !shop.opened) return false;
  if (ready?.of !== shop.opened) {
    void readyToMove();
    return false;
  }
  if (shop.trial) return true;
  act(startTrial, gripWords(grip) + (more.length > 0 ? ` and ${more.length} more` : ''));
  return true;
}

/** An amount brought to whole marks. */
export const snapped = (by: number, mark: number): number => Math.round(by / mark) * mark;

/** Moves what is held to so far from where it was, in, brought to whole marks. */
export function moveHeld(to: V3): void {
  const { trial, opened } = useShop.getState();
  if (!trial || !opened || ready?.of !== opened) return;
  const mark = SNAP_in[useMover.getState().snap];
  const by: V3 = [snapped(to[0], mark), snapped(to[1], mark), snapped(to[2], mark)];
  if (by.every((each, i) => each === trial.by[i])) return;
  const moves = movesOf(heldGrips(useShop.getState()), by);
  act(tryMove, { by, moves, axle: tried(moves, ready.with) });
}

/** The entries that move: each once, however many points it stands in. */
function movesOf(grips: readonly Grip[], by: V3): Shift[] {
  const moves = new Map<string, number>();
  for (const { entries } of grips) {
    for (const [i, { path }] of entries.entries()) if (by[i] !== 0) moves.set(path, by[i as 0]);
  }
  return [...moves].map(([path, amount]) => ({ path, by: amount }));
}

/** The axle with some entries moved, and the entries as they would be typed; or why there is none. */
function tried(moves: readonly Shift[], { shifts, entries: typed }: Ready): OpenedAxle | string {
  const { opened, trial, rig, axleName } = useShop.getState();
  if (!opened || !trial || !rig) return 'no build is open';
  if (moves.length === 0) return trial.rig;
  const build = shifts.together(moves);
  if (!build) return 'No part can be made so.';
  const entries = typed(opened.build, moves);
  // parts, drawings and gaps of what the move leaves as it was are known already
  return asTried(keepAlike(rig.build, { ...build, entries }), axleName);
}

function asTried(build: Build, name: Shop['axleName']): OpenedAxle | string {
  const axle = build.axles.find(each => each.name === name);
  const opened = axle && openAxle(build, axle);
  if (!opened) return 'There is no such axle.';
  return opened.ok ? opened.axle : sentence(opened.problems[0]?.message ?? 'it cannot stand so');
}

/** Lets go: what was moved becomes a step of the build. */
export const letGo = (): void => void keepTrial();

/** Puts back what is held. */
export function putBack(): void {
  clearTimeout(rest);
  act(dropTrial);
}

let rest: ReturnType<typeof setTimeout> | undefined;
/** Presses that follow each other sooner than this are one step, ms. */
const REST_ms = 900;

/** Moves the chosen point by some marks along one of its axes, by a key or a button; no press is lost. */
export async function nudge(axis: 0 | 1 | 2, marks: number): Promise<void> {
  if (!takeHold()) {
    await readyToMove();
    if (!takeHold()) return;
  }
  const { trial } = useShop.getState();
  if (!trial) return;
  const by: [number, number, number] = [...trial.by];
  by[axis] += marks * SNAP_in[useMover.getState().snap];
  moveHeld(by);
  clearTimeout(rest);
  rest = setTimeout(letGo, REST_ms);
}

/** Keeps what was nudged without waiting any longer. */
export function keepNudged(): void {
  clearTimeout(rest);
  if (useShop.getState().trial) letGo();
}
