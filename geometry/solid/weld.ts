/**
 * What holds a mesh together: vertices at the same place made one, and whether its surface is closed.
 *
 * STL writes each triangle's corners anew; corners of neighbors are equal to the last bit, so that only
 * equal coordinates are welded. A tolerance would close holes that are there.
 */

/** The mesh with equal vertices made one and triangles without extent left out. */
export interface Welded {
  readonly positions: Float64Array;
  readonly triangles: Uint32Array;
  /** Triangles left out because two of their corners are the same point. */
  readonly dropped: number;
}

/** Welds equal vertices; vertices that no triangle uses go too. */
export function weld(positions: Float64Array, triangles: Uint32Array): Welded {
  const count = triangles.length;
  // open addressing, at most half full
  const bits = Math.ceil(Math.log2(Math.max(16, 2 * Math.min(count, positions.length / 3))));
  const mask = 2 ** bits - 1;
  const table = new Int32Array(mask + 1).fill(-1);
  const coordinates = new Float64Array(3);
  const words = new Uint32Array(coordinates.buffer);
  const kept = new Float64Array(positions.length);
  const renamed = new Int32Array(positions.length / 3).fill(-1);
  let vertices = 0;
  const rename = (old: number): number => {
    const known = renamed[old] as number;
    if (known >= 0) return known;
    // + 0 turns −0 into 0, so that both have the same bits
    coordinates[0] = (positions[3 * old] as number) + 0;
    coordinates[1] = (positions[3 * old + 1] as number) + 0;
    coordinates[2] = (positions[3 * old + 2] as number) + 0;
    let hash = 0x811c9dc5;
    for (let i = 0; i < 6; i++) {
      hash = Math.imul(hash ^ (words[i] as number), 0x01000193);
      hash ^= hash >>> 15;
    }
    // the last word's exponent has to reach the low bits too
    hash = Math.imul(hash ^ (hash >>> 13), 0x85ebca6b);
    hash ^= hash >>> 16;
    let slot = hash & mask;
    while (true) {
      const vertex = table[slot] as number;
      if (vertex < 0) break;
      if (
        kept[3 * vertex] === coordinates[0] &&
        kept[3 * vertex + 1] === coordinates[1] &&
        kept[3 * vertex + 2] === coordinates[2]
      ) {
        renamed[old] = vertex;
        return vertex;
      }
      slot = (slot + 1) & mask;
    }
    table[slot] = vertices;
    kept.set(coordinates, 3 * vertices);
    renamed[old] = vertices;
    return vertices++;
  };
  const out = new Uint32Array(count);
  let end = 0;
  for (let i = 0; i + 2 < count; i += 3) {
    const a = rename(triangles[i] as number);
    const b = rename(triangles[i + 1] as number);
    const c = rename(triangles[i + 2] as number);
    if (a === b || b === c || c === a) continue;
    out[end++] = a;
    out[end++] = b;
    out[end++] = c;
  }
  return {
    positions: kept.slice(0, 3 * vertices),
    triangles: out.slice(0, end),
    dropped: (count - end) / 3,
  };
}

/** Edges that keep a mesh from being closed, by what is wrong with them. */
export interface BrokenEdges {
  /** Edges of one triangle only: a hole or a rim. */
  readonly open: number;
  /** Edges of more than two triangles. */
  readonly crowded: number;
  /** Edges whose two triangles run along them in the same sense: one of them is turned over. */
  readonly turned: number;
}

/** Counts the edges that keep a welded mesh from being closed; all zero means closed. */
export function brokenEdges(triangles: Uint32Array, vertices: number): BrokenEdges {
  // Each edge goes to the bucket of its lesser vertex, as the other one · 2 + its sense.
  const starts = new Uint32Array(vertices + 1);
  const least = (i: number, j: number) => Math.min(triangles[i] as number, triangles[j] as number);
  for (let i = 0; i < triangles.length; i += 3) {
    for (let k = 0; k < 3; k++) {
      const bucket = least(i + k, i + ((k + 1) % 3)) + 1;
      starts[bucket] = (starts[bucket] as number) + 1;
    }
  }
  for (let v = 0; v < vertices; v++) {
    starts[v + 1] = (starts[v + 1] as number) + (starts[v] as number);
  }
  const next = starts.slice();
  const edges = new Uint32Array(triangles.length);
  for (let i = 0; i < triangles.length; i += 3) {
    for (let k = 0; k < 3; k++) {
      const from = triangles[i + k] as number;
      const to = triangles[i + ((k + 1) % 3)] as number;
      const bucket = Math.min(from, to);
      const slot = next[bucket] as number;
      next[bucket] = slot + 1;
      edges[slot] = from < to ? 2 * to : 2 * from + 1;
    }
  }
  let open = 0;
  let crowded = 0;
  let turned = 0;
  for (let v = 0; v < vertices; v++) {
    const bucket = edges.subarray(starts[v] as number, starts[v + 1] as number).sort();
    for (let i = 0; i < bucket.length; ) {
      const other = (bucket[i] as number) >> 1;
      let end = i;
      let sense = 0;
      while (end < bucket.length && (bucket[end] as number) >> 1 === other) {
        sense += (bucket[end] as number) & 1;
        end++;
      }
      const uses = end - i;
      if (uses === 1) open++;
      else if (uses > 2) crowded++;
      else if (sense !== 1) turned++;
      i = end;
    }
  }
  return { open, crowded, turned };
}

/** One vertex of each connected part of a welded mesh. */
export function partsOf(triangles: Uint32Array, vertices: number): Uint32Array {
  const parent = Uint32Array.from({ length: vertices }, (_, i) => i);
  const rootOf = (vertex: number): number => {
    let v = vertex;
    while (parent[v] !== v) {
      const up = parent[parent[v] as number] as number;
      parent[v] = up;
      v = up;
    }
    return v;
  };
  for (let i = 0; i < triangles.length; i += 3) {
    const a = rootOf(triangles[i] as number);
    const b = rootOf(triangles[i + 1] as number);
    if (a !== b) parent[b] = a;
    const c = rootOf(triangles[i + 2] as number);
    if (a !== c) parent[c] = a;
  }
  const roots: number[] = [];
  for (let v = 0; v < vertices; v++) if (parent[v] === v) roots.push(v);
  return Uint32Array.from(roots);
}
