import { readFileSync } from 'node:fs';
import { beforeEach, describe, expect, test, vi } from 'vitest';
import { moveHeld, nudge, putBack, readyToMove, takeHold } from '../../src/app/edit/drag.ts';
import { keepTrial, redo, undo } from '../../src/app/edit/edit.ts';
import { choosePoint, setSnap, toggleTogether } from '../../src/app/edit/mover.ts';
import { forgetSteps, history } from '../../src/app/edit/steps.ts';
import { theReader } from '../../src/app/files/reader.ts';
import { saveBuild } from '../../src/app/files/save.ts';
import { act } from '../../src/app/state/action.ts';
import { openDocument } from '../../src/app/state/open.ts';
import { useShop } from '../../src/app/state/shop.ts';

const text = readFileSync(
  new URL('../../examples/long-arm-front.axlewalk.json', import.meta.url),
  'utf8',
);
const frameEnd = 'axles["front"].links["lower link"].chassis.at';
const axleEnd = 'axles["front"].links["lower link"].axle.at';

const entry = (path: string) =>
  useShop.getState().rig?.build.entries.find(each => each.path === path);
const chassisEnds = () =>
  useShop
    .getState()
    .rig?.axle.links.filter(({ name }) => name.endsWith('lower link'))
    .map(link => link.chassis.at);

beforeEach(async () => {
  const opened = (await theReader()).read(text);
  if (!opened.ok) throw new Error('the example is not read');
  act(openDocument, { document: { fileName: 'a.axlewalk.json', text, meshes: new Map() }, opened });
  forgetSteps();
  choosePoint(frameEnd);
  setSnap('1/16');
  await readyToMove();
});

describe('a point that is held', () => {
  test('is let go before the build is saved: the file has the move', async () => {
    const written: string[] = [];
    const out = { write: async (each: string) => void written.push(each), close: async () => {} };
    vi.stubGlobal('window', {
      showSaveFilePicker: async () => ({ name: 'a', createWritable: async () => out }),
    });
    expect(takeHold()).toBe(true);
    moveHeld([0, 0, 1]);
    await saveBuild();
    vi.unstubAllGlobals();
    expect(useShop.getState().trial).toBeNull();
    expect(written).toEqual([useShop.getState().document?.text]);
    expect(written[0]).not.toBe(text);
  });

  test('moves both sides alike while the file stays as it is, and is one step when it is let go', async () => {
    const before = chassisEnds();
    expect(takeHold()).toBe(true);
    moveHeld([0, 0.3, 0.99]);
    moveHeld([0.13, 0.26, 1.01]);
    // to whole sixteenths: 1/8 forward, 1/4 out, 1 up
    const moved = chassisEnds()?.map((at, i) =>
      at.map((each, k) => each - (before?.[i]?.[k] ?? 0)),
    );
    expect(moved?.[0]).toEqual([0.125, 0.25, 1]);
    expect(moved?.[1]).toEqual([0.125, -0.25, 1]);
    expect(useShop.getState().document?.text).toBe(text);
    expect(history().pastStates).toHaveLength(0);
    // as it would be typed, from its datum
    expect(entry(`${frameEnd}.by[2]`)?.typed).toBe('-1');

    expect(await keepTrial()).toBeNull();
    expect(useShop.getState().trial).toBeNull();
    expect(history().pastStates).toHaveLength(1);
    expect(entry(`${frameEnd}.by[1]`)?.typed).toBe('3/4');
    expect(useShop.getState().document?.step).toBe(
      'Lower link, frame end: 1 up, 1/8 forward, 1/4 left',
    );
    await undo();
    expect(useShop.getState().document?.text).toBe(text);
    expect(chassisEnds()).toEqual(before);
    await redo();
    expect(chassisEnds()?.[0]?.[2]).toBe((before?.[0]?.[2] ?? 0) + 1);
  });

  test('goes back where it was with Escape, and nothing is a step', () => {
    const { rig } = useShop.getState();
    takeHold();
    moveHeld([0, 0, 2]);
    expect(useShop.getState().rig).not.toBe(rig);
    putBack();
    expect(useShop.getState().rig).toBe(rig);
    expect(useShop.getState().trial).toBeNull();
    expect(history().pastStates).toHaveLength(0);
  });

  test('takes points of the same bracket along', async () => {
    toggleTogether(axleEnd);
    takeHold();
    moveHeld([1, 0, 0]);
    await keepTrial();
    expect(entry(`${axleEnd}[0]`)?.typed).toBe('-1/2');
    expect(history().pastStates).toHaveLength(1);
  });

  test('was measured and is drawn once it is moved', async () => {
    choosePoint(axleEnd);
    expect(entry(`${axleEnd}[1]`)?.from).toBe('measured');
    takeHold();
    moveHeld([0, 1 / 16, 0]);
    await keepTrial();
    expect(entry(`${axleEnd}[1]`)).toMatchObject({
      typed: '17 9/16',
      from: 'drawing',
      tolerance: 1 / 16,
    });
    expect(entry(`${axleEnd}[0]`)?.typed).toBe('-1 1/2');
  });

  test('stays where it last could be where no axle comes of it', () => {
    choosePoint(axleEnd);
    takeHold();
    moveHeld([0, 0, 1]);
    const { rig } = useShop.getState();
    // both ends of the link in one place
    moveHeld([-36.5, -2, 5.5]);
    const { trial, rig: now } = useShop.getState();
    expect(now).toBe(rig);
    expect(trial?.refused).not.toBeNull();
    expect(trial?.by).toEqual([0, 0, 1]);
    putBack();
  });
});

describe('presses of a key', () => {
  test('move by one mark each and are one step together', async () => {
    vi.useFakeTimers();
    for (let k = 0; k < 3; k++) await nudge(2, 1);
    await nudge(1, -1);
    vi.runAllTimers();
    vi.useRealTimers();
    await keepTrial();
    expect(history().pastStates).toHaveLength(1);
    expect(entry(`${frameEnd}.by[2]`)?.typed).toBe('-1 13/16');
  });

  test('that are undone at once are kept first', async () => {
    setSnap('1/8');
    await nudge(0, 1);
    await undo();
    expect(useShop.getState().document?.text).toBe(text);
    expect(history().futureStates).toHaveLength(1);
  });
});
