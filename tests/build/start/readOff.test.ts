/** What was taped is what the drawing of the proposal reads. */
import { expect, test } from 'vitest';
import { type Answer, readAnswer } from '../../../geometry/build/start/answers.ts';
import { axleChoice, linkLayouts } from '../../../geometry/build/start/layouts.ts';
import { measurementsFor } from '../../../geometry/build/start/measurements.ts';
import { propose } from '../../../geometry/build/start/propose.ts';
import { readOff } from '../../../geometry/build/start/readOff.ts';

test.each(linkLayouts.map(({ id }) => id))('%s', links => {
  const layout = {
    axles: [axleChoice('front', { links }), axleChoice('rear', { links })],
    driverSide: 'left' as const,
  };
  const asked = measurementsFor(layout);
  const start = { name: 'truck', unit: 'in' as const, layout };
  const bare = propose({ ...start, answers: {} });
  const answers: Record<string, Answer> = {};
  // everything as proposed, a quarter of an inch or of a degree more
  for (const each of asked) {
    const value = readOff(each, bare);
    expect(value, each.id).not.toBeNull();
    const isAngle = each.dimension === 'angle';
    const more = ((value ?? 0) * (isAngle ? 180 / Math.PI : 1) + 0.25).toFixed(3);
    answers[each.id] = { value: isAngle ? `${more} deg` : more };
  }
  const taped = propose({ ...start, answers });
  expect(taped.problems).toEqual([]);
  for (const each of asked) {
    const read = readAnswer(each, answers[each.id] as Answer, 'in');
    if (!read.ok) throw new Error(`${each.id} is plausible`);
    // to what three digits behind the point leave, of inches and of degrees
    const scale = each.dimension === 'angle' ? 180 / Math.PI : 1;
    expect((readOff(each, taped) ?? 0) * scale, each.id).toBeCloseTo(read.answer.left * scale, 2);
  }
});

test('what a rule stands in for is told, and only while it does', () => {
  const layout = { axles: [axleChoice('front')], driverSide: 'left' as const };
  const start = { name: 'truck', unit: 'in' as const, layout };
  const told = (answers: Record<string, Answer>) =>
    propose({ ...start, answers }).rules.flatMap(({ measurement }) => measurement ?? []);
  const ids = measurementsFor(layout).map(({ id }) => id);
  expect(ids.filter(id => !told({}).includes(id))).toEqual([]);
  const answered = told({ 'front.lowerFrameHeight': { value: '22' } });
  expect(answered).not.toContain('front.lowerFrameHeight');
  expect(answered).toContain('front.lowerLength');
});
