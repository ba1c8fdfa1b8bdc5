/** Drag link against track bar: plane angles of their pivot lines (derived). */
import { expect, test } from 'vitest';
import { link, longArms, rod } from '../pose/layouts.ts';
import {
  LONG,
  parallelLinks,
  plainAxle,
  plainSteering,
  read,
  slopeOfMeasure,
} from './closedForms.ts';
import { Vehicle } from './vehicles.ts';

test('slopes a and b in front view, c and d from above', () => {
  const dragLink = rod(
    'drag link',
    ['pitman arm', [180, 300, 560]],
    ['right knuckle', [150, -700, 500]],
  );
  const axle = plainAxle(
    [...parallelLinks(LONG), link('track bar', [50, -400, 500], [60, 500, 530])],
    { steering: plainSteering(dragLink) },
  );
  const ride = new Vehicle(axle).at(0, 0);
  expect(read(ride, 'dragLinkToTrackBarFront')).toBeCloseTo(
    Math.atan(60 / 1000) - Math.atan(30 / 900),
    9,
  );
  expect(read(ride, 'dragLinkToTrackBarPlan')).toBeCloseTo(
    Math.atan(30 / 1000) - Math.atan(10 / 900),
    9,
  );
  expect(read(ride, 'dragLinkMinusTrackBar')).toBeCloseTo(
    Math.hypot(30, 1000, 60) - Math.hypot(10, 900, 30),
    9,
  );
});

test('parallel bars: no angle, and a kink there', () => {
  const dragLink = rod(
    'drag link',
    ['pitman arm', [150, 300, 500]],
    ['right knuckle', [150, -700, 500]],
  );
  const axle = plainAxle(
    [...parallelLinks(LONG), link('track bar', [50, -400, 600], [50, 500, 600])],
    { steering: plainSteering(dragLink) },
  );
  const ride = new Vehicle(axle).at(0, 0);
  expect(read(ride, 'dragLinkToTrackBarFront')).toBeCloseTo(0, 9);
  expect(slopeOfMeasure(ride, 'dragLinkToTrackBarFront')).toBeNull();
});

test('the order of the ends does not count', () => {
  const axle = longArms();
  const turned = {
    ...axle,
    steering: axle.steering && {
      ...axle.steering,
      dragLink: axle.steering.dragLink && {
        ...axle.steering.dragLink,
        from: axle.steering.dragLink.to,
        to: axle.steering.dragLink.from,
      },
    },
  };
  const [a, b] = [new Vehicle(axle).at(3, -2, 0.1), new Vehicle(turned).at(3, -2, 0.1)];
  for (const id of ['dragLinkToTrackBarFront', 'dragLinkToTrackBarPlan', 'dragLinkMinusTrackBar']) {
    expect(read(b, id)).toBeCloseTo(read(a, id), 12);
  }
});
