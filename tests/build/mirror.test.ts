import { describe, expect, test } from 'vitest';
import { axleOf, built, edited, refused, sample, steered, type Written } from './sample.ts';

/** A mirrored file and the same vehicle written out in full have to give the same Build. */
function expectSame(mirrored: Written, full: Written): void {
  const one = built(mirrored);
  const other = built(full);
  // Entries and paths say what was typed and where: that is what differs.
  const written = { entries: [], places: [], jointPaths: {} };
  expect({ ...one, ...written }).toEqual({ ...other, ...written });
}

const tire = { diameter: 42, width: 13, loadedRadius: 20, shoulder: 2 };
const axle = { name: 'front', steered: false, wheelCenters: 70, tire };
const file = (parts: Written, more: Written = {}): Written => ({
  axlewalk: 1,
  name: 'sample',
  unit: 'in',
  wheelbase: 100,
  ...more,
  axles: [{ ...axle, ...parts }],
});

describe('a mirrored file gives the Build of one written in full', () => {
  test('links with their joints, bolts, bores and clockings; springs and stops', () => {
    const bushing = { kind: 'bushing', limit: '20 deg', rates: { radial: 30000 } };
    const spring = { free: 16, rate: 200 };
    const shock = { shortest: 14, longest: 24, bodyEnd: 'axle', body: { od: 2.5 } };
    const stop = { kind: 'air', contactHeight: 3, solidHeight: 1 };
    const mirrored = file({
      joints: [{ name: 'eye', ...bushing, bolt: [0.1, 1, 0.2], clocking: '4 deg' }],
      links: [
        {
          name: 'lower link',
          sides: 'mirror',
          axle: { at: [-2, 17, 16], joint: 'eye' },
          chassis: { at: [-38, 15, 22], bolt: [0, 1, 0.5], bore: [0.2, 1, 0], clocking: '-7 deg' },
          through: [[-20, '18 1/2', 18]],
          tube: { od: 2, wall: '1/4' },
        },
      ],
      shocks: [
        {
          name: 'shock',
          sides: 'mirror',
          axle: [-5, 20, 17],
          chassis: [-6, 18, 41],
          ...shock,
          reservoir: { on: 'chassis', capsule: { from: [0, 20, 40], to: [0, 20, 50], radius: 1 } },
        },
      ],
      coils: [
        { name: 'coil', sides: 'mirror', axle: [1, 17, 24], chassis: [1, 17, 38], ...spring },
      ],
      bumpStops: [
        {
          name: 'air bump',
          sides: 'mirror',
          pad: { on: 'axle', at: [1, 16, 24] },
          strike: { on: 'chassis', at: [1, 16, 30], normal: [0, 0.1, -1] },
          ...stop,
        },
      ],
      straps: [
        { name: 'strap', sides: 'mirror', axle: [2, 16, 20], chassis: [2, 15, 36], length: 20 },
      ],
    });
    const full = file({
      joints: [
        { name: 'left eye', ...bushing, bolt: [0.1, 1, 0.2], clocking: '4 deg' },
        { name: 'right eye', ...bushing, bolt: [0.1, -1, 0.2], clocking: '-4 deg' },
      ],
      links: [
        {
          name: 'left lower link',
          axle: { at: [-2, 17, 16], joint: 'left eye' },
          chassis: { at: [-38, 15, 22], bolt: [0, 1, 0.5], bore: [0.2, 1, 0], clocking: '-7 deg' },
          through: [[-20, 18.5, 18]],
          tube: { od: 2, wall: 0.25 },
        },
        {
          name: 'right lower link',
          axle: { at: [-2, -17, 16], joint: 'right eye' },
          chassis: {
            at: [-38, -15, 22],
            bolt: [0, -1, 0.5],
            bore: [0.2, -1, 0],
            clocking: '7 deg',
          },
          through: [[-20, -18.5, 18]],
          tube: { od: 2, wall: 0.25 },
        },
      ],
      shocks: [
        {
          name: 'left shock',
          axle: [-5, 20, 17],
          chassis: [-6, 18, 41],
          ...shock,
          reservoir: { on: 'chassis', capsule: { from: [0, 20, 40], to: [0, 20, 50], radius: 1 } },
        },
        {
          name: 'right shock',
          axle: [-5, -20, 17],
          chassis: [-6, -18, 41],
          ...shock,
          reservoir: {
            on: 'chassis',
            capsule: { from: [0, -20, 40], to: [0, -20, 50], radius: 1 },
          },
        },
      ],
      coils: [
        { name: 'left coil', axle: [1, 17, 24], chassis: [1, 17, 38], ...spring },
        { name: 'right coil', axle: [1, -17, 24], chassis: [1, -17, 38], ...spring },
      ],
      bumpStops: [
        {
          name: 'left air bump',
          pad: { on: 'axle', at: [1, 16, 24] },
          strike: { on: 'chassis', at: [1, 16, 30], normal: [0, 0.1, -1] },
          ...stop,
        },
        {
          name: 'right air bump',
          pad: { on: 'axle', at: [1, -16, 24] },
          strike: { on: 'chassis', at: [1, -16, 30], normal: [0, -0.1, -1] },
          ...stop,
        },
      ],
      straps: [
        { name: 'left strap', axle: [2, 16, 20], chassis: [2, 15, 36], length: 20 },
        { name: 'right strap', axle: [2, -16, 20], chassis: [2, -15, 36], length: 20 },
      ],
    });
    expectSame(mirrored, full);
  });

  test('knuckles, and the tie rods of a double-ended ram', () => {
    const kingpin = (y: number) => ({
      kingpin: { lower: [0.5, 31 * y, 16], upper: [-0.5, 30 * y, 24] },
      toe: '1/8 deg',
      camber: '-1 deg',
      shaftJoint: [0, 30 * y, 20],
      steeringStop: { inward: '33 deg', outward: '28 deg' },
    });
    const rod = (y: number, side: string) => ({
      from: { on: 'ram rod', at: [6, 12 * y, 19], stud: [0.1, 0.2 * y, 1] },
      to: { on: `${side} knuckle`, at: [7, 29 * y, 18], limit: '25 deg' },
      through: [[8, 20 * y, 17]],
      roll: { held: 'clocked', at: y > 0 ? '10 deg' : '-10 deg' },
    });
    const base = edited(steered(), {
      'axles.0.steering': {
        rams: [{ name: 'ram', kind: 'double', body: { on: 'axle', at: [6, 0, 19] }, stroke: 8 }],
      },
    });
    const mirrored = edited(base, {
      'axles.0.knuckles': { sides: 'mirror', ...kingpin(1) },
      'axles.0.steering.tieRod': { sides: 'mirror', ...rod(1, 'left') },
    });
    const full = edited(base, {
      'axles.0.knuckles': { left: kingpin(1), right: kingpin(-1) },
      'axles.0.steering.tieRod': { left: rod(1, 'left'), right: rod(-1, 'right') },
    });
    expectSame(mirrored, full);
    expect(axleOf(built(mirrored)).steering?.tieRods.map(({ name, to }) => [name, to.on])).toEqual([
      ['left tie rod', 'left knuckle'],
      ['right tie rod', 'right knuckle'],
    ]);
  });

  test('a wishbone on shared joints, datums, radius arms, sway bar, lines and solids', () => {
    const rates = { radial: 40000 };
    const mirrored = file(
      {
        joints: [
          {
            name: 'lower ball',
            kind: 'ball',
            sides: 'mirror',
            at: [-1, 24, 15],
            on: 'axle',
            bolt: [0, 0.2, 1],
            rates,
          },
          { name: 'top ball', kind: 'ball', at: [0, 0, 28], on: 'axle', bolt: [0, 0, 1] },
        ],
        links: [
          {
            name: 'front leg',
            sides: 'mirror',
            axle: { joint: 'lower ball' },
            chassis: { at: [8, 12, 18] },
          },
          {
            name: 'rear leg',
            sides: 'mirror',
            axle: { joint: 'lower ball' },
            chassis: { at: [-20, 14, 18] },
          },
          {
            name: 'upper',
            sides: 'mirror',
            axle: { joint: 'top ball' },
            chassis: { at: { from: 'hole', by: [0, -1, 0] } },
          },
          {
            name: 'arm',
            kind: 'radius arm',
            sides: 'mirror',
            axle: [{ at: [3, 18, 16] }, { at: [-3, 18, 16] }],
            chassis: { at: [-40, 14, 20] },
          },
        ],
        lines: [
          {
            name: 'hose',
            sides: 'mirror',
            from: { on: 'axle', at: [0, 20, 22] },
            to: { on: 'arm', at: [-20, 16, 20] },
            length: 24,
          },
        ],
        swayBar: {
          axis: { at: [-10, 0, 30], direction: [0, 1, 0] },
          arms: [{ sides: 'mirror', tip: [2, 16, 30] }],
          endLinks: [{ sides: 'mirror', axle: [2, 16, 20] }],
        },
      },
      {
        datums: [{ name: 'hole', sides: 'mirror', point: [-30, 13, 30] }],
        solids: [
          {
            name: 'rail',
            sides: 'mirror',
            box: { center: [-20, 15, 24], size: [80, 3, 6], forward: [1, 0.1, 0] },
          },
          {
            name: 'bracket',
            sides: 'mirror',
            on: 'arm',
            capsule: { from: [0, 18, 16], to: [0, 19, 18], radius: 1 },
          },
        ],
      },
    );
    const two = (y: number, side: string) => ({
      joint: {
        name: `${side} lower ball`,
        kind: 'ball',
        at: [-1, 24 * y, 15],
        on: 'axle',
        bolt: [0, 0.2 * y, 1],
        rates,
      },
      front: {
        name: `${side} front leg`,
        axle: { joint: `${side} lower ball` },
        chassis: { at: [8, 12 * y, 18] },
      },
      rear: {
        name: `${side} rear leg`,
        axle: { joint: `${side} lower ball` },
        chassis: { at: [-20, 14 * y, 18] },
      },
      upper: {
        name: `${side} upper`,
        axle: { joint: 'top ball' },
        chassis: { at: [-30, 12 * y, 30] },
      },
      arm: {
        name: `${side} arm`,
        kind: 'radius arm',
        axle: [{ at: [3, 18 * y, 16] }, { at: [-3, 18 * y, 16] }],
        chassis: { at: [-40, 14 * y, 20] },
      },
      hose: {
        name: `${side} hose`,
        from: { on: 'axle', at: [0, 20 * y, 22] },
        to: { on: `${side} arm`, at: [-20, 16 * y, 20] },
        length: 24,
      },
      rail: {
        name: `${side} rail`,
        box: { center: [-20, 15 * y, 24], size: [80, 3, 6], forward: [1, 0.1 * y, 0] },
      },
      bracket: {
        name: `${side} bracket`,
        on: `${side} arm`,
        capsule: { from: [0, 18 * y, 16], to: [0, 19 * y, 18], radius: 1 },
      },
    });
    const left = two(1, 'left');
    const right = two(-1, 'right');
    const full = file(
      {
        joints: [
          left.joint,
          right.joint,
          { name: 'top ball', kind: 'ball', at: [0, 0, 28], on: 'axle', bolt: [0, 0, 1] },
        ],
        links: [
          left.front,
          right.front,
          left.rear,
          right.rear,
          left.upper,
          right.upper,
          left.arm,
          right.arm,
        ],
        lines: [left.hose, right.hose],
        swayBar: {
          axis: { at: [-10, 0, 30], direction: [0, 1, 0] },
          arms: [
            { side: 'left', tip: [2, 16, 30] },
            { side: 'right', tip: [2, -16, 30] },
          ],
          endLinks: [
            { side: 'left', axle: [2, 16, 20] },
            { side: 'right', axle: [2, -16, 20] },
          ],
        },
      },
      { solids: [left.rail, right.rail, left.bracket, right.bracket] },
    );
    expectSame(mirrored, full);
    const { links, sharedJoints } = axleOf(built(mirrored));
    expect(sharedJoints.map(joint => joint.name)).toEqual([
      'left lower ball',
      'right lower ball',
      'top ball',
    ]);
    expect(links.map(link => [link.name, link.axle.shared])).toEqual([
      ['left front leg', 'left lower ball'],
      ['right front leg', 'right lower ball'],
      ['left rear leg', 'left lower ball'],
      ['right rear leg', 'right lower ball'],
      ['left upper', 'top ball'],
      ['right upper', 'top ball'],
    ]);
  });
});

test('a mirrored part holds no negative zero, so that it prints like a written one', () => {
  const build = built(edited(sample(), { 'axles.0.links.0.axle.at': [-2, 0, 16] }));
  expect(JSON.stringify(axleOf(build).links[1]?.axle.at)).toBe('[-2,0,16]');
  expect(Object.is(axleOf(build).links[1]?.axle.at[1], 0)).toBe(true);
});

test('the name of a mirrored part alone is no part: its left and right are', () => {
  const file = edited(sample(), {
    solids: [{ name: 'tab', on: 'lower link', sphere: { center: [0, 0, 0], radius: 1 } }],
  });
  expect(refused(file)).toEqual([
    'solids["tab"].on: found "lower link": there is no such body; wanted: "left lower link"',
  ]);
});

test('a mesh is not mirrored', () => {
  const file = edited(sample(), {
    solids: [{ name: 'fender', sides: 'mirror', mesh: { file: 'fender.stl' } }],
  });
  expect(refused(file)).toEqual([
    expect.stringMatching(/^solids\["fender"\]\.sides: .*no "sides"/),
  ]);
});
