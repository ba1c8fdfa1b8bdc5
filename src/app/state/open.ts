/** Actions on what is open: a file, its variant, its axle. */
import type { AxleName } from '../../../geometry/build/build.ts';
import { axleOf, type OpenedBuild, openBuild } from '../../../geometry/cycle/open.ts';
import type { Action } from './action.ts';
import { makeRig, place, RIDE } from './rig.ts';
import { type Document, NO_RESULTS, NOT_SHOWN, type Shop } from './shop.ts';

/** Puts an axle of an opened build on the stands, at ride height. */
function stand(
  shop: Shop,
  document: Document,
  opened: OpenedBuild,
  name: AxleName | null,
): Partial<Shop> {
  const axle = axleOf(opened, name) ?? axleOf(opened, null);
  const rig = axle ? makeRig(axle, document.meshes) : null;
  return {
    document,
    opened,
    refused: null,
    variant: opened.build.variant,
    axleName: axle?.axle.name ?? null,
    rig,
    shown: rig ? place(rig, RIDE, null) : NOT_SHOWN,
    results: {
      ...NO_RESULTS,
      generation: shop.results.generation + 1,
      working: { what: 'range', done: 0, of: 1 },
    },
    look: { ...shop.look, part: null, finding: null, mapOf: { kind: 'gap' } },
    play: { ...shop.play, isPlaying: false, at: 0 },
  };
}

/** Opens a file; one with problems is told, and what was open stays open. */
export const openDocument: Action<Document> = {
  name: 'openDocument',
  label: 'Open a build',
  run(shop, document) {
    const opened = openBuild(document.text);
    if (!opened.ok) {
      return { refused: { fileName: document.fileName, problems: opened.problems } };
    }
    const fresh = stand(shop, document, opened, null);
    return { ...fresh, look: { ...(fresh.look ?? shop.look), unit: opened.build.unit } };
  },
};

export const chooseVariant: Action<string | null> = {
  name: 'chooseVariant',
  label: 'Show a variant',
  run(shop, variant) {
    const { document } = shop;
    if (!document || variant === shop.variant) return shop;
    const opened = openBuild(document.text, { variant });
    return opened.ok
      ? stand(shop, document, opened, shop.axleName)
      : { refused: { fileName: document.fileName, problems: opened.problems } };
  },
};

export const chooseAxle: Action<AxleName> = {
  name: 'chooseAxle',
  label: 'Show an axle',
  run(shop, name) {
    const { document, opened } = shop;
    if (!document || !opened || name === shop.axleName) return shop;
    return stand(shop, document, opened, name);
  },
};

export const dismissProblems: Action = {
  name: 'dismissProblems',
  label: 'Put the problems away',
  run: () => ({ refused: null }),
};
