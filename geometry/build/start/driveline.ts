/** Proposed housing, tire and driveline. */
import {
  type AxlePlace,
  along,
  anchor,
  near,
  type Spot,
  signOf,
  toward,
  write,
} from './axlePlace.ts';
import { assumed, guess, guessed, tube, type Value } from './value.ts';

/** From the axle to the gears' middle, away from the pinion, and to the pinion's joint, in. */
const GEARS_in = 0.75;
const JOINT_in = 10.5;

/** Radii of the differential and of its cover, and how far the cover's middle lies off the axle, in. */
const GEARS_RADIUS_in = 6;
const COVER_RADIUS_in = 4.5;
const COVER_in = 2.5;

/** Middle of the differential, left of the vehicle's middle. */
export function differentialY({ choice }: AxlePlace): Value {
  const { differential } = choice;
  return differential === null ? assumed(0, 2.5) : toward(signOf(differential), assumed(9.5, 2));
}

/** The differential and its cover as balls around the height of the wheel center: x and radius, in. */
export const differentialSpheres = ({ way }: AxlePlace): [Ball, Ball] => [
  { x: -way * GEARS_in, radius: GEARS_RADIUS_in },
  { x: -way * COVER_in, radius: COVER_RADIUS_in },
];

interface Ball {
  x: number;
  radius: number;
}

export function proposeHousing(place: AxlePlace): object {
  const { radius, taped, path } = place;
  const y = differentialY(place);
  const center: Spot = [along(place, -GEARS_in, 1), y, radius];
  taped.rule(
    `${path}.housing`,
    'Axle tubes of 3 1/2 in; the differential is a ball of 6 in around the gears, its cover one of 4 1/2 in on the side away from the pinion (common practice, no source).',
  );
  anchor(place, 'differential', center);
  return {
    tube: { od: guess('3 1/2 in', '1/4 in') },
    differential: {
      center: write(place, center),
      radius: taped.pen.length(assumed(GEARS_RADIUS_in, 0.5)),
      cover: {
        center: write(place, [along(place, -COVER_in, 1), y, near(radius, 0, 0.5)]),
        radius: taped.pen.length(assumed(COVER_RADIUS_in, 0.75)),
      },
    },
  };
}

export function proposeTire(place: AxlePlace): object {
  const { tireHeight, radius, taped, path } = place;
  const { pen } = taped;
  const width = guessed(tireHeight.at * 0.33, 1, tireHeight);
  taped.rule(
    `${path}.tire.width`,
    'The tire is a third as wide as it is tall; its shoulders are rounded by 15 % of that (common practice, no source).',
  );
  return {
    diameter: pen.length(tireHeight),
    width: pen.length(width),
    loadedRadius: pen.length(radius),
    shoulder: pen.length(guessed(0.15 * width.at, 0.5, width)),
    give: guess('1/2 in', '1/4 in'),
    rim: {
      diameter: guess('17 in', '1 in'),
      width: guess('9 in', '1 in'),
      offset: guess('-3/4 in', '3/4 in'),
    },
  };
}

export function proposeDriveline(place: AxlePlace, reach: number): object {
  const { taped, name, path, radius } = place;
  const isFront = name === 'front';
  const angle = taped.one(`${name}.pinionAngle`, () => ({
    value: assumed(((isFront ? 7 : 4) * Math.PI) / 180, (3 * Math.PI) / 180),
    path: `${path}.driveline.pinion.axis.up`,
    sentence: `The pinion points ${isFront ? 7 : 4}° up (common practice, no source).`,
  }));
  const y = differentialY(place);
  const pinion: Spot = [along(place, JOINT_in, 1), y, near(radius, 1, 1)];
  const far: Spot = [along(place, reach, 5), guessed(0.8 * y.at, 3, y), near(radius, 8, 3)];
  taped.rule(
    `${path}.driveline`,
    'The pinion joint lies 10 1/2 in from the axle; the driveshaft runs to a transfer case 8 in above the wheel center, ' +
      `${reach} in from the axle, with 2 in of slip either way (common practice, no source).`,
  );
  // the line whose slope is taken, which the joint's own height is only near
  const rise = (GEARS_in + JOINT_in) * Math.tan(angle.at);
  anchor(place, 'pinion', [pinion[0], y, near(radius, rise, 0)]);
  return {
    pinion: {
      joint: write(place, pinion),
      axis: { up: taped.pen.angle(angle), aside: guess('0 deg', '1 deg') },
      kind: 'single',
      limit: guess('25 deg', '2 deg'),
    },
    transferCase: {
      joint: write(place, far),
      axis: { up: guess(isFront ? '4 deg' : '-3 deg', '2 deg'), aside: guess('0 deg', '1 deg') },
      kind: isFront ? 'double cardan' : 'single',
      limit: guess('25 deg', '2 deg'),
    },
    slip: [guess('-2 in', '1/2 in'), guess('2 in', '1/2 in')],
    tube: tube('2', '1/8'),
    axleRatio: { value: 4.88, from: 'assumed', tolerance: 0.5 },
  };
}
