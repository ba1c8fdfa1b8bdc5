import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mesh } from '../../geometry/solid/mesh.ts';
import { readMesh } from '../../geometry/solid/readMesh.ts';
import { INCHES_OF_UNIT } from '../../geometry/solid/triangles.ts';
import { bytesOf, cornersOf } from './files.ts';
import { solidIn } from './made.ts';

const obj = bytesOf('v 0 0 0\nv 25.4 0 0\nv 0 50.8 0\nf 1 2 3\n');

describe('a mesh file', () => {
  it('is read by the ending of its name, whatever its letters', () => {
    expect(cornersOf(readMesh('scan/engine bay.OBJ', obj)).length).toBe(3);
  });

  it('has its problems named with the file', () => {
    expect(readMesh('bay.stl', new Uint8Array(0))).toEqual({
      problem: 'bay.stl: the file is empty',
    });
    expect(readMesh('bay.glb', obj)).toEqual({
      problem: "bay.glb: this is no GLB: it does not begin with 'glTF'",
    });
    expect(readMesh('bay.gltf', obj)).toEqual({
      problem: 'bay.gltf: a .gltf leans on other files: export it as one .glb',
    });
    expect(readMesh('bay.ply', obj)).toEqual({
      problem: "bay.ply: its name ends in 'ply'; .stl, .obj and .glb are read",
    });
    expect(readMesh('bay', obj)).toEqual({
      problem: "bay: its name ends in ''; .stl, .obj and .glb are read",
    });
  });

  it('in millimeters becomes inches', () => {
    const read = readMesh('a.obj', obj);
    if ('problem' in read) throw new Error(read.problem);
    const solid = solidIn(mesh({ ...read.mesh, scale: INCHES_OF_UNIT.mm }));
    expect(solid.mesh?.positions.map(Math.round).toSorted()).toEqual(
      Float64Array.of(0, 0, 0, 0, 0, 0, 0, 1, 2),
    );
    // NIST SP 811: 1 in = 25.4 mm, 1 ft = 0.3048 m
    expect(INCHES_OF_UNIT.m).toBeCloseTo(12 / 0.3048, 12);
    expect(INCHES_OF_UNIT.cm).toBeCloseTo(1 / 2.54, 15);
  });

  it('of any bytes gives a message or triangles, and throws nothing', () => {
    const words = fc.constantFrom(
      'solid',
      'facet',
      'normal',
      'vertex',
      'v',
      'f',
      '1',
      '-1',
      '0',
      'nan',
      '\n',
      '\\\n',
      '/',
      'endsolid',
      'outer',
      'loop',
    );
    const bytes = fc.oneof(
      fc.uint8Array({ maxLength: 300 }),
      fc.array(words, { maxLength: 60 }).map(each => bytesOf(each.join(' '))),
    );
    fc.assert(
      fc.property(fc.constantFrom('a.stl', 'a.obj', 'a.glb'), bytes, (file, content) => {
        const read = readMesh(file, content);
        if ('problem' in read) return read.problem.startsWith(`${file}: `);
        const made = mesh(read.mesh);
        return 'problem' in made || made.solid.mesh !== null;
      }),
      { seed: 1, numRuns: 3000 },
    );
  });
});
