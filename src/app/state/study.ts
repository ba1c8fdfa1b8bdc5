/** Keeps the worker on the axle that is shown, and its answers in the state. */
import { proxy, type Remote, wrap } from 'comlink';
import { assemble } from '../../../geometry/mechanism/assemble.ts';
import type { StudyEvent, Workshop } from '../../worker/protocol.ts';
import type { Rig } from './rig.ts';
import { type Results, type Shop, useShop } from './shop.ts';

let workshop: Remote<Workshop> | null = null;

/** The worker, started when it is first asked for. */
export function theWorkshop(): Remote<Workshop> {
  workshop ??= wrap<Workshop>(
    new Worker(new URL('../../worker/workshop.ts', import.meta.url), { type: 'module' }),
  );
  return workshop;
}

/** Follows the state from now on; ends with what is returned. */
export function followStudy(): () => void {
  const start = ({ rig, document, results }: Shop): void => {
    if (rig && document) void study(rig, document.meshes, results.generation);
  };
  start(useShop.getState());
  return useShop.subscribe((shop, before) => {
    if (shop.rig !== before.rig) start(shop);
  });
}

async function study(
  rig: Rig,
  meshes: ReadonlyMap<string, Uint8Array>,
  generation: number,
): Promise<void> {
  const { build, axle } = rig;
  const assembly = assemble(axle);
  if (!assembly.ok) return;
  const { mechanism } = assembly;
  const worker = theWorkshop();
  void worker.newest(generation);
  await worker.study({ generation, build, axle: axle.name, mechanism, meshes }, proxy(hear));
}

function hear(event: StudyEvent): void {
  useShop.setState(shop =>
    event.generation === shop.results.generation ? told(shop, event) : shop,
  );
}

/** The state after the worker has told something. */
export function told(shop: Shop, event: StudyEvent): Partial<Shop> {
  const heard = (change: Partial<Results>): Partial<Shop> => ({
    results: { ...shop.results, ...change },
  });
  switch (event.kind) {
    case 'range':
      // the reach of the main thread stops where the range was found to
      if (shop.rig) shop.rig.reach.box = event.range.box;
      return heard({ range: event.range });
    case 'map':
      return heard({ map: event.map });
    case 'strip':
      return heard({ strip: event.strip });
    case 'progress':
      return heard({ working: { what: event.what, done: event.done, of: event.of } });
    case 'findings':
      return heard({ findings: event.findings, gaps: event.gaps, isFinal: event.isFinal });
    case 'extremes':
      return heard({ extremes: event.extremes });
    case 'failed':
      return heard({ failed: event.message, working: null });
    case 'done':
      return heard({ working: null });
  }
}
