/** Drawings of layouts and of where to tape: everything lies within them, and they show what differs. */
import { expect, test } from 'vitest';
import { readBuild } from '../../geometry/build/read.ts';
import {
  axleChoice,
  linkLayouts,
  type StartLayout,
  steeringLayouts,
} from '../../geometry/build/start/layouts.ts';
import { measurementsFor } from '../../geometry/build/start/measurements.ts';
import { propose } from '../../geometry/build/start/propose.ts';
import { layoutPicture } from '../../src/charts/layoutPicture.ts';
import type { Mark, Spot } from '../../src/charts/marks.ts';
import { type Drawn, tapeDrawing } from '../../src/charts/tapeDrawing.ts';

function drawn(layout: StartLayout): Drawn {
  const { file, anchors } = propose({ name: 'drawn', unit: 'in', layout, answers: {} });
  const read = readBuild(JSON.stringify(file));
  if (!read.ok) throw new Error('the proposal is read');
  return { axles: read.build.axles, solids: read.build.solids, anchors };
}

const spotsOf = (mark: Mark): readonly Spot[] =>
  mark.kind === 'line'
    ? mark.points
    : mark.kind === 'box'
      ? [mark.at, sum(mark.at, mark.size)]
      : [mark.at];
const sum = (a: Spot, b: Spot): Spot => [a[0] + b[0], a[1] + b[1]];

function expectWithin(marks: readonly Mark[], width: number, height: number): void {
  for (const [x, y] of marks.flatMap(spotsOf)) {
    expect(x).toBeGreaterThanOrEqual(-0.01);
    expect(x).toBeLessThanOrEqual(width + 0.01);
    expect(y).toBeGreaterThanOrEqual(-0.01);
    expect(y).toBeLessThanOrEqual(height + 0.01);
  }
}

test.each(
  linkLayouts.flatMap(({ id }) => (['front', 'rear'] as const).map(name => [name, id] as const)),
)('%s %s: every measurement is drawn, with one tag', (name, links) => {
  const layout: StartLayout = { driverSide: 'left', axles: [axleChoice(name, { links })] };
  const all = drawn(layout);
  for (const measurement of measurementsFor(layout)) {
    const { width, height, marks } = tapeDrawing(all, measurement.view, [
      { measurement, text: 'here' },
    ]);
    expectWithin(marks, width, height);
    expect(
      marks.filter(({ kind }) => kind === 'tag'),
      measurement.id,
    ).toHaveLength(1);
    const tape = marks.filter(mark => mark.kind !== 'tag' && mark.tone === 'tape');
    expect(tape.length, measurement.id).toBeGreaterThan(2);
  }
});

test('a height from the rail is drawn from the rail', () => {
  const layout: StartLayout = { driverSide: 'left', axles: [axleChoice('front')] };
  const all = drawn(layout);
  const measurement = measurementsFor(layout).find(({ id }) => id === 'front.lowerFrameHeight');
  if (!measurement) throw new Error('it is asked');
  const from = (datum: 'floor' | 'railBottom'): number => {
    const { marks } = tapeDrawing(all, 'side', [{ measurement, text: '', datum }]);
    const dashes = marks.flatMap(each =>
      each.kind === 'line' && each.tone === 'tape' && each.width === 2 ? [each.points] : [],
    );
    return dashes[0]?.[0]?.[1] ?? Number.NaN;
  };
  const rail = all.anchors['front rail bottom']?.[2] ?? 0;
  const { floor } = tapeDrawing(all, 'side', []);
  expect(from('floor')).toBeCloseTo(floor, 6);
  expect(from('railBottom')).toBeLessThan(floor - rail);
});

test('pictures of layouts lie within themselves, and no two are alike', () => {
  const pictures = [
    ...linkLayouts.map(({ id }) => [axleChoice('front', { links: id }), 'links'] as const),
    ...steeringLayouts.map(
      ({ id }) => [axleChoice('front', { steering: id }), 'steering'] as const,
    ),
  ].map(([choice, about]) => {
    const [axle] = drawn({ driverSide: 'left', axles: [choice] }).axles;
    if (!axle) throw new Error('an axle');
    return layoutPicture(axle, about);
  });
  for (const { width, height, marks } of pictures) expectWithin(marks, width, height);
  const told = pictures.map(({ marks }) => JSON.stringify(marks));
  expect(new Set(told).size).toBe(told.length);
});
