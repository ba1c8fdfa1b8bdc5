/** Proposed shocks, coils, bump stops, straps and hoses. */
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
import { assumed, derived, guess, guessed, type Value } from './value.ts';

/** Height of the rubber of a bump stop as it stands, in: common practice, no source. */
const RUBBER_in = 2;
/** Least air under it at ride height for the axle to move at all, in. */
const LEAST_GAP_in = 0.25;
/** Height at which it holds, in: common practice, no source. */
const SOLID_in = 0.5;
/** Stroke that a shock has beyond up-travel and droop together, in. */
const SPARE_in = 1;
/** Droop where nothing else is known, in. */
const DROOP_in = 5.5;

export function proposeSprings(place: AxlePlace): object {
  const gap = bumpGap(place);
  return {
    shocks: [shock(place)],
    coils: [coil(place)],
    bumpStops: [bumpStop(place, gap)],
    ...straps(place),
    lines: [hose(place)],
  };
}

/** How far the chassis over this axle rises from where it was taped to ride height, in. */
function liftOf({ taped, name, wheelbase }: AxlePlace): number {
  return taped.lift(name === 'front' ? 0 : -wheelbase.at);
}

/** Air under the bump stop as taped; some of it is left at ride height. */
function bumpGap(place: AxlePlace): Value {
  const { taped, name, path } = place;
  const id = `${name}.bumpGap`;
  const lift = liftOf(place);
  const rule = () => ({
    value: assumed(3.5 - lift, 1.5),
    path: `${path}.bumpStops["bump stop"].strike.at`,
    sentence:
      'At ride height there are 3 1/2 in of air under the bump stop (common practice, no source).',
  });
  const gap = taped.both(id, rule);
  return taped.fitting(id, gap, LEAST_GAP_in - lift, Number.POSITIVE_INFINITY, {
    message: 'nothing is left of it at ride height',
    fallback: () => rule().value,
  }).left;
}

/** + is away from the links: behind a front axle's center here means towards them, since shocks lean in. */
const x = ({ name }: AxlePlace, front: number, rear: number): Value =>
  assumed(name === 'front' ? front : rear, 2);

/** How tall a shock stands at ride height as taped, in: common practice, no source. */
const SHOCK_STANDS_in = 24.5;
/** Height of its frame end. */
export const shockTop = ({ radius }: AxlePlace): number => radius.at - 3 + SHOCK_STANDS_in;

/** How far both wheels go up from ride height until the bump stops hold, in. */
export const upTravel = (place: AxlePlace): number =>
  bumpGap(place).at + liftOf(place) + RUBBER_in - SOLID_in;

function shock(place: AxlePlace): object {
  const { radius, taped, path } = place;
  const center = railCenter(place);
  const axle: Spot = [x(place, -5, -6.5), near(center, 5.5, 2), near(radius, -3, 1)];
  const up = upTravel(place);
  const stands = SHOCK_STANDS_in;
  const frame: Spot = [x(place, -6.5, -5), near(center, 3, 2), guessed(shockTop(place), 3, radius)];
  // the frame goes up with the lift, and the shock is as long as it is then
  const long = Math.hypot(1.5, 2.5, stands + liftOf(place));
  taped.rule(
    `${path}.shocks["shock"]`,
    'The shock stands 24 1/2 in tall behind the axle, 5 1/2 in outside the rail center below and 3 in above; it bottoms 1/2 in after the bump stop holds and tops out 5 1/2 in below ride height (common practice, no source).',
  );
  return {
    name: 'shock',
    sides: 'mirror',
    axle: write(place, axle),
    chassis: write(place, frame),
    shortest: taped.pen.length(assumed(Math.max(long - up - SPARE_in / 2, 6), 2)),
    longest: taped.pen.length(assumed(long + DROOP_in, 2)),
    bodyEnd: 'chassis',
    body: {
      od: guess('2 1/2 in', '1/4 in'),
      length: taped.pen.length(assumed(Math.max(long - up - SPARE_in / 2 - 4, 4), 2)),
    },
    shaft: { od: guess('7/8 in', '1/8 in') },
  };
}

function coil(place: AxlePlace): object {
  const { radius, taped, path } = place;
  const center = railCenter(place);
  const stands = 14;
  taped.rule(
    `${path}.coils["coil"]`,
    'The coil stands 14 in tall on the axle, 3 in outside the rail center, and is 20 in long by itself (common practice, no source).',
  );
  return {
    name: 'coil',
    sides: 'mirror',
    axle: write(place, [assumed(0, 1.5), near(center, 3, 2), near(radius, 3.5, 1)]),
    chassis: write(place, [
      assumed(0.25, 1.5),
      near(center, 3, 2),
      guessed(radius.at + 3.5 + stands, 3, radius),
    ]),
    free: taped.pen.length(assumed(stands + liftOf(place) + 6.5, 2)),
    rate: guess('200 lbf/in', '40 lbf/in'),
    wire: guess('5/8 in', '1/8 in'),
    turns: { value: 10, from: 'assumed', tolerance: 2 },
    diameter: guess('4 1/2 in', '3/4 in'),
    solid: guess('6 1/2 in', '1 in'),
  };
}

function bumpStop(place: AxlePlace, gap: Value): object {
  const { radius, taped, path } = place;
  const center = railCenter(place);
  const pad: Spot = [assumed(0.5, 2), near(center, 1, 2), near(radius, 4.5, 1.5)];
  // the pad is the face that strikes: the plane lies the gap and the rubber's height above it
  const plane = derived(pad[2].at + gap.at + RUBBER_in, gap, assumed(0, 0.5));
  const strike: Spot = [
    pad[0],
    pad[1],
    { ...plane, from: 'assumed', tolerance: Math.hypot(gap.tolerance, 0.5) },
  ];
  taped.rule(
    `${path}.bumpStops["bump stop"]`,
    'The bump stop stands near the rail center 4 1/2 in above the wheel center; its rubber is 2 in tall and holds when it is squeezed to 1/2 in (common practice, no source).',
  );
  for (const [sign, side] of [
    [1, 'left'],
    [-1, 'right'],
  ] as const) {
    const [px, py, pz] = pad;
    const top: Spot = [px, toward(sign, py), near(pz, RUBBER_in, 0)];
    anchor(place, `${side} bump stop`, top);
    anchor(place, `${side} strike plate`, [px, toward(sign, py), strike[2]]);
  }
  return {
    name: 'bump stop',
    sides: 'mirror',
    kind: 'rubber',
    pad: { on: 'axle', at: write(place, pad) },
    strike: { on: 'chassis', at: write(place, strike), radius: guess('2 in', '1/2 in') },
    contactHeight: taped.pen.length(assumed(RUBBER_in, 0.5)),
    solidHeight: taped.pen.length(assumed(SOLID_in, 0.5)),
  };
}

function straps(place: AxlePlace): object {
  const { straps: picked } = place.choice;
  const { radius, taped, path } = place;
  if (picked === 'none') return {};
  const center = railCenter(place);
  const name = 'limit strap';
  const axleZ = near(radius, 2, 1);
  const frameZ = guessed(radius.at + 14, 3, radius);
  const make = (sign: 1 | -1): object => ({
    axle: write(place, [x(place, -2, -2.5), toward(sign, near(center, 0.5, 2)), axleZ]),
    chassis: write(place, [x(place, -3.5, -2), toward(sign, near(center, 0, 2)), frameZ]),
    length: taped.pen.length(assumed(12 + liftOf(place) + DROOP_in - 0.25, 1.5)),
  });
  taped.rule(
    `${path}.straps`,
    'A limit strap ends the droop 5 1/4 in below ride height, just before the shock tops out (common practice, no source).',
  );
  if (picked === 'both') return { straps: mirrored(name, true, make) };
  return { straps: [{ name, ...make(picked === 'left' ? 1 : -1) }] };
}

function hose(place: AxlePlace): object {
  const { radius, taped, path, name } = place;
  const center = railCenter(place);
  const isFront = name === 'front' && place.choice.steering !== null;
  taped.rule(
    `${path}.lines`,
    'The brake hose is 24 in long and runs from the knuckle (in the rear: from the axle) up to the frame (common practice, no source).',
  );
  const frame: Spot = [x(place, -9, 9), near(center, -0.5, 2), guessed(radius.at + 15, 3, radius)];
  const common = {
    length: taped.pen.length(assumed(24 + liftOf(place), 2)),
    leastBendRadius: guess('2 1/2 in', '1/2 in'),
    diameter: guess('1/2 in', '1/8 in'),
  };
  if (isFront) {
    const at: Spot = [assumed(-3.5, 1.5), near(center, 12.5, 2), near(radius, 5, 1.5)];
    return {
      name: 'brake hose',
      sides: 'mirror',
      from: { on: 'left knuckle', at: write(place, at) },
      to: { on: 'chassis', at: write(place, frame) },
      ...common,
    };
  }
  const at: Spot = [x(place, -2, 2), toward(-1, assumed(6, 2)), near(radius, 2.5, 1)];
  return {
    name: 'rear brake hose',
    from: { on: 'axle', at: write(place, at) },
    to: { on: 'chassis', at: write(place, [frame[0], toward(-1, frame[1]), frame[2]]) },
    ...common,
  };
}
