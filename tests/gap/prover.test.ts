/**
 * Proved bounds under attack: random poses, poses on both sides of the boundaries of cells, poses on the range's edge, and
 * descents. Without the slack of the cells the bounds fall, and so does a bound in too few parameters.
 */
import { describe, expect, test } from 'vitest';
import { GapSearch } from '../../geometry/gap/leastGaps.ts';
import type { PairGap } from '../../geometry/gap/pairGap.ts';
import type { Pair } from '../../geometry/gap/pairs.ts';
import { ProofRun, proveAll } from '../../geometry/gap/proofRun.ts';
import { Prover } from '../../geometry/gap/prover.ts';
import { attack, inWords, ROUNDING_in } from '../attack/attack.ts';
import { type CycledExample, cycled, draws, type Example, pairOf } from './cycled.ts';

const RESOLUTION_in = 0.02;
const SEED = 11;

function proved(example: CycledExample, pairs: readonly Pair[]) {
  const search = new GapSearch(example.walk, example.parts, pairs);
  const found = pairs.map((_, p) => search.least(p));
  const run = new ProofRun(example.walk, search, found, RESOLUTION_in);
  return { walk: example.walk, search, found, gaps: proveAll(run, {}) };
}

/** Poses, and what is proved: all pairs of an unsteered axle, those that say most of a steered one. */
const CASES: { name: Example; poses: number; names: [string, string][] | null }[] = [
  { name: 'triangulated-rear', poses: 12_000, names: null },
  {
    name: 'long-arm-front',
    poses: 8_000,
    names: [
      ['track bar', 'differential'],
      ['track bar', 'drag link'],
      ['track bar', 'left coil'],
      ['drag link', 'differential'],
      ['drag link', 'tie rod'],
      ['drag link', 'pitman arm'],
      ['drag link', 'left rail'],
      ['left tire', 'left lower link'],
      ['left tire', 'left rail'],
      ['right tire', 'right lower link'],
      ['right tire', 'right shock body'],
      ['left tire', 'pitman arm'],
      ['left lower link', 'left rail'],
      ['tie rod', 'left lower link'],
    ],
  },
];

describe.each(CASES)('$name', ({ name, poses, names }) => {
  const example = cycled(name);
  const pairs = names ? names.map(([a, b]) => pairOf(example, a, b)) : example.pairs;
  const state = proved(example, pairs);

  test('every pair is settled, and the bound is as near as was asked, or well over the gap asked for', () => {
    for (const { pair, status, gap, lower, pose } of state.gaps) {
      const what = `${pair.a.name} / ${pair.b.name}`;
      expect(status, what).not.toBe('undecided');
      expect(lower, what).not.toBeNull();
      expect(lower, what).toBeLessThanOrEqual(gap);
      expect(lower, what).toBeGreaterThanOrEqual(
        Math.min(gap - RESOLUTION_in, pair.required + 1) - 1e-9,
      );
      // the gap that is told occurs at the pose that is told, inside the range
      expect(state.search.gapAt(pair, pose), what).toBeCloseTo(gap, 9);
      const { left, right } = pose.input;
      expect(example.walk.reach.travel(left, right).margin, what).toBeGreaterThanOrEqual(-1e-9);
    }
  });

  test('no attack comes under a bound', () => {
    const outcome = attack(state, draws(SEED), { poses, pairsAtEach: 4, starts: 60 });
    console.info(`seed ${SEED}: ${inWords(name, outcome)}`);
    expect(outcome.poses).toBe(poses);
    expect(outcome.least).toBeGreaterThanOrEqual(-ROUNDING_in);
  });
});

test('without the slack of the cells the same bounds are wrong, and the attack shows it', () => {
  const example = cycled('triangulated-rear');
  const { pairs, walk, parts } = example;
  const search = new GapSearch(walk, parts, pairs);
  const prover = new Prover(walk.range, walk.reach);
  prover.slack = 0;
  const moving = pairs.filter(pair => !pair.still);
  const gaps = moving.map((pair): PairGap => {
    const least = search.least(pairs.indexOf(pair));
    // with no least gap known beforehand, far pairs are told by wide cells, where corners alone miss most
    const start = { gap: least.gap + 100, pose: walk.model.ride };
    const proof = prover.prove(pair, RESOLUTION_in, start);
    return { ...least, lower: proof.lower };
  });
  const outcome = attack({ walk, search, gaps }, draws(SEED), {
    poses: 3000,
    pairsAtEach: 8,
    starts: 100,
  });
  console.info(`without slack: ${inWords('triangulated-rear', outcome)}`);
  expect(outcome.least).toBeLessThan(-1e-3);
});

test('a pair that is looked at in too few parameters is caught', () => {
  const example = cycled('long-arm-front');
  const { walk, parts } = example;
  const pair = pairOf(example, 'left tire', 'left lower link');
  // the tire as if it were bolted to the axle: two parameters, the steering left out
  const bolted: Pair = {
    ...pair,
    a: pair.a.name === 'left tire' ? onAxle(pair.a) : pair.a,
    b: pair.b.name === 'left tire' ? onAxle(pair.b) : pair.b,
  };
  const search = new GapSearch(walk, parts, [pair]);
  const wrong = new GapSearch(walk, [...parts, bolted.a, bolted.b], [bolted]);
  const found = wrong.least(0);
  const prover = new Prover(walk.range, walk.reach);
  expect(prover.spaces.of(bolted)[0]?.space.p).toBe(2);
  expect(prover.spaces.of(pair)[0]?.space.p).toBe(3);
  const proof = prover.prove(bolted, RESOLUTION_in, found);
  expect(proof.undecided).toBe(false);
  const outcome = attack(
    { walk, search, gaps: [{ ...found, pair, lower: proof.lower }] },
    draws(SEED),
    { poses: 500, pairsAtEach: 1, starts: 20 },
  );
  console.info(`two parameters for three: ${inWords('long-arm-front', outcome)}`);
  expect(outcome.least).toBeLessThan(-0.1);
});

const onAxle = (part: Pair['a']): Pair['a'] => ({
  ...part,
  body: 'axle',
  motion: { kind: 'rigid', body: 'axle' },
  roll: null,
});

test('a proof can be stopped after any step: what it says then holds, and gets better', () => {
  const example = cycled('triangulated-rear');
  const pair = pairOf(example, 'left upper link', 'link cross-member');
  const search = new GapSearch(example.walk, example.parts, [pair]);
  const run = new ProofRun(example.walk, search, [search.least(0)], RESOLUTION_in);
  const bounds: number[] = [];
  while (run.step(20)) bounds.push((run.gaps[0] as PairGap).lower ?? Number.NEGATIVE_INFINITY);
  const last = run.gaps[0] as PairGap;
  bounds.push(last.lower as number);
  expect(bounds.length).toBeGreaterThan(3);
  for (const [i, bound] of bounds.slice(1).entries()) {
    expect(bound).toBeGreaterThanOrEqual(bounds[i] as number);
  }
  expect(last.status).not.toBe('undecided');
  expect(run.done).toBe(1);
});
