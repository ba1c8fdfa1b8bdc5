/** Actions on how it is looked at. */
import type { Action } from './action.ts';
import type { Look } from './shop.ts';

/** Sets something of the look. */
export const setLook: Action<Partial<Look>> = {
  name: 'setLook',
  label: 'Change the view',
  run: (shop, change) => ({ look: { ...shop.look, ...change } }),
};

/** Zooms to a part, or with null to the whole axle. */
export const frame: Action<string | null> = {
  name: 'frame',
  label: 'Zoom to a part',
  run: ({ look }, part) => ({
    look: { ...look, framing: { count: look.framing.count + 1, part, spot: null } },
  }),
};

type Marked = 'hidden' | 'ghosted' | 'swept' | 'trails';

/** Puts a part into a set of the look, or takes it out. */
export const toggleIn: Action<{ set: Marked; name: string }> = {
  name: 'toggleIn',
  label: 'Hide, ghost or sweep a part',
  run({ look }, { set, name }) {
    const next = new Set(look[set]);
    if (!next.delete(name)) next.add(name);
    return { look: { ...look, [set]: next } };
  },
};

/** Inches or millimeters; from now on whatever a build says. */
export const chooseUnit: Action<Look['unit']> = {
  name: 'chooseUnit',
  label: 'Show inches or millimeters',
  run: ({ look }, unit) => ({ look: { ...look, unit, isUnitChosen: true } }),
};

/** What a phone shows under the axle; a sheet is the same sheet on a larger screen. */
export const choosePhoneTab: Action<Look['phoneTab']> = {
  name: 'choosePhoneTab',
  label: 'Show another part of the page',
  run: ({ look }, phoneTab) => ({
    look: { ...look, phoneTab, sheet: phoneTab === 'walk' ? look.sheet : phoneTab },
  }),
};

/** Lays something over the page, or takes it away. */
export const showDialog: Action<Look['dialog']> = {
  name: 'showDialog',
  label: 'Show a page of explanation',
  run: ({ look }, dialog) => ({ look: { ...look, dialog } }),
};
