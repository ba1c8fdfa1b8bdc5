import { describe, expect, test } from 'vitest';
import { readOffset } from '../../src/app/edit/typeOffset.ts';

const seats = { driver: 1, passenger: -1 } as const;

describe('an offset as it is typed', () => {
  test.each([
    ['5 1/2', 2, -1, '5 1/2', -1],
    ['5 1/2 up', 2, -1, '5 1/2', 1],
    ['5 1/2 below', 2, 1, '5 1/2', -1],
    ['-5 1/2', 2, -1, '5 1/2', 1],
    ['- 5 1/2', 2, 1, '5 1/2', -1],
    ['12 in rearward', 0, 1, '12 in', -1],
    ['12 in', 0, 1, '12 in', 1],
    ['3 forward of it', 0, -1, '3', 1],
    ['2 passenger side', 1, 1, '2', -1],
    ['2 to the driver side', 1, -1, '2', 1],
    ['2 outboard', 1, -1, '2', 1],
    ['railFace + 2', 1, -1, 'railFace + 2', -1],
    ['-railFace + 2', 1, -1, '-railFace + 2', -1],
    ['railFace', 0, 1, 'railFace', 1],
  ] as const)('%s', (text, axis, way, typed, to) => {
    expect(readOffset(text, axis, way, seats)).toEqual({ typed, way: to });
  });
});
