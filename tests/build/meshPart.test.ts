import { describe, expect, test } from 'vitest';
import type { Vec3 } from '../../geometry/build/build.ts';
import {
  attitudeOf,
  MESH_UNITS,
  type MeshPart,
  type MeshUnit,
  meshPart,
  type PointPair,
  placedByPoints,
} from '../../geometry/build/meshPart.ts';
import { readBuild } from '../../geometry/build/read.ts';
import { readEntry } from '../../geometry/build/tape.ts';
import { INCHES_OF_UNIT } from '../../geometry/solid/triangles.ts';
import { add, cross, distance, scale, turned, unit } from '../../geometry/vector.ts';
import { smallBuild } from '../browser/smallBuild.ts';

const plain: MeshPart = {
  name: 'engine scan',
  on: 'chassis',
  axle: null,
  file: 'engine.stl',
  size: 684,
  sha256: null,
  unit: 'in',
  place: { at: ['', '', ''], forward: [1, 0, 0], up: [0, 0, 1] },
  isNew: false,
  mayBeCut: false,
};

describe('a mesh as a part of the file', () => {
  test('says no more than it has to', () => {
    expect(meshPart(plain)).toEqual({
      name: 'engine scan',
      mesh: { file: 'engine.stl', size: 684 },
    });
  });

  test('reads back as it was meant', () => {
    const attitude = attitudeOf('+z', '+y');
    if (!attitude) throw new Error('Y and Z are square to each other');
    const file = JSON.parse(smallBuild());
    file.solids.push(
      meshPart({
        ...plain,
        on: 'axle',
        axle: 'front',
        unit: 'mm',
        sha256: 'ab'.repeat(32),
        place: { at: ['1 1/2', 0, '36'], ...attitude },
        isNew: true,
        mayBeCut: true,
      }),
    );
    const read = readBuild(JSON.stringify(file));
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    const made = read.build.solids.at(-1);
    expect(made).toMatchObject({ on: 'axle', axle: 'front', isNew: true, mayBeCut: true });
    if (made?.shape.kind !== 'mesh') throw new Error('it is no mesh');
    expect(made.shape.at).toEqual([1.5, 0, 36]);
    expect(made.shape.scale).toBeCloseTo(1 / 25.4, 12);
    // the file's X lies to the left where Y is up and Z forward: up × forward
    expect(made.shape.axes[0]).toEqual([0, 1, 0]);
    expect(made.shape.axes[1]).toEqual([0, 0, 1]);
    expect(made.shape.axes[2]).toEqual([1, 0, 0]);
  });

  test.each(Object.keys(MESH_UNITS) as MeshUnit[])('writes %s as the mesh reader has it', each => {
    const typed = readEntry(MESH_UNITS[each], { dimension: 'number', unit: 'in' });
    expect(typed.ok && typed.value).toBeCloseTo(INCHES_OF_UNIT[each], 9);
  });

  test('axes along one line settle nothing', () => {
    expect(attitudeOf('+x', '-x')).toBeNull();
    expect(attitudeOf('+x', '+z')).toEqual({ forward: [1, 0, 0], up: [0, 0, 1] });
  });
});

describe('three points', () => {
  // any turn and place: the file's points carried by it are found again, as three points settle a rigid motion
  const axis = unit([1, -2, 0.5]);
  const at: Vec3 = [12, -3.5, 28];
  const carried = (v: Vec3): Vec3 =>
    add(turned(scale(v, 1 / 25.4), axis, Math.cos(2), Math.sin(2)), at);
  const inFile: Vec3[] = [
    [0, 100, 20],
    [640, -30, 0],
    [200, 410, 330],
  ];
  const pairs = (shift: readonly Vec3[] = []): [PointPair, PointPair, PointPair] =>
    inFile.map((each, i) => ({
      inFile: each,
      onVehicle: add(carried(each), shift[i] ?? [0, 0, 0]),
    })) as [PointPair, PointPair, PointPair];

  test('give back the motion that they were carried by', () => {
    const placed = placedByPoints(pairs(), 1 / 25.4);
    if (!placed.ok) throw new Error(placed.message);
    // doubles: lengths of some 30 in
    expect(distance(placed.at, at)).toBeLessThan(1e-12);
    expect(
      distance(placed.forward, turned([1, 0, 0], axis, Math.cos(2), Math.sin(2))),
    ).toBeLessThan(1e-12);
    expect(distance(placed.up, turned([0, 0, 1], axis, Math.cos(2), Math.sin(2)))).toBeLessThan(
      1e-12,
    );
    expect(placed.off).toBeLessThan(1e-12);
    expect(placed.stretch).toBeCloseTo(1, 12);
  });

  test('that are off a little leave a little, and no turn leaves less', () => {
    const shift: Vec3[] = [
      [0.1, 0, -0.05],
      [0, 0.08, 0],
      [-0.06, 0, 0.04],
    ];
    const off = pairs(shift);
    const placed = placedByPoints(off, 1 / 25.4);
    if (!placed.ok) throw new Error(placed.message);
    expect(placed.off).toBeGreaterThan(0.001);
    // no further than the points were moved, all together
    expect(placed.off).toBeLessThan(0.3);
    const left = cross(placed.up, placed.forward);
    const squares = (angle: number): number => {
      const q = off.map(({ onVehicle }) => onVehicle);
      const normal = unit(
        cross(
          add(q[1] as Vec3, scale(q[0] as Vec3, -1)),
          add(q[2] as Vec3, scale(q[0] as Vec3, -1)),
        ),
      );
      const middle = scale(add(add(q[0] as Vec3, q[1] as Vec3), q[2] as Vec3), 1 / 3);
      return off.reduce((sum, pair) => {
        const [x, y, z] = scale(pair.inFile, 1 / 25.4);
        const there = add(
          add(add(scale(placed.forward, x), scale(left, y)), scale(placed.up, z)),
          placed.at,
        );
        const about = add(
          turned(add(there, scale(middle, -1)), normal, Math.cos(angle), Math.sin(angle)),
          middle,
        );
        return sum + distance(about, pair.onVehicle) ** 2;
      }, 0);
    };
    for (const angle of [-0.01, -0.001, 0.001, 0.01]) {
      expect(squares(angle)).toBeGreaterThan(squares(0));
    }
  });

  test('tell a wrong unit, and points on one line', () => {
    const wrong = placedByPoints(pairs(), 1);
    expect(wrong.ok && wrong.stretch).toBeCloseTo(25.4, 6);
    const [a, b] = pairs();
    const line = { inFile: [320, 35, 10] as Vec3, onVehicle: carried([320, 35, 10]) };
    expect(placedByPoints([a, b, line], 1 / 25.4).ok).toBe(false);
  });
});
