/** What findings and measures say on screens: from kind, parts and amount, in the page's unit. */
import { describe, expect, it } from 'vitest';
import type { Finding } from '../../../geometry/finding/finding.ts';
import {
  findingWords,
  gapOf,
  summaryWords,
  type Told,
} from '../../../src/app/words/findingWords.ts';
import { valueText, valueWords } from '../../../src/app/words/measureWords.ts';
import { poseLine, travelOf } from '../../../src/app/words/shopWords.ts';

const LEFT = { driverSide: 'left', unit: 'in' } as const;
const RIGHT_mm = { driverSide: 'right', unit: 'mm' } as const;

const finding = (kind: string, severity: Finding['severity'] = 'mustFix'): Finding => ({
  kind,
  severity,
  axle: 'front',
  parts: ['a', 'b'],
  pose: { left_in: 1, right_in: 0, steer: null, linkRoll_deg: null },
  where: '',
  amount: { value: 0.5, unit: 'in' },
  text: '',
  hangsOn: [],
  assumed: false,
});

describe('summaryWords', () => {
  it('counts what touches, what is close and what else must be fixed', () => {
    const all = [
      ...Array.from({ length: 2 }, () => finding('partsTouch')),
      ...Array.from({ length: 3 }, () => finding('gapShort', 'watch')),
    ];
    expect(summaryWords(all, true)).toBe('Two touch, three close.');
    expect(summaryWords([...all, finding('slackUsedUp')], false)).toBe(
      'Two touch, three close, one more to fix so far.',
    );
  });
  it('does not call an axle clear or safe where nothing is found', () => {
    expect(summaryWords([], true)).toBe('Nothing found that touches.');
    expect(summaryWords([], false)).toBe('Nothing touches so far.');
  });
});

describe('findingWords', () => {
  it('names the wheel of a measure that leaves its band, as the driver sits', () => {
    const told = { shop: RIGHT_mm, build: { wanted: { bands: [] } }, axle: {} } as unknown as Told;
    const band: Finding = { ...finding('outOfBand', 'watch'), parts: [], side: 'left' };
    expect(findingWords(told, band).title).toBe('Value on the passenger side out of its band');
  });
});

describe('gapOf', () => {
  it('tells an overlap as a negative gap, and none for what is no gap', () => {
    expect(gapOf(finding('partsTouch'))).toBe(-0.5);
    expect(gapOf(finding('gapShort'))).toBe(0.5);
    expect(gapOf(finding('nearLimit'))).toBeNull();
  });
});

describe('poseLine', () => {
  it('names the seats, whatever side the driver sits on', () => {
    expect(poseLine(LEFT, 8.875, -9.375, 'full right')).toBe(
      'Driver 8 7/8 up, passenger 9 3/8 down, full right',
    );
    expect(poseLine(RIGHT_mm, 1, -2, '')).toBe('Driver 50.8 down, passenger 25.4 up');
    expect(poseLine(LEFT, 5, 5, '')).toBe('Both wheels 5 up');
    expect(poseLine(LEFT, 0, 0, 'full left')).toBe('Ride height, full left');
  });
  it('calls an axle flexed where one wheel is up and the other down', () => {
    expect(travelOf(LEFT, 8, -9).isFlexed).toBe(true);
    expect(travelOf(LEFT, 8, 1).isFlexed).toBe(false);
    expect(travelOf(LEFT, 0.5, -0.5).isFlexed).toBe(false);
  });
});

describe('valueWords', () => {
  it('says directions in place of signs, and none at zero', () => {
    expect(valueText(LEFT, 'axleSteer', -2, 'deg')).toBe('2.0° right');
    expect(valueText(LEFT, 'axleSteer', -0.04, 'deg')).toBe('0.0°');
    expect(valueText(LEFT, 'pinionAngle', 9, 'deg')).toBe('9.0° up');
    expect(valueText(LEFT, 'caster', -1.25, 'deg')).toBe('−1.3°');
    expect(valueText(LEFT, 'axleSteerByRoll', -0.121, 'deg/deg')).toBe('−0.12° per °');
  });
  it('keeps the fraction apart, and turns left and right of a shift into seats', () => {
    expect(valueWords(LEFT, 'lateralShift', 1.5625, 'in')).toEqual({
      whole: '1',
      fraction: '9/16',
      after: 'in toward driver',
    });
    expect(valueText(RIGHT_mm, 'lateralShift', 1, 'in')).toBe('25.4 mm toward passenger');
  });
  it('rounds forces to what rates are known to', () => {
    expect(valueText(LEFT, 'bind', 1234.5, 'lbf')).toBe('1,230 lbf');
    expect(valueText(LEFT, 'brakeAntiDive', -12.4, '%')).toBe('−12 %');
  });
});
