/** Proposed track bar: ahead of a front axle, behind a rear one. */
import {
  type AxlePlace,
  anchor,
  near,
  railCenter,
  type Spot,
  signOf,
  toward,
  write,
} from './axlePlace.ts';
import { differentialSpheres, differentialY } from './driveline.ts';
import { upTravel } from './springs.ts';
import { assumed, guessed, tube, type Value } from './value.ts';

/** Where the axle end may lie from the wheel center, and the frame end from that, in: common practice, no source. */
const REACH_in = { below: 6, above: 16 };
const STEEPEST_in = 14;

/** Height of the axle end. */
export function barAxleHeight(place: AxlePlace): Value {
  const { taped, name, path, radius, railBottom } = place;
  const id = `${name}.barAxleHeight`;
  const rule = () => ({
    value: near(radius, 4.5, 2),
    path: `${path}.links["track bar"].axle.at`,
    sentence:
      'The track bar meets the axle 4 1/2 in above the wheel center (common practice, no source).',
  });
  const taken = taped.heights(id, { wheelCenter: radius, railBottom }, rule);
  return taped.fitting(id, taken, radius.at - REACH_in.below, radius.at + REACH_in.above, {
    message: 'too far from the wheel center for a track bar',
    fallback: () => rule().value,
  }).left;
}

/** Height of the frame end. */
export function barFrameHeight(place: AxlePlace): Value {
  const { taped, name, path, radius, railBottom } = place;
  const id = `${name}.barFrameHeight`;
  const axle = barAxleHeight(place);
  const rule = () => ({
    value: guessed(axle.at + 3, 2, axle),
    path: `${path}.links["track bar"].chassis.at`,
    sentence: 'The track bar rises 3 in from the axle to the frame (common practice, no source).',
  });
  const taken = taped.heights(id, { wheelCenter: radius, railBottom }, rule);
  return taped.fitting(id, taken, axle.at - STEEPEST_in, axle.at + STEEPEST_in, {
    message: 'too far above or below the axle end for a track bar',
    fallback: () => rule().value,
  }).left;
}

export function trackBar(place: AxlePlace): object {
  const { taped, name, path, driver, railOutside } = place;
  const isFront = name === 'front';
  const axle = barAxleHeight(place);
  const frame = barFrameHeight(place);
  // its frame end is on the driver's side in front, beside the steering box, and across from there in the rear
  const sign = isFront ? driver : signOf('right');
  const frameAt: Spot = [
    assumed(isFront ? 4.5 : -5, 2),
    toward(
      sign,
      isFront ? near(railOutside, 1.5 - railOutside.at / 2, 2) : near(railCenter(place), -2, 3),
    ),
    frame,
  ];
  const axleAt: Spot = [
    assumed(isFront ? 4 : -5, 2),
    toward(sign === 1 ? -1 : 1, near(railCenter(place), isFront ? 5.5 : 1, 3)),
    axle,
  ];
  taped.rule(
    `${path}.links["track bar"]`,
    isFront
      ? 'The track bar runs ahead of the axle, from outside the rail on the driver side down to the axle on the other side (common practice, no source).'
      : 'The track bar runs behind the axle, from inside one rail to the axle on the other side (common practice, no source).',
  );
  taped.rule(
    `${path}.links["track bar"].through`,
    'The track bar is bent up over the differential as far as it takes for it to clear it by 3/4 in with both wheels up against their bump stops (common practice, no source).',
  );
  anchor(place, 'track bar, axle end', axleAt);
  anchor(place, 'track bar, frame end', frameAt);
  const through = bends(place, axleAt, frameAt);
  const joint = place.choice.links === 'fourLinks' ? 'bar bushing' : 'bar end';
  return {
    name: 'track bar',
    kind: 'track bar',
    axle: { at: write(place, axleAt), joint },
    chassis: { at: write(place, frameAt), joint },
    tube: tube('1 1/2'),
    through: through.map(spot => write(place, spot)),
  };
}

/** Half of the bar's tube and the air over the differential, in. */
const OVER_in = 0.75 + 0.75;
/** How far to either side of the differential's middle the bar is bent, in. */
const BEND_in = 5;

/** Where the bar is bent, from the axle to the frame: over the differential where it lies under the bar. */
function bends(place: AxlePlace, axleAt: Spot, frameAt: Spot): Spot[] {
  const across = frameAt[1].at - axleAt[1].at;
  const middle = differentialY(place).at;
  const [gears, cover] = differentialSpheres(place);
  const up = upTravel(place);
  return [-BEND_in, BEND_in]
    .map(by => middle + Math.sign(across) * by)
    .map((y): Spot => {
      // a bend stays between the ends, with room for the joints
      const share = Math.min(0.9, Math.max(0.1, (y - axleAt[1].at) / across));
      const mix = (i: 0 | 1 | 2): number => axleAt[i].at + share * (frameAt[i].at - axleAt[i].at);
      // with the axle up by its travel the bar has come down on it by the share of its length
      const over = [gears, cover].map(({ x, radius }) => {
        const clear = radius + OVER_in;
        return Math.sqrt(Math.max(0, clear ** 2 - (mix(0) - x) ** 2)) + share * up;
      });
      const z = Math.max(mix(2), place.radius.at + Math.max(...over));
      return [
        guessed(mix(0), 1, axleAt[0], frameAt[0]),
        assumed(mix(1), 1),
        guessed(z, 3, axleAt[2], frameAt[2]),
      ];
    });
}
