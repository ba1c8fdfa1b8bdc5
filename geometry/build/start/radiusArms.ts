/** Proposed radius arms: two bolts on the axle, one on the frame. */
import {
  type AxlePlace,
  anchor,
  mirrored,
  near,
  railCenter,
  type Spot,
  toward,
  write,
} from './axlePlace.ts';
import { frameEnd, heightsOf, NOTE_RUN, runOf } from './linkEnds.ts';
import { isSame } from './taped.ts';
import { assumed, tube } from './value.ts';

export function radiusArms(place: AxlePlace): object[] {
  const heights = heightsOf(place, 'lower', {
    axle: -3.5,
    rise: 7,
    length: 39,
    path: 'radius arm',
    called: 'radius arm',
  });
  const { path, taped } = place;
  const center = railCenter(place);
  const name = 'radius arm';
  const frameY = near(center, 0, 1.5);
  const axleY = near(center, 2.5, 1.5);
  taped.rule(
    `${path}.links["${name}"].axle`,
    'The axle bolts of a radius arm lie 7 in apart, fore and aft of the axle, 2 1/2 in outside the rail centers (common practice, no source).',
  );
  taped.rule(`${path}.links["${name}"].chassis.at`, NOTE_RUN);
  const isAlike = isSame(heights.axle) && isSame(heights.frame) && isSame(heights.length);
  return mirrored(name, isAlike, sign => {
    const side = sign === 1 ? 'left' : 'right';
    const run = runOf(place, 'lower', side, heights, axleY.at - frameY.at);
    const z = heights.axle[side];
    const bolt = (x: number): Spot => [assumed(x, 1), toward(sign, axleY), z];
    const chassis = frameEnd(
      place,
      assumed(0, 0.5),
      run,
      toward(sign, frameY),
      heights.frame[side],
    );
    anchor(place, `${side} arm, axle end`, bolt(0));
    anchor(place, `${side} arm, frame end`, chassis);
    return {
      kind: 'radius arm',
      axle: [3.5, -3.5].map(x => ({ at: write(place, bolt(x)), joint: 'axle bushing' })),
      chassis: { at: write(place, chassis), joint: 'arm pivot' },
      tube: tube('2', '3/8'),
    };
  });
}
