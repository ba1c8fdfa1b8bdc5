import { MOST_TRIANGLES, type ReadTriangles, tooMany } from './triangles.ts';
import { isText, Words } from './words.ts';

const HEADER = 84;
const RECORD = 50;

/**
 * Reads an STL file, binary or text; told apart by what is in it, since the names of binary ones may begin with
 * `solid` too. Normals are left aside, the order of the corners says the same. Layout from memory of
 * the format's description (80 bytes of name, a count, 50 bytes a triangle, little end first).
 */
export function readStl(bytes: Uint8Array): ReadTriangles {
  if (bytes.length === 0) return { problem: 'the file is empty' };
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const announced = bytes.length >= HEADER ? view.getUint32(80, true) : 0;
  const expected = HEADER + RECORD * announced;
  if (bytes.length >= HEADER && expected === bytes.length) return readBinary(view, announced, []);
  const start = String.fromCharCode(...bytes.subarray(0, 200)).replace(/^ï»¿/, '');
  if (isText(bytes)) {
    if (/^\s*solid\b/i.test(start)) return readText(bytes);
    return {
      problem: `this is text, but no STL: it begins with '${excerpt(start)}' where 'solid' is due`,
    };
  }
  if (bytes.length < HEADER) {
    return {
      problem: `the file has ${bytes.length} bytes; a binary STL has ${HEADER} before its first triangle`,
    };
  }
  if (expected > bytes.length) {
    return {
      problem: `the file is cut off: its header announces ${announced} triangles, ${expected} bytes; it has ${bytes.length}`,
    };
  }
  return readBinary(view, announced, [
    `${bytes.length - expected} bytes after the last triangle left out`,
  ]);
}

function excerpt(text: string): string {
  return text.trim().replace(/\s+/g, ' ').slice(0, 20).trimEnd();
}

function readBinary(view: DataView, count: number, notes: string[]): ReadTriangles {
  if (count === 0) return { problem: 'the mesh is empty: its header announces 0 triangles' };
  if (count > MOST_TRIANGLES) return { problem: tooMany(count) };
  const positions = new Float64Array(9 * count);
  for (let t = 0; t < count; t++) {
    // the first three numbers are the normal
    const at = HEADER + RECORD * t + 12;
    for (let i = 0; i < 9; i++) {
      const value = view.getFloat32(at + 4 * i, true);
      if (!Number.isFinite(value)) {
        const axis = 'xyz'[i % 3];
        return {
          problem: `${axis} of corner ${Math.floor(i / 3) + 1} of triangle ${t + 1} is ${value}; it must be a finite number`,
        };
      }
      positions[9 * t + i] = value;
    }
  }
  return { mesh: { positions, triangles: inOrder(3 * count) }, notes };
}

function inOrder(count: number): Uint32Array {
  return Uint32Array.from({ length: count }, (_, i) => i);
}

function readText(bytes: Uint8Array): ReadTriangles {
  const words = new Words(bytes);
  const positions: number[] = [];
  let isOpen = false;
  const wrong = (due: string): ReadTriangles => {
    const found = words.toNext() ? words.next() : null;
    return {
      problem:
        found === null
          ? `the file is cut off: it ends where '${due}' is due`
          : `line ${words.line}: '${found}' where '${due}' is due`,
    };
  };
  const due = (word: string): boolean => words.toNext() && words.take(word);
  while (words.toNext()) {
    if (words.take('solid')) {
      isOpen = true;
      words.nextLine();
      continue;
    }
    if (!isOpen) return wrong('solid');
    if (words.take('endsolid')) {
      isOpen = false;
      words.nextLine();
      continue;
    }
    if (positions.length === 9 * MOST_TRIANGLES) return { problem: tooMany(MOST_TRIANGLES + 1) };
    for (const word of ['facet', 'normal']) if (!due(word)) return wrong(word);
    // the normal's numbers are not looked at: some programs write nan there
    for (let i = 0; i < 3 && words.toNext(); i++) words.next();
    for (const word of ['outer', 'loop']) if (!due(word)) return wrong(word);
    for (let corner = 0; corner < 3; corner++) {
      if (!due('vertex')) return wrong('vertex');
      for (const axis of 'xyz') {
        if (!words.toNext()) return wrong(`${axis} of a vertex`);
        const value = words.takeNumber();
        if (!Number.isFinite(value)) {
          return {
            problem: `line ${words.line}: ${axis} of a vertex is '${words.next()}'; it must be a finite number`,
          };
        }
        positions.push(value);
      }
    }
    for (const word of ['endloop', 'endfacet']) if (!due(word)) return wrong(word);
  }
  if (isOpen) return wrong('endsolid');
  if (positions.length === 0) return { problem: 'the mesh is empty: it has no facets' };
  const mesh = {
    positions: Float64Array.from(positions),
    triangles: inOrder(positions.length / 3),
  };
  return { mesh, notes: [] };
}
