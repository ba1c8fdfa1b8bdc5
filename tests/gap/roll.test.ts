/**
 * Roll of links and rods: bent ones that a joint holds stand in the roll that it holds; those that are free are
 * searched over their whole window, against other code that rolls them by Rodrigues' formula.
 */
import { describe, expect, test } from 'vitest';
import type {
  Axle,
  Build,
  Solid as Drawn,
  JointEnd,
  Steering,
  Vec3,
} from '../../geometry/build/build.ts';
import { coarseGrid } from '../../geometry/cycle/grid.ts';
import { openAxle } from '../../geometry/cycle/openAxle.ts';
import { findRange } from '../../geometry/cycle/range.ts';
import type { Cycled } from '../../geometry/cycle/walkReport.ts';
import { type Finding, findFindings } from '../../geometry/finding/finding.ts';
import { type AxleGaps, gapReport, gapsOf } from '../../geometry/gap/gapReport.ts';
import { GapSearch } from '../../geometry/gap/leastGaps.ts';
import { CoarseMap } from '../../geometry/gap/map.ts';
import { type Pair, pairsOf } from '../../geometry/gap/pairs.ts';
import type { Part } from '../../geometry/gap/part.ts';
import { partsOf } from '../../geometry/gap/parts.ts';
import { carried, placed, placeRolled } from '../../geometry/gap/place.ts';
import { PlacedGrid } from '../../geometry/gap/placedGrid.ts';
import { ProofRun, proveAll } from '../../geometry/gap/proofRun.ts';
import { rollRange } from '../../geometry/gap/roll.ts';
import { rollingAt } from '../../geometry/measure/rolling.ts';
import type { AxleModel } from '../../geometry/pose/model.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import { rolledRod } from '../../geometry/pose/rolledRod.ts';
import { DistanceSolver } from '../../geometry/solid/distance.ts';
import { unmoved } from '../../geometry/solid/placement.ts';
import { add, cross, dot, norm, reject, scale, sub, unit, type V3 } from '../../geometry/vector.ts';
import { attack, inWords, ROUNDING_in } from '../attack/attack.ts';
import { cycled, draws, type Example, pairOf } from './cycled.ts';

const degrees = Math.PI / 180;
const noMesh = () => ({ problem: 'no meshes here' });

/** An example with its first axle changed, cycled. */
function changed(name: Example, change: (axle: Axle, build: Build) => void): Cycled {
  const build = structuredClone(cycled(name).build);
  const [axle] = build.axles;
  if (!axle) throw new Error('no axle');
  build.wanted.muted = [];
  change(axle, build);
  const opened = openAxle(build, axle);
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  const { model } = opened.axle;
  const { range, reach } = findRange(build, axle, model);
  return { build, axle, model, range, reach, grid: coarseGrid(range, reach) };
}

const named = (parts: readonly Part[], name: string): Part => {
  const found = parts.find(part => part.name === name);
  if (!found) throw new Error(`no part is called ${name}`);
  return found;
};

const posesOf = ({ grid }: Cycled): Pose[] =>
  grid.places.flatMap(({ steered }) => steered.map(({ pose }) => pose));

describe('a bent track bar that a washer holds at one end', () => {
  const walk = changed('long-arm-front', axle => {
    axle.links = axle.links.map(link =>
      link.kind === 'track bar'
        ? { ...link, chassis: { ...link.chassis, holdsRoll: false, limit: null } }
        : link,
    );
  });
  const { parts } = partsOf(walk.build, walk.axle, noMesh);
  const bar = named(parts, 'track bar');
  const link = walk.axle.links.find(({ name }) => name === 'track bar');
  if (!link) throw new Error('the example has a track bar');

  test('stands so that its bore, seen along it, follows the bolt as drawn', () => {
    let most = 0;
    const bolt = link.axle.bolt as Vec3;
    for (const pose of posesOf(walk).filter((_, i) => i % 11 === 0)) {
      const place = placed(bar, pose);
      const a = carried(place, link.axle.at);
      const line = unit(sub(carried(place, link.chassis.at), a));
      // the bore rides on the bar: a point of it beside the axle end
      const bore = sub(carried(place, add(link.axle.at, bolt)), a);
      const [from, to] = [reject(bore, line), reject(pose.direction('axle', bolt), line)];
      const turn = Math.atan2(dot(line, cross(from, to)), dot(from, to));
      // a bar is stretched along its line by a few 1e-3: rounding is all that is left across it
      expect(Math.abs(turn)).toBeLessThan(1e-9);
      const still = carried(placed(bar, pose, 0), link.through[1] as Vec3);
      most = Math.max(most, norm(sub(still, carried(place, link.through[1] as Vec3))));
    }
    // the same bar by the smallest turn of its line stands elsewhere: by a tenth of an inch and more
    expect(most).toBeGreaterThan(0.1);
  });

  test('has one roll a pose, and a straight link none', () => {
    const roll = bar.roll;
    if (!roll) throw new Error('a bent bar rolls');
    for (const pose of posesOf(walk).filter((_, i) => i % 23 === 0)) {
      const { from, to } = rollRange(roll, pose);
      expect(from).toBe(to);
    }
    expect(named(parts, 'left lower link').roll).toBeNull();
    expect(named(parts, 'drag link').roll).toBeNull();
  });
});

/** The bent track bar with nothing to hold it but the limits of its joints. */
const freed = (end: JointEnd, limit: number): JointEnd => ({ ...end, holdsRoll: false, limit });

function withFreeBar(limit: number, solids: Drawn[] = []): Cycled {
  return changed('long-arm-front', (axle, build) => {
    axle.links = axle.links.map(link =>
      link.kind === 'track bar'
        ? { ...link, axle: freed(link.axle, limit), chassis: freed(link.chassis, limit) }
        : link,
    );
    build.solids = solids;
  });
}

const unrolled = (part: Part): Part => ({ ...part, roll: null });

const post = (at: V3): Drawn => ({
  name: 'post',
  on: 'chassis',
  axle: null,
  shape: { kind: 'sphere', center: at, radius: 0.5 },
  isNew: false,
  mayBeCut: false,
  give: 0,
});

function gapsWith(walk: Cycled, other: string): AxleGaps {
  return gapsOf(walk, {
    readMesh: noMesh,
    only: ({ a, b }) => [a.name, b.name].includes('track bar') && [a.name, b.name].includes(other),
  });
}

describe('a bent track bar that can flop', () => {
  const free = withFreeBar(24 * degrees);
  const link = free.axle.links.find(({ name }) => name === 'track bar');
  if (!link) throw new Error('the example has a track bar');
  // at ride height, where the middle of its bend comes when it is rolled by 20°
  const line = unit(sub(link.chassis.at, link.axle.at));
  const rolledTo = (angle: number): V3 => {
    const from = sub(link.through[1] as Vec3, link.axle.at);
    const off = reject(from, line);
    const foot = sub(from, off);
    return add(
      add(link.axle.at, foot),
      add(scale(off, Math.cos(angle)), scale(cross(line, off), Math.sin(angle))),
    );
  };
  const spot = rolledTo(20 * degrees);

  test('strikes what it only meets when it flops, and the finding tells the roll', () => {
    const walk = withFreeBar(24 * degrees, [post(spot)]);
    const [hit, ...more] = findFindings(walk.build, [], [gapsWith(walk, 'post')]);
    expect(more).toEqual([]);
    expect(hit).toMatchObject({
      kind: 'partsTouch',
      severity: 'mustFix',
    } satisfies Partial<Finding>);
    expect(hit?.text).toMatch(/, with the track bar rolled \d+\.\d° from where it is drawn/);
    const roll = hit?.pose.linkRoll_deg?.['track bar'] ?? 0;
    expect(roll).toBeGreaterThan(5);
    const [pair] = gapReport(gapsWith(walk, 'post')).pairs;
    expect(pair?.pose.linkRoll_deg?.['track bar']).toBeCloseTo(roll, 9);
    // held where it is drawn it is nowhere near
    const held = changed('long-arm-front', (_, build) => {
      build.solids = [post(spot)];
    });
    const [asDrawn] = gapsWith(held, 'post').gaps;
    expect(asDrawn?.gap).toBeGreaterThan((hit?.amount.value ?? 0) / 2 - 1);
    expect(asDrawn?.gap).toBeGreaterThan(gapsWith(walk, 'post').gaps[0]?.gap as number);
  });

  test.each(['differential', 'drag link', 'differential cover'])(
    'no pose and roll in its window brings it nearer to the %s than was found (seed 8)',
    other => {
      const found = gapsWith(free, other).gaps[0];
      if (!found) throw new Error('not compared');
      const { pair, gap } = found;
      const solver = new DistanceSolver();
      const [bar, place, there] = [pair.a.roll ? pair.a : pair.b, unmoved(), unmoved()];
      const [solid, against, part] =
        bar === pair.a ? [pair.solidA, pair.solidB, pair.b] : [pair.solidB, pair.solidA, pair.a];
      const random = draws(8);
      let least = Number.POSITIVE_INFINITY;
      for (const pose of posesOf(free)) {
        const of = bar.roll;
        if (!of) throw new Error('it rolls');
        const { window } = rollingAt(pose, of.of);
        if (window.kind !== 'arc') throw new Error('its joints have limits');
        for (let k = 0; k < 5; k++) {
          const share = k === 0 ? 0 : k === 1 ? 1 : random();
          placeRolled(bar, pose, window.from + share * (window.to - window.from), place);
          placeRolled(part, pose, 0, there);
          solver.run(solid, place, against, there);
          least = Math.min(least, solver.gap);
        }
      }
      expect(gap).toBeLessThan(least + 1e-4);
      // and it is a gap that occurs: half a step of the coarse cycle, at most as steep as 1 in 1
      expect(least - gap).toBeLessThan(0.75);
    },
  );

  const OTHERS = ['differential cover', 'left coil', 'tie rod'];

  test('is proved over its whole window: every pair is settled, and no attack with rolls comes under a bound', () => {
    const { parts } = partsOf(free.build, free.axle, noMesh);
    const pairs = OTHERS.map(other =>
      pairOf(pairsOf(free.build, 'front', parts), 'track bar', other),
    );
    const search = new GapSearch(free, parts, pairs);
    const run = new ProofRun(
      free,
      search,
      pairs.map((_, p) => search.least(p)),
    );
    const gaps = proveAll(run, {});
    for (const { pair, status, gap, lower } of gaps) {
      const what = `${pair.a.name} / ${pair.b.name}`;
      expect(status, what).not.toBe('undecided');
      expect(lower, what).toBeLessThanOrEqual(gap);
      expect(lower, what).toBeGreaterThan(-1);
    }
    const many = { poses: 1500, pairsAtEach: 4, starts: 60 };
    const outcome = attack({ walk: free, search, gaps }, draws(8), many);
    console.info(`seed 8: ${inWords('a bar that can flop', outcome)}`);
    expect(outcome.rolled).toBeGreaterThan(many.poses);
    expect(outcome.least).toBeGreaterThanOrEqual(-ROUNDING_in);

    // the same bar as if it stood as drawn: two parameters fewer than it has, and the attack finds out
    const still = pairs.map(pair => ({ ...pair, a: unrolled(pair.a), b: unrolled(pair.b) }));
    const wrong = new GapSearch(free, [...parts, ...still.flatMap(({ a, b }) => [a, b])], still);
    const drawn = proveAll(
      new ProofRun(
        free,
        wrong,
        still.map((_, p) => wrong.least(p)),
      ),
      {},
    ).map((found, p) => ({ ...found, pair: pairs[p] as Pair }));
    const caught = attack({ walk: free, search, gaps: drawn }, draws(8), {
      poses: 200,
      pairsAtEach: 4,
      starts: 10,
    });
    expect(caught.least).toBeLessThan(-0.1);
  });

  test('the map takes the tightest of its rolls', () => {
    const { parts } = partsOf(free.build, free.axle, noMesh);
    const pairs = gapsWith(free, 'differential').gaps.map(({ pair }) => ({
      ...pair,
      a: named(parts, pair.a.name),
      b: named(parts, pair.b.name),
    }));
    const map = new CoarseMap(parts, pairs);
    map.run(new PlacedGrid(map.motions, free.grid));
    const [bar, ball] = [named(parts, 'track bar'), named(parts, 'differential')];
    const solver = new DistanceSolver();
    for (let c = 0; c < map.grid.cells.length; c += 5) {
      const pose = map.grid.poses[map.pose[c] as number] as Pose;
      if (!bar.roll) throw new Error('it rolls');
      const { from, to } = rollRange(bar.roll, pose);
      let least = Number.POSITIVE_INFINITY;
      for (let k = 0; k <= 80; k++) {
        solver.run(
          bar.solid,
          placed(bar, pose, from + (k / 80) * (to - from)),
          ball.solid,
          placed(ball, pose),
        );
        least = Math.min(least, solver.gap);
      }
      // its 9 rolls are among these 81
      expect(map.gap[c] as number).toBeGreaterThan(least - 1e-9);
      expect(map.gap[c] as number).toBeLessThan(least + 0.25);
    }
  });
});

test('a rod that its studs alone hold moves what hangs on it: gaps are those of builds clocked to its ends, or less', () => {
  const walk = cycled('hung-tie-rod-front').walk;
  const { parts } = partsOf(walk.build, walk.axle, noMesh);
  const moved = parts.filter(part => part.roll?.by === 'rod').map(({ name }) => name);
  // the tie rod hangs on the drag link below its line and turns the driver's knuckle; the ram pushes the drag link
  for (const name of ['tie rod', 'left knuckle', 'left tire', 'left wheel']) {
    expect(moved).toContain(name);
  }
  expect(moved).not.toContain('drag link');
  expect(moved).not.toContain('right knuckle');
  expect(moved).not.toContain('pitman arm');
  const found = pairIn(walk, 'tie rod', 'differential');
  const { pair, gap, rollA, rollB } = found;
  const tieRod = pair.a.roll ? pair.a : pair.b;
  const { roll } = tieRod;
  if (!roll) throw new Error('it rolls');
  // the least gap lies at an end of the window, 15° and more from where it is drawn
  expect(Math.abs(rollA) + Math.abs(rollB)).toBeGreaterThan(15 * degrees);
  const solver = new DistanceSolver();
  const [rolled, ball] = [unmoved(), unmoved()];
  let least = Number.POSITIVE_INFINITY;
  for (const pose of posesOf(walk).filter((_, i) => i % 5 === 0)) {
    const { left, right, steer } = pose.input;
    for (const end of ['from', 'to'] as const) {
      const { [end]: at } = rollRange(roll, pose);
      // the same truck with its drag link clocked to that roll, solved from ride height on
      const there = clockedTo(walk, at).pose(left, right, steer).pose;
      if (!there || !placeRolled(tieRod, pose, at, rolled)) throw new Error('no such pose');
      const clocked = placed({ ...tieRod, roll: null }, there);
      for (const [i, number] of clocked.entries()) {
        expect(Math.abs(number - (rolled[i] as number))).toBeLessThan(1e-9);
      }
      const other = tieRod === pair.a ? pair.b : pair.a;
      placeRolled(other, pose, 0, ball);
      solver.run(tieRod.solid, rolled, other.solid, ball);
      least = Math.min(least, solver.gap);
    }
  }
  expect(gap).toBeLessThan(least + 1e-4);
  expect(least - gap).toBeLessThan(0.75);
});

/** The model of an axle whose drag link is held in one roll. */
function clockedTo({ axle, build }: Cycled, at: number): AxleModel {
  const dragLink = axle.steering?.dragLink;
  if (!axle.steering || !dragLink) throw new Error('the example has a drag link');
  const steering: Steering = {
    ...axle.steering,
    dragLink: { ...dragLink, roll: { held: 'clocked', at } },
  };
  const opened = openAxle(build, { ...axle, steering });
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  return opened.axle.model;
}

function pairIn(walk: Cycled, one: string, other: string) {
  const { gaps } = gapsOf(walk, {
    readMesh: noMesh,
    only: ({ a, b }) => [a.name, b.name].includes(one) && [a.name, b.name].includes(other),
  });
  const [found] = gaps;
  if (!found) throw new Error(`${one} and ${other} are not compared`);
  return found;
}

test('a rod rolls no further than the steering stops let the knuckle that hangs on it', () => {
  const { walk, parts } = cycled('hung-tie-rod-front');
  const { roll } = named(parts, 'left knuckle');
  if (!roll) throw new Error('it rolls');
  const without = { ...roll, stops: [] };
  // 1e-6: how far halving of the roll leaves the stop
  const past = (pose: Pose, at: number): number => {
    const rolled = rolledRod(pose, roll.of.name, at);
    if (!rolled) return 0;
    const over = roll.stops.map(
      ({ side, end, most }) => end * (rolled.knuckleTurn(side) ?? 0) - most,
    );
    return Math.max(...over);
  };
  let shorter = 0;
  for (const pose of posesOf(walk)) {
    const [kept, all] = [rollRange(roll, pose), rollRange(without, pose)];
    for (const end of ['from', 'to'] as const) {
      expect(past(pose, kept[end])).toBeLessThan(1e-6);
      const over = past(pose, all[end]);
      if (over > 1e-4) shorter++;
      if (over <= 0) expect(kept[end]).toBe(all[end]);
    }
  }
  // at full left lock the drag link's flop would turn the driver's knuckle past its stop
  expect(shorter).toBeGreaterThan(0);
});
