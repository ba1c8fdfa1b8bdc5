import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { sha256Of } from '../../../src/app/files/sha256.ts';
import { lookAt, nameOf } from '../../../src/app/mesh/lookAt.ts';

const text = (words: string): Uint8Array => new TextEncoder().encode(words);

/** A tetrahedron of that size, closed, its faces outward. */
function tetrahedron(size: number): Uint8Array {
  const p = [
    [0, 0, 0],
    [size, 0, 0],
    [0, size, 0],
    [0, 0, size],
  ];
  const faces = [
    [0, 2, 1],
    [0, 1, 3],
    [0, 3, 2],
    [1, 2, 3],
  ];
  const facet = (face: number[]): string =>
    `facet normal 0 0 0\nouter loop\n${face.map(i => `vertex ${p[i]?.join(' ')}`).join('\n')}\nendloop\nendfacet`;
  return text(`solid it\n${faces.map(facet).join('\n')}\nendsolid it\n`);
}

describe('a mesh file that is looked at', () => {
  test.each([
    [600, 'mm'],
    [24, 'in'],
    [0.6, 'm'],
  ] as const)('%f across is taken to be in %s', (size, unit) => {
    expect(lookAt('bracket.stl', tetrahedron(size))).toMatchObject({
      triangles: 4,
      size: [size, size, size],
      notes: [],
      unit,
      forward: '+x',
      up: '+z',
    });
  });

  test('says that it is not closed', () => {
    const scan = readFileSync(new URL('../../../examples/engine-underside.stl', import.meta.url));
    const looked = lookAt('engine-underside.stl', scan);
    expect('notes' in looked && looked.notes.join()).toContain('not closed');
    expect('unit' in looked && looked.unit).toBe('mm');
  });

  test.each([
    ['nothing.stl', text('solid nothing\nendsolid nothing\n')],
    ['list.stl', text('left, right\n1, 2\n')],
    ['flat.obj', text('v 0 0 0\n')],
    ['cut.glb', text('glTF')],
    ['drawing.step', text('ISO-10303-21;')],
    ['huge.stl', tetrahedron(1e9)],
  ])('%s is refused by its name', (name, bytes) => {
    const looked = lookAt(name, bytes);
    expect('problem' in looked && looked.problem).toContain(name);
  });
});

test.each([
  ['engine_bay-v2.stl', 'engine bay v2'],
  ['scans/Oil pan.final.OBJ', 'Oil pan final'],
  [`${'long '.repeat(30)}.glb`, 'long '.repeat(30).trim().slice(0, 80).trim()],
])('%s can be called %s', (file, name) => expect(nameOf(file)).toBe(name));

test('SHA-256 of "abc" is that of FIPS 180-4, its example (from memory)', async () => {
  expect(await sha256Of(text('abc'))).toBe(
    'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
  );
});
