import fc from 'fast-check';
import { type BufferGeometry, Mesh, Vector3 } from 'three';
import { GLTFLoader } from 'three/examples/jsm/loaders/GLTFLoader.js';
import { describe, expect, it } from 'vitest';
import { readGlb } from '../../geometry/solid/readGlb.ts';
import { bytesOf, cornersOf, glbOf } from './files.ts';

/** Four corners of a square, floats, and indices of its two triangles, 16 bits. */
const binary = new Uint8Array(60);
new Float32Array(binary.buffer, 0, 12).set([0, 0, 0, 1, 0, 0, 1, 1, 0, 0, 1, 0]);
new Uint16Array(binary.buffer, 48, 6).set([0, 1, 2, 0, 2, 3]);

// biome-ignore lint/suspicious/noExplicitAny: tests spoil it in every place
type Gltf = any;

const good = (): Gltf => ({
  asset: { version: '2.0' },
  buffers: [{ byteLength: 60 }],
  bufferViews: [
    { buffer: 0, byteLength: 48 },
    { buffer: 0, byteOffset: 48, byteLength: 12 },
  ],
  accessors: [
    { bufferView: 0, componentType: 5126, count: 4, type: 'VEC3', min: [0, 0, 0], max: [1, 1, 0] },
    { bufferView: 1, componentType: 5123, count: 6, type: 'SCALAR' },
  ],
  meshes: [{ primitives: [{ attributes: { POSITION: 0 }, indices: 1 }] }],
  nodes: [{ mesh: 0 }],
  scenes: [{ nodes: [0] }],
  scene: 0,
});

function changed(change: (json: Gltf) => void): Uint8Array {
  const json = good();
  change(json);
  return glbOf(json, binary);
}

/** Corners of all triangles as three's loader has them, carried by its nodes. */
async function byThree(bytes: Uint8Array): Promise<number[][]> {
  const { scene } = await new GLTFLoader().parseAsync(bytes.slice().buffer, '');
  scene.updateMatrixWorld(true);
  const corners: number[][] = [];
  scene.traverse(object => {
    if (!(object instanceof Mesh)) return;
    const geometry = object.geometry as BufferGeometry;
    const position = geometry.getAttribute('position');
    const order = geometry.getIndex()?.array ?? Array.from({ length: position.count }, (_, i) => i);
    for (const i of order) {
      const v = new Vector3().fromBufferAttribute(position, i).applyMatrix4(object.matrixWorld);
      corners.push(v.toArray());
    }
  });
  return corners;
}

const rounded = (corners: number[][]) => corners.map(p => p.map(x => Number(x.toFixed(5)) + 0));

describe('a GLB file', () => {
  it('is read as it stands', () => {
    expect(cornersOf(readGlb(glbOf(good(), binary)))).toEqual([
      [0, 0, 0],
      [1, 0, 0],
      [1, 1, 0],
      [0, 0, 0],
      [1, 1, 0],
      [0, 1, 0],
    ]);
  });

  it.each<[string, (json: Gltf) => void]>([
    [
      'nodes in nodes',
      json => {
        json.nodes = [
          {
            children: [1, 2],
            translation: [1, 2, 3],
            rotation: [0.1, 0.5, 0.5, 0.7],
            scale: [2, 1, 0.5],
          },
          { mesh: 0, rotation: [0, 0.6, 0, 0.8] },
          { mesh: 0, matrix: [0, 1, 0, 0, -1, 0, 0, 0, 0, 0, 1, 0, 5, 6, 7, 1] },
        ];
      },
    ],
    [
      'an offset and a stride',
      json => {
        json.bufferViews[0] = { buffer: 0, byteLength: 48, byteStride: 16 };
        json.accessors[0] = {
          bufferView: 0,
          byteOffset: 4,
          componentType: 5126,
          count: 3,
          type: 'VEC3',
          min: [0, 0, 0],
          max: [1, 1, 1],
        };
        json.accessors[1] = {
          bufferView: 1,
          byteOffset: 2,
          componentType: 5121,
          count: 3,
          type: 'SCALAR',
        };
      },
    ],
    [
      'no indices',
      json => {
        json.accessors[0].count = 3;
        delete json.meshes[0].primitives[0].indices;
      },
    ],
  ])('with %s is read as by three’s loader', async (_, change) => {
    const bytes = changed(change);
    expect(rounded(cornersOf(readGlb(bytes)))).toEqual(rounded(await byThree(bytes)));
  });

  it('with a strip, a fan and a mirroring node keeps the triangles facing alike', () => {
    const order = (change: (json: Gltf) => void) =>
      cornersOf(readGlb(changed(change)))
        .map(([x, y]) => `${x}${y}`)
        .join(' ');
    const square = (mode: number) => (json: Gltf) => {
      delete json.meshes[0].primitives[0].indices;
      json.meshes[0].primitives[0].mode = mode;
    };
    // corners 0, 1, 2, 3 of the square: strip 012 then 2 1 3 turned, fan 012 023
    expect(order(square(5))).toBe('00 10 11 11 10 01');
    expect(order(square(6))).toBe('00 10 11 00 11 01');
    const mirrored = order(json => {
      json.nodes[0].scale = [-1, 1, 1];
    });
    expect(mirrored).toBe('00 -11 -10 00 01 -11');
  });

  it('leaves out points and lines, and says so', () => {
    const read = readGlb(
      changed(json => json.meshes[0].primitives.push({ attributes: { POSITION: 0 }, mode: 1 })),
    );
    expect(read).toMatchObject({ notes: ['points and lines left out'] });
  });

  const cut = glbOf(good(), binary).subarray(0, 200);
  it.each<[string, Uint8Array, string]>([
    ['empty', new Uint8Array(0), 'the file is empty'],
    [
      'text',
      bytesOf('{"asset":{"version":"2.0"}}'),
      'this is text (glTF as JSON); a GLB file is binary: export it as one file',
    ],
    ['something else', bytesOf('solid part'), "this is no GLB: it does not begin with 'glTF'"],
    [
      'cut off',
      cut,
      `the file is cut off: its header announces ${glbOf(good(), binary).length} bytes; it has 200`,
    ],
    ['of four bytes', bytesOf('glTF'), 'the file is cut off: it has 4 bytes'],
    ['of bad JSON', glbOf('{"a":', binary), 'its JSON chunk cannot be parsed'],
    ['of a JSON list', glbOf('[1]', binary), 'the JSON chunk is [1]; it must be an object'],
    [
      'without the binary chunk',
      glbOf(good()),
      'accessors[0] needs the binary chunk, which is missing',
    ],
    [
      'with a view outside of the chunk',
      changed(json => {
        json.bufferViews[0].byteOffset = 40;
      }),
      'bufferViews[0] ends at byte 88; the binary chunk has 60',
    ],
    [
      'with a view at an offset of 1e300',
      changed(json => {
        json.bufferViews[0].byteOffset = 1e300;
      }),
      'bufferViews[0].byteOffset is 1e+300; it must be a whole number from 0 up',
    ],
    [
      'with a negative offset',
      changed(json => {
        json.accessors[0].byteOffset = -4;
      }),
      'accessors[0].byteOffset is -4; it must be a whole number from 0 up',
    ],
    [
      'with a count of a thousand million',
      changed(json => {
        json.accessors[0].count = 1e9;
      }),
      'accessors[0] ends at byte 12000000000 of bufferViews[0], which has 48',
    ],
    [
      'with a stride that leaves the view',
      changed(json => {
        json.bufferViews[0].byteStride = 40;
      }),
      'accessors[0] ends at byte 132 of bufferViews[0], which has 48',
    ],
    [
      'with an index too high',
      changed(json => {
        json.accessors[0].count = 3;
      }),
      'accessors[1]: index 5 is 3; there are 3 vertices',
    ],
    [
      'with another file',
      changed(json => {
        json.buffers[0].uri = 'part.bin';
      }),
      'buffers[0] lies outside of the file: export it as one GLB',
    ],
    [
      'with an unknown accessor',
      changed(json => {
        json.meshes[0].primitives[0].attributes.POSITION = 7;
      }),
      'a primitive names accessors[7]; there are 2',
    ],
    [
      'without positions',
      changed(json => {
        json.meshes[0].primitives[0].attributes = {};
      }),
      'meshes[0].primitives[0].attributes.POSITION is missing; it must be a whole number from 0 up',
    ],
    [
      'with quantized positions',
      changed(json => {
        json.accessors[0].componentType = 5122;
      }),
      'accessors[0] holds positions as "VEC3" of 5122; "VEC3" of 5126 (floats) is read',
    ],
    [
      'with sparse positions',
      changed(json => {
        json.accessors[0].sparse = {};
      }),
      'accessors[0] is sparse, which is not read',
    ],
    [
      'compressed',
      changed(json => {
        json.extensionsRequired = ['KHR_draco_mesh_compression'];
      }),
      'it needs the extension "KHR_draco_mesh_compression", which is not read: export it without',
    ],
    [
      'with nodes in a circle',
      changed(json => {
        json.nodes = [{ children: [1] }, { children: [0] }];
      }),
      'nodes[0] has two parents, or is its own',
    ],
    [
      'with an unknown node',
      changed(json => {
        json.scenes[0].nodes = [3];
      }),
      'the scene names nodes[3]; there are 1',
    ],
    [
      'with a place of words',
      changed(json => {
        json.nodes[0].translation = [0, 'x', 0];
      }),
      'nodes[0].translation is [0,"x",0]; it must be 3 numbers',
    ],
    [
      'with a place beyond all numbers',
      changed(json => {
        json.nodes[0].scale = [1e308, 1e308, 1e308];
        json.nodes.push({ children: [0], scale: [1e308, 1, 1] });
        json.scenes[0].nodes = [1];
      }),
      'accessors[0]: vertex 0 is (0, 0, 0); it must be finite',
    ],
    [
      'without triangles',
      changed(json => {
        json.meshes[0].primitives[0].mode = 0;
      }),
      'the mesh is empty: it has no triangles',
    ],
    ['without anything', glbOf({}), 'the mesh is empty: it has no triangles'],
  ])('that is %s is refused', (_, bytes, problem) => {
    expect(readGlb(bytes)).toEqual({ problem });
  });

  it('that is spoiled anywhere gives a message or finite triangles, and throws nothing', () => {
    const whole = glbOf(good(), binary);
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(whole.length - 1), fc.nat(255)), { minLength: 1, maxLength: 6 }),
        fc.nat(whole.length),
        (changes, end) => {
          const bytes = whole.slice(0, end % 4 === 0 ? end : whole.length);
          for (const [at, value] of changes) if (at < bytes.length) bytes[at] = value;
          const read = readGlb(bytes);
          if ('problem' in read) return read.problem.length > 0;
          return (
            read.mesh.positions.every(Number.isFinite) &&
            read.mesh.triangles.every(i => i < read.mesh.positions.length / 3)
          );
        },
      ),
      { seed: 1, numRuns: 3000 },
    );
  });
});
