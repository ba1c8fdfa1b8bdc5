/** Answers between fields and build, and a tape in another unit. */
import { expect, test } from 'vitest';
import { readAnswers, type Start } from '../../../geometry/build/start/answers.ts';
import { axleChoice } from '../../../geometry/build/start/layouts.ts';
import { answerOf, draftOf, inUnit } from '../../../src/app/tape/tapeState.ts';

const start: Start = {
  name: 'truck',
  unit: 'in',
  layout: { axles: [axleChoice('front')], driverSide: 'left' },
  stands: { rise: '2 1/2', rake: '1 deg' },
  answers: {
    wheelbase: { value: '112 1/4' },
    'front.tireHeight': { value: '1010 mm' },
    'front.wheelHeight': { value: { left: '18 1/2', right: '18 3/8' } },
    'front.lowerFrameHeight': { value: '-3', from: 'railBottom' },
    'front.pinionAngle': { value: '7' },
  },
};

test('another unit for the tape changes nothing that was taped', () => {
  const before = readAnswers(start);
  const after = readAnswers(inUnit(start, 'mm'));
  expect(before.problems).toEqual([]);
  expect(after.problems).toEqual([]);
  const amounts = (read: typeof before): unknown =>
    [...read.read].map(([id, { left, right, from }]) => [id, left, right, from]);
  expect(amounts(after)).toEqual(amounts(before));
  // without it 112 1/4 would be read in millimeters
  expect(readAnswers({ ...start, unit: 'mm' }).problems.length).toBeGreaterThan(0);
  expect(inUnit(start, 'mm').stands).toEqual({ rise: '2 1/2 in', rake: '1 deg' });
});

test.each(Object.entries(start.answers))('%s goes into its fields and back', (_, answer) => {
  expect(answerOf(draftOf(answer))).toEqual(answer);
});

test('empty fields are no answer', () => {
  expect(answerOf(draftOf(undefined))).toBeNull();
  expect(answerOf({ left: ' ', right: '', from: 'floor' })).toBeNull();
});
