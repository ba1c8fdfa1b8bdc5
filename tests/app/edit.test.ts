import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { beforeEach, describe, expect, test } from 'vitest';
import { redo, typeEntry, undo } from '../../src/app/edit/edit.ts';
import { forgetSteps, history } from '../../src/app/edit/steps.ts';
import { theReader } from '../../src/app/files/reader.ts';
import { act } from '../../src/app/state/action.ts';
import { setLook } from '../../src/app/state/look.ts';
import { moveTo } from '../../src/app/state/move.ts';
import { openDocument } from '../../src/app/state/open.ts';
import { useShop } from '../../src/app/state/shop.ts';

const text = readFileSync(
  new URL('../../examples/triangulated-rear.axlewalk.json', import.meta.url),
  'utf8',
);
const wheelbase = 'wheelbase';
const width = 'axles["rear"].wheelCenters';

const entry = (path: string): string | undefined =>
  useShop.getState().opened?.build.entries.find(each => each.path === path)?.typed;
const textNow = (): string | undefined => useShop.getState().document?.text;

beforeEach(async () => {
  const opened = (await theReader()).read(text);
  if (!opened.ok) throw new Error('the example is not read');
  const document = { fileName: 'a.axlewalk.json', text, meshes: new Map() };
  act(openDocument, { document, opened });
  forgetSteps();
});

describe('an entry typed on the page', () => {
  test('is taken, undone and done again, and the axle is another one each time', async () => {
    const before = entry(width);
    const rigs = [useShop.getState().rig];
    expect(await typeEntry(width, 'wider', { value: '66 1/2' })).toBeNull();
    expect(entry(width)).toBe('66 1/2');
    expect(useShop.getState().rig?.axle.wheelCenters).toBe(66.5);
    rigs.push(useShop.getState().rig);
    await undo();
    expect(entry(width)).toBe(before);
    expect(textNow()).toBe(text);
    rigs.push(useShop.getState().rig);
    await redo();
    expect(entry(width)).toBe('66 1/2');
    rigs.push(useShop.getState().rig);
    expect(new Set(rigs).size).toBe(rigs.length);
  });

  test.each([
    ['3 kg', '3 kg is a mass'],
    ['', 'write'],
    ['-4', 'above 0'],
    ['1/0', 'write'],
  ])('%s is refused with a reason, and nothing changes', async (value, reason) => {
    const before = useShop.getState();
    const refused = await typeEntry(width, 'wrong', { value });
    expect(refused).toContain(reason);
    expect(useShop.getState()).toBe(before);
    expect(history().pastStates).toHaveLength(0);
  });

  test('that is the same as before is no step', async () => {
    await typeEntry(wheelbase, 'longer', { value: 120 });
    await typeEntry(wheelbase, 'longer', { value: 120 });
    expect(history().pastStates).toHaveLength(1);
  });
});

test('camera, pose and choices are no steps', () => {
  act(setLook, { view: 'top' });
  act(moveTo, { left: 1, right: -1 });
  expect(history().pastStates).toHaveLength(0);
});

test('any order of changes, undo and redo is what a plain list of states says', async () => {
  const step = fc.oneof(
    fc.record({ kind: fc.constant('type' as const), value: fc.integer({ min: 900, max: 1300 }) }),
    fc.record({ kind: fc.constantFrom('undo' as const, 'redo' as const, 'wrong' as const) }),
  );
  await fc.assert(
    fc.asyncProperty(fc.array(step, { maxLength: 12 }), async steps => {
      const opened = (await theReader()).read(text);
      if (!opened.ok) throw new Error('the example is not read');
      const document = { fileName: 'a.axlewalk.json', text, meshes: new Map() };
      act(openDocument, { document, opened });
      forgetSteps();
      const states = [entry(wheelbase)];
      let at = 0;
      for (const each of steps) {
        if (each.kind === 'type') {
          const typed = String(each.value / 10);
          const isNew = typed !== states[at];
          await typeEntry(wheelbase, 'change', { value: typed });
          if (isNew) states.splice(++at, states.length, typed);
        } else if (each.kind === 'wrong') {
          await typeEntry(wheelbase, 'wrong', { value: '1 1' });
        } else if (each.kind === 'undo') {
          await undo();
          at = Math.max(0, at - 1);
        } else {
          await redo();
          at = Math.min(states.length - 1, at + 1);
        }
        expect(entry(wheelbase)).toBe(states[at]);
      }
    }),
    { seed: 5, numRuns: 15 },
  );
});
