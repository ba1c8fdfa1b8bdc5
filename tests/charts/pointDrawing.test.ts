/** A drawing for every number that is proposed to be taped: within its edges, from its datum to its point. */
import { expect, test } from 'vitest';
import { spotOf } from '../../geometry/advice/spots.ts';
import type { Build } from '../../geometry/build/build.ts';
import { readBuild } from '../../geometry/build/read.ts';
import { axleChoice } from '../../geometry/build/start/layouts.ts';
import { propose } from '../../geometry/build/start/propose.ts';
import { pointDrawing } from '../../src/charts/pointDrawing.ts';

function proposed(rise: string): Build {
  const axles = [axleChoice('front', { assistRam: true }), axleChoice('rear', { straps: 'both' })];
  const layout = { driverSide: 'left' as const, axles };
  const start = { name: 'drawn', unit: 'in' as const, layout, answers: {}, stands: { rise } };
  const read = readBuild(JSON.stringify(propose(start).file));
  if (!read.ok) throw new Error('the proposal is read');
  return read.build;
}
const build = proposed('0');

const drawingOf = (path: string, of = build) => {
  const name = /^axles\["(\w+)"\]/.exec(path)?.[1] ?? 'front';
  const axle = of.axles.find(each => each.name === name);
  if (!axle) throw new Error('its axle');
  return pointDrawing(of, axle, spotOf(path), path, '12 3/8');
};

test('every number that may be off has one, with one tag, within its edges, each mark once', () => {
  const open = build.entries.filter(({ path }) => /^(axles|solids)/.test(path));
  expect(open.length).toBeGreaterThan(200);
  for (const { path } of open) {
    const drawing = drawingOf(path);
    if (!drawing) throw new Error(path);
    const { width, height, marks } = drawing;
    expect(marks.filter(({ kind }) => kind === 'tag')).toHaveLength(1);
    expect(new Set(marks.map(mark => JSON.stringify(mark))).size).toBe(marks.length);
    for (const mark of marks) {
      const spots = mark.kind === 'line' ? mark.points : [mark.at];
      for (const [x, y] of spots) {
        expect(x, path).toBeGreaterThanOrEqual(-0.01);
        expect(x, path).toBeLessThanOrEqual(width + 0.01);
        expect(y, path).toBeGreaterThanOrEqual(-0.01);
        expect(y, path).toBeLessThanOrEqual(height + 0.01);
      }
    }
  }
});

test('the tape says which way it goes in words, and has no sign beside them', () => {
  const tagOf = (path: string, text: string): string | undefined => {
    const axle = build.axles[0];
    const drawing = axle && pointDrawing(build, axle, spotOf(path), path, text);
    return drawing?.marks.flatMap(mark => (mark.kind === 'tag' ? [mark.text] : []))[0];
  };
  const path = 'axles["front"].links["lower link"].chassis.at[0]';
  expect(tagOf(path, '−35 1/2 in')).toBe('35 1/2 in');
  expect(tagOf(path, '-35 1/2')).toBe('35 1/2');
  // what is worked out stays as it was typed
  expect(tagOf(path, '-(30 + 5)')).toBe('-(30 + 5)');
});

/** Both ends of the tape on paper, and how many inches one unit of it is there. */
function tapeOf(path: string, of = build): { across: number; up: number } {
  const drawing = drawingOf(path, of);
  const tape = drawing?.marks.find(mark => mark.kind === 'line' && mark.isDashed);
  const round = drawing?.marks.find(mark => mark.kind === 'circle' && mark.tone === 'tire');
  if (tape?.kind !== 'line') throw new Error(`no tape for ${path}`);
  const [foot, end] = [tape.points[0], tape.points[1]];
  if (!foot || !end) throw new Error('two ends');
  const radius = round?.kind === 'circle' ? round.radius : 1;
  const unit = (of.axles[0]?.tire.diameter ?? 0) / 2 / radius;
  return { across: (end[0] - foot[0]) * unit, up: (foot[1] - end[1]) * unit };
}

const LOWER = 'axles["front"].links["lower link"]';

test('a height goes up from the floor by what it reads, a length along the vehicle by what it reads', () => {
  const value = (path: string) =>
    build.entries.find(each => each.path === path)?.value ?? Number.NaN;
  const height = `${LOWER}.chassis.at[2]`;
  expect(drawingOf(height)).toMatchObject({ view: 'side', from: 'from the floor up' });
  expect(tapeOf(height).up).toBeCloseTo(value(height), 9);
  expect(tapeOf(height).across).toBeCloseTo(0, 9);
  const run = `${LOWER}.chassis.at[0]`;
  expect(drawingOf(run)).toMatchObject({
    view: 'side',
    from: 'from the middle of the front axle rearward',
  });
  expect(tapeOf(run).across).toBeCloseTo(value(run), 9);
  expect(tapeOf(run).up).toBeCloseTo(0, 9);
});

test('sideways it is seen from ahead, a bar across from above and from ahead, the rear from its own axle', () => {
  expect(drawingOf(`${LOWER}.axle.at[1]`)).toMatchObject({
    view: 'front',
    from: 'from the middle of the vehicle to the left',
  });
  const bar = 'axles["front"].links["track bar"].axle.at';
  expect(drawingOf(`${bar}[0]`)).toMatchObject({ view: 'top' });
  expect(drawingOf(`${bar}[1]`)).toMatchObject({
    view: 'front',
    from: 'from the middle of the vehicle to the right',
  });
  expect(drawingOf(`${bar}[2]`)).toMatchObject({ view: 'front', from: 'from the floor up' });
  const rear = 'axles["rear"].links["rear lower link"].chassis.at.by[0]';
  expect(drawingOf(rear)).toMatchObject({ from: 'from the middle of the rear axle forward' });
});

test('a frame that is going up is drawn up, from the floor still; what is taped from a part starts there', () => {
  const height = `${LOWER}.chassis.at[2]`;
  expect(drawingOf(height, proposed('4'))).toMatchObject({ from: 'from the floor up' });
  expect(tapeOf(height, proposed('4')).up).toBeCloseTo(tapeOf(height).up + 4, 9);
  const gear = 'solids["gear housing"].box.center.by[2]';
  expect(drawingOf(gear)).toMatchObject({ from: 'from its datum up' });
});

test('what is no place has its number over the part', () => {
  expect(drawingOf(`${LOWER}.tube.od`)).toMatchObject({ from: null });
  expect(drawingOf('axles["front"].joints["axle bushing"].limit')).toMatchObject({ from: null });
  expect(drawingOf('axles["front"].tire.diameter')).toMatchObject({ from: null });
});
