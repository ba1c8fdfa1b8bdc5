/**
 * The build that is proposed from a layout and a few measurements: everything that was not taped is filled in by
 * stated rules and marked assumed, each with a tolerance, so that it can be walked at once.
 */
import type { Problem } from '../problem.ts';
import { shown } from '../problem.ts';
import { type BuildFile, currentVersion } from '../schema/file.ts';
import { readEntry } from '../tape.ts';
import type { Start } from './answers.ts';
import { type AxlePlace, placeAxle } from './axlePlace.ts';
import { proposeDriveline, proposeHousing, proposeTire } from './driveline.ts';
import { proposeJoints } from './joints.ts';
import type { AxleChoice } from './layouts.ts';
import { proposeLinks } from './links.ts';
import { named, renamedRule } from './rearNames.ts';
import { proposeSprings } from './springs.ts';
import { startBlock } from './startBlock.ts';
import { proposeKnuckles, proposeSteering } from './steering.ts';
import { proposeSurroundings, surroundings } from './surroundings.ts';
import { isSame, MOST_STAND, type Rule, Taped } from './taped.ts';
import { assumed, guess, type Value, type Written } from './value.ts';

export interface Proposal {
  /** The build file as it would be saved. It opens, and it walks. */
  file: BuildFile;
  /** By which rule each thing that was not taped came about, in the file's order. */
  rules: Rule[];
  /** Answers that can't be read or contradict each other; the proposal stands in for them. */
  problems: Problem[];
  /**
   * Where the points of the drawings lie, by their name in `Measurement.from` and `.to`: vehicle axes as the
   * vehicle stands today, in.
   */
  anchors: Record<string, readonly [number, number, number]>;
}

/**
 * Proposes a build. Never throws on anything that was typed: what can't be used is told in `problems`, and the
 * rule stands in.
 *
 * @example
 * const { file, problems } = propose({ name: 'ranch truck', unit: 'in', layout, answers: { wheelbase: { value: '112' } } });
 */
export function propose(start: Start): Proposal {
  const taped = new Taped(start);
  const stands = standsOf(start, taped.problems);
  const wheelbase = taped.one('wheelbase', () => ({
    value: assumed(115, 8),
    path: 'wheelbase',
    sentence: 'The wheelbase is 115 in (common practice, no source).',
  }));
  const places = start.layout.axles.map(choice => placeAxle(choice, taped, wheelbase));
  const near = start.near ?? surroundings.filter(each => each.isUsual).map(({ id }) => id);
  const file = {
    axlewalk: currentVersion,
    name: start.name,
    unit: start.unit,
    driverSide: start.layout.driverSide,
    ...(Object.keys(stands).length > 0 ? { measuredAt: stands } : {}),
    wheelbase: taped.pen.length(wheelbase),
    weights: weights(taped, wheelbase),
    axles: places.map(place => named(place, axleOf(place))),
    solids: places.flatMap((place, i) => proposeSurroundings(place, near, i === 0 ? '' : 'rear ')),
    wanted: wanted(taped, start.layout.axles),
    start: startBlock(start),
  };
  const anchors = Object.fromEntries(places.flatMap(place => anchorsOf(place)));
  return {
    // entries are branded by the schema that reads them; what is written here is what it reads
    file: file as unknown as BuildFile,
    rules: places.length > 1 ? taped.rules.map(renamedRule) : taped.rules,
    problems: taped.problems,
    anchors: {
      floor: [0, 0, 0],
      'front wheel center': wheelCenterOf(places, 0),
      'rear wheel center': wheelCenterOf(places, 0 - wheelbase.at),
      ...anchors,
    },
  };
}

/** A wheel center of an axle that the build may lack: as high as the other one's. */
function wheelCenterOf(places: readonly AxlePlace[], x: number): [number, number, number] {
  const [first] = places;
  return [x, (first?.wheelCenters.at ?? 70) / 2, first?.radius.at ?? 18];
}

/** How the chassis stood when it was taped; entries that can't be read are left out and told. */
function standsOf({ stands = {}, unit }: Start, problems: Problem[]): Record<string, string> {
  const fields = [
    ['rake', 'rake', 'angle'],
    ['roll', 'roll', 'angle'],
    ['rise', 'rideHeightChange', 'length'],
  ] as const;
  const read: Record<string, string> = {};
  for (const [key, field, dimension] of fields) {
    const typed = stands[key];
    if (typed === undefined || typed.trim() === '') continue;
    const entry = readEntry(typed, { dimension, unit });
    if (entry.ok && Math.abs(entry.value) <= MOST_STAND[dimension]) read[field] = typed;
    else {
      problems.push({
        path: key,
        found: shown(typed),
        message: entry.ok ? 'too large to be right' : entry.reason,
        wanted: dimension === 'angle' ? 'an angle up to 11 deg' : 'a length up to 20 in',
      });
    }
  }
  return read;
}

function axleOf(place: AxlePlace): object {
  const { choice, taped, name, wheelHeights } = place;
  const { left, right } = wheelHeights;
  const isSteered = choice.steering !== null;
  const steering = proposeSteering(place);
  // the transfer case stands in the middle of the vehicle
  const reach = Math.round(0.42 * place.wheelbase.at);
  return {
    name,
    steered: isSteered,
    wheelCenters: taped.pen.length(place.wheelCenters),
    ...(isSame(wheelHeights)
      ? {}
      : { wheelHeights: { left: taped.pen.length(left), right: taped.pen.length(right) } }),
    housing: proposeHousing(place),
    tire: proposeTire(place),
    joints: proposeJoints(place),
    links: proposeLinks(place),
    ...(isSteered ? { knuckles: proposeKnuckles(place), steering } : {}),
    ...proposeSprings(place),
    driveline: proposeDriveline(place, reach),
  };
}

function weights(taped: Taped, wheelbase: Value): object {
  taped.rule(
    'weights',
    'The vehicle weighs 6,000 lb, 55 % of it on the front axle, with its center of gravity 31 in up; 60 % of the braking and half of the drive are in front (common practice, no source).',
  );
  const x: Value = { ...wheelbase, at: -0.45 * wheelbase.at, from: 'assumed', tolerance: 3 };
  return {
    total: guess('6000 lb', '600 lb'),
    frontShare: guess('55 %', '5 %'),
    centerOfGravity: [x, assumed(0, 1), assumed(31, 3)].map(value => taped.pen.length(value)),
    brakeShareFront: guess('60 %', '8 %'),
    driveShareFront: guess('50 %', '10 %'),
  };
}

/** What is wanted of steering, caster and pinion; not numbers of the vehicle, but wishes. */
function wanted(taped: Taped, axles: readonly AxleChoice[]): object {
  taped.rule(
    'wanted',
    'Wanted: bump steer within 1°, axle steer within 3°, caster from 3° to 9°, the pinion within 4° of where it is (common practice, no source).',
  );
  const band = (measure: string, axle: string, least: number, greatest: number): object => ({
    measure,
    axle,
    least: `${least} deg`,
    greatest: `${greatest} deg`,
  });
  const gaps = axles.flatMap(choice => insideWheels(choice, taped));
  return {
    bands: axles.flatMap(({ name, steering }) => [
      ...(steering === null ? [] : [band('bumpSteer', name, -1, 1), band('caster', name, 3, 9)]),
      band('axleSteer', name, -3, 3),
      band('pinionChange', name, -4, 4),
    ]),
    ...(gaps.length > 0 ? { gaps } : {}),
    assumedTravel: { up: assumedLength(taped, 6), down: assumedLength(taped, 7) },
  };
}

/** What is wanted of rods whose ends turn with a wheel, inside of it. */
function insideWheels({ steering }: AxleChoice, taped: Taped): object[] {
  if (steering === null) return [];
  const { driverSide } = taped.start.layout;
  const far = driverSide === 'left' ? 'right' : 'left';
  const rods: [string, string][] =
    steering === 'doubleRam'
      ? [
          ['left tie rod', 'left tire'],
          ['right tie rod', 'right tire'],
        ]
      : steering === 'tieRodToDragLink'
        ? [
            ['tie rod', `${driverSide} tire`],
            ['drag link', `${far} tire`],
          ]
        : [
            ['tie rod', 'left tire'],
            ['tie rod', 'right tire'],
            ['drag link', `${far} tire`],
          ];
  taped.rule(
    'wanted.gaps',
    'A steering rod that ends inside a wheel turns with it: 1/4 in to the tire is wanted there, beside what the tire may give (common practice, no source).',
  );
  return rods.map(pair => ({ pair, required: '1/4 in', why: 'it ends inside the wheel' }));
}

const assumedLength = ({ pen }: Taped, at: number): Written => pen.length(assumed(at, 1));

function anchorsOf(place: AxlePlace): [string, readonly [number, number, number]][] {
  const { name, anchors, radius, wheelCenters, tireHeight, railOutside, railBottom } = place;
  const half = wheelCenters.at / 2;
  const rail = railOutside.at / 2;
  const at = (text: string): string => `${name} ${text}`;
  const own: [string, readonly [number, number, number]][] = [
    [at('wheel center'), [0, half, radius.at]],
    [at('left wheel center'), [0, half, radius.at]],
    [at('right wheel center'), [0, -half, radius.at]],
    [at('tire bottom'), [0, half, radius.at - tireHeight.at / 2]],
    [at('tire top'), [0, half, radius.at + tireHeight.at / 2]],
    [at('left rail outside'), [0, rail, railBottom.at]],
    [at('right rail outside'), [0, -rail, railBottom.at]],
    [at('rail bottom'), [place.way * 20, rail, railBottom.at]],
    ...anchors,
  ];
  const shift = name === 'front' ? 0 : -place.wheelbase.at;
  return own.map(([called, [x, y, z]]) => [called, [x + shift, y, z]]);
}
