/**
 * Work in pieces: generators that yield between two of them, so that whoever runs them lets go of the thread when its
 * time is up, and can let go of the work altogether.
 */
import { transfer } from 'comlink';
import { Finder } from '../../geometry/cycle/extremes.ts';
import { WALKS, walkPoses } from '../../geometry/cycle/walk.ts';
import type { AxleWalk, Cycled } from '../../geometry/cycle/walkReport.ts';
import { measures } from '../../geometry/measure/list.ts';

/** Longest piece of work before others get their turn, ms. */
export const PIECE_ms = 12;

/** Lets messages in, for so long, ms. */
export const turn = (rest = 0): Promise<void> => new Promise(resolve => setTimeout(resolve, rest));

/**
 * Does work in pieces: tells what it yields and lets go of the thread in between, for as long as it is still wanted.
 *
 * @param goesOn asked after each turn of the others
 */
export async function inPieces<Told>(
  steps: Generator<Told | null>,
  goesOn: () => boolean,
  tell: (told: Told) => void,
): Promise<void> {
  let since = performance.now();
  for (;;) {
    const { done, value } = steps.next();
    if (done) return;
    if (value !== null) tell(value);
    else if (performance.now() - since < PIECE_ms) continue;
    await turn();
    if (!goesOn()) return;
    since = performance.now();
  }
}

/** Steps that say nothing on the way. */
export function* quietly<Answer>(steps: Generator<unknown, Answer>): Generator<null, Answer> {
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value as Answer;
    yield null;
  }
}

/** The axle walked, extremes one measure at a time; yields how many measures are done. */
export function* walkSteps(cycled: Cycled): Generator<number, AxleWalk> {
  const { axle, build, range, reach, grid } = cycled;
  const finder = range.holdsRide ? new Finder(range, reach, grid) : null;
  const extremes: AxleWalk['extremes'] = [];
  for (const [done, measure] of measures.entries()) {
    for (const target of measure.targets(axle, build)) {
      if (finder) extremes.push(finder.extremes(measure, target));
      yield done;
    }
  }
  const names = WALKS.filter(name => name !== 'lock-to-lock' || axle.steered);
  const walks = names.map(name => ({ name, poses: walkPoses(name, range, reach) }));
  return { ...cycled, finder, extremes, walks };
}

/** Hands flat arrays over instead of copying them. */
export function light<Message>(message: Message): Message {
  const buffers = new Set<Transferable>();
  const visit = (value: unknown): void => {
    if (ArrayBuffer.isView(value)) buffers.add(value.buffer as ArrayBuffer);
    else if (typeof value === 'object' && value !== null && !Array.isArray(value)) {
      for (const each of Object.values(value)) visit(each);
    }
  };
  visit(message);
  return buffers.size > 0 ? (transfer(message as object, [...buffers]) as Message) : message;
}
