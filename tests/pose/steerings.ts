/** Every kind of steering on the front of `layouts.ts`, on the held rod's line and beside it. */
import type { Rod, Steering, Vec3 } from '../../geometry/build/build.ts';
import { frontSteering, rod } from './layouts.ts';

const box = (at: Vec3, direction: Vec3 = [0, 0, 1]): Steering['box'] => ({
  axis: { at, direction },
  ratio: 16,
  sweep: null,
  wheelsLeft: null,
});

const between = (a: Vec3, b: Vec3, share: number, beside: Vec3 = [0, 0, 0]): Vec3 => [
  a[0] + share * (b[0] - a[0]) + beside[0],
  a[1] + share * (b[1] - a[1]) + beside[1],
  a[2] + share * (b[2] - a[2]) + beside[2],
];

const tieLeft: Vec3 = [6.75, 30.75, 17.75];
const tieRight: Vec3 = [6.75, -30.75, 17.75];
const pitmanBall: Vec3 = [7.25, 18, 27.25];
const rightArm: Vec3 = [7, -29.5, 23.75];

const tieRod = (): Rod => rod('tie rod', ['left knuckle', tieLeft], ['right knuckle', tieRight]);

/** Drag link to a point on the tie rod, `beside` its line by so much. */
const toTieRod = (beside: Vec3): Steering => ({
  box: box([13.5, 18, 25]),
  pitmanArm: null,
  dragLink: rod(
    'drag link',
    ['pitman arm', [7.25, 18, 25]],
    ['tie rod', between(tieLeft, tieRight, 0.8, beside)],
  ),
  tieRods: [tieRod()],
  rams: [],
});

/** Tie rod from the left knuckle to a point on the drag link, `beside` its line by so much. */
const toDragLink = (beside: Vec3): Steering => ({
  box: box([13.5, 18, 27.25]),
  pitmanArm: null,
  dragLink: rod('drag link', ['pitman arm', pitmanBall], ['right knuckle', rightArm]),
  tieRods: [
    rod(
      'tie rod',
      ['left knuckle', [6.75, 30.75, 20]],
      ['drag link', between(pitmanBall, rightArm, 0.8125, beside)],
    ),
  ],
  rams: [],
});

/** A name for each, and how it is made. */
export const STEERINGS: Record<string, () => Steering> = {
  'drag link to the right knuckle': frontSteering,
  'drag link to the left knuckle, arm in side view': () => ({
    box: box([-18, 18.5, 29], [0, 1, 0]),
    pitmanArm: null,
    // both rods are written from the far end: the ends have no order
    dragLink: rod('drag link', ['left knuckle', [0.5, 25, 25.5]], ['pitman arm', [-18.5, 19, 23]]),
    tieRods: [tieRod()],
    rams: [],
  }),
  'drag link to the tie rod': () => toTieRod([0, 0, 0]),
  'drag link beside the tie rod': () => toTieRod([-1, 0.25, 1.5]),
  'tie rod to the drag link': () => toDragLink([0, 0, 0]),
  'tie rod beside the drag link': () => toDragLink([0.75, 0, -1.25]),
  'double-ended ram': () => ({
    box: null,
    pitmanArm: null,
    dragLink: null,
    tieRods: [
      rod('left tie rod', ['ram rod', [6, 13, 18.5]], ['left knuckle', tieLeft]),
      rod('right tie rod', ['right knuckle', tieRight], ['ram rod', [6, -13, 18.5]]),
    ],
    rams: [
      {
        name: 'steering ram',
        kind: 'double',
        body: { on: 'axle', at: [6, 0, 18.5], diameter: null },
        axis: [0, 1, 0],
        rod: null,
        closed: null,
        stroke: 8,
        bore: 2.5,
        rodDiameter: 1.25,
      },
    ],
  }),
};

/** A large input for the steering: 30° of pitman arm, or 2.5 in of ram. */
export const lock = (steering: Steering | null): number =>
  steering === null ? 0 : steering.box ? Math.PI / 6 : 2.5;
