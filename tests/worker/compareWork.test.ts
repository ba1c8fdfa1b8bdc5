import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import { candidatesOf, withCandidate } from '../../geometry/compare/candidates.ts';
import { axlePairsOf, type Comparison, comparisonOf } from '../../geometry/compare/compare.ts';
import { tolerancesOf } from '../../geometry/compare/shifted.ts';
import { type OpenedBuild, openBuild } from '../../geometry/cycle/open.ts';
import { assemble } from '../../geometry/mechanism/assemble.ts';
import { sideOf } from '../../src/cli/sides.ts';
import type { CandidateTold, CompareEvent, SideRequest } from '../../src/worker/compareProtocol.ts';
import { CompareWork } from '../../src/worker/compareWork.ts';

/** Pairs are searched in another order, each search beginning where the last one ended: found to 1e-9 in. */
const SEARCHED_digits = 8;

const TEXT = readFileSync('examples/long-arm-front.axlewalk.json', 'utf8');

function opened(variant: string | null): OpenedBuild {
  const read = openBuild(TEXT, { variant });
  if (!read.ok) throw new Error('the example is refused');
  return read;
}

function asked({ build, file }: OpenedBuild, key: number): SideRequest {
  const axle = build.axles[0];
  const assembly = axle && assemble(axle);
  if (!axle || !assembly?.ok) throw new Error('the example has no axle');
  return { key, build, file, axle: axle.name, mechanism: assembly.mechanism, meshes: new Map() };
}

/** What the page hears, each as it comes through the door between worker and page. */
async function heard(work: CompareWork, a: SideRequest, b: SideRequest): Promise<CompareEvent[]> {
  const events: CompareEvent[] = [];
  const generation = ++generations;
  await work.compare(structuredClone({ generation, a, b }), event =>
    events.push(structuredClone(event)),
  );
  return events;
}
let generations = 0;

const noMesh = () => null as never;

const lastReport = (events: readonly CompareEvent[]): Comparison | undefined =>
  events.flatMap(each => (each.kind === 'report' ? [each.report] : [])).at(-1);

describe('long arms and their variant with short arms', () => {
  const [long, short] = [opened(null), opened('short arms')];
  const work = new CompareWork();
  let events: CompareEvent[] = [];
  beforeAll(async () => {
    events = await heard(work, asked(long, 1), asked(short, 2));
  }, 120_000);

  test('come in pieces, the quick ones first', () => {
    const kinds = events
      .filter(({ kind }) => kind !== 'progress')
      .map(event => (event.kind === 'report' ? event.stage : event.kind));
    expect(kinds).toEqual(['ranges', 'measures', 'gaps', 'maps', 'worth', 'done']);
  });

  test('are told as the command line tells them, number for number', () => {
    const walk = (build: OpenedBuild) =>
      sideOf(
        build,
        { axles: build.axles, travel: null, resolution: undefined },
        noMesh,
        () => undefined,
      );
    const [a, b] = [walk(long), walk(short)];
    const pairs = axlePairsOf(a.walks, b.walks);
    const steps = tolerancesOf(long, short, pairs, {
      a: { ...a, readMesh: noMesh },
      b: { ...b, readMesh: noMesh },
    });
    let step = steps.next();
    while (!step.done) step = steps.next();
    const told = lastReport(events);
    const wanted = comparisonOf(a, b, pairs, step.value);
    expect(told?.rows).toEqual(wanted.rows);
    expect(told?.range).toEqual(wanted.range);
    expect(told?.paragraph).toEqual(wanted.paragraph);
    expect(told?.findings.fixed.map(each => each.a?.text)).toEqual(
      wanted.findings.fixed.map(each => each.a?.text),
    );
    const gaps = new Map(told?.gaps.map(row => [row.pair.join(), row.difference]));
    expect([...gaps.keys()].sort()).toEqual(wanted.gaps.map(({ pair }) => pair.join()).sort());
    for (const { pair, difference } of wanted.gaps) {
      expect(gaps.get(pair.join()) ?? 0).toBeCloseTo(difference ?? 0, SEARCHED_digits);
    }
    expect(
      told?.rows.filter(({ isNone, difference }) => isNone && difference !== 0).length,
    ).toBeGreaterThan(0);
  });

  test('have maps on one grid, that holds both ranges', () => {
    const event = events.find(({ kind }) => kind === 'maps');
    if (event?.kind !== 'maps') throw new Error('no maps came');
    const { a, b } = event.maps;
    expect(a.left).toEqual(b.left);
    expect(a.right).toEqual(b.right);
    for (const map of [a, b]) {
      const count = map.inside.reduce((sum, each) => sum + each, 0);
      expect(count).toBeGreaterThan(200);
      for (const [k, isIn] of map.inside.entries()) {
        if (isIn) expect(map.share[k]).not.toBeNaN();
      }
    }
  });

  test('a measure is mapped for both on one grid', async () => {
    const maps = await work.measureMaps('axleSteer', { part: null, side: null });
    expect(maps?.a.left).toEqual(maps?.b.left);
    expect(maps?.a.values.some((v, k) => Math.abs(v - (maps.b.values[k] as number)) > 0.2)).toBe(
      true,
    );
  }, 120_000);

  test('candidates for a part are told one by one, the build as it stands first', async () => {
    const [candidate] = candidatesOf(long.file, 'tie rod');
    if (!candidate) throw new Error('the example has no alternative tie rod');
    const made = withCandidate(long.file, candidate);
    const other = openBuild(JSON.stringify(made.file), { variant: made.variant });
    if (!other.ok) throw new Error('the candidate is refused');
    const rows: CandidateTold[] = [];
    await work.candidates(
      {
        generation: 1,
        base: asked(long, 1),
        part: candidate.part,
        options: [{ candidate, side: asked(other, 9) }],
      },
      row => rows.push(structuredClone(row)),
    );
    expect(rows.map(({ option }) => option)).toEqual([null, candidate.option]);
    for (const { touches, short, clear } of rows) {
      expect(clear).toBeGreaterThan(0);
      for (const { a, b } of [...touches, ...short]) {
        expect([a, b].some(name => candidate.touches.includes(name))).toBe(true);
      }
      for (const { gap_in } of touches) expect(gap_in).toBeLessThan(0);
    }
  }, 120_000);

  test('exchanged are told from what is kept, every difference negated', async () => {
    const turned = await heard(work, asked(short, 2), asked(long, 1));
    expect(turned.filter(event => event.kind === 'progress' && event.what === 'gaps')).toEqual([]);
    const [there, back] = [lastReport(events), lastReport(turned)];
    const key = ({ id, part, side, at }: Comparison['rows'][number]): string =>
      JSON.stringify([id, part, side, at.pose, at.left_in, at.right_in, at.steer]);
    const differences = new Map(back?.rows.map(row => [key(row), row.difference]));
    for (const row of there?.rows ?? []) {
      const other = differences.get(key(row));
      expect(other ?? null).toEqual(row.difference === null ? null : 0 - row.difference);
    }
    expect(back?.findings.new.length).toBe(there?.findings.fixed.length);
  }, 120_000);

  test('an older wish ends where a newer one comes', async () => {
    const old: CompareEvent[] = [];
    const first = work.compare(
      { generation: ++generations, a: asked(long, 1), b: asked(short, 3) },
      event => old.push(event),
    );
    const events = await heard(work, asked(long, 1), asked(long, 1));
    await first;
    expect(old.some(({ kind }) => kind === 'done')).toBe(false);
    const report = lastReport(events);
    expect(report?.paragraph).toEqual([]);
    for (const { difference } of report?.rows ?? []) expect(difference ?? 0).toBe(0);
  }, 120_000);
});
