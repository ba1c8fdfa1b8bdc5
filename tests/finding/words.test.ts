import { describe, expect, test } from 'vitest';
import {
  amountWords,
  lengthWords,
  listed,
  partWords,
  poseWords,
  riseWords,
  type Shop,
  sentence,
  travelWords,
} from '../../geometry/finding/words.ts';
import { longArms } from '../pose/layouts.ts';

const us: Shop = { driverSide: 'left', unit: 'in' };
const metric: Shop = { driverSide: 'right', unit: 'mm' };

test.each<[Shop, number, number, string]>([
  [us, 0, 0, 'ride height'],
  [us, 5, 5, 'both wheels 5 up'],
  [us, -5.1875, -5.19, 'both wheels 5 3/16 down'],
  [us, 6, -5.1875, 'driver side 6 up, passenger side 5 3/16 down'],
  [us, 0, -2, 'driver side at ride height, passenger side 2 down'],
  // under half of a sixteenth is ride height
  [us, 0.03, -0.03, 'ride height'],
  [metric, 6, -5, 'driver side 127 down, passenger side 152.4 up'],
])('travel %# in words', (shop, left, right, words) => {
  expect(travelWords(shop, left, right)).toBe(words);
});

test.each<
  [Shop, Parameters<typeof poseWords>[1]['steer'], Parameters<typeof poseWords>[2], string]
>([
  [us, null, 'straight', 'both wheels 5 up'],
  [us, { value: 0, unit: 'deg' }, 'straight', 'both wheels 5 up, wheels straight'],
  [us, { value: 38.2, unit: 'deg' }, 'full left', 'both wheels 5 up, full left'],
  [us, { value: -38.2, unit: 'deg' }, 'full right', 'both wheels 5 up, full right'],
  [us, { value: -12.34, unit: 'deg' }, 'between', 'both wheels 5 up, pitman arm 12.3° right'],
  [us, { value: 1.5, unit: 'in' }, 'between', 'both wheels 5 up, ram 1 1/2 in left'],
])('steering %# in words', (shop, steer, lock, words) => {
  expect(poseWords(shop, { left_in: 5, right_in: 5, steer, linkRoll_deg: null }, lock)).toBe(words);
});

describe('parts in words', () => {
  const axle = longArms();
  test.each([
    ['upper link', 'upper link'],
    ['left lower link', 'driver lower link'],
    ['right lower link.axle', 'axle end of the passenger lower link'],
    ['left radius arm.axle front', 'front axle joint of the driver radius arm'],
    ['drag link.from', 'pitman arm end of the drag link'],
    ['drag link.to', 'passenger knuckle end of the drag link'],
    ['tie rod.from', 'driver knuckle end of the tie rod'],
    ['driveshaft.transfer case', 'U-joint at the transfer case'],
    ['left knuckle', 'driver knuckle'],
    ['steering box', 'steering box'],
  ])('%s', (part, words) => {
    expect(partWords(us, axle, part)).toBe(words);
  });

  test('the driver sits on the side that the build says', () => {
    expect(partWords(metric, axle, 'left lower link')).toBe('passenger lower link');
  });
});

test.each<[Shop, number, string, string]>([
  [us, 0.3125, 'in', '5/16 in'],
  [us, 0.012, 'in', '0.012 in'],
  [us, 0, 'in', '0 in'],
  [metric, 0.3125, 'in', '7.9 mm'],
  [us, 1.84, 'deg', '1.8°'],
  [us, 12.4, '%', '12 %'],
  [us, 1234.5, 'lbf', '1,230 lbf'],
  [us, 43.25, 'ft', '43.3 ft'],
  [us, 0.3412, '1', '0.34'],
  [us, 0.3412, 'deg/deg', '0.341 deg/deg'],
])('%# %d %s', (shop, value, unit, words) => {
  expect(amountWords(shop, value, unit)).toBe(words);
});

test('small helpers', () => {
  expect(riseWords(us, -0.02)).toBe('at ride height');
  expect(lengthWords(us, 12)).toBe('12 in');
  expect(listed(['a'])).toBe('a');
  expect(listed(['a', 'b', 'c'])).toBe('a, b and c');
  expect(sentence('the axle')).toBe('The axle');
});
