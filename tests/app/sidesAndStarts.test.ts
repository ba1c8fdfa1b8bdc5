/** Sides taken apart and made alike, offsets and lengths typed, in any order with undo and redo, against a list of states. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { isSameBuild } from '../../geometry/build/sameBuild.ts';
import { writeBuild } from '../../geometry/build/write.ts';
import { redo, typeEntry, undo } from '../../src/app/edit/edit.ts';
import { makeSidesAlike, takeSidesApart } from '../../src/app/edit/editSides.ts';
import { forgetSteps } from '../../src/app/edit/steps.ts';
import { giveLength } from '../../src/app/edit/typeLength.ts';
import { typeOffset } from '../../src/app/edit/typeOffset.ts';
import { theReader } from '../../src/app/files/reader.ts';
import { act } from '../../src/app/state/action.ts';
import { openDocument } from '../../src/app/state/open.ts';
import { useShop } from '../../src/app/state/shop.ts';

const text = readFileSync(
  new URL('../../examples/triangulated-rear.axlewalk.json', import.meta.url),
  'utf8',
);
const PARTS = [
  'axles["rear"].links["lower link"]',
  'axles["rear"].shocks["shock"]',
  'solids["rail"]',
];
const half = (path: string, side: string): string =>
  path.replace(/\["([^"]*)"\]$/, `["${side} $1"]`);
const lower = PARTS[0] ?? '';

const step = fc.oneof(
  fc.record({ kind: fc.constantFrom('apart' as const), part: fc.constantFrom(...PARTS) }),
  fc.record({
    kind: fc.constant('alike' as const),
    part: fc.constantFrom(...PARTS),
    side: fc.constantFrom('left' as const, 'right' as const),
  }),
  fc.record({ kind: fc.constant('offset' as const), by: fc.integer({ min: 30, max: 34 }) }),
  fc.record({ kind: fc.constant('length' as const), given: fc.boolean() }),
  fc.record({ kind: fc.constant('type' as const), eighths: fc.integer({ min: 1, max: 7 }) }),
  fc.record({ kind: fc.constantFrom('undo' as const, 'redo' as const) }),
);
type Step = typeof step extends fc.Arbitrary<infer T> ? T : never;

const now = () => {
  const { document, opened } = useShop.getState();
  if (!document || !opened) throw new Error('no build is open');
  return { text: document.text, build: opened.build };
};

/** What a step does on the page; what is refused says why. */
function done(each: Step): Promise<string | null> {
  switch (each.kind) {
    case 'apart':
      return takeSidesApart(each.part, 'part');
    case 'alike':
      return makeSidesAlike(half(each.part, 'right'), 'part', each.side, each.side);
    case 'offset':
      return typeOffset(`${half(lower, 'right')}.chassis.at`, 'offset', {
        axis: 0,
        from: 'rear axle',
        typed: `${each.by} 1/8`,
        way: 1,
      });
    case 'length':
      return giveLength(lower, 'part', each.given ? '36 1/8' : null);
    case 'type':
      return typeEntry(`${half(lower, 'left')}.tube.od`, 'typed', { value: `2 ${each.eighths}/8` });
    default:
      return (each.kind === 'undo' ? undo() : redo()).then(() => null);
  }
}

test('whatever is done in whatever order, each state is one of the list, is read, and is saved as it was', async () => {
  const reader = await theReader();
  const counts = new Map<string, number>();
  await fc.assert(
    fc.asyncProperty(fc.array(step, { minLength: 6, maxLength: 12 }), async steps => {
      const opened = reader.read(text);
      if (!opened.ok) throw new Error('the example is not read');
      act(openDocument, {
        document: { fileName: 'a.axlewalk.json', text, meshes: new Map() },
        opened,
      });
      forgetSteps();
      const states = [text];
      let at = 0;
      for (const each of steps) {
        const before = now();
        const refused = await done(each);
        const after = now();
        if (each.kind === 'undo') at = Math.max(0, at - 1);
        else if (each.kind === 'redo') at = Math.min(states.length - 1, at + 1);
        else if (refused === null && after.text !== before.text) {
          states.splice(++at, states.length, after.text);
          counts.set(each.kind, (counts.get(each.kind) ?? 0) + 1);
        } else if (refused !== null) expect(refused).toMatch(/\w{4}/);
        expect(after.text).toBe(states[at]);
        if (each.kind === 'apart' && refused === null) {
          expect(isSameBuild(before.build, after.build)).toBe(true);
        }
        // saved, opened and saved again it is the same
        if (at > 0) expect(writeBuild(reader.baseOf(after.text))).toBe(after.text);
      }
    }),
    { seed: 11, numRuns: 8 },
  );
  // each of them was done and not only refused
  expect([...counts.keys()].sort()).toEqual(['alike', 'apart', 'length', 'offset', 'type']);
});
