import { cutPolygon, MOST_CORNERS } from './polygon.ts';
import { MOST_TRIANGLES, type ReadTriangles, tooMany } from './triangles.ts';
import { isText, Words } from './words.ts';

/**
 * Reads the vertices and faces of an OBJ file (from memory of the format's description). Faces with more than three
 * corners are cut into triangles; whatever else stands in it (normals, textures, groups, materials, lines) is
 * left aside. A face names vertices from 1 on, or from the last one so far back by negative numbers.
 */
export function readObj(bytes: Uint8Array): ReadTriangles {
  if (bytes.length === 0) return { problem: 'the file is empty' };
  if (!isText(bytes)) return { problem: 'this is binary; an OBJ file is text' };
  const words = new Words(bytes);
  const positions: number[] = [];
  /** Corners of all faces, and for each face where they end and its line. */
  const corners: number[] = [];
  const ends: number[] = [];
  const lines: number[] = [];
  let count = 0;
  do {
    if (words.take('v')) {
      const problem = readVertex(words, positions);
      if (problem !== null) return { problem };
    } else if (words.take('f')) {
      const line = words.line;
      const before = corners.length;
      const problem = readFace(words, positions.length / 3, corners);
      if (problem !== null) return { problem: `line ${line}: ${problem}` };
      ends.push(corners.length);
      lines.push(line);
      count += corners.length - before - 2;
      if (count > MOST_TRIANGLES) return { problem: tooMany(count) };
    }
  } while (words.nextLine());
  if (ends.length === 0) {
    return { problem: 'the mesh is empty: no line begins with f, as faces do in an OBJ file' };
  }
  const vertices = positions.length / 3;
  const triangles: number[] = [];
  for (const [i, end] of ends.entries()) {
    const face = corners.slice(i === 0 ? 0 : ends[i - 1], end);
    const unknown = face.find(vertex => vertex >= vertices);
    if (unknown !== undefined) {
      return {
        problem: `line ${lines[i]}: a face names vertex ${unknown + 1}; there are ${vertices}`,
      };
    }
    cutPolygon(positions, face, triangles);
  }
  const mesh = {
    positions: Float64Array.from(positions),
    triangles: Uint32Array.from(triangles),
  };
  return { mesh, notes: [] };
}

function readVertex(words: Words, positions: number[]): string | null {
  for (const axis of 'xyz') {
    const value = words.takeNumber();
    if (!Number.isFinite(value)) {
      const text = words.next();
      const found = text === null ? 'missing' : `'${text}'`;
      return `line ${words.line}: ${axis} of the vertex is ${found}; it must be a finite number`;
    }
    positions.push(value);
  }
  return null;
}

/** Appends the face's vertices, counted from 0; `vertices`: how many there are so far. */
function readFace(words: Words, vertices: number, corners: number[]): string | null {
  let count = 0;
  while (true) {
    const word = words.next();
    if (word === null || word.startsWith('#')) break;
    // vertex/texture/normal
    const text = word.split('/', 1)[0] as string;
    const named = /^[+-]?\d+$/.test(text) ? Number(text) : 0;
    const vertex = named > 0 ? named - 1 : vertices + named;
    if (named === 0 || vertex < 0) {
      return `a face names vertex '${word}'; vertices are counted from 1, or from -1 to -${vertices} back`;
    }
    if (++count > MOST_CORNERS) return `a face has more than ${MOST_CORNERS} corners; cut it up`;
    corners.push(vertex);
  }
  return count < 3 ? `a face has ${count} corners; it needs 3 or more` : null;
}
