/**
 * The worker: range, map, strip, gaps, findings and extremes of one axle, the quick ones first. It lets go of the
 * thread between pieces of work, so that a newer change ends an older study and side questions are answered.
 */
import { expose } from 'comlink';
import { coarseGrid } from '../../geometry/cycle/grid.ts';
import { findRange } from '../../geometry/cycle/range.ts';
import { walkAxle, walkReport } from '../../geometry/cycle/walkReport.ts';
import { findFindings } from '../../geometry/finding/finding.ts';
import { settle } from '../../geometry/pose/model.ts';
import { measureColumns, measureMap } from './columns.ts';
import { GapStudy } from './gapStudy.ts';
import { meshesFrom } from './meshes.ts';
import type { StudyEvent, StudyRequest, Workshop } from './protocol.ts';

/** Longest piece of work before others get their turn, ms. */
const PIECE_ms = 12;

/** Lets messages in. */
const turn = (): Promise<void> => new Promise(resolve => setTimeout(resolve));

class Bench implements Workshop {
  #newest = 0;
  #gaps: GapStudy | null = null;

  newest(generation: number): void {
    this.#newest = Math.max(this.#newest, generation);
  }

  async study(request: StudyRequest, tell: (event: StudyEvent) => void): Promise<void> {
    const { generation } = request;
    this.newest(generation);
    try {
      for (const event of this.#pieces(request)) {
        if (event) tell({ generation, ...event } as StudyEvent);
        await turn();
        if (generation !== this.#newest) return;
      }
      tell({ generation, kind: 'done' });
    } catch (error) {
      console.error(error);
      tell({ generation, kind: 'failed', message: String(error) });
    }
  }

  steeringStrip(left: number, right: number): ReturnType<Workshop['steeringStrip']> {
    return this.#gaps?.steeringStrip(left, right) ?? null;
  }

  measureMap(...asked: Parameters<Workshop['measureMap']>): ReturnType<Workshop['measureMap']> {
    return this.#gaps && measureMap(this.#gaps.cycled, ...asked);
  }

  columns(...asked: Parameters<Workshop['columns']>): ReturnType<Workshop['columns']> {
    return this.#gaps && measureColumns(this.#gaps.cycled, ...asked);
  }

  /** The work in pieces; what is yielded is told. */
  *#pieces(request: StudyRequest): Generator<Told | null> {
    const { build } = request;
    const axle = build.axles.find(({ name }) => name === request.axle);
    const settled = settle(request.mechanism);
    if (!axle || !settled.ok) throw new Error(`no ${request.axle} axle that settles`);
    const { model } = settled;

    const { range, reach } = findRange(build, axle, model);
    yield {
      kind: 'range',
      range: {
        edge: range.edge,
        ends: range.ends,
        unstopped: range.unstopped,
        holdsRide: range.holdsRide,
        box: reach.box,
      },
    };
    const grid = coarseGrid(range, reach);
    yield null;
    const gaps = new GapStudy(
      { build, axle, model, range, reach, grid },
      meshesFrom(request.meshes),
    );
    this.#gaps = gaps;
    yield { kind: 'map', map: gaps.map(true) };
    yield { kind: 'strip', strip: gaps.strip() };

    let since = performance.now();
    for (const done of gaps.search()) {
      const isHalfway = done === gaps.nearPairs;
      if (isHalfway) {
        const report = gaps.report();
        yield {
          kind: 'findings',
          findings: findFindings(build, [], [report.found]),
          gaps: report.told,
          isFinal: false,
        };
      } else if (performance.now() - since > PIECE_ms) {
        yield { kind: 'progress', what: 'gaps', done, of: gaps.pairs.length };
      } else continue;
      since = performance.now();
    }
    yield { kind: 'progress', what: 'gaps', done: gaps.pairs.length, of: gaps.pairs.length };
    const walk = walkAxle(build, axle, model);
    yield null;
    const report = gaps.report();
    const findings = findFindings(build, [walk], [report.found]);
    yield { kind: 'findings', findings, gaps: report.told, isFinal: true };
    yield { kind: 'extremes', extremes: walkReport(walk).extremes };
    yield { kind: 'map', map: gaps.map(false) };
  }
}

type Told = StudyEvent extends infer Each
  ? Each extends { generation: number }
    ? Omit<Each, 'generation'>
    : never
  : never;

expose(new Bench());
