/** What was changed by hand outlives an answer that is given later. */
import { expect, test } from 'vitest';
import { pathSteps, valueAt, withValue } from '../../../geometry/build/address.ts';
import type { BuildFile } from '../../../geometry/build/schema/file.ts';
import type { Start } from '../../../geometry/build/start/answers.ts';
import { carriedOver, differences } from '../../../geometry/build/start/carryOver.ts';
import { axleChoice } from '../../../geometry/build/start/layouts.ts';
import { propose } from '../../../geometry/build/start/propose.ts';
import { withUnitNamed } from '../../../geometry/build/start/unitNamed.ts';
import { openBuild } from '../../../geometry/cycle/open.ts';

const start: Start = {
  name: 'truck',
  unit: 'in',
  layout: { axles: [axleChoice('front')], driverSide: 'left' },
  answers: {},
};
const more: Start = {
  ...start,
  answers: { wheelbase: { value: '101 1/2' }, 'front.lowerLength': { value: '30' } },
};
const before = propose(start).file;
const after = propose(more).file;

const at = (file: BuildFile, path: string): unknown => valueAt(file, pathSteps(file, path) ?? []);

function changed(path: string, value: unknown): BuildFile {
  const steps = pathSteps(before, path);
  if (!steps) throw new Error(path);
  return withValue(before, steps, value) as BuildFile;
}

test('without a change by hand it is the new proposal', () => {
  expect(carriedOver(before, before, after)).toEqual(after);
});

test('a number typed by hand stays, and what hangs on the answers follows them', () => {
  const typed = { value: '44 1/8', from: 'measured', tolerance: '1/16' };
  const path = 'axles["front"].tire.diameter';
  const carried = carriedOver(before, changed(path, typed), after);
  expect(at(carried, path)).toEqual(typed);
  expect(at(carried, 'wheelbase')).toMatchObject({ value: '101 1/2', from: 'measured' });
  expect(at(carried, 'axles["front"].links["lower link"]')).toEqual(
    at(after, 'axles["front"].links["lower link"]'),
  );
  expect(openBuild(JSON.stringify(carried)).ok).toBe(true);
});

test('one end of a link by hand, the other by the new answer', () => {
  const typed = ['1', '17 3/4', '15'];
  const end = 'axles["front"].links["lower link"].axle.at';
  const carried = carriedOver(before, changed(end, typed), after);
  const far = 'axles["front"].links["lower link"].chassis.at';
  expect(at(carried, end)).toEqual(typed);
  expect(at(carried, far)).toEqual(at(after, far));
  expect(at(after, far)).not.toEqual(at(before, far));
});

test('a part that was added stays, one that was taken out does not come back', () => {
  const solids = before.solids ?? [];
  const [gone] = solids;
  const tank = { ...gone, name: 'tank' };
  const now = { ...before, solids: [...solids.slice(1), tank] } as BuildFile;
  const names = (carriedOver(before, now, after).solids ?? []).map(({ name }) => name);
  expect(names).toContain('tank');
  expect(names).not.toContain(gone?.name);
  expect(names).toHaveLength(solids.length);
});

test('another layout takes its parts with it, and brings its own', () => {
  const layout = { ...start.layout, axles: [axleChoice('front', { links: 'radiusArms' })] };
  const arms = propose({ ...start, layout }).file;
  const typed = { value: '44', from: 'measured' };
  const now = changed('axles["front"].tire.diameter', typed);
  const carried = carriedOver(before, now, arms);
  const names = (file: BuildFile) => file.axles[0]?.links?.map(({ name }) => name);
  expect(names(carried)).toEqual(names(arms));
  expect(at(carried, 'axles["front"].tire.diameter')).toEqual(typed);
  expect(openBuild(JSON.stringify(carried)).ok).toBe(true);
});

test('readings and variants that somebody made stay', () => {
  const taped = [{ from: 'left lower link.axle', to: 'left lower link.chassis', length: '36' }];
  const now = { ...before, taped } as BuildFile;
  expect(carriedOver(before, now, after).taped).toEqual(taped);
});

test('of a point that was moved by hand only the coordinates that were changed stay', () => {
  const end = 'axles["front"].links["lower link"].axle.at';
  const typed = { value: '17 3/4', from: 'measured', tolerance: '1/16' };
  const now = changed(`${end}[1]`, typed);
  const lower = propose({ ...more, answers: { 'front.lowerAxleHeight': { value: '13 1/2' } } });
  const carried = carriedOver(before, now, lower.file);
  expect(at(carried, `${end}[1]`)).toEqual(typed);
  expect(at(carried, `${end}[2]`)).toMatchObject({ value: '13 1/2', from: 'measured' });
});

test('what was changed for both sides stays so when the answers differ by side, and back', () => {
  const sided = propose({
    ...start,
    answers: { 'front.lowerFrameHeight': { value: { left: '20', right: '20 1/4' } } },
  }).file;
  const links = (file: BuildFile) =>
    new Map(file.axles[0]?.links?.map(each => [each.name, each.tube?.od]));
  const od = { value: '1 3/4', from: 'measured' };
  const both = changed('axles["front"].links["lower link"].tube.od', od);
  const split = links(carriedOver(before, both, sided));
  expect(split.get('lower link')).toEqual(od);
  expect(split.has('left lower link')).toBe(false);
  const steps = pathSteps(sided, 'axles["front"].links["right lower link"].tube.od') ?? [];
  const joined = links(carriedOver(sided, withValue(sided, steps, od) as BuildFile, before));
  expect(joined.get('right lower link')).toEqual(od);
  expect(joined.has('left lower link')).toBe(true);
  expect(joined.has('lower link')).toBe(false);
  // untouched it follows the answers
  expect(links(carriedOver(before, before, sided)).has('left lower link')).toBe(true);
});

test('the start of the carried file is the new one', () => {
  const typed = changed('axles["front"].tire.diameter', { value: '44', from: 'measured' });
  expect(carriedOver(before, typed, after).start).toEqual(after.start);
});

test('what other rules proposed stays, but takes what is taped where it is still assumed', () => {
  const older = {
    ...changed('axles["front"].tire.diameter', { value: '44', from: 'measured' }),
    start: { ...before.start, rules: 99 },
    wheelbase: { value: '108', from: 'assumed', tolerance: '8' },
  } as BuildFile;
  const carried = carriedOver(before, older, after);
  expect(at(carried, 'wheelbase')).toMatchObject({ value: '101 1/2', from: 'measured' });
  expect(at(carried, 'axles["front"].tire.diameter')).toMatchObject({ value: '44' });
  // and so does the next answer
  expect(carried.start).toEqual({ ...after.start, rules: 99 });
  // typed by hand before, an answer does not take its place
  const typed = { ...older, wheelbase: { value: '108', from: 'measured' } } as BuildFile;
  expect(at(carriedOver(before, typed, after), 'wheelbase')).toMatchObject({ value: '108' });
});

test('what was changed by hand is named by its path, and nothing else', () => {
  expect(differences(before, before)).toEqual([]);
  const solids = before.solids ?? [];
  const tank = { ...solids[0], name: 'tank' };
  const now = {
    ...changed('axles["front"].links["lower link"].axle.at[1]', { value: '17', from: 'measured' }),
    solids: [...solids.slice(1), tank],
    start: after.start,
  } as BuildFile;
  expect(differences(before, now).sort()).toEqual([
    'axles["front"].links["lower link"].axle.at[1]',
    `solids["${solids[0]?.name}"]`,
    'solids["tank"]',
  ]);
});

test('with another unit for the tape, what was typed by hand stays as long as it is', () => {
  const path = 'axles["front"].tire.diameter';
  const now = changed(path, { value: '41 1/4', from: 'measured', tolerance: '1/4' });
  const metric = propose({ ...start, unit: 'mm' }).file;
  const named = withUnitNamed(now);
  const [as, inUnits] = [now, named].map(file => openBuild(JSON.stringify(file)));
  if (!as?.ok || !inUnits?.ok) throw new Error('both open');
  expect(inUnits.build.axles).toEqual(as.build.axles);
  const carried = carriedOver(withUnitNamed(before), named, metric);
  expect(at(carried, path)).toEqual({ value: '41 1/4 in', from: 'measured', tolerance: '1/4 in' });
  const opened = openBuild(JSON.stringify(carried));
  if (!opened.ok) throw new Error('it opens');
  expect(opened.build.unit).toBe('mm');
  expect(opened.build.axles[0]?.tire.diameter).toBe(41.25);
  // untouched it is as it is proposed in millimeters
  expect(carriedOver(withUnitNamed(before), withUnitNamed(before), metric)).toEqual(metric);
});
