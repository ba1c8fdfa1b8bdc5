/**
 * Margins of the stops over cells, from above: (30) to (33) of PROOF.md. A pose of the range has no negative margin, so
 * that a cell whose margin is surely negative is left out, and on the edge the margin counts against the gap.
 *
 * Of each stop that can be looked at in a space, a number at every corner of a cell and a slack, so that at every pose
 * of the cell the margin is at most the same mixture of the corners' numbers, plus the slack.
 */
import type { Reach } from '../cycle/reach.ts';
import { bumpStopOf } from '../limit/bumpStop.ts';
import type { Limit, LimitTarget } from '../limit/limit.ts';
import { limits } from '../limit/list.ts';
import { rolledBore } from '../measure/linkRoll.ts';
import { endsOf, type RollingPart, rollingAt } from '../measure/rolling.ts';
import { ramEnds } from '../measure/springLength.ts';
import type { Pose } from '../pose/pose.ts';
import { dot, norm, sub, type V3 } from '../vector.ts';
import { bendsOf, type Frame, type Side } from './cellBodies.ts';
import { type Cell, cellId, centerOf, cornerOf, type LatticePoint, pointId } from './cells.ts';
import { mostOf, spreadOf } from './forms.ts';
import type { Anchor } from './part.ts';
import { type PointForm, summed } from './pointForm.ts';
import { BEND, hullOf, type Space } from './space.ts';

/** What of the stops holds on a cell: for each, numbers at the corners (slack added). */
export interface Margins {
  /** Stops that may be broken somewhere on the cell; numbers by stop, then corner. */
  count: number;
  numbers: Float64Array;
  /** Which stops those are. */
  stops: readonly number[];
  /** The same of some of the parameters alone, as the stops have them. */
  fewer: readonly Margins[];
  /** True where some stop is surely broken on the whole cell. */
  outside: boolean;
}

const NONE: Margins = {
  count: 0,
  numbers: new Float64Array(0),
  stops: [],
  fewer: [],
  outside: false,
};

type Kind =
  | { kind: 'short'; ends: [Anchor, Anchor]; length: number }
  | { kind: 'long'; ends: [Anchor, Anchor]; length: number }
  | { kind: 'plane'; ends: [Anchor, Anchor]; normal: V3; height: number; radius: number }
  | { kind: 'turn'; side: Side; end: number; most: number }
  | { kind: 'joint'; of: RollingPart; joint: number }
  | { kind: 'linear'; margin: (pose: Pose) => number };

interface Stop {
  kind: Kind;
  frame: Frame;
  /** By point of the lattice: vector from the first end to the second, in the frame. */
  vectors: Map<number, V3>;
  /** By point of the lattice: a joint's margin. */
  margins: Map<number, number>;
  /** By base cell. */
  bends: Map<number, Float64Array | null>;
}

/** Stops of a space of fewer parameters, and which of the wider one these are. */
export interface FewerStops {
  stops: StopMargins;
  of: readonly number[];
}

const cellOf = ({ depths, index }: Cell, of: readonly number[]): Cell => ({
  depths: of.map(j => depths[j] as number),
  index: of.map(j => index[j] as number),
});

/** The stops that can be looked at in one space. */
export class StopMargins {
  readonly #space: Space;
  readonly #stops: Stop[];
  readonly #known = new Map<number, Margins>();
  readonly #fewer: readonly FewerStops[];

  /** @param fewer stops that hang on some of the parameters alone, looked at by these; own ones where all are needed */
  constructor(space: Space, reach: Reach, fewer: readonly FewerStops[], hasOwn = true) {
    this.#space = space;
    this.#fewer = fewer;
    this.#stops = (hasOwn ? stopsOf(space, reach) : []).map(({ kind, frame }) => ({
      kind,
      frame,
      vectors: new Map(),
      margins: new Map(),
      bends: new Map(),
    }));
  }

  /**
   * @param wider what holds on a cell around: stops that have no say there are not asked again, which leaves out
   *   no pose of the range
   */
  over(cell: Cell, wider: Margins | null = null): Margins {
    const id = cellId(cell);
    let found = this.#known.get(id);
    if (!found) {
      found = this.#make(cell, wider);
      this.#known.set(id, found);
    }
    return found;
  }

  #make(cell: Cell, wider: Margins | null): Margins {
    const { p } = this.#space;
    const corners = 1 << p;
    const rows: number[] = [];
    let count = 0;
    const fewer: Margins[] = [];
    for (const [i, { stops, of }] of this.#fewer.entries()) {
      const below = stops.over(cellOf(cell, of), wider?.fewer[i] ?? null);
      if (below.outside) return { ...NONE, outside: true };
      fewer.push(below);
      for (let k = 0; k < below.count; k++) {
        for (let c = 0; c < corners; c++) {
          let corner = k;
          // corners count their bits from the first parameter on
          for (let m = of.length - 1; m >= 0; m--) {
            corner = 2 * corner + ((c >> (of[m] as number)) & 1);
          }
          rows.push(below.numbers[corner] as number);
        }
      }
      count += below.count;
    }
    const asked = wider ? wider.stops : this.#stops.keys();
    if (fewer.length > 0 && this.#isWide(cell)) {
      return {
        count,
        numbers: Float64Array.from(rows),
        stops: [...asked],
        fewer,
        outside: false,
      };
    }
    const at = cornersOf(cell);
    const stops: number[] = [];
    for (const i of asked) {
      const numbers = this.#numbers(this.#stops[i] as Stop, cell, at);
      const slack = this.#slack;
      if (!numbers) {
        // not known here; it may be on a smaller cell
        stops.push(i);
        continue;
      }
      let broken = 0;
      for (const x of numbers) if (x < 0) broken++;
      if (broken === corners) return { ...NONE, outside: true };
      // a stop that is kept all over the cell has no say in its pieces either
      if (numbers.some(x => x < 2 * slack)) stops.push(i);
      if (broken === 0) continue;
      for (const x of numbers) rows.push(x);
      count++;
    }
    return { count, numbers: Float64Array.from(rows), stops, fewer, outside: false };
  }

  /**
   * Whether a cell is so wide that to know its margins is dear, since all base cells in it are asked, and of little use:
   * to look at fewer stops leaves out no pose.
   */
  #isWide({ depths }: Cell): boolean {
    const { base } = this.#space;
    return depths.some((depth, j) => depth < (base[j] as number) - 1);
  }

  /** Of the last `#numbers`: what was added to the margins at the corners. */
  #slack = 0;

  #numbers(stop: Stop, cell: Cell, corners: readonly LatticePoint[]): number[] | null {
    this.#slack = 0;
    const space = this.#space;
    const { kind } = stop;
    if (kind.kind === 'linear') {
      const out: number[] = [];
      for (const corner of corners) {
        const pose = space.pose(corner);
        if (!pose) return null;
        out.push(kind.margin(pose));
      }
      return out;
    }
    if (kind.kind === 'joint') {
      const out: number[] = [];
      for (const corner of corners) {
        const margin = this.#jointMargin(stop, kind, corner);
        if (margin === null) return null;
        out.push(margin);
      }
      return this.#raised(stop, cell, out);
    }
    if (kind.kind === 'turn') {
      const out: number[] = [];
      for (const corner of corners) {
        const turn = space.pose(corner)?.knuckleTurn(kind.side);
        if (turn == null) return null;
        out.push(kind.most - kind.end * turn);
      }
      return this.#raised(stop, cell, out);
    }
    const vectors: V3[] = [];
    for (const corner of corners) {
      const vector = this.#vector(stop, corner);
      if (!vector) return null;
      vectors.push(vector);
    }
    const bends = this.#bends(stop, cell);
    if (!bends) return null;
    const along = (n: V3, sign: number): number => {
      let slack = 0;
      for (let j = 0; j < space.p; j++) {
        let most = 0;
        for (let c = 0; c < 3; c++) {
          const x = n[c] as number;
          most +=
            sign * x * (bends[BEND * j + c] as number) +
            Math.abs(x) * (bends[BEND * j + 3 + c] as number);
        }
        slack += (space.half(cell, j) ** 2 / 2) * Math.max(0, most);
      }
      return slack;
    };
    const size = (): number => {
      let slack = 0;
      for (let j = 0; j < space.p; j++) {
        let square = 0;
        for (let c = 0; c < 3; c++) {
          square +=
            (Math.abs(bends[BEND * j + c] as number) + (bends[BEND * j + 3 + c] as number)) ** 2;
        }
        slack += (space.half(cell, j) ** 2 / 2) * Math.sqrt(square);
      }
      return slack;
    };
    if (kind.kind === 'short') {
      // the length of a mixture is at most the mixture of the lengths
      const slack = size();
      this.#slack = slack;
      return vectors.map(v => norm(v) - kind.length + slack);
    }
    if (kind.kind === 'long') {
      const center = this.#vector(stop, centerOf(cell));
      if (!center) return null;
      const l = norm(center);
      const u: V3 = [center[0] / l, center[1] / l, center[2] / l];
      const slack = along(u, 1);
      this.#slack = slack;
      return vectors.map(v => kind.length - (u[0] * v[0] + u[1] * v[1] + u[2] * v[2]) + slack);
    }
    const n = kind.normal;
    if (Number.isFinite(kind.radius)) {
      // a pad that may slide off its plane somewhere on the cell stops nothing there
      const slack = size();
      for (const v of vectors) {
        const h = n[0] * v[0] + n[1] * v[1] + n[2] * v[2];
        if (norm([v[0] - h * n[0], v[1] - h * n[1], v[2] - h * n[2]]) + slack > kind.radius) {
          return null;
        }
      }
    }
    const slack = along(n, -1);
    this.#slack = slack;
    return vectors.map(v => n[0] * v[0] + n[1] * v[1] + n[2] * v[2] - kind.height + slack);
  }

  /** Numbers at the corners, raised by what the second derivatives may add in between. */
  #raised(stop: Stop, cell: Cell, numbers: readonly number[]): number[] | null {
    const space = this.#space;
    const bends = this.#bends(stop, cell);
    if (!bends) return null;
    let slack = 0;
    for (let j = 0; j < space.p; j++) {
      slack += (space.half(cell, j) ** 2 / 2) * (bends[j] as number);
    }
    this.#slack = slack;
    return numbers.map(x => x + slack);
  }

  /** (34) how much less than its limit a joint of a link is misaligned, by the cosines. */
  #jointMargin(
    { margins }: Stop,
    { of, joint }: Extract<Kind, { kind: 'joint' }>,
    point: readonly number[],
  ): number | null {
    const id = pointId(point);
    let found = margins.get(id);
    if (found === undefined) {
      const pose = this.#space.pose(point);
      const roll = this.#space.rollAt(point);
      const now = pose && rollingAt(pose, of).joints[joint];
      if (!now || !roll || now.limit === null) return null;
      found = dot(now.bolt, rolledBore(now, roll.angle)) - Math.cos(now.limit);
      margins.set(id, found);
    }
    return found;
  }

  #vector(stop: Stop, point: readonly number[]): V3 | null {
    const id = pointId(point);
    const known = stop.vectors.get(id);
    if (known) return known;
    const pose = this.#space.pose(point);
    if (!pose || !('ends' in stop.kind)) return null;
    const [from, to] = stop.kind.ends;
    let v = sub(pose.point(to.on, to.at), pose.point(from.on, from.at));
    if (stop.frame === 'axle') {
      const { R } = pose.axle;
      v = [0, 1, 2].map(
        c => (R[c] as number) * v[0] + (R[3 + c] as number) * v[1] + (R[6 + c] as number) * v[2],
      ) as unknown as V3;
    }
    stop.vectors.set(id, v);
    return v;
  }

  /** Bounds of second derivatives: of the vector, BEND numbers a parameter; of a turn, one. */
  #bends(stop: Stop, cell: Cell): Float64Array | null {
    return this.#space.known(
      stop.bends,
      cell,
      each => this.#bendsOf(stop, each),
      'ends' in stop.kind ? hullOf : largest,
    );
  }

  #bendsOf({ kind, frame }: Stop, cell: Cell): Float64Array | null {
    const space = this.#space;
    const bodies = space.bodies(cell);
    if (!bodies) return null;
    const { p } = space;
    if (kind.kind === 'turn') {
      const turning = bodies.turning(kind.side);
      if (!turning) return null;
      const bends = Float64Array.from({ length: p }, (_, j) => mostOf(turning.bend[space.slot(j)]));
      return bends.every(Number.isFinite) ? bends : null;
    }
    if (kind.kind === 'joint') {
      const pose = space.pose(centerOf(cell));
      const joint = kind.of.joints[kind.joint];
      const cosine = pose && joint && bodies.misalignment(endsOf(pose, kind.of), joint);
      if (!cosine) return null;
      // only a margin that bends downward may be higher in between
      const bends = Float64Array.from({ length: p }, (_, j) => {
        const second = cosine.second[space.slot(j)];
        return Math.max(0, spreadOf(second) - (second[0] as number));
      });
      return bends.every(Number.isFinite) ? bends : null;
    }
    if (kind.kind === 'linear') return null;
    const [from, to] = kind.ends.map(end => bodies.point(end.on, end.at, frame)) as [
      PointForm | null,
      PointForm | null,
    ];
    if (!from || !to) return null;
    const D = summed(to, from, -1);
    const out = new Float64Array(BEND * p);
    for (let j = 0; j < p; j++) bendsOf(D, space.slot(j), out, BEND * j);
    return out;
  }
}

function cornersOf(cell: Cell): LatticePoint[] {
  const out: LatticePoint[] = [];
  for (let c = 0; c < 1 << cell.index.length; c++) out.push(cornerOf(cell, c));
  return out;
}

const largest = (a: Float64Array, b: Float64Array): Float64Array =>
  a.map((x, i) => Math.max(x, b[i] as number));

function stopsOf(space: Space, reach: Reach): { kind: Kind; frame: Frame }[] {
  const { travels, third, roll } = space.parameters;
  const out: { kind: Kind; frame: Frame }[] = [];
  if (roll?.by === 'line') {
    for (const [joint, { limit }] of roll.of.joints.entries()) {
      if (limit === null) continue;
      out.push({ kind: { kind: 'joint', of: roll.of, joint }, frame: space.frame });
    }
    return out;
  }
  const { axle, build } = reach;
  if (travels && !third) {
    const { box } = reach;
    for (const side of ['left', 'right'] as const) {
      out.push({
        kind: { kind: 'linear', margin: pose => box[side].up - pose.input[side] },
        frame: 'chassis',
      });
      out.push({
        kind: { kind: 'linear', margin: pose => pose.input[side] + box[side].down },
        frame: 'chassis',
      });
    }
  }
  const role: Limit['role'] | null = third ? 'steering' : travels ? 'travel' : null;
  for (const limit of limits) {
    if (limit.role !== role) continue;
    for (const target of limit.targets(axle, build)) {
      const found = stopOf(limit, target, space, reach);
      if (found) out.push(found);
    }
  }
  return out;
}

function stopOf(
  limit: Limit,
  target: LimitTarget,
  space: Space,
  { axle }: Reach,
): { kind: Kind; frame: Frame } | null {
  const { third } = space.parameters;
  const across = (part: { axle: V3; chassis: V3 } | undefined): [Anchor, Anchor] | null =>
    part
      ? [
          { on: 'axle', at: part.axle },
          { on: 'chassis', at: part.chassis },
        ]
      : null;
  const span = (
    kind: 'short' | 'long',
    ends: [Anchor, Anchor] | null,
    length: number | null | undefined,
  ): { kind: Kind; frame: Frame } | null =>
    ends && length != null ? { kind: { kind, ends, length }, frame: space.frame } : null;
  const named = <T extends { name: string }>(list: readonly T[]): T | undefined =>
    list.find(each => each.name === target.part);
  switch (limit.id) {
    case 'shockShort':
      return span('short', across(named(axle.shocks)), named(axle.shocks)?.shortest);
    case 'shockLong':
      return span('long', across(named(axle.shocks)), named(axle.shocks)?.longest);
    case 'coilSolid':
      return span('short', across(named(axle.coils)), named(axle.coils)?.solid);
    case 'strap':
      return span('long', across(named(axle.straps)), named(axle.straps)?.length);
    case 'bumpStop': {
      const stop = bumpStopOf(axle, target.part);
      const { pad, strike, solidHeight } = stop;
      const frame = strike.on === 'axle' ? 'axle' : 'chassis';
      const kind: Kind = {
        kind: 'plane',
        ends: [strike, pad],
        normal: strike.normal as V3,
        height: solidHeight,
        radius: strike.radius ?? Number.POSITIVE_INFINITY,
      };
      return strike.on === 'axle' || strike.on === 'chassis' ? { kind, frame } : null;
    }
    case 'steeringStop': {
      const { side, end } = target;
      const stop = side && axle.knuckles?.[side].steeringStop;
      const inward = (side === 'left') === (end === 1);
      const most = inward ? stop?.inward : stop?.outward;
      // a knuckle's own turn as the parameter ends at its stop
      if (!side || most == null || (third?.kind === 'turn' && third.side === side)) return null;
      return { kind: { kind: 'turn', side, end, most }, frame: space.frame };
    }
    case 'boxSweep': {
      if (third?.kind !== 'input') return null;
      const sweep = axle.steering?.box?.sweep;
      if (!sweep) return null;
      const { end } = target;
      const margin = ({ input: { steer } }: Pose): number =>
        end === 1 ? sweep[1] - steer : steer - sweep[0];
      return { kind: { kind: 'linear', margin }, frame: space.frame };
    }
    case 'ramEnd': {
      const ram = named(axle.steering?.rams ?? []);
      if (!ram || ram.stroke === null) return null;
      const { stroke, closed } = ram;
      const ends = ramEnds(ram);
      if (!ends) {
        if (third?.kind !== 'input') return null;
        const margin = ({ input: { steer } }: Pose): number => stroke / 2 - target.end * steer;
        return { kind: { kind: 'linear', margin }, frame: space.frame };
      }
      if (closed === null) return null;
      const both: [Anchor, Anchor] = [ends.from, ends.to];
      return target.end === 1 ? span('long', both, closed + stroke) : span('short', both, closed);
    }
    default:
      return null;
  }
}
