/** Actions on what is open: a file, its variant, its axle. What they are given has been read before. */
import type { AxleName } from '../../../geometry/build/build.ts';
import type { Problem } from '../../../geometry/build/problem.ts';
import type { OpenedBuild } from '../../../geometry/cycle/open.ts';
import { axleOf } from '../../../geometry/cycle/openAxle.ts';
import type { Action } from './action.ts';
import { didOf } from './did.ts';
import { makeRig, place, RIDE } from './rig.ts';
import { type Document, NO_RESULTS, NOT_SHOWN, type Shop } from './shop.ts';

interface Standing {
  document: Document;
  opened: OpenedBuild;
  axle: AxleName | null;
  /** Where it stood before, to be kept as far as it can be there. */
  near?: Shop['shown'];
}

/** Puts an axle of an opened build on the stands. */
export function stand(shop: Shop, { document, opened, axle: name, near }: Standing): Partial<Shop> {
  const axle = axleOf(opened, name) ?? axleOf(opened, null);
  const rig = axle ? makeRig(axle, document.meshes) : null;
  const kept = rig && near ? place(rig, near.handle, null) : null;
  return {
    document,
    opened,
    refused: null,
    reading: null,
    notice: null,
    variant: opened.build.variant,
    axleName: axle?.axle.name ?? null,
    rig,
    shown: kept?.pose ? kept : rig ? place(rig, RIDE, null) : NOT_SHOWN,
    results: {
      ...NO_RESULTS,
      generation: shop.results.generation + 1,
      working: rig ? { what: 'range', done: 0, of: 1 } : null,
    },
    trial: null,
    did: null,
    look: { ...shop.look, part: null, finding: null, mapOf: { kind: 'gap' } },
    play: { ...shop.play, isPlaying: false, at: 0 },
  };
}

/** A build that was read, at ride height. */
export const openDocument: Action<{ document: Document; opened: OpenedBuild }> = {
  name: 'openDocument',
  label: 'Open a build',
  run(shop, { document, opened }) {
    const fresh = stand(shop, { document, opened, axle: null });
    const look = fresh.look ?? shop.look;
    const unit = look.isUnitChosen ? look.unit : opened.build.unit;
    return { ...fresh, look: { ...look, unit } };
  },
};

/** A file that was not taken: its problems are told, and what was open stays open. */
export const refuse: Action<{ fileName: string; problems: Problem[] }> = {
  name: 'refuse',
  label: 'Tell what is wrong with a file',
  run: (_, refused) => ({ refused, reading: null }),
};

/** The same document with a variant applied, or the base. */
export const chooseVariant: Action<OpenedBuild> = {
  name: 'chooseVariant',
  label: 'Show a variant',
  run(shop, opened) {
    const { document, axleName, shown } = shop;
    if (!document) return shop;
    return stand(shop, { document, opened, axle: axleName, near: shown });
  },
};

interface Taken {
  document: Document;
  opened: OpenedBuild;
  /** What was done. */
  words: string;
  /** It was undone or done again. */
  isStepBack?: boolean;
}

/** The build changed by hand. What was known of it before stays on screen until it is told anew. */
export const takeEdit: Action<Taken> = {
  name: 'takeEdit',
  label: 'Change the build',
  run(shop, { document, opened, words, isStepBack = false }) {
    const fresh = stand(shop, { document, opened, axle: shop.axleName, near: shop.shown });
    const { generation, working } = fresh.results ?? shop.results;
    return {
      ...fresh,
      results: { ...shop.results, generation, working, isFinal: false, failed: null },
      did: didOf(shop, words, isStepBack),
      look: shop.look,
    };
  },
};

/** Mesh files that were given later. */
export const giveMeshes: Action<ReadonlyMap<string, Uint8Array>> = {
  name: 'giveMeshes',
  label: 'Give a mesh file',
  run(shop, files) {
    const { document, opened, axleName, shown } = shop;
    if (!document || !opened) return shop;
    const meshes = new Map([...document.meshes, ...files]);
    return stand(shop, { document: { ...document, meshes }, opened, axle: axleName, near: shown });
  },
};

/** Mesh files that a change is going to name. */
export const keepMeshes: Action<ReadonlyMap<string, Uint8Array>> = {
  name: 'keepMeshes',
  label: 'Keep a mesh file beside the build',
  run({ document }, files) {
    if (!document) return {};
    return { document: { ...document, meshes: new Map([...document.meshes, ...files]) } };
  },
};

export const chooseAxle: Action<AxleName> = {
  name: 'chooseAxle',
  label: 'Show an axle',
  run(shop, name) {
    const { document, opened } = shop;
    if (!document || !opened || name === shop.axleName) return shop;
    return stand(shop, { document, opened, axle: name });
  },
};

/** The worker is asked again for everything. */
export const studyAgain: Action = {
  name: 'studyAgain',
  label: 'Check the gaps again',
  run(shop) {
    const { document, opened, axleName, shown } = shop;
    if (!document || !opened) return shop;
    return stand(shop, { document, opened, axle: axleName, near: shown });
  },
};

export const startReading: Action<string> = {
  name: 'startReading',
  label: 'Read a file',
  run: (_, reading) => ({ reading }),
};

export const stopReading: Action = {
  name: 'stopReading',
  label: 'Have a file read',
  run: () => ({ reading: null }),
};

export const tell: Action<string> = {
  name: 'tell',
  label: 'Tell something',
  run: (_, notice) => ({ notice, reading: null }),
};

export const dismissNotice: Action = {
  name: 'dismissNotice',
  label: 'Put the note away',
  run: () => ({ notice: null }),
};

export const dismissProblems: Action = {
  name: 'dismissProblems',
  label: 'Put the problems away',
  run: () => ({ refused: null }),
};
