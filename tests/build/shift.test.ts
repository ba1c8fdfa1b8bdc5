/** A build with one entry shifted is the build of the file with that number changed by hand. */
import { expect, test } from 'vitest';
import type { Build } from '../../geometry/build/build.ts';
import { readBuild } from '../../geometry/build/read.ts';
import type { BuildFile } from '../../geometry/build/schema/file.ts';
import { Shifts } from '../../geometry/build/shift.ts';
import { edited, sample, type Written } from './sample.ts';

const file = edited(sample(), {
  dimensions: [
    { name: 'reach', value: '36' },
    { name: 'twice', value: '2 * reach' },
    { name: 'lean', value: '5 deg' },
  ],
  'axles.0.links.0.chassis.at': ['-2 - reach', 15, 22],
  'axles.0.links.1.chassis.at': ['-1 - twice/2', -11, 30],
});

function read(written: Written): { build: Build; file: BuildFile } {
  const result = readBuild(JSON.stringify(written));
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result;
}

const { file: known } = read(file);
const shifts = new Shifts(known, null);
const geometry = (build: Build | null) => build && { ...build, entries: [] };

test.each<[path: string, by: number, changes: Record<string, unknown>]>([
  ['axles["front"].wheelCenters', 0.25, { 'axles.0.wheelCenters': 70.25 }],
  // of a mirrored part: both sides
  ['axles["front"].links["lower link"].axle.at[1]', -0.5, { 'axles.0.links.0.axle.at.1': 16.5 }],
  // a dimension takes along what uses it, by way of another one too
  ['dimensions["reach"].value', 0.125, { 'dimensions.0.value': 36.125 }],
  ['dimensions["twice"].value', -1, { 'dimensions.1.value': '2 * reach - 1' }],
])('%s by %d', (path, by, changes) => {
  const shifted = geometry(shifts.build(path, by));
  expect(shifted).toEqual(geometry(read(edited(file, changes)).build));
  expect(shifted).not.toEqual(geometry(read(file).build));
});

test('the file is as before, and a shift of nothing is the build', () => {
  expect(geometry(shifts.build('wheelbase', 0))).toEqual(geometry(read(file).build));
});

test('null where the shifted value is refused, or where there is no such entry', () => {
  expect(shifts.build('axles["front"].tire.loadedRadius', 5)).toBeNull();
  expect(shifts.build('axles["rear"].wheelCenters', 1)).toBeNull();
  expect(shifts.build('axles["front"].name', 1)).toBeNull();
});
