import { describe, expect, test } from 'vitest';
import { piecesOf, signed } from '../../../src/app/compare/compareWords.ts';

const shop = { driverSide: 'left', unit: 'in' } as const;

describe('a sentence in its pieces', () => {
  test('what differs, both values, where', () => {
    expect(
      piecesOf(
        'With short arms, the axle steers 0.8° more (a cost): 2.6° to the right against 1.8° to the right, flexed, driver side 8 3/4 up, passenger side 8 3/4 down.',
      ),
    ).toEqual({
      lead: 'The axle steers 0.8° more',
      values: '2.6° to the right against 1.8° to the right',
      where: 'flexed, driver side 8 3/4 up, passenger side 8 3/4 down',
    });
  });

  test('a name with a comma, and a pair with one', () => {
    const { lead } = piecesOf(
      'With short arms, there is 1/4 in less room between the driver tire and the gear housing (a cost): 1 3/8 in of overlap against 1 1/8 in of overlap, at the tightest pose of each, parts rigid.',
    );
    expect(lead).toBe('There is 1/4 in less room between the driver tire and the gear housing');
  });
});

describe('a difference with its sign', () => {
  test('of lengths, angles and shares', () => {
    expect(signed(shop, -0.75, 'in')).toBe('−3/4 in');
    expect(signed(shop, 1.26, 'deg')).toBe('+1.3°');
    expect(signed(shop, 12, '%')).toBe('+12 points');
    expect(signed(shop, 0, 'deg')).toBe('nothing');
  });
});
