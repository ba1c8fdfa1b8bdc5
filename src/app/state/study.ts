/** Keeps the worker on the axle that is shown, and its answers in the state. */

import workshopAddress from 'virtual:workshop';
import { proxy, type Remote, wrap } from 'comlink';
import type { Finding } from '../../../geometry/finding/finding.ts';
import type { RangeTold, StudyEvent, StudyRequest, Workshop } from '../../worker/protocol.ts';
import { isGap } from '../words/findingWords.ts';
import { intoRange, place, type Rig } from './rig.ts';
import { type Results, type Shop, useShop } from './shop.ts';

let worker: Worker | null = null;
let workshop: Remote<Workshop> | null = null;

/** The worker, started when it is first asked for. */
export function theWorkshop(): Remote<Workshop> {
  if (workshop) return workshop;
  worker = new Worker(workshopAddress, { type: 'module' });
  worker.onerror = event => {
    event.preventDefault();
    lose(event.message || 'it could not be loaded');
  };
  worker.onmessageerror = () => lose('its answer could not be read');
  workshop = wrap<Workshop>(worker);
  return workshop;
}

/** The worker is gone: what it was at stays undone, and the next study starts another. */
function lose(message: string): void {
  worker?.terminate();
  worker = null;
  workshop = null;
  inHand = null;
  given = null;
  useShop.setState(shop => ({ results: { ...shop.results, failed: message, working: null } }));
}

/** Follows the state from now on; ends with what is returned. */
export function followStudy(): () => void {
  start(useShop.getState());
  return useShop.subscribe((shop, before) => {
    if (shop.rig !== before.rig) start(shop);
  });
}

/** Mesh files that the worker has. */
let given: ReadonlyMap<string, Uint8Array> | null = null;

/** What the worker is at. A trial is let come to its map before the next one takes its place. */
let inHand: { generation: number; isTrial: boolean; hasMap: boolean } | null = null;

/** A study waits until nobody has typed for this long, ms: the next answer would begin it anew. */
const REST_ms = 1200;

let resting: ReturnType<typeof setTimeout> | undefined;
let isDue = false;

/** Somebody types what goes into the build: it is shown at once, and studied when the typing rests. */
export function whileTyping(): void {
  clearTimeout(resting);
  resting = setTimeout(atRest, REST_ms);
}

/** Nobody types any more: what waits is studied now. */
export function atRest(): void {
  clearTimeout(resting);
  resting = undefined;
  if (!isDue) return;
  isDue = false;
  useShop.setState(({ results }) => ({
    results: { ...results, working: { what: 'range', done: 0, of: 1 } },
  }));
  start(useShop.getState());
}

function start({ rig, document, results, trial }: Shop): void {
  if (!rig || !document) return;
  const { generation } = results;
  const isTrial = trial !== null;
  if (resting !== undefined && !isTrial) {
    isDue = true;
    const working = { what: 'rest', done: 0, of: 1 } as const;
    useShop.setState(shop => ({ results: { ...shop.results, working } }));
    return;
  }
  if (isTrial && inHand?.isTrial && !inHand.hasMap) return;
  inHand = { generation, isTrial, hasMap: false };
  void study(rig, document.meshes, { generation, isTrial });
}

async function study(
  { build, axle, model: { mechanism } }: Rig,
  files: ReadonlyMap<string, Uint8Array>,
  how: Pick<StudyRequest, 'generation' | 'isTrial'>,
): Promise<void> {
  const worker = theWorkshop();
  void worker.newest(how.generation);
  const meshes = files === given ? null : files;
  given = files;
  await worker.study({ ...how, build, axle: axle.name, mechanism, meshes }, proxy(hear));
}

function hear(event: StudyEvent): void {
  const { results, trial } = useShop.getState();
  const isNewest = event.generation === results.generation;
  const isInHand = event.generation === inHand?.generation;
  // while something is dragged, what is told of a place a moment ago is the best that is known
  if (isNewest || (trial && isInHand && inHand?.isTrial))
    useShop.setState(shop => told(shop, event));
  if (!isInHand || !inHand || inHand.hasMap) return;
  if (!COMES_TO_MAP.has(event.kind)) return;
  inHand.hasMap = true;
  if (!isNewest) start(useShop.getState());
}

const COMES_TO_MAP: ReadonlySet<StudyEvent['kind']> = new Set(['glance', 'map', 'failed', 'done']);

/** The state after the worker has told something. */
export function told(shop: Shop, event: StudyEvent): Partial<Shop> {
  const heard = (change: Partial<Results>): Partial<Shop> => ({
    results: { ...shop.results, ...change },
  });
  switch (event.kind) {
    case 'range':
    case 'glance': {
      // the reach of the main thread stops where the range was found to
      const { range } = event;
      if (shop.rig) shop.rig.reach.box = range.box;
      const map = event.kind === 'glance' ? { map: event.map } : {};
      return { ...heldIn(shop, range), ...heard({ range, ...map }) };
    }
    case 'map':
      return heard({ map: event.map });
    case 'strip':
      return heard({ strip: event.strip });
    case 'progress':
      return heard({ working: { what: event.what, done: event.done, of: event.of } });
    case 'findings':
      return {
        ...heard({ findings: event.findings, gaps: event.gaps, isFinal: event.isFinal }),
        look: { ...shop.look, finding: chosenAmong(shop, event.findings) },
      };
    case 'extremes':
      return heard({ extremes: event.extremes });
    case 'failed':
      return heard({ failed: event.message, working: null });
    case 'done':
      return heard({ working: null });
  }
}

/** An axle that was left outside of a range that is now known is brought to its edge. */
function heldIn({ rig, shown }: Shop, range: RangeTold): Partial<Shop> {
  if (!rig) return {};
  const { handle } = shown;
  const [left, right] = intoRange(range, handle.left, handle.right);
  const isIn = left === handle.left && right === handle.right;
  return isIn ? {} : { shown: place(rig, { ...handle, left, right }, shown) };
}

/** The chosen finding's place in a newer list: later findings may stand before it, and it may have gone. */
function chosenAmong({ look, results }: Shop, findings: readonly Finding[]): number | null {
  const chosen = look.finding === null ? undefined : results.findings[look.finding];
  if (!chosen) return null;
  const found = findings.findIndex(
    each =>
      (each.kind === chosen.kind || (isGap(each) && isGap(chosen))) &&
      each.limit === chosen.limit &&
      each.parts.join() === chosen.parts.join(),
  );
  return found < 0 ? null : found;
}
