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
    assumed(isFront ? 4 : -5, 2),
    toward(
      sign,
      isFront ? near(railOutside, 1.5 - railOutside.at / 2, 2) : near(railCenter(place), -2, 3),
    ),
    frame,
  ];
  const axleAt: Spot = [
    assumed(isFront ? 3.5 : -5, 2),
    toward(sign === 1 ? -1 : 1, near(railCenter(place), isFront ? 5.5 : 2.5, 3)),
    axle,
  ];
  taped.rule(
    `${path}.links["track bar"]`,
    isFront
      ? 'The track bar runs ahead of the axle, from outside the rail on the driver side down to the axle on the other side, straight until its bends are taped (common practice, no source).'
      : 'The track bar runs behind the axle, from inside one rail to the axle on the other side, straight until its bends are taped (common practice, no source).',
  );
  anchor(place, 'track bar, axle end', axleAt);
  anchor(place, 'track bar, frame end', frameAt);
  const through = [0.3, 0.6].map((share): Spot => {
    const mix = (i: 0 | 1 | 2, off: number): Value =>
      guessed(axleAt[i].at + share * (frameAt[i].at - axleAt[i].at), off, axleAt[i], frameAt[i]);
    return [mix(0, 1), assumed(mix(1, 0).at, 1), mix(2, 3)];
  });
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
