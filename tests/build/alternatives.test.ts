import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import {
  withAlternative,
  withAlternativeCalled,
  withNeeds,
  withOption,
  withOptionCalled,
  withoutAlternative,
  withoutOption,
  withVariantOf,
  withWhy,
} from '../../geometry/build/alternatives.ts';
import {
  asInBase,
  pathOfChange,
  withChange,
  withoutChange,
  withoutPartOf,
} from '../../geometry/build/changeSets.ts';
import { type Edit, valueInBase } from '../../geometry/build/edit.ts';
import { readBuild } from '../../geometry/build/read.ts';
import type { BuildFile } from '../../geometry/build/schema/file.ts';
import { writeBuild } from '../../geometry/build/write.ts';

const long: BuildFile = JSON.parse(
  readFileSync(new URL('../../examples/long-arm-front.axlewalk.json', import.meta.url), 'utf8'),
);
const BAR = 'axles.front.links.track bar';
const ram = { alternative: 'assist ram', option: 'slim ram' };
const straight = { alternative: 'tie rod', option: 'straight tie rod' };

/** What an edit gives, read like any other file: alternatives that no longer fit the base are refused. */
function done(edit: Edit): BuildFile {
  if (!edit.ok) throw new Error(edit.message);
  const read = readBuild(writeBuild(edit.file));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return edit.file;
}
const why = (edit: Edit): string => (edit.ok ? '' : edit.message);
const optionOf = (file: BuildFile, { alternative, option }: typeof ram) =>
  file.alternatives
    ?.find(({ name }) => name === alternative)
    ?.options.find(({ name }) => name === option);

describe('alternatives', () => {
  test('are added for a part that is there, each by a name of its own', () => {
    const file = done(withAlternative(long, 'bar tube', BAR, 'thicker'));
    expect(file.alternatives?.at(-1)).toEqual({
      name: 'bar tube',
      part: BAR,
      options: [{ name: 'thicker' }],
    });
    expect(why(withAlternative(long, 'track bar', BAR, 'thicker'))).toContain('already');
    expect(why(withAlternative(long, 'bar', 'axles.front.links.no bar', 'x'))).toContain('no bar');
  });

  test('go, unless another needs one of their options', () => {
    expect(why(withoutAlternative(long, 'tie rod'))).toBe('"slim ram" of assist ram needs it');
    const file = done(withoutAlternative(long, 'assist ram'));
    expect(file.alternatives?.map(({ name }) => name)).not.toContain('assist ram');
    const bare = done(
      withoutAlternative({ ...long, alternatives: long.alternatives?.slice(0, 1) }, 'track bar'),
    );
    expect('alternatives' in bare).toBe(false);
  });

  test('keep what refers to them when they are renamed', () => {
    const chosen = done(withVariantOf(long, 'all new', [straight, ram]));
    const file = done(withAlternativeCalled(chosen, 'tie rod', 'lower rod'));
    expect(optionOf(file, ram)?.needs).toEqual([{ ...straight, alternative: 'lower rod' }]);
    expect(file.variants?.at(-1)?.choose?.[0]?.alternative).toBe('lower rod');
    const again = done(withOptionCalled(file, { ...straight, alternative: 'lower rod' }, 'plain'));
    expect(optionOf(again, ram)?.needs).toEqual([{ alternative: 'lower rod', option: 'plain' }]);
    expect(why(withAlternativeCalled(long, 'tie rod', 'drag link'))).toContain('already');
  });
});

describe('an option', () => {
  const choice = { alternative: 'track bar', option: 'thicker' };

  test('is the base until a field of it is changed, and again when that is taken back', () => {
    const added = done(withOption(long, choice));
    expect(optionOf(added, choice)).toEqual({ name: 'thicker' });
    const at = { part: BAR, field: 'tube.od' };
    expect(valueInBase(long, at)).toBe(
      long.axles[0]?.links.find(({ name }) => name === 'track bar')?.tube?.od,
    );
    expect(pathOfChange(long, at)).toBe('axles["front"].links["track bar"].tube.od');
    let file = done(withChange(added, choice, { ...at, value: '1 3/4' }));
    file = done(withChange(file, choice, { ...at, value: '2' }));
    expect(optionOf(file, choice)?.changes).toEqual([{ ...at, value: '2' }]);
    expect(optionOf(done(withoutChange(file, choice, at)), choice)).toEqual({ name: 'thicker' });
    expect(why(withOption(added, choice))).toContain('already');
  });

  test('that is needed or chosen stays; the last one takes its alternative along', () => {
    expect(why(withoutOption(long, straight))).toBe('"slim ram" of assist ram needs it');
    const chosen = done(withVariantOf(long, 'slim', [straight, ram]));
    expect(why(withoutOption(chosen, ram))).toBe('the variant "slim" chooses it');
    const file = done(withoutOption(long, ram));
    expect(file.alternatives?.some(({ name }) => name === 'assist ram')).toBe(false);
    expect(
      done(withoutOption(long, { alternative: 'track bar', option: 'straight bar' }))
        .alternatives?.[0]?.options,
    ).toHaveLength(1);
  });

  test('says why, needs others, and lets go of a part that it brings', () => {
    const file = done(withWhy(withNeedsDone([]), ram, ''));
    expect(optionOf(file, ram)?.why).toBeUndefined();
    expect(optionOf(file, ram)?.needs).toBeUndefined();
    expect(
      optionOf(done(withoutPartOf(file, ram, 'solids.ram bracket')), ram)?.add,
    ).toBeUndefined();
    function withNeedsDone(needs: (typeof ram)[]): BuildFile {
      return done(withNeeds(long, ram, needs));
    }
  });

  test('has its changes changed as a variant has', () => {
    const at = { part: BAR, field: 'tube.od' };
    const owner = { variant: 'short arms' };
    const before = long.variants?.[0]?.changes?.length ?? 0;
    const file = done(withChange(long, owner, { ...at, value: '2' }));
    expect(file.variants?.[0]?.changes).toHaveLength(before + 1);
    expect(done(withoutChange(file, owner, at)).variants?.[0]?.changes).toHaveLength(before);
    expect(why(withChange(long, { variant: 'no such' }, { ...at, value: 2 }))).toContain('no such');
  });

  test('of which each value can be taken back to the base', () => {
    const bar = { part: 'axles.front.steering.dragLink', field: 'from.at' };
    const [x, y] = valueInBase(long, bar) as unknown[];
    const owner = { variant: 'short arms' };
    let file = done(withVariantOf(long, 'slim', [straight, ram]));
    file = done(withChange(file, owner, { ...bar, value: [x, y, '29'] }));
    for (const variant of ['short arms', 'slim']) {
      const base = readBuild(writeBuild(file));
      const own = readBuild(writeBuild(file), { variant });
      if (!base.ok || !own.ok) throw new Error('it opens');
      const typed = new Map(base.build.entries.map(each => [each.path, each.typed]));
      const apart = (build: typeof own.build) =>
        build.entries.filter(({ path, typed: now }) => (typed.get(path) ?? now) !== now);
      expect(apart(own.build).length).toBeGreaterThan(2);
      let back = file;
      for (const { path } of apart(own.build)) back = done(asInBase({ file: back, variant }, path));
      const again = readBuild(writeBuild(back), { variant });
      expect(again.ok && apart(again.build)).toEqual([]);
      // a point that is the base's in every coordinate is no change any more
      expect(back.variants?.find(({ name }) => name === variant)?.changes ?? []).not.toContainEqual(
        expect.objectContaining({ field: bar.field }),
      );
      // the base has nothing to do with it
      expect({ ...back, variants: null }).toEqual({ ...file, variants: null });
    }
  });

  test('becomes a variant', () => {
    const file = done(withVariantOf(long, 'slim', [straight, ram]));
    const read = readBuild(writeBuild(file), { variant: 'slim' });
    expect(read.ok && read.build.axles[0]?.steering?.rams[0]?.body.diameter).toBe(1.75);
    expect(why(withVariantOf(file, 'slim', []))).toContain('already');
  });
});
