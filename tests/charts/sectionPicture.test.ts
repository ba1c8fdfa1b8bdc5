/** How a section lies on its picture: upright by quarters, with names in their own areas. */
import { describe, expect, it } from 'vitest';
import type { Outline } from '../../src/charts/contours.ts';
import type { Section } from '../../src/charts/section.ts';
import { isIn } from '../../src/charts/sectionNames.ts';
import { pictureOf } from '../../src/charts/sectionPicture.ts';

const box = (x0: number, y0: number, x1: number, y1: number): Outline => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
];

const section = (a: Outline, b: Outline, up: readonly [number, number] = [0, 1]): Section => ({
  plane: { origin: [0, 0, 0], across: [1, 0, 0], along: [0, 0, 1] },
  half: 2,
  a: [a],
  b: [b],
  gap: 0.5,
  pointA: [-0.25, 0],
  pointB: [0.25, 0],
  up,
});
const NAMES: readonly [string, string] = ['gear housing', 'tire'];
const apart = (up?: readonly [number, number]) =>
  pictureOf(section(box(-4, -4, -0.25, 4), box(0.25, -4, 4, 4), up), 200, 150, NAMES);

describe('pictureOf', () => {
  it('shows half of its size from the middle to the shorter side', () => {
    const { scale, pointA, pointB } = apart();
    expect(scale).toBeCloseTo(150 / 4, 9);
    expect(pointB[0] - pointA[0]).toBeCloseTo(0.5 * scale, 9);
    expect(pointA[1]).toBeCloseTo(75, 9);
  });
  it.each([
    [
      [0, 1],
      [1, 0],
    ],
    [
      [0.6, -0.8],
      [-1, 0],
    ],
    // the second part lies above the first: on the picture too, where y runs down
    [
      [0.9, 0.1],
      [0, -1],
    ],
    [
      [-0.9, 0.1],
      [0, 1],
    ],
    [
      [0, 0],
      [1, 0],
    ],
  ] as const)('turns %o upright', (up, across) => {
    const picture = apart(up);
    expect(picture.across[0]).toBeCloseTo(across[0], 9);
    expect(picture.across[1]).toBeCloseTo(across[1], 9);
  });
  it('puts each name into its own area, shortened where that is narrow', () => {
    const { nameA, nameB, a, b } = apart();
    expect(nameA?.text).toBe('housing');
    expect(nameB?.text).toBe('tire');
    expect(nameA && isIn(a, nameA.at[0], nameA.at[1])).toBe(true);
    expect(nameB && isIn(b, nameB.at[0], nameB.at[1])).toBe(true);
  });
  it('names what is thin beside it', () => {
    const sheet = box(-0.3, -4, -0.25, 4);
    const picture = pictureOf(section(sheet, box(0.25, -4, 4, 4)), 200, 150, NAMES);
    const at = picture.nameA?.at;
    expect(at && !isIn(picture.a, at[0], at[1]) && !isIn(picture.b, at[0], at[1])).toBe(true);
    expect(picture.nameA?.text).toBe('gear housing');
  });
  it('shortens what is named beside too, where that has more room', () => {
    const sheet = box(-0.3, -4, -0.25, 4);
    const picture = pictureOf(section(sheet, box(-0.2, -4, 4, 4)), 150, 120, NAMES);
    expect(picture.nameA?.text).toBe('housing');
  });
  it('lets no outline cross the one word of what is lower than a line', () => {
    // at 37.5 px an inch 0.3 in is 11 px high, and a name 18
    const sheet = box(-4, 0.25, 4, 0.55);
    const under = box(-4, -4, 4, -1.2);
    const { a, b, nameA } = pictureOf(section(sheet, under), 200, 150, ['fender', 'tire']);
    const [x, y] = nameA?.at ?? [0, 0];
    expect(nameA?.text).toBe('fender');
    for (const corner of [-9, 9]) {
      expect(isIn(a, x, y + corner) || isIn(b, x, y + corner)).toBe(false);
    }
    expect(isIn(a, x, y)).toBe(false);
  });
});

describe('isIn', () => {
  it('counts a hole as outside', () => {
    const ring = [box(0, 0, 10, 10), box(4, 4, 6, 6)];
    expect(isIn(ring, 2, 2)).toBe(true);
    expect(isIn(ring, 5, 5)).toBe(false);
    expect(isIn(ring, 11, 5)).toBe(false);
  });
});
