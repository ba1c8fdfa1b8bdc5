/** Proposed links, arms and track bar. */
import {
  type AxlePlace,
  along,
  anchor,
  mirrored,
  near,
  railCenter,
  type Spot,
  toward,
  write,
} from './axlePlace.ts';
import { hasTrackBar, upperLinks } from './layouts.ts';
import { frameEnd, type Heights, heightsOf, NOTE_RUN, runOf } from './linkEnds.ts';
import { radiusArms } from './radiusArms.ts';
import { isSame } from './taped.ts';
import { trackBar } from './trackBar.ts';
import { assumed, derived, tube, type Value } from './value.ts';

export function proposeLinks(place: AxlePlace): object[] {
  const { links } = place.choice;
  return [
    ...(links === 'radiusArms' ? radiusArms(place) : lowerLinks(place)),
    ...(upperLinks(links) === 'one' ? oneUpperLink(place) : []),
    ...(links === 'fourLinks' || links === 'triangulated' ? upperPair(place) : []),
    ...(links === 'wishbone' ? wishbone(place) : []),
    ...(hasTrackBar(links) ? [trackBar(place)] : []),
  ];
}

interface PairOfLinks {
  name: string;
  what: 'lower' | 'upper';
  called: string;
  heights: Heights;
  axleX: Value;
  axleY: Value;
  frameY: Value;
}

/** A link on each side. */
function pair(
  place: AxlePlace,
  links: PairOfLinks,
  rest: object,
  ends: [object, object],
): object[] {
  const { name, what, called, heights, axleX, axleY, frameY } = links;
  const isAlike = isSame(heights.axle) && isSame(heights.frame) && isSame(heights.length);
  place.taped.rule(`${place.path}.links["${name}"].chassis.at`, NOTE_RUN);
  return mirrored(name, isAlike, sign => {
    const side = sign === 1 ? 'left' : 'right';
    const run = runOf(place, what, side, heights, axleY.at - frameY.at);
    const axle: Spot = [axleX, toward(sign, axleY), heights.axle[side]];
    const chassis = frameEnd(place, axleX, run, toward(sign, frameY), heights.frame[side]);
    anchor(place, `${side} ${called}, axle end`, axle);
    anchor(place, `${side} ${called}, frame end`, chassis);
    return {
      axle: { at: write(place, axle), ...ends[0] },
      chassis: { at: write(place, chassis), ...ends[1] },
      ...rest,
    };
  });
}

/** Joints at the axle and at the frame: where a layout is over-constrained, bushings at both. */
const jointsOf = ({ choice }: AxlePlace): [object, object] =>
  choice.links === 'fourLinks'
    ? [{ joint: 'link bushing' }, { joint: 'link bushing' }]
    : [{ joint: 'axle bushing' }, { joint: 'frame rod end' }];

function lowerLinks(place: AxlePlace): object[] {
  const isShort = place.choice.links === 'fourLinks' && place.name === 'front';
  const heights = heightsOf(place, 'lower', {
    axle: -3.5,
    rise: 5,
    length: isShort ? 24 : 37,
    path: 'lower link',
    called: 'lower link',
  });
  const center = railCenter(place);
  const path = `${place.path}.links["lower link"]`;
  place.taped.rule(
    `${path}.axle.at`,
    'The lower links sit 2 1/2 in outside the rail centers at the axle, 1 1/2 in ahead or behind its center, and under the rails at the frame (common practice, no source).',
  );
  const links: PairOfLinks = {
    name: 'lower link',
    what: 'lower',
    called: 'lower link',
    heights,
    axleX: along(place, 1.5, 1),
    axleY: near(center, 2.5, 2),
    frameY: near(center, 0, 1.5),
  };
  return pair(place, links, { tube: tube('2') }, jointsOf(place));
}

const upperGuess = (place: AxlePlace) => ({
  axle: place.choice.links === 'fourLinks' ? 6.5 : place.choice.links === 'threeLinks' ? 7 : 9,
  rise: place.name === 'front' ? 3 : 0,
  length: place.choice.links === 'fourLinks' && place.name === 'front' ? 17 : 31,
});

/** The upper link of three: on the side where the differential is not. */
function oneUpperLink(place: AxlePlace): object[] {
  const called = 'upper link';
  const heights = heightsOf(place, 'upper', { ...upperGuess(place), path: called, called });
  const sign = place.choice.differential === 'left' ? -1 : 1;
  const axleY = toward(sign, assumed(8, 3));
  const frameY = toward(sign, assumed(10, 3));
  const axleX = along(place, 1, 1);
  const run = runOf(place, 'upper', 'left', heights, axleY.at - frameY.at);
  const axle: Spot = [axleX, axleY, heights.axle.left];
  const chassis = frameEnd(place, axleX, run, frameY, heights.frame.left);
  anchor(place, `${called}, axle end`, axle);
  anchor(place, `${called}, frame end`, chassis);
  const path = `${place.path}.links["${called}"]`;
  place.taped.rule(
    `${path}.axle.at`,
    'The one upper link stands 8 in from the middle at the axle and 10 in at the frame, on the side where the differential is not (common practice, no source).',
  );
  place.taped.rule(`${path}.chassis.at`, NOTE_RUN);
  return [
    {
      name: called,
      axle: { at: write(place, axle), joint: 'axle bushing' },
      chassis: { at: write(place, chassis), joint: 'frame rod end' },
      tube: tube('1 3/4'),
    },
  ];
}

/** Both upper links of four. */
function upperPair(place: AxlePlace): object[] {
  const called = 'upper link';
  const isTriangle = place.choice.links === 'triangulated';
  const heights = heightsOf(place, 'upper', { ...upperGuess(place), path: called, called });
  const center = railCenter(place);
  place.taped.rule(
    `${place.path}.links["${called}"].axle.at`,
    isTriangle
      ? 'The upper links meet the axle 2 1/2 in from the middle and the frame inside the rails (common practice, no source).'
      : 'The upper links run beside each other inside the coils and inside the rails: 2 1/4 in inside the rail centers at the axle, 3 1/4 in at the frame (common practice, no source).',
  );
  const links: PairOfLinks = {
    name: called,
    what: 'upper',
    called,
    heights,
    axleX: along(place, 1, 1),
    axleY: isTriangle ? assumed(2.5, 2) : near(center, -2.25, 3),
    frameY: near(center, isTriangle ? -3 : -3.25, 2),
  };
  const joints: [object, object] = isTriangle
    ? [{ joint: 'truss rod end' }, { joint: 'upper frame rod end' }]
    : jointsOf(place);
  return pair(place, links, { tube: tube('1 3/4') }, joints);
}

/** Two upper legs that share one ball on the axle; the ball itself stands among the joints. */
function wishbone(place: AxlePlace): object[] {
  const called = 'upper link';
  const heights = wishboneHeights(place);
  const frameY = near(railCenter(place), -2, 2);
  const axleX = along(place, 1, 1);
  const name = 'upper wishbone leg';
  const path = `${place.path}.links["${name}"]`;
  place.taped.rule(
    `${place.path}.joints["axle ball"].at`,
    'Both legs of the wishbone meet in one ball in the middle over the axle (common practice, no source).',
  );
  place.taped.rule(`${path}.chassis.at`, NOTE_RUN);
  for (const side of ['left', 'right'] as const) {
    anchor(place, `${side} ${called}, axle end`, ballOf(place, heights));
  }
  return mirrored(name, isSame(heights.frame) && isSame(heights.length), sign => {
    const side = sign === 1 ? 'left' : 'right';
    const run = runOf(place, 'upper', side, heights, frameY.at);
    const chassis = frameEnd(place, axleX, run, toward(sign, frameY), heights.frame[side]);
    anchor(place, `${side} ${called}, frame end`, chassis);
    return {
      axle: { joint: 'axle ball' },
      chassis: { at: write(place, chassis), joint: 'upper frame rod end' },
      tube: tube('1 3/4'),
    };
  });
}

function ballOf(place: AxlePlace, { axle }: Heights): Spot {
  const { left, right } = axle;
  const z = left.at === right.at ? left : derived((left.at + right.at) / 2, left, right);
  return [along(place, 1, 1), assumed(0, 0.5), z];
}

/** Where the legs of a wishbone meet, as the file has it. */
export function wishboneBall(place: AxlePlace): object {
  return write(place, ballOf(place, wishboneHeights(place)));
}

const wishboneHeights = (place: AxlePlace): Heights =>
  heightsOf(place, 'upper', {
    ...upperGuess(place),
    path: 'upper wishbone leg',
    called: 'upper link',
  });
