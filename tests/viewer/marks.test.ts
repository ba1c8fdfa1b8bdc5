import { describe, expect, it } from 'vitest';
import { pairsOf } from '../../geometry/gap/pairs.ts';
import { directionOf } from '../../src/viewer/framing.ts';
import { gridOf } from '../../src/viewer/marks/gridLines.ts';
import { labelsOf } from '../../src/viewer/marks/labels.ts';
import { type Box, settle } from '../../src/viewer/marks/settle.ts';
import { Spots } from '../../src/viewer/marks/spots.ts';
import { Placed } from '../../src/viewer/placed.ts';
import { isFrame, plainShowing, showingOf } from '../../src/viewer/showing.ts';
import { clearestDirection } from '../../src/viewer/sight.ts';
import { standPoints } from '../../src/viewer/standPoints.ts';
import { smaller } from '../../src/viewer/TouchMarker.tsx';
import { EXAMPLES, open } from './opened.ts';

const box = (x: number, y: number): Box => ({
  x,
  y,
  width: 80,
  height: 17,
  at: 0,
  isShown: true,
});

describe('labels', () => {
  it('lie on no other label, the first one where it wants to be', () => {
    const boxes = [box(100, 100), box(120, 104), box(90, 98), box(100, 101), box(500, 100)];
    settle(boxes);
    expect(boxes[0]?.at).toBe(100);
    expect(boxes[4]?.at).toBe(100);
    const shown = boxes.filter(each => each.isShown);
    expect(shown.length).toBe(5);
    for (const [i, a] of shown.entries()) {
      for (const b of shown.slice(i + 1)) {
        const apart = Math.abs(a.x - b.x) >= 80 || Math.abs(a.at - b.at) >= 17;
        expect(apart).toBe(true);
      }
    }
  });

  it('leave out what finds no room', () => {
    const boxes = Array.from({ length: 30 }, () => box(100, 100));
    settle(boxes);
    expect(boxes.filter(each => each.isShown).length).toBe(8);
  });

  it('name one thing once, by the side that the driver sits on', () => {
    const { build, axle, parts } = open('long-arm-front');
    const shop = { driverSide: 'left', unit: 'in' } as const;
    const texts = labelsOf(shop, axle, parts, true, null).map(({ text }) => text);
    expect(texts).toContain('Driver lower link');
    expect(texts.filter(text => text === 'Driver shock')).toHaveLength(1);
    expect(new Set(texts).size).toBe(texts.length);
    expect(labelsOf(shop, axle, parts, false, null)).toEqual([]);
    const chosen = labelsOf(shop, axle, parts, false, 'oil pan');
    expect(chosen.map(({ text }) => text)).toEqual(['Oil pan']);
    expect(build.driverSide).toBe('left');
  });
});

describe('the dimension grid', () => {
  const asked = {
    x: 500,
    y: 300,
    perInch: 4,
    unit: 'in',
    isFine: false,
    width: 1000,
    height: 430,
  } as const;

  it('has a line each foot, counted from zero both ways', () => {
    const { lines, numbers } = gridOf(asked);
    const up = lines.filter(({ way }) => way === 'up').map(({ at }) => at);
    expect(up).toContain(500);
    expect(up[1] as number).toBeCloseTo((up[0] as number) + 48, 9);
    const text = (at: number) => numbers.find(each => each.way === 'up' && each.at === at)?.text;
    expect(text(500)).toBe('0');
    expect(text(500 + 48 * 3)).toBe('36');
    expect(text(500 - 48 * 3)).toBe('36');
  });

  it('counts in millimeters', () => {
    const { numbers } = gridOf({ ...asked, unit: 'mm' });
    const at = 500 + (200 / 25.4) * 4;
    const near = numbers.find(each => each.way === 'up' && Math.abs(each.at - at) < 1e-9);
    expect(near?.text ?? '200').toBe('200');
    expect(numbers.every(({ text }) => Number(text) % 200 === 0)).toBe(true);
  });

  it('thins numbers out where they would run into each other', () => {
    const { numbers } = gridOf({ ...asked, perInch: 0.7 });
    const at = numbers.filter(({ way }) => way === 'up').map(each => each.at);
    for (let i = 1; i < at.length; i++) {
      expect((at[i] as number) - (at[i - 1] as number)).toBeGreaterThanOrEqual(33);
    }
  });
});

describe('spots', () => {
  const { build, axle, parts, model } = open('long-arm-front');
  const two = (a: string, b: string) => {
    const found = pairsOf(
      build,
      axle.name,
      parts.filter(({ name }) => name === a || name === b),
    );
    return found.pairs;
  };

  it('follow the pose, and are computed once a pose', () => {
    const spots = new Spots(two('drag link', 'differential'));
    const placed = new Placed(parts);
    placed.stand(model.ride);
    spots.update(placed);
    const [spot] = spots.spots;
    const atRide = spot?.gap;
    placed.stand(model.near(model.ride, 4, 4, 0).pose);
    spots.update(placed);
    expect(spot?.gap).not.toBe(atRide);
    // both wheels up, the drag link enters the differential: what the example is for
    expect(spot?.gap).toBeLessThan(0);
    const { a, b, gap } = spot as NonNullable<typeof spot>;
    expect(Math.hypot(a.x - b.x, a.y - b.y, a.z - b.z)).toBeCloseTo(Math.abs(gap), 6);
  });

  it('mark the slimmer part, and the other part of a tire', () => {
    const spots = new Spots([
      ...two('drag link', 'differential'),
      ...two('left tire', 'gear housing'),
    ]);
    expect(spots.spots.map(spot => smaller(spot).name)).toEqual(['drag link', 'gear housing']);
  });
});

describe('how parts are shown', () => {
  const { axle, parts, model } = open('long-arm-front');
  const of = (name: string) => {
    const part = parts.find(each => each.name === name);
    if (!part) throw new Error(`no ${name}`);
    return part;
  };

  it('sees through the frame, and more through what stands before the axle or above it', () => {
    expect(plainShowing(of('track bar'), axle)).toBe('solid');
    expect(plainShowing(of('left rail'), axle)).toBe('frame');
    expect(plainShowing(of('bumper'), axle)).toBe('faint');
    expect(plainShowing(of('left fender'), axle)).toBe('faint');
  });

  it('hides over all else, marks a touch over what is chosen', () => {
    const none = {
      hidden: new Set<string>(),
      ghosted: new Set<string>(),
      part: null,
      touching: null,
    };
    const part = of('track bar');
    expect(showingOf(part, 'solid', none)).toBe('solid');
    expect(showingOf(part, 'solid', { ...none, ghosted: new Set(['track bar']) })).toBe('ghost');
    const chosen = { ...none, part: 'track bar', touching: 'track bar' };
    expect(showingOf(part, 'solid', chosen)).toBe('touch');
    expect(showingOf(part, 'solid', { ...chosen, hidden: new Set(['track bar']) })).toBe(null);
  });

  it('looks at a spot from where fewer parts are in the way', () => {
    const placed = new Placed(parts);
    placed.stand(model.ride);
    // inboard of the left tire: from outboard the tire hides it
    const direction = clearestDirection([0, 26, 20], parts, placed.places, part => !isFrame(part), [
      [0, 1, 0],
      [0.94, -0.3, 0.16],
    ]);
    expect(direction[1]).toBe(-0.3);
    expect(directionOf('corner', 'front', 'left')[0]).toBeGreaterThan(0);
  });
});

describe.each(EXAMPLES)('stands of %s', example => {
  it('hold the frame from below, on both sides or not at all', () => {
    const { axle, parts } = open(example);
    const points = standPoints(axle, parts);
    for (const [, y] of points) expect(Math.abs(y)).toBeGreaterThan(6);
    expect([0, 2]).toContain(points.length);
    const [first, second] = points;
    if (first && second) expect(first[1]).toBeCloseTo(-second[1], 6);
  });
});
