import { BufferAttribute, BufferGeometry, Mesh } from 'three';
import { STLExporter } from 'three/examples/jsm/exporters/STLExporter.js';
import { describe, expect, it } from 'vitest';
import { readStl } from '../../geometry/solid/readStl.ts';
import { meshes, type PoolMesh } from '../oracle/solidCases.ts';
import { bytesOf, cornersOf } from './files.ts';

/** A mesh of the pool as three has it, in single precision. */
function threeMesh({ positions, triangles }: PoolMesh): Mesh {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(Float32Array.from(positions), 3));
  geometry.setIndex(triangles);
  return new Mesh(geometry);
}

function binary(index: number): Uint8Array {
  const view = new STLExporter().parse(threeMesh(meshes[index] as PoolMesh), { binary: true });
  return new Uint8Array(view.buffer);
}

const text = `solid bracket
facet normal 0 0 1
 outer loop
  vertex 0 0 0
  vertex 1.5e0 0 0
  vertex 0 +.25 -1
 endloop
endfacet
endsolid bracket
`;

describe('an STL file', () => {
  it.each([0, 1, 2, 3])("as three's exporter writes it, binary and text (mesh %i)", index => {
    const source = meshes[index] as PoolMesh;
    const want = source.triangles.map(i =>
      source.positions.slice(3 * i, 3 * i + 3).map(Math.fround),
    );
    expect(cornersOf(readStl(binary(index)))).toEqual(want);
    const written = new STLExporter().parse(threeMesh(source), { binary: false });
    expect(cornersOf(readStl(bytesOf(written)))).toEqual(want);
  });

  it('of text is read whatever its letters, line ends and normals', () => {
    const want = [
      [0, 0, 0],
      [1.5, 0, 0],
      [0, 0.25, -1],
    ];
    for (const each of [
      text,
      text.toUpperCase(),
      text.replaceAll('\n', '\r\n'),
      text.replaceAll('\n', '\r'),
      `\ufeff\n  ${text}`,
      text.replace('0 0 1', 'nan nan nan'),
      text.replace('solid bracket', 'solid'),
      text.replace(/\n *(?!facet)/g, ' ').replace(' facet', '\nfacet'),
    ]) {
      expect(cornersOf(readStl(bytesOf(each))), each).toEqual(want);
    }
  });

  it('that is binary is read though its name begins with solid, and though bytes follow', () => {
    const bytes = binary(0);
    bytes.set(bytesOf('solid part'), 0);
    expect(cornersOf(readStl(bytes)).length).toBe(36);
    const longer = new Uint8Array(bytes.length + 7);
    longer.set(bytes);
    expect(readStl(longer)).toMatchObject({ notes: ['7 bytes after the last triangle left out'] });
  });

  const header = (count: number, length: number): Uint8Array => {
    const bytes = new Uint8Array(length);
    new DataView(bytes.buffer).setUint32(80, count, true);
    return bytes;
  };
  const spoiled = (() => {
    const bytes = binary(0);
    new DataView(bytes.buffer).setFloat32(84 + 50 + 12 + 16, Number.NaN, true);
    return bytes;
  })();

  it.each([
    ['empty', new Uint8Array(0), 'the file is empty'],
    [
      'too short',
      new Uint8Array(50),
      'the file has 50 bytes; a binary STL has 84 before its first triangle',
    ],
    [
      'cut off',
      binary(0).subarray(0, 300),
      'the file is cut off: its header announces 12 triangles, 684 bytes; it has 300',
    ],
    [
      'of 200 GB by its header',
      header(0xffffffff, 134),
      'the file is cut off: its header announces 4294967295 triangles, 214748364834 bytes; it has 134',
    ],
    ['without triangles', header(0, 84), 'the mesh is empty: its header announces 0 triangles'],
    [
      'with too many',
      header(1_000_001, 84 + 50 * 1_000_001),
      'the mesh has 1000001 triangles; at most 1000000 are read: thin it out',
    ],
    ['with NaN', spoiled, 'y of corner 2 of triangle 2 is NaN; it must be a finite number'],
    [
      'other text',
      bytesOf('v 0 0 0\nv 1 0 0\nf 1 2 3\n'),
      "this is text, but no STL: it begins with 'v 0 0 0 v 1 0 0 f 1' where 'solid' is due",
    ],
    [
      'text with a word for a number',
      bytesOf(text.replace('1.5e0', 'one')),
      "line 5: x of a vertex is 'one'; it must be a finite number",
    ],
    [
      'text with infinity',
      bytesOf(text.replace('1.5e0', '1e999')),
      "line 5: x of a vertex is '1e999'; it must be a finite number",
    ],
    [
      'text with hexadecimal',
      bytesOf(text.replace('1.5e0', '0x10')),
      "line 5: x of a vertex is '0x10'; it must be a finite number",
    ],
    [
      'text with four corners',
      bytesOf(text.replace(' endloop', ' vertex 1 1 1\n endloop')),
      "line 7: 'vertex' where 'endloop' is due",
    ],
    [
      'text that is cut off in a facet',
      bytesOf(text.slice(0, 70)),
      "the file is cut off: it ends where 'y of a vertex' is due",
    ],
    [
      'text that is cut off between facets',
      bytesOf(text.replace('endsolid bracket\n', '')),
      "the file is cut off: it ends where 'endsolid' is due",
    ],
    ['text without facets', bytesOf('solid\nendsolid\n'), 'the mesh is empty: it has no facets'],
  ])('that is %s is refused', (_, bytes, problem) => {
    expect(readStl(bytes)).toEqual({ problem });
  });
});
