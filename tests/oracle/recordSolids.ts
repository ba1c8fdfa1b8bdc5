/**
 * Records the gaps of the seeded cases (solidCases.ts) as solids.cpp computes them, by FCL where it can tell and
 * by its own search elsewhere, and says how far the two differ.
 *
 *     npx tsx tests/oracle/recordSolids.ts [count] [pair]     such as 10000 hull-mesh: that pair alone anew
 *
 * Needs what solids.cpp names; 10,000 cases of all pairs take half an hour.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gunzipSync, gzipSync } from 'node:zlib';
import {
  type Case,
  casesOf,
  hulls,
  kinds,
  meshes,
  type Place,
  pairsOfKinds,
  type Shape,
} from './solidCases.ts';

const here = import.meta.dirname;
const count = Number(process.argv[2] ?? 10_000);
const only = process.argv[3];
export const seed = 20_000;
/** Steps of the recorded gaps, in: half of it is a hundredth of what is asked for. */
export const grain_in = 2e-8;

function numbersOf(shape: Shape): number[] {
  const kind = kinds.indexOf(shape.kind);
  switch (shape.kind) {
    case 'sphere':
      return [kind, ...shape.center, shape.radius];
    case 'capsule':
    case 'cylinder':
      return [kind, ...shape.from, ...shape.to, shape.radius];
    case 'bentTube':
      return [kind, shape.points.length, ...shape.points.flat(), shape.radius];
    case 'box':
      return [kind, ...shape.center, ...shape.half];
    case 'tire':
      return [kind, ...shape.center, ...shape.axis, shape.diameter, shape.width, shape.shoulder];
    default:
      return [kind, shape.pool];
  }
}

const placeNumbers = ({ rotation, translation }: Place) => [...rotation, ...translation];

function input(cases: Case[]): Buffer {
  const numbers = [hulls.length];
  for (const points of hulls) numbers.push(points.length, ...points.flat());
  numbers.push(meshes.length);
  for (const { positions, triangles, closed } of meshes) {
    numbers.push(closed ? 1 : 0, positions.length / 3, triangles.length / 3);
    numbers.push(...positions, ...triangles);
  }
  numbers.push(cases.length);
  for (const each of cases) {
    numbers.push(...numbersOf(each.a), ...placeNumbers(each.placeA));
    numbers.push(...numbersOf(each.b), ...placeNumbers(each.placeB));
  }
  return Buffer.from(Float64Array.from(numbers).buffer);
}

/**
 * FCL's distance where it has one, the searched gap elsewhere: for overlap and tires, for a body wholly inside a mesh,
 * and where FCL has ended early (its distance is an upper bound, every direction's value a lower one: where the
 * lower one is nearer to being right, the two differ by more than FCL was asked for).
 */
function recordedOf(byFcl: number, searched: number): number {
  if (Number.isNaN(byFcl) || searched < 0) return searched;
  return Math.abs(byFcl - searched) > fclErrs_in ? searched : byFcl;
}

/** Difference from which on FCL counts as having ended early, in. */
const fclErrs_in = 1e-7;

const folder = mkdtempSync(join(tmpdir(), 'solids-'));
const program = join(folder, 'solids');
execFileSync('g++', [
  '-O2',
  '-std=c++17',
  '-I/usr/include/eigen3',
  join(here, 'solids.cpp'),
  '-lfcl',
  '-lccd',
  '-o',
  program,
]);

const file = join(here, '..', 'solid', 'gaps.gz.base64');
const recorded = new Int32Array(pairsOfKinds.length * count);
if (only !== undefined) {
  const before = gunzipSync(Buffer.from(readFileSync(file, 'latin1'), 'base64'));
  if (before.byteLength !== recorded.byteLength) {
    throw new Error(`the record has other counts than ${count}: record all pairs anew`);
  }
  recorded.set(new Int32Array(before.buffer, before.byteOffset, recorded.length));
}
for (const [i, [a, b]] of pairsOfKinds.entries()) {
  if (only !== undefined && only !== `${a}-${b}`) continue;
  const cases = [...casesOf(a, b, seed, count)];
  const started = performance.now();
  const raw = execFileSync(program, { input: input(cases), maxBuffer: 1 << 30 });
  const results = new Float64Array(raw.buffer, raw.byteOffset, 2 * count);
  let worst = 0;
  let worstCase = -1;
  let beyond = 0;
  let both = 0;
  let overlaps = 0;
  let onlySearched = 0;
  for (let k = 0; k < count; k++) {
    const byFcl = results[2 * k] as number;
    const searched = results[2 * k + 1] as number;
    if (byFcl >= 0 && searched > 0) {
      both++;
      const off = Math.abs(byFcl - searched);
      if (off > fclErrs_in) beyond++;
      if (off > worst) {
        worst = off;
        worstCase = k;
      }
    }
    const gap = recordedOf(byFcl, searched);
    if (Number.isNaN(gap)) throw new Error(`${a} ${b}: case ${k} is told by none`);
    if (Number.isNaN(byFcl) && gap > 0) onlySearched++;
    if (gap < 0) overlaps++;
    recorded[i * count + k] = Math.round(gap / grain_in);
  }
  const seconds = ((performance.now() - started) / 1000).toFixed(1);
  console.log(
    `${a} ${b}: ${overlaps} overlaps, ${onlySearched} apart by search alone; FCL and search differ at most ${worst.toExponential(1)} in (case ${worstCase}), over ${fclErrs_in} in ${beyond} of ${both}; ${seconds} s`,
  );
}
const packed = gzipSync(Buffer.from(recorded.buffer), { level: 9 });
writeFileSync(file, packed.toString('base64'));
