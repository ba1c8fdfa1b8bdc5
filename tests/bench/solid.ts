/**
 * Bench of the gaps of solids: ratios within one run, beside what came of the work.
 *
 * - capsule against capsule: at most 2 × the plain closed form in a bare loop;
 * - a mesh of 20,000 triangles against a capsule: at least 6 × as fast as a shapecast of three-mesh-bvh that is
 *   bounded by plain boxes;
 * - tire against box: under 1 µs.
 */
import { BufferAttribute, BufferGeometry, type Vector3 } from 'three';
import { MeshBVH } from 'three-mesh-bvh';
import { box } from '../../geometry/solid/box.ts';
import { capsule } from '../../geometry/solid/capsule.ts';
import { DistanceSolver, pairStart } from '../../geometry/solid/distance.ts';
import { mesh } from '../../geometry/solid/mesh.ts';
import { type Numbers, numbers } from '../../geometry/solid/numbers.ts';
import { carryPoint, type Placement, placement, unmoved } from '../../geometry/solid/placement.ts';
import type { Made, Solid } from '../../geometry/solid/solid.ts';
import { tire } from '../../geometry/solid/tire.ts';
import { segmentToTriangle } from '../../geometry/solid/triangleDistance.ts';
import { type Candidate, ratioOfMedians, tableOf, timeInRounds } from './timing.ts';

const seed = 5;
const poses = 500;

/** Uniform from 0 to 1, the same from run to run. */
function makeRandom(): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 4294967296;
  };
}

/** Turns by up to `turn` about X and Z and shifts by up to `shift`, along a smooth path. */
function path(turn: number, shift: number, random: () => number): Placement[] {
  const phase = Array.from({ length: 5 }, () => 6 * random());
  return Array.from({ length: poses }, (_, i) => {
    const wave = (k: number) => Math.sin(0.05 * (k + 1) * i + (phase[k] as number));
    const a = turn * wave(0);
    const b = turn * wave(1);
    const [ca, sa, cb, sb] = [Math.cos(a), Math.sin(a), Math.cos(b), Math.sin(b)];
    return placement(
      [cb, -sb * ca, sb * sa, sb, cb * ca, -cb * sa, 0, sa, ca],
      [shift * wave(2), shift * wave(3), shift * wave(4)],
    );
  });
}

function made(shape: Made): Solid {
  if ('problem' in shape) throw new Error(shape.problem);
  return shape.solid;
}

/** Runs the benches and prints their tables and ratios. */
export function benchSolid(): void {
  console.log(`solids: ${poses} poses along a path, seed ${seed}`);
  benchCapsules();
  benchTire();
  benchMesh();
}

function benchCapsules(): void {
  const random = makeRandom();
  const one = made(capsule({ from: [0, 18, 28], to: [2, -20, 25], radius: 0.75 }));
  const two = made(capsule({ from: [7, 18, 27], to: [7, -30, 24], radius: 0.6 }));
  const placesA = path(0.15, 3, random);
  const placesB = path(0.15, 3, random);
  const solver = new DistanceSolver();
  const here = unmoved();
  const ours = (): number => {
    let sum = 0;
    for (let i = 0; i < poses; i++) {
      solver.run(one, placesA[i] ?? here, two, placesB[i] ?? here);
      sum += solver.gap;
    }
    return sum;
  };
  const s = numbers(21);
  const bare = (): number => {
    let sum = 0;
    const p = one.pieces[0]?.data ?? s;
    const q = two.pieces[0]?.data ?? s;
    for (let i = 0; i < poses; i++) {
      const a = placesA[i] ?? here;
      const b = placesB[i] ?? here;
      carryPoint(a, p, 0, s, 0);
      carryPoint(a, p, 3, s, 3);
      carryPoint(b, q, 0, s, 6);
      carryPoint(b, q, 3, s, 9);
      plainDistance(s);
      sum += s[20] - 1.35;
    }
    return sum;
  };
  const timings = timeInRounds([
    { name: 'plain closed form', items: poses, run: bare, outcome: () => `sum ${bare()}` },
    { name: 'capsule pair', items: poses, run: ours, outcome: () => `sum ${ours()}` },
  ]);
  console.log(tableOf(timings, 'plain closed form'));
  const [plain, pair] = timings;
  const least = (pair?.least_us ?? 0) / (plain?.least_us ?? 1);
  const median = 1 / ratioOfMedians(timings, 'plain closed form', 'capsule pair');
  console.log(
    `capsule pair takes ${least.toFixed(2)} × the plain closed form by the least times, ${median.toFixed(2)} × by the medians; at most 2\n`,
  );
}

/**
 * Segments s[0..5] and s[6..11] as the book has it (Ericson, §5.1.9, from memory), lengths not zero: fractions and
 * nearest points to s[12..19], and the distance to s[20].
 */
function plainDistance(s: Numbers): void {
  const dx = s[3] - s[0];
  const dy = s[4] - s[1];
  const dz = s[5] - s[2];
  const ex = s[9] - s[6];
  const ey = s[10] - s[7];
  const ez = s[11] - s[8];
  const rx = s[0] - s[6];
  const ry = s[1] - s[7];
  const rz = s[2] - s[8];
  const a = dx * dx + dy * dy + dz * dz;
  const e = ex * ex + ey * ey + ez * ez;
  const f = ex * rx + ey * ry + ez * rz;
  const c = dx * rx + dy * ry + dz * rz;
  const b = dx * ex + dy * ey + dz * ez;
  const denominator = a * e - b * b;
  let p = denominator === 0 ? 0 : Math.max(0, Math.min(1, (b * f - c * e) / denominator));
  let q = (b * p + f) / e;
  if (q < 0) {
    q = 0;
    p = Math.max(0, Math.min(1, -c / a));
  } else if (q > 1) {
    q = 1;
    p = Math.max(0, Math.min(1, (b - c) / a));
  }
  s[12] = p;
  s[13] = q;
  s[14] = s[0] + p * dx;
  s[15] = s[1] + p * dy;
  s[16] = s[2] + p * dz;
  s[17] = s[6] + q * ex;
  s[18] = s[7] + q * ey;
  s[19] = s[8] + q * ez;
  const x = s[14] - s[17];
  const y = s[15] - s[18];
  const z = s[16] - s[19];
  s[20] = Math.sqrt(x * x + y * y + z * z);
}

function benchTire(): void {
  const random = makeRandom();
  const wheel = made(
    tire({ center: [0, 0, 0], axis: [0, 1, 0], diameter: 41.4, width: 13.5, shoulder: 2 }),
  );
  const rail = made(box({ center: [-10, -22, 14], half: [40, 1.5, 3] }));
  const places = path(0.5, 5, random);
  const solver = new DistanceSolver();
  const here = unmoved();
  const candidate = (name: string, start: ReturnType<typeof pairStart> | null): Candidate => {
    let hits = 0;
    const run = (): number => {
      let sum = 0;
      hits = 0;
      for (let i = 0; i < poses; i++) {
        solver.run(wheel, places[i] ?? here, rail, here, start);
        sum += solver.gap;
        if (solver.gap < 0) hits++;
      }
      return sum;
    };
    return { name, items: poses, run, outcome: () => `${hits} overlaps, sum ${run().toFixed(6)}` };
  };
  const timings = timeInRounds([
    candidate('tire and box, from nothing', null),
    candidate('tire and box, from the last pose', pairStart()),
  ]);
  console.log(tableOf(timings));
  console.log('to be under 1 µs\n');
}

/** A wavy sheet of 20,000 triangles, such as a scan of an engine bay's side. */
function scan(random: () => number): { positions: Float64Array; triangles: Uint32Array } {
  const columns = 125;
  const rows = 80;
  const positions: number[] = [];
  const triangles: number[] = [];
  for (let j = 0; j <= rows; j++) {
    for (let i = 0; i <= columns; i++) {
      const x = 50 * (i / columns - 0.5);
      const y = 30 * (j / rows - 0.5);
      const bump = 2 * Math.sin(0.4 * x) * Math.cos(0.5 * y) + 0.05 * (random() - 0.5);
      positions.push(x, y, bump);
    }
  }
  for (let j = 0; j < rows; j++) {
    for (let i = 0; i < columns; i++) {
      const p = j * (columns + 1) + i;
      const q = p + columns + 1;
      triangles.push(p, p + 1, q + 1, p, q + 1, q);
    }
  }
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}

function benchMesh(): void {
  const random = makeRandom();
  const bare = scan(random);
  const solid = made(mesh(bare));
  const rod = made(capsule({ from: [-18, -12, 9], to: [18, 12, 5], radius: 1 }));
  const places = path(0.15, 2, random);
  const solver = new DistanceSolver();
  const here = unmoved();
  const candidate = (name: string, start: ReturnType<typeof pairStart> | null): Candidate => {
    const search = solver.meshes.meshToSegment;
    const counts = () => {
      const [nodes, triangles] = [search.totalNodes, search.totalTriangles];
      run();
      return `${(search.totalNodes - nodes) / poses} nodes, ${(search.totalTriangles - triangles) / poses} triangles`;
    };
    const run = (): number => {
      let sum = 0;
      for (let i = 0; i < poses; i++) {
        solver.run(rod, places[i] ?? here, solid, here, start);
        sum += solver.gap;
      }
      return sum;
    };
    return { name, items: poses, run, outcome: () => `sum ${run().toFixed(4)}; ${counts()}` };
  };
  const cast = shapecastByBoxes(bare, rod, places);
  const timings = timeInRounds(
    [
      {
        name: 'shapecast by boxes',
        items: poses,
        run: cast,
        outcome: () => `sum ${cast().toFixed(4)}`,
      },
      candidate('20,000 triangles and capsule, from nothing', null),
      candidate('20,000 triangles and capsule, from the last pose', pairStart()),
    ],
    { rounds: 9 },
  );
  console.log(tableOf(timings, 'shapecast by boxes'));
  console.log('to be at least 6 × as fast\n');
}

/**
 * The shapecast that one writes first: children ordered and cut by the distance of the box around the rod from
 * the node's box.
 */
function shapecastByBoxes(
  { positions, triangles }: { positions: Float64Array; triangles: Uint32Array },
  rod: Solid,
  places: Placement[],
): () => number {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(Float32Array.from(positions), 3));
  geometry.setIndex(new BufferAttribute(triangles.slice(), 1));
  const bvh = new MeshBVH(geometry);
  const s = numbers(18);
  const t = numbers(17);
  const data = rod.pieces[0]?.data ?? s;
  const radius = rod.pieces[0]?.radius ?? 0;
  return () => {
    let sum = 0;
    for (const place of places) {
      carryPoint(place, data, 0, s, 0);
      carryPoint(place, data, 3, s, 3);
      let least = Infinity;
      const fromBox = (low: Vector3, high: Vector3): number => {
        const x = Math.max(0, low.x - Math.max(s[0], s[3]), Math.min(s[0], s[3]) - high.x);
        const y = Math.max(0, low.y - Math.max(s[1], s[4]), Math.min(s[1], s[4]) - high.y);
        const z = Math.max(0, low.z - Math.max(s[2], s[5]), Math.min(s[2], s[5]) - high.z);
        return Math.sqrt(x * x + y * y + z * z);
      };
      bvh.shapecast({
        boundsTraverseOrder: bounds => fromBox(bounds.min, bounds.max),
        intersectsBounds: (_box, _isLeaf, score) => (score ?? 0) < least,
        intersectsTriangle: triangle => {
          triangle.a.toArray(t, 0);
          triangle.b.toArray(t, 3);
          triangle.c.toArray(t, 6);
          segmentToTriangle(s, t);
          const distance = Math.sqrt(t[9]);
          if (distance < least) least = distance;
          return false;
        },
      });
      sum += least - radius;
    }
    return sum;
  };
}
