/** Proposed knuckles and steering: box outside the rail on the driver side, rods ahead of the axle. */
import { type AxlePlace, halfTrack, near, type Spot, toward, write } from './axlePlace.ts';
import { hasTrackBar } from './layouts.ts';
import { barAxleHeight, barFrameHeight } from './trackBar.ts';
import { assumed, derived, guess, tube, type Value, type Written } from './value.ts';

/** Tapered studs stand upright. */
const stud = () => [0, 0, 1].map((value): Written => ({ value, from: 'assumed', tolerance: 0.05 }));

export function proposeKnuckles(place: AxlePlace): object {
  const half = halfTrack(place);
  const { radius, taped, path } = place;
  taped.rule(
    `${path}.knuckles`,
    'The kingpin axis passes 4 3/4 in inside the tire middle below and 6 in above, 4 in under and over the wheel center, leaning 6° back; steering stops at 33°, toe and camber 0 (common practice, no source).',
  );
  return {
    sides: 'mirror',
    kingpin: {
      lower: write(place, [assumed(0.42, 0.15), near(half, -4.75, 1), near(radius, -4, 0.5)]),
      upper: write(place, [assumed(-0.42, 0.15), near(half, -5.95, 1), near(radius, 4, 0.5)]),
    },
    toe: guess('0 deg', '0.2 deg'),
    camber: guess('0 deg', '0.5 deg'),
    shaftJoint: write(place, [assumed(0, 0.25), near(half, -5.35, 1), radius]),
    shaftLimit: guess('40 deg', '3 deg'),
    steeringStop: { inward: guess('33 deg', '3 deg') },
  };
}

export function proposeSteering(place: AxlePlace): object | null {
  const { steering, assistRam } = place.choice;
  if (steering === null) return null;
  if (steering === 'doubleRam') return doubleRam(place);
  const { dragLink, tieRod } = rods(place, steering);
  return {
    ...box(place),
    dragLink,
    tieRod,
    ...(assistRam ? { rams: [assist(place)] } : {}),
  };
}

const names = ({ driver }: AxlePlace) =>
  driver === 1
    ? { near: 'left knuckle', far: 'right knuckle' }
    : { near: 'right knuckle', far: 'left knuckle' };

const opposite = (sign: 1 | -1): 1 | -1 => (sign === 1 ? -1 : 1);

const end = (place: AxlePlace, on: string, at: Spot): object => ({
  on,
  at: write(place, at),
  stud: stud(),
  limit: guess('22 deg', '3 deg'),
});

/** Outside the rail, where box and pitman arm hang. */
const outside = ({ railOutside, driver }: AxlePlace): Value =>
  toward(driver, near(derived(railOutside.at / 2, railOutside), 0.5, 2));

/** Height of the pitman arm's end: level with the frame end of the track bar where that was taped. */
function pitmanHeight(place: AxlePlace): Value {
  const isTaped = place.taped.has(`${place.name}.barFrameHeight`);
  return isTaped
    ? near(barFrameHeight(place), -0.5, 1.5)
    : near(place.radius, hasTrackBar(place.choice.links) ? 7.5 : 9, 2.5);
}

/** Height of the drag link's other end: level with the axle end of the track bar where that was taped. */
function armHeight(place: AxlePlace): Value {
  const isTaped = place.taped.has(`${place.name}.barAxleHeight`);
  return isTaped ? near(barAxleHeight(place), -1.25, 1.5) : near(place.radius, 3.75, 2);
}

function box(place: AxlePlace): object {
  const { taped, path } = place;
  const z = pitmanHeight(place);
  taped.rule(
    `${path}.steering.box`,
    'The steering box stands outside the rail on the driver side, its shaft upright 14 1/2 in ahead of the axle; 16 turns of the wheel to one of the arm, 45° each way (common practice, no source).',
  );
  return {
    box: {
      axis: {
        at: write(place, [assumed(14.5, 2), outside(place), near(z, 1.75, 2)]),
        direction: stud(),
      },
      ratio: { value: 16, from: 'assumed', tolerance: 2 },
      sweep: [guess('-45 deg', '4 deg'), guess('45 deg', '4 deg')],
    },
    pitmanArm: { tube: { od: guess('1 3/4 in', '1/4 in') } },
  };
}

function rods(
  place: AxlePlace,
  steering: 'dragLinkToKnuckle' | 'dragLinkToTieRod' | 'tieRodToDragLink',
): { dragLink: object; tieRod: object } {
  const { radius, driver, taped, path } = place;
  const { near: nearKnuckle, far } = names(place);
  const half = halfTrack(place);
  const away = opposite(driver);
  const pitman: Spot = [assumed(8.25, 2), outside(place), pitmanHeight(place)];
  const tieZ = near(radius, -2.25, 1.5);
  const tieFrom: Spot = [assumed(5.75, 1.5), toward(driver, near(half, -4.75, 1.5)), tieZ];
  const tieTo: Spot = [assumed(5.75, 1.5), toward(away, near(half, -4.75, 1.5)), tieZ];
  const arm: Spot = [assumed(7.4, 1.5), toward(away, near(half, -6.5, 1.5)), armHeight(place)];
  const from = end(place, 'pitman arm', pitman);
  const bowed = (y: number): Spot => [
    assumed(8.75, 2),
    toward(driver, assumed(y, 2)),
    near(radius, -3, 1.5),
  ];
  const through = [15.5, -1].map(y => write(place, bowed(y)));
  const drag = { tube: tube('1 1/2') };
  const tie = { tube: tube('1 1/2', '5/16') };
  const clocked = { roll: { held: 'clocked' } };
  taped.rule(
    `${path}.steering.dragLink`,
    'The drag link starts level with the frame end of the track bar and ends level with its axle end, so that both move alike (common practice, no source).',
  );
  taped.rule(
    `${path}.steering.tieRod`,
    'The tie rod lies 5 3/4 in ahead of the axle and 2 1/4 in below its center, bowed ahead of the differential (common practice, no source).',
  );
  switch (steering) {
    case 'dragLinkToKnuckle':
      return {
        dragLink: { from, to: end(place, far, arm), ...drag },
        tieRod: {
          from: end(place, nearKnuckle, tieFrom),
          to: end(place, far, tieTo),
          ...tie,
          through,
          ...clocked,
        },
      };
    case 'dragLinkToTieRod': {
      const on: Spot = [assumed(6.9, 1.5), toward(away, near(half, -9, 2)), near(tieZ, 1.75, 0.75)];
      return {
        dragLink: { from, to: end(place, 'tie rod', on), ...drag },
        tieRod: {
          from: end(place, nearKnuckle, tieFrom),
          to: end(place, far, tieTo),
          ...tie,
          through,
          ...clocked,
        },
      };
    }
    case 'tieRodToDragLink': {
      const low: Spot = [
        assumed(5.5, 1.5),
        toward(away, near(half, -5, 1.5)),
        near(radius, -1.25, 1.5),
      ];
      const short: Spot = [assumed(5.7, 1.5), toward(driver, near(half, -5, 1.5)), tieZ];
      const hung: Spot = [assumed(7, 1.5), toward(away, near(half, -13, 2)), near(radius, -2, 1.5)];
      return {
        dragLink: { from, to: end(place, far, low), ...drag, roll: { held: 'studs' } },
        tieRod: {
          from: end(place, nearKnuckle, short),
          to: end(place, 'drag link', hung),
          ...tie,
          through: [15.5, 0].map(y => write(place, bowed(y))),
        },
      };
    }
  }
}

/** Stroke of a proposed assist ram, in. */
const STROKE_in = 8;

function assist(place: AxlePlace): object {
  const { radius, driver, taped, path } = place;
  // it lies between the arms, where there are some
  const isBetween = place.choice.links === 'radiusArms';
  const isHung = place.choice.steering === 'tieRodToDragLink';
  const from = isBetween ? 3 : -1;
  const reach = isBetween ? -13 : isHung ? -17 : -24;
  const stroke = isBetween ? STROKE_in - 1 : STROKE_in;
  const body: Spot = [assumed(4.25, 2), toward(driver, assumed(from, 3)), near(radius, 0.25, 2)];
  const rod: Spot = [assumed(4.5, 2), toward(driver, assumed(reach, 3)), near(radius, -1.5, 1.5)];
  taped.rule(
    `${path}.steering.rams["assist ram"]`,
    `The assist ram runs from the axle to the tie rod${isBetween ? ' between the radius arms' : ''}, has ${stroke} in of stroke and stands at half of it straight ahead (common practice, no source).`,
  );
  const long = Math.hypot(...([0, 1, 2] as const).map(i => rod[i].at - body[i].at));
  return {
    name: 'assist ram',
    kind: 'single',
    body: { on: 'axle', at: write(place, body), diameter: guess('2 in', '1/4 in') },
    rod: { on: 'tie rod', at: write(place, rod) },
    closed: taped.pen.length(assumed(long - stroke / 2, 0.5)),
    stroke: taped.pen.length(assumed(stroke, 0.5)),
    bore: guess('1 3/4 in', '1/4 in'),
    rodDiameter: guess('3/4 in', '1/8 in'),
  };
}

function doubleRam(place: AxlePlace): object {
  const { radius, taped, path } = place;
  const half = halfTrack(place);
  taped.rule(
    `${path}.steering.rams["steering ram"]`,
    'The ram is clamped to the axle 8 3/4 in ahead of it and has 9 in of stroke; a tie rod runs from each of its ends to a knuckle (common practice, no source).',
  );
  const z = near(radius, 1.75, 2);
  return {
    tieRod: {
      sides: 'mirror',
      from: end(place, 'ram rod', [assumed(8.75, 1.5), assumed(12.75, 1.5), z]),
      to: end(place, 'left knuckle', [assumed(5.75, 1.5), near(half, -5, 1), near(radius, 1, 1.5)]),
      tube: tube('1 1/2'),
    },
    rams: [
      {
        name: 'steering ram',
        kind: 'double',
        body: {
          on: 'axle',
          at: write(place, [assumed(8.75, 1.5), assumed(0, 0.5), z]),
          diameter: guess('2 3/4 in', '1/4 in'),
        },
        axis: [0, 1, 0].map((value): Written => ({ value, from: 'assumed', tolerance: 0.02 })),
        stroke: taped.pen.length(assumed(9, 1)),
        bore: guess('2 1/4 in', '1/4 in'),
        rodDiameter: guess('1 1/8 in', '1/8 in'),
      },
    ],
  };
}
