/** Keeps B where A stands, and the worker on the two that are compared. */
import { proxy } from 'comlink';
import { shallow } from 'zustand/shallow';
import type { OpenedAxle } from '../../../geometry/cycle/openAxle.ts';
import { assemble } from '../../../geometry/mechanism/assemble.ts';
import type { CompareDesk, CompareEvent, SideRequest } from '../../worker/compareProtocol.ts';
import { act } from '../state/action.ts';
import type { Rig } from '../state/rig.ts';
import { type Shop, useShop } from '../state/shop.ts';
import { theWorkshop } from '../state/study.ts';
import { standingBeside } from './beside.ts';
import { besideVariant } from './chooseBeside.ts';
import { askAnew, hearOfBoth, type Other, standBeside } from './comparing.ts';

/** An edit by hand is compared once it rests, ms. */
const REST_ms = 200;

let desk: { of: ReturnType<typeof theWorkshop>; is: Promise<CompareDesk> } | null = null;

/** The worker's comparison, loaded when it is first asked for; of a worker that is gone there is none. */
export function theDesk(): Promise<CompareDesk> {
  const workshop = theWorkshop();
  if (desk?.of !== workshop) desk = { of: workshop, is: workshop.compareDesk() };
  return desk.is;
}

/** Follows the state from now on; ends with what is returned. */
export function followComparison(): () => void {
  const ends = [
    useShop.subscribe(
      ({ rig, shown, comparing }) =>
        [rig, shown, comparing?.other, comparing?.compared.ranges?.b] as const,
      follow,
      { equalityFn: shallow },
    ),
    useShop.subscribe(
      ({ document, comparing }) => [document, comparing?.other] as const,
      ([now, other], [before, same]) => {
        if (other === same) followFile(now, before, other ?? null);
      },
      { equalityFn: shallow },
    ),
    useShop.subscribe(
      ({ rig, comparing }) => [rig, comparing?.other] as const,
      ([rig, other], [, before]) => ask(rig, other ?? null, other !== before),
      { equalityFn: shallow },
    ),
  ];
  return () => {
    for (const end of ends) end();
  };
}

/** In the same breath as A moves, so that one frame shows both. */
function follow(): void {
  const { rig, shown, comparing }: Shop = useShop.getState();
  if (!rig || !comparing?.other) return;
  const { other, compared, shown: near } = comparing;
  const range = compared.ranges?.b ?? null;
  act(standBeside, standingBeside(rig, other.rig, shown.handle, range, near));
}

/** Of a file that is changed, a variant that stands beside it is read anew. */
function followFile(now: Shop['document'], before: Shop['document'], other: Other | null): void {
  if (!now || !before || !other || now.text === before.text) return;
  const isOfFile = now.fileName === before.fileName && other.document.text === before.text;
  if (isOfFile) void besideVariant(other.opened.build.variant);
}

let generation = 0;
let resting: ReturnType<typeof setTimeout> | undefined;
/** The build and variant that A was when it was last asked for. */
let asked = '';

function ask(rig: Rig | null, other: Other | null, isOther: boolean): void {
  clearTimeout(resting);
  if (!rig || !other) {
    if (!other && desk) void desk.is.then(each => each.stop());
    return;
  }
  const { name, variant } = rig.build;
  const now = JSON.stringify([name, variant]);
  const isAnother = now !== asked && !isOther;
  asked = now;
  act(askAnew, { generation: ++generation, isAnother });
  const mine = generation;
  const send = async (): Promise<void> => {
    const [a, b] = [sideOf(rig), sideOf(other.rig)];
    if (!a || !b) return;
    const found = await theDesk();
    if (mine === generation) await found.compare({ generation: mine, a, b }, proxy(hear));
  };
  if (isOther || isAnother) void send();
  else resting = setTimeout(() => void send(), REST_ms);
}

const hear = (event: CompareEvent): void => act(hearOfBoth, event);

/** Numbers of builds' axles, so that the worker knows one again. */
const keys = new WeakMap<object, number>();
let lastKey = 0;

/** An axle as the worker is asked about it; null where it does not assemble. */
export function sideRequest(
  { axle, build }: OpenedAxle,
  file: SideRequest['file'],
  meshes: SideRequest['meshes'],
): SideRequest | null {
  const assembly = assemble(axle);
  if (!assembly.ok) return null;
  const key = keys.get(axle) ?? ++lastKey;
  keys.set(axle, key);
  return { key, build, file, axle: axle.name, mechanism: assembly.mechanism, meshes };
}

function sideOf(rig: Rig): SideRequest | null {
  const { document, opened, comparing }: Shop = useShop.getState();
  const other = comparing?.other;
  if (opened?.build === rig.build && document) {
    return sideRequest(rig, opened.file, document.meshes);
  }
  if (other?.opened.build !== rig.build) return null;
  return sideRequest(rig, other.opened.file, other.document.meshes);
}
