/** An axle that is compared with others, as far as it has come. */
import type { Side } from '../../geometry/compare/compare.ts';
import { Finder } from '../../geometry/cycle/extremes.ts';
import { gridSteps } from '../../geometry/cycle/grid.ts';
import { findRange } from '../../geometry/cycle/range.ts';
import type { AxleWalk } from '../../geometry/cycle/walkReport.ts';
import { findFindings } from '../../geometry/finding/finding.ts';
import type { drawnMesh } from '../../geometry/gap/drawnMesh.ts';
import { settle } from '../../geometry/pose/model.ts';
import type { SideRequest } from './compareProtocol.ts';
import { GapStudy } from './gapStudy.ts';
import { meshesFrom } from './meshes.ts';
import { quietly } from './pieces.ts';
import type { RangeTold } from './protocol.ts';

/** What makes solids of mesh files; null where none is needed. */
export type Draw = typeof drawnMesh | null;

/** What reads meshes is large to load: only where one is needed. */
export const drawFor = async (sides: readonly SideRequest[]): Promise<Draw> =>
  sides.some(({ meshes }) => meshes.size > 0)
    ? (await import('../../geometry/gap/drawnMesh.ts')).drawnMesh
    : null;

export class Walked {
  readonly key: number;
  readonly walk: AxleWalk;
  gaps: GapStudy | null = null;
  isSearched = false;
  /** Key of the side that its grid is shared with. */
  gridWith: number | null = null;
  #side: Side | null = null;

  private constructor(key: number, walk: AxleWalk) {
    this.key = key;
    this.walk = walk;
  }

  static *steps({ key, build, axle: name, mechanism }: SideRequest): Generator<null, Walked> {
    const axle = build.axles.find(each => each.name === name);
    const settled = settle(mechanism);
    if (!axle || !settled.ok) throw new Error(`no ${name} axle that settles`);
    const { model } = settled;
    const { range, reach } = findRange(build, axle, model);
    yield null;
    const grid = yield* quietly(gridSteps(range, reach));
    const finder = range.holdsRide ? new Finder(range, reach, grid) : null;
    const walk = { build, axle, model, range, reach, grid, finder, extremes: [], walks: [] };
    return new Walked(key, walk);
  }

  range(): RangeTold {
    const { edge, ends, unstopped, holdsRide } = this.walk.range;
    return { edge, ends, unstopped, holdsRide, box: this.walk.reach.box };
  }

  /** Makes its parts, then searches all pairs, nearest first; yields the share that is done. */
  *search({ meshes }: SideRequest, draw: Draw): Generator<number> {
    if (this.isSearched) return;
    if (!this.gaps) {
      const steps = GapStudy.begin(this.walk, meshesFrom(meshes, draw));
      for (;;) {
        const { done, value } = steps.next();
        if (done) {
          this.gaps = value;
          break;
        }
        yield 0;
      }
    }
    const { gaps } = this;
    for (const done of gaps.search()) yield done / gaps.pairs.length;
    this.isSearched = true;
  }

  /** What is known of it: gaps and findings once all pairs are searched. */
  side(): Side {
    if (this.#side) return this.#side;
    const { walk } = this;
    const found = this.isSearched ? this.gaps?.report().found : undefined;
    const gaps = found ? [found] : [];
    const findings = found ? findFindings(walk.build, [walk], gaps) : [];
    const side: Side = { build: walk.build, walks: [walk], gaps, findings };
    if (found) this.#side = side;
    return side;
  }
}
