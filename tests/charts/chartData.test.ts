import { describe, expect, it } from 'vitest';
import {
  between,
  briefNames,
  joined,
  onAxis,
  resampled,
  spread,
  tableText,
  tapeMark,
} from '../../src/charts/chartData.ts';

describe('onAxis', () => {
  const spot = { driver: 4, passenger: -2, inner: 12 };
  it('tells a pose by its mean travel, by its flex or by the inner tire', () => {
    expect(onAxis('both', spot)).toBe(1);
    expect(onAxis('flexed', spot)).toBe(3);
    expect(onAxis('steering', spot)).toBe(12);
  });
});

describe('between', () => {
  const x = [-4, -1, 0, 2];
  it('finds a place and its share, and holds at the ends', () => {
    expect(between(x, 1)).toEqual({ index: 2, share: 0.5 });
    expect(between(x, -4)).toEqual({ index: 0, share: 0 });
    expect(between(x, 9)).toEqual({ index: 2, share: 1 });
    expect(between(x, -9)).toEqual({ index: 0, share: 0 });
    expect(between([3], 3)).toEqual({ index: 0, share: 0 });
  });
});

describe('tapeMark', () => {
  it.each([
    [0, '0'],
    [-0.5, '½'],
    [1.25, '1¼'],
    [3, '3'],
    [-2.75, '2¾'],
    [0.1, '0.1'],
  ])('%d', (value, text) => expect(tapeMark(value)).toBe(text));
});

describe('spread', () => {
  it('leaves what stands apart, moves what does not, and keeps within', () => {
    expect(spread([10, 50], 15, 0, 100)).toEqual([10, 50]);
    expect(spread([50, 48], 15, 0, 100)).toEqual([63, 48]);
    expect(spread([99, 98], 15, 0, 100)).toEqual([100, 85]);
  });
});

describe('tableText', () => {
  it('quotes heads with commas and leaves missing values empty', () => {
    const text = tableText([
      { head: 'left (in)', values: [1, 2] },
      { head: 'a "b", c', values: [Number.NaN, 0.5] },
    ]);
    expect(text).toBe('left (in),"a ""b"", c"\n1,\n2,0.5\n');
  });
});

describe('briefNames', () => {
  it('leaves away what all names end with, and never a whole name', () => {
    expect(briefNames(['driver shock', 'passenger shock'])).toEqual(['driver', 'passenger']);
    expect(briefNames(['driver side', 'driver side'])).toEqual(['driver', 'driver']);
    expect(briefNames(['track bar', 'lower link'])).toEqual(['track bar', 'lower link']);
    expect(briefNames(['driver shock'])).toEqual(['driver shock']);
  });
});

describe('two lines over one axis', () => {
  it('places of both, each once, ascending', () => {
    expect([...joined([-1, 0, 2], [-2, 0, 1])]).toEqual([-2, -1, 0, 1, 2]);
  });

  it('values at other places: its own where it has one, straight in between, none beyond', () => {
    const x = [-1, 0, 2];
    const values = [4, 0, 6];
    expect([...resampled(x, values, [-2, -1, -0.5, 0, 1, 2, 3])]).toEqual([
      Number.NaN,
      4,
      2,
      0,
      3,
      6,
      Number.NaN,
    ]);
    expect([...resampled([], [], [0])]).toEqual([Number.NaN]);
  });
});
