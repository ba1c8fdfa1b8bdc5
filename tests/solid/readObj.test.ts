import { BufferAttribute, BufferGeometry, Mesh } from 'three';
import { OBJExporter } from 'three/examples/jsm/exporters/OBJExporter.js';
import { describe, expect, it } from 'vitest';
import { readObj } from '../../geometry/solid/readObj.ts';
import { meshes, type PoolMesh } from '../oracle/solidCases.ts';
import { bytesOf, cornersOf } from './files.ts';

const square = 'v 0 0 0\nv 1 0 0\nv 1 1 0\nv 0 1 0\n';

describe('an OBJ file', () => {
  it.each([0, 1, 2, 3])("as three's exporter writes it (mesh %i)", index => {
    const { positions, triangles } = meshes[index] as PoolMesh;
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(Float32Array.from(positions), 3));
    geometry.setIndex(triangles);
    geometry.computeVertexNormals();
    const want = triangles.map(i => positions.slice(3 * i, 3 * i + 3).map(Math.fround));
    expect(cornersOf(readObj(bytesOf(new OBJExporter().parse(new Mesh(geometry)))))).toEqual(want);
  });

  const triangle = [
    [0, 0, 0],
    [1, 0, 0],
    [1, 1, 0],
  ];

  it.each([
    ['named one by one', `${square}f 1 2 3`],
    ['named from the end', `${square}f -4 -3 -2`],
    ['named before it is there', `f 1 2 3\n${square}`],
    ['with textures and normals', `${square}vt 0 0\nvn 0 0 1\nf 1/1/1 2//1 3/1`],
    [
      'with comments, groups and materials',
      `# a\no part\ng x\nusemtl y\n${square}s off\nf 1 2 3 # face`,
    ],
    ['with colors and weights', `${square.replace('1 1 0', '1 1 0 0.5 0.5 0.5')}f 1 2 3`],
    ['broken over lines', `${square}f 1 \\\n 2 3`],
    ['with Windows line ends', `${square}f 1 2 3\n`.replaceAll('\n', '\r\n')],
  ])('%s', (_, text) => {
    expect(cornersOf(readObj(bytesOf(text)))).toEqual(triangle);
  });

  it.each([
    ['empty', '', 'the file is empty'],
    [
      'without faces',
      square,
      'the mesh is empty: no line begins with f, as faces do in an OBJ file',
    ],
    ['with an unknown vertex', `${square}f 1 2 5`, 'line 5: a face names vertex 5; there are 4'],
    [
      'with vertex 0',
      `${square}f 0 1 2`,
      "line 5: a face names vertex '0'; vertices are counted from 1, or from -1 to -4 back",
    ],
    [
      'with a vertex too far back',
      `${square}f -5 1 2`,
      "line 5: a face names vertex '-5'; vertices are counted from 1, or from -1 to -4 back",
    ],
    [
      'with a word for a vertex',
      `${square}f 1 2 x`,
      "line 5: a face names vertex 'x'; vertices are counted from 1, or from -1 to -4 back",
    ],
    ['with a face of two', `${square}f 1 2`, 'line 5: a face has 2 corners; it needs 3 or more'],
    [
      'with NaN',
      `${square}v 1 nan 2\nf 1 2 3`,
      "line 5: y of the vertex is 'nan'; it must be a finite number",
    ],
    [
      'with two coordinates',
      'v 1 2\nf 1 1 1',
      'line 1: z of the vertex is missing; it must be a finite number',
    ],
    ['binary', 'v\0', 'this is binary; an OBJ file is text'],
    [
      'with a face of 1,001 corners',
      `${square}f${' 1'.repeat(1001)}`,
      'line 5: a face has more than 1000 corners; cut it up',
    ],
  ])('%s is refused', (_, text, problem) => {
    expect(readObj(bytesOf(text))).toEqual({ problem });
  });
});
