/**
 * Everything that can be done from the keyboard, each with its words and its key: the keys, the list of commands
 * and the hints beside buttons all read this one list.
 */

import { toggleComparing } from '../compare/chooseBeside.ts';
import { endComparing, exchange } from '../compare/comparing.ts';
import { exchangeBoth } from '../compare/exchangeBoth.ts';
import { putBack } from '../edit/drag.ts';
import { redo, undo } from '../edit/edit.ts';
import { copyLink } from '../files/openLink.ts';
import { pickFiles, pickMeshes } from '../files/pickFiles.ts';
import { saveBuild } from '../files/save.ts';
import { openGuide } from '../guide/openGuide.ts';
import { type Action, act } from '../state/action.ts';
import { chooseUnit, frame, setLook, showDialog } from '../state/look.ts';
import {
  chooseFinding,
  POSE_LABELS,
  SHOP_POSES,
  type ShopPoseName,
  stepFinding,
  toShopPose,
} from '../state/move.ts';
import { dismissNotice, dismissProblems } from '../state/open.ts';
import { setSpeed, togglePlay } from '../state/play.ts';
import { type Look, type Shop, type Speed, useShop } from '../state/shop.ts';
import { showTape, startNew } from '../tape/startNew.ts';

export interface Command {
  /** Camel-case word, unique. */
  id: string;
  group: 'Walk and pose' | 'Findings' | 'Look' | 'Page';
  label: string;
  /** As `KeyboardEvent.key` has it, with 'Ctrl+' before it for Control or Command; none where it has no key. */
  key?: string;
  /** Other words that somebody may look for. */
  also?: string;
  run(): void;
}

const SPEEDS: readonly Speed[] = ['slow', 'normal', 'fast'];

function changeSpeed(step: 1 | -1): void {
  const at = SPEEDS.indexOf(useShop.getState().play.speed) + step;
  const speed = SPEEDS[at];
  if (speed) act(setSpeed, speed);
}

/** Puts the topmost thing away: a dialog closes by itself before this is asked. */
function putAway(): void {
  const { refused, notice, look, trial, comparing }: Shop = useShop.getState();
  if (trial) putBack();
  else if (refused) act(dismissProblems);
  else if (notice !== null) act(dismissNotice);
  else if (look.isAxleAlone) act(setLook, { isAxleAlone: false });
  else if (look.finding !== null) act(chooseFinding, null);
  else if (comparing) act(endComparing);
}

/** Moves the keyboard to the first control that fits. */
const goTo = (selector: string) => (): void => {
  document.querySelector<HTMLElement>(selector)?.focus();
};

const poses = SHOP_POSES.map(
  (name: ShopPoseName, i): Command => ({
    id: name,
    group: 'Walk and pose',
    label: `Pose: ${POSE_LABELS[name].toLowerCase()}`,
    key: String(i + 1),
    run: () => act(toShopPose, name),
  }),
);

const view = (name: Look['view'], label: string, key: string): Command => ({
  id: name,
  group: 'Look',
  label,
  key,
  run: () => act(setLook, { view: name }),
});

const toggle = (
  name: 'labels' | 'grid' | 'rideGhost' | 'construction',
  label: string,
  key?: string,
): Command => ({
  id: name,
  group: 'Look',
  label,
  ...(key ? { key } : {}),
  run: () => act(setLook, { [name]: !useShop.getState().look[name] }),
});

const sheet = (name: Look['sheet'], label: string, key: string): Command => ({
  id: name,
  group: 'Findings',
  label,
  key,
  run: () => act(setLook, { sheet: name, phoneTab: name }),
});

const keyOfAction = ({ key }: Action<never>): { key?: string } => (key ? { key } : {});

export const COMMANDS: readonly Command[] = [
  {
    id: 'togglePlay',
    group: 'Walk and pose',
    label: togglePlay.label,
    ...keyOfAction(togglePlay),
    also: 'play stop cycle',
    run: () => act(togglePlay),
  },
  {
    id: 'slower',
    group: 'Walk and pose',
    label: 'Walk slower',
    key: ',',
    run: () => changeSpeed(-1),
  },
  {
    id: 'faster',
    group: 'Walk and pose',
    label: 'Walk faster',
    key: '.',
    run: () => changeSpeed(1),
  },
  ...poses,
  {
    id: 'goToMap',
    group: 'Walk and pose',
    label: 'To the travel map, for the arrow keys',
    key: 'm',
    run: goTo('.drive [role="slider"]'),
  },
  {
    id: 'goToSteering',
    group: 'Walk and pose',
    label: 'To the steering, for the arrow keys',
    key: 'w',
    run: goTo('.drive .steering [role="slider"]'),
  },
  {
    id: 'nextFinding',
    group: 'Findings',
    label: 'Next finding',
    key: 'n',
    also: 'hit touch',
    run: () => act(stepFinding, 1),
  },
  {
    id: 'lastFinding',
    group: 'Findings',
    label: 'The finding before',
    key: 'b',
    run: () => act(stepFinding, -1),
  },
  sheet('findings', 'Show the findings', 'f'),
  sheet('charts', 'Show charts', 'c'),
  sheet('parts', 'Show parts', 'p'),
  sheet('tape', 'Show what was taped', 'a'),
  view('corner', 'Look from the corner', 'q'),
  view('front', 'Look from behind, as the driver sits', 'd'),
  view('side', 'Look from the side', 's'),
  view('top', 'Look from the top', 't'),
  {
    id: 'frameAll',
    group: 'Look',
    label: 'Fit the whole axle',
    key: '0',
    also: 'zoom camera',
    run: () => act(frame, null),
  },
  toggle('labels', 'Name the parts, or not', 'l'),
  toggle('grid', 'Grid with dimensions, or not', 'g'),
  toggle('rideGhost', 'Ghost at ride height, or not', 'r'),
  toggle('construction', 'Roll axis and instant center, or not', 'i'),
  {
    id: 'unit',
    group: 'Page',
    label: 'Inches or millimeters',
    key: 'u',
    also: 'mm in unit',
    run: () => act(chooseUnit, useShop.getState().look.unit === 'in' ? 'mm' : 'in'),
  },
  {
    id: 'compare',
    group: 'Page',
    label: 'Compare with another, or show one alone',
    key: 'v',
    also: 'variant side by side difference versus',
    run: toggleComparing,
  },
  {
    id: 'exchange',
    group: 'Page',
    label: exchange.label,
    key: 'x',
    also: 'compare swap turn round',
    run: exchangeBoth,
  },
  { id: 'undo', group: 'Page', label: 'Undo', key: 'Ctrl+z', run: () => void undo() },
  { id: 'redo', group: 'Page', label: 'Redo', key: 'Ctrl+y', run: () => void redo() },
  {
    id: 'save',
    group: 'Page',
    label: 'Save the build',
    key: 'Ctrl+s',
    run: () => void saveBuild(),
  },
  {
    id: 'addMesh',
    group: 'Page',
    label: 'Add a mesh to the build',
    also: 'scan export stl obj glb part',
    run: pickMeshes,
  },
  {
    id: 'newBuild',
    group: 'Page',
    label: 'Start your own build',
    key: 'y',
    also: 'new layout vehicle',
    run: startNew,
  },
  {
    id: 'nextTape',
    group: 'Findings',
    label: 'What to tape next',
    key: 'j',
    also: 'measurement assumed settled',
    run: () => showTape('next'),
  },
  {
    id: 'copyLink',
    group: 'Page',
    label: 'Copy a link that carries the build',
    also: 'share send',
    run: () => void copyLink(),
  },
  { id: 'openFile', group: 'Page', label: 'Open a file', key: 'Ctrl+o', run: pickFiles },
  {
    id: 'print',
    group: 'Page',
    label: 'Print this page',
    also: 'paper',
    run: () => window.print(),
  },
  {
    id: 'light',
    group: 'Page',
    label: 'Light colors',
    also: 'theme',
    run: () => act(setLook, { theme: 'light' }),
  },
  {
    id: 'dark',
    group: 'Page',
    label: 'Dark colors',
    also: 'theme',
    run: () => act(setLook, { theme: 'dark' }),
  },
  {
    id: 'assumed',
    group: 'Page',
    label: 'What is assumed',
    run: () => act(showDialog, 'assumed'),
  },
  {
    id: 'cautions',
    group: 'Page',
    label: 'Read the cautions',
    run: () => act(showDialog, 'cautions'),
  },
  {
    id: 'guide',
    group: 'Page',
    label: 'Open the guide',
    key: 'o',
    also: 'help measuring tape read',
    run: () => openGuide(),
  },
  {
    id: 'commands',
    group: 'Page',
    label: 'What can I do here?',
    key: '?',
    also: 'keys help',
    run: () => act(showDialog, 'commands'),
  },
  { id: 'putAway', group: 'Page', label: 'Put away what is on top', key: 'Escape', run: putAway },
];

/** The key of a command, or null. */
export const keyOf = (id: string): string | null =>
  COMMANDS.find(command => command.id === id)?.key ?? null;

/** Commands that all words of a search occur in; all of them for none. */
export function search(text: string): readonly Command[] {
  const words = text.toLowerCase().split(/\s+/).filter(Boolean);
  return COMMANDS.filter(({ label, group, also = '' }) => {
    const all = `${label} ${group} ${also}`.toLowerCase();
    return words.every(word => all.includes(word));
  });
}

/** 'Ctrl+o' → ['Ctrl', 'O'], ' ' → ['Space'], 'Escape' → ['Esc']. */
export function keyWords(key: string): readonly string[] {
  const names: Record<string, string> = { ' ': 'Space', Escape: 'Esc' };
  return key.split('+').map(each => names[each] ?? (each.length === 1 ? each.toUpperCase() : each));
}
