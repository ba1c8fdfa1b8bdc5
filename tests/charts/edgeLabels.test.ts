/** The travel edge in stretches and the labels along it: outside, readable, free of each other. */
import { describe, expect, test } from 'vitest';
import type { EdgePoint } from '../../geometry/cycle/edge.ts';
import { cornersOf, isWithin, meets, overlap, type Point } from '../../src/charts/boxes.ts';
import { type EdgeLabel, placeLabels, pointAt, wrapped } from '../../src/charts/edgeLabels.ts';
import { edgeStretches } from '../../src/charts/edgeStretches.ts';
import { placePins } from '../../src/charts/pins.ts';

const point = (left: number, right: number, part: string): EdgePoint => ({
  left,
  right,
  by: 'shockLong',
  part,
  side: 'left',
});

describe('edgeStretches', () => {
  test('cuts where the stop changes, also over the seam of the curve', () => {
    const edge = [
      point(0, 0, 'a'),
      point(1, 0, 'b'),
      point(2, 0, 'b'),
      point(2, 2, 'c'),
      point(0, 2, 'a'),
    ];
    const found = edgeStretches(edge);
    expect(found.map(({ part }) => part)).toEqual(['b', 'c', 'a']);
    expect(found[2]?.points).toEqual([
      { left: 0, right: 2 },
      { left: 0, right: 0 },
      { left: 1, right: 0 },
    ]);
    // all of the edge once, each stretch up to where the next begins
    expect(found.reduce((sum, { points }) => sum + points.length - 1, 0)).toBe(edge.length);
  });

  test('one stop all around is one closed stretch, and an empty edge none', () => {
    const found = edgeStretches([point(0, 0, 'a'), point(1, 0, 'a'), point(0, 1, 'a')]);
    expect(found.length).toBe(1);
    expect(found[0]?.points.length).toBe(4);
    expect(edgeStretches([])).toEqual([]);
  });
});

describe('boxes', () => {
  const box = (x: number, y: number, width: number, height: number, angle = 0) => ({
    x,
    y,
    width,
    height,
    angle,
  });

  test('turned boxes are told apart where upright ones around them would not be', () => {
    const slant = box(0, 0, 100, 10, Math.PI / 4);
    // beside the middle of the diagonal: within the upright box around it
    expect(overlap(slant, box(30, -30, 20, 20))).toBe(false);
    expect(overlap(slant, box(30, 30, 20, 20))).toBe(true);
    expect(overlap(box(0, 0, 10, 10), box(10, 0, 10, 10))).toBe(false);
  });

  test('a box meets a line that runs through it without a corner in either', () => {
    const cross: Point[] = [
      { x: -50, y: -1 },
      { x: 50, y: -1 },
      { x: 50, y: 1 },
      { x: -50, y: 1 },
    ];
    expect(meets(box(0, 0, 10, 10), cross)).toBe(true);
    expect(meets(box(0, 20, 10, 10), cross)).toBe(false);
  });
});

describe('placeLabels', () => {
  // a square of 200 px in the middle of a map of 300 px; right on screen first, then up
  const corners: Point[] = [
    { x: 50, y: 250 },
    { x: 250, y: 250 },
    { x: 250, y: 50 },
    { x: 50, y: 50 },
  ];
  const sides = corners.map((p, i) => [p, corners[(i + 1) % 4] as Point]);
  const room = { x: 0, y: 0, size: 300, lineHeight: 16, measure: (w: string) => 6 * w.length };

  function check(labels: readonly (EdgeLabel | null)[]): void {
    const placed = labels.flatMap(label => label ?? []);
    for (const [i, a] of placed.entries()) {
      for (const b of placed.slice(i + 1)) expect(overlap(a.box, b.box)).toBe(false);
      for (const { x, y } of cornersOf(a.box)) {
        expect(isWithin(corners, x, y)).toBe(false);
        expect(Math.min(x, y)).toBeGreaterThanOrEqual(0);
        expect(Math.max(x, y)).toBeLessThanOrEqual(300);
      }
      // never upside down
      expect(Math.abs(a.box.angle)).toBeLessThanOrEqual(Math.PI / 2);
    }
  }

  test('each side has its words along it, outside', () => {
    const labels = placeLabels(
      corners,
      sides.map(line => ({ line, words: ['Driver shock bottomed'] })),
      room,
    );
    expect(labels.every(label => label !== null && label.leader === null)).toBe(true);
    expect(labels.map(label => [label?.box.x, label?.box.y])).toEqual([
      [150, 262],
      [262, 150],
      [150, 38],
      [38, 150],
    ]);
    check(labels);
  });

  test('which way the edge runs does not matter', () => {
    const back = corners.toReversed();
    const line = [back[0] as Point, back[1] as Point];
    const [label] = placeLabels(back, [{ line, words: ['words'] }], room);
    expect(label && isWithin(corners, label.box.x, label.box.y)).toBe(false);
  });

  test('what is too long is shortened; what is too short stands beside with a leader', () => {
    const long = `${'Passenger shock bottomed far too long for it'}`;
    const short: Point[] = [
      { x: 250, y: 160 },
      { x: 250, y: 140 },
    ];
    const labels = placeLabels(
      corners,
      [
        { line: sides[0] ?? [], words: [long, 'Pass. shock bottomed'] },
        { line: short, words: ['Driver up'] },
        // no room for a word, nor for a line beside it
        {
          line: [
            { x: 250, y: 60 },
            { x: 250, y: 57 },
          ],
          words: ['Tiny'],
        },
      ],
      room,
    );
    expect(labels[0]?.lines).toEqual(['Pass. shock bottomed']);
    expect(labels[1]?.leader).not.toBeNull();
    expect(labels[2]).toBeNull();
    check(labels);
  });

  test('lines of a label beside the edge hold all of its words in order', () => {
    expect(wrapped('Passenger bump stop bottomed')).toEqual(['Passenger', 'bump stop', 'bottomed']);
    expect(wrapped('Driver strap')).toEqual(['Driver strap']);
  });

  test('a point at a length along a line, and at its end beyond it', () => {
    const line = [corners[0] as Point, corners[1] as Point, corners[2] as Point];
    expect(pointAt(line, 250)).toEqual({ x: 250, y: 200 });
    expect(pointAt(line, 1000)).toEqual({ x: 250, y: 50 });
  });
});

test('pins keep off each other, off the spots, and inside the range', () => {
  const square: Point[] = [
    { x: 0, y: 0 },
    { x: 200, y: 0 },
    { x: 200, y: 200 },
    { x: 0, y: 200 },
  ];
  const spot = { x: 199, y: 199 };
  const pins = placePins(
    [1, 2, 3, 4, 5].map(index => ({
      index,
      label: String(index),
      kind: 'touch',
      isGuess: false,
      step: 0,
      spot,
    })),
    { x: 100, y: 100 },
    (x, y) => isWithin(square, x, y),
  );
  for (const [i, { at }] of pins.entries()) {
    expect(isWithin(square, at.x, at.y)).toBe(true);
    expect(Math.hypot(at.x - spot.x, at.y - spot.y)).toBeGreaterThan(20);
    for (const other of pins.slice(i + 1)) {
      expect(Math.hypot(at.x - other.at.x, at.y - other.at.y)).toBeGreaterThanOrEqual(21);
    }
  }
});
