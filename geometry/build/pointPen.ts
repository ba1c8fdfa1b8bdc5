/**
 * Points and lengths of a build that stands, as somebody would tape and type them: the way back through
 * `resolve/frames.ts`. A lean of the axle as it was measured is not turned back: it is under what a guess is off by.
 */
import { add, sub, turned } from '../vector.ts';
import type { Axle, Build, Vec3 } from './build.ts';
import type { BuildFile } from './schema/file.ts';
import { assumed, Pen, type Written } from './start/value.ts';

/** What carries a point, as far as it matters to how it is taped: knuckles and tie rod go with the axle. */
export type Carried = 'axle' | 'chassis';

/** How far off a guessed place is, in. */
const OFF_in = 2;

const X: Vec3 = [1, 0, 0];
const Y: Vec3 = [0, 1, 0];

const turn = (v: Vec3, axis: Vec3, angle: number): Vec3 =>
  angle === 0 ? v : turned(v, axis, Math.cos(angle), Math.sin(angle));

export class PointPen {
  readonly #pen: Pen;
  readonly #build: Build;
  readonly #axle: Axle;
  readonly #isBench: boolean;

  /** @param file as written: it says whether the points of this axle were taped on the bench */
  constructor(build: Build, file: BuildFile, axle: Axle) {
    this.#pen = new Pen(build.unit);
    this.#build = build;
    this.#axle = axle;
    this.#isBench = file.axles.find(each => each.name === axle.name)?.frame === 'bench';
  }

  /** An assumed length, in. */
  length(at: number, off = 1): Written {
    return this.#pen.length(assumed(at, off));
  }

  /** An assumed point. @param at vehicle axes at ride height, in */
  point(at: Vec3, on: Carried, off = OFF_in): [Written, Written, Written] {
    const [x, y, z] = on === 'chassis' ? this.#asTaped(at) : this.#onBench(at);
    return [this.length(x, off), this.length(y, off), this.length(z, off)];
  }

  #asTaped(at: Vec3): Vec3 {
    const { axles } = this.#build;
    const [first] = axles;
    const height = axles.find(({ name }) => name === 'front') ?? first;
    const pivot: Vec3 = [0, 0, height?.tire.loadedRadius ?? 0];
    const rise = this.#entry('measuredAt.rideHeightChange');
    const from = sub(sub(at, [0, 0, rise]), pivot);
    const back = turn(
      turn(from, Y, this.#entry('measuredAt.rake')),
      X,
      this.#entry('measuredAt.roll'),
    );
    return add(pivot, back);
  }

  #onBench(at: Vec3): Vec3 {
    const { name, origin } = this.#axle;
    if (!this.#isBench) return at;
    return turn(sub(at, origin), Y, -this.#entry(`axles["${name}"].turned`));
  }

  #entry(path: string): number {
    return this.#build.entries.find(each => each.path === path)?.value ?? 0;
  }
}
