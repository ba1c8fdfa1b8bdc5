/**
 * Where the bodies of an axle are over a whole cell of poses, as Taylor intervals: values, first and pure
 * second derivatives by the cell's parameters.
 *
 * A pair of parts is looked at in the fewest parameters that its motion against each other has:
 *   `travel`  left and right travel (axle against chassis);
 *   `turn`    a knuckle's turn, with both travels before it where the chassis is one side of the pair (knuckles,
 *             tires, tie rod): the turn, since the steering input hangs on the travels too;
 *   `input`   the steering input, with both travels (pitman arm, drag link, and all that hangs on them).
 * Without the chassis the axle stands as drawn, and only the last parameter is left.
 */
import type { Mechanism, SteeringMechanism, SteeringRod } from '../mechanism/mechanism.ts';
import type { NineOf, Three } from '../pose/arithmetic.ts';
import type { Pose } from '../pose/pose.ts';
import {
  armVectors,
  branchSign,
  drawnLine,
  drivenTurn,
  endOnKnuckle,
  heldPoint,
  onArm,
} from '../pose/steeringForms.ts';
import { dot, norm, sub, turned, unit, type V3 } from '../vector.ts';
import { type AxleTaylor, axleSystem } from './axleSystem.ts';
import { enclose, formsFor } from './enclose.ts';
import type { Part } from './part.ts';
import { secondAt, type Taylor, type TaylorForms } from './taylor.ts';

export type Side = 'left' | 'right';

/** What the parameters of a cell are, and whether the travels are among them. */
export interface Parameters {
  /** Null: the travels alone. */
  third: { kind: 'turn'; side: Side } | { kind: 'input' } | null;
  travels: boolean;
}

export const countOf = (p: Parameters): number => (p.travels ? 2 : 0) + (p.third ? 1 : 0);

export interface Interval {
  center: number;
  half: number;
}

/** A cell: one interval a parameter, in the order left, right, third. */
export type Cell = readonly Interval[];

/** The bodies over a cell. A point or turn comes back null where it can't be enclosed. */
export class CellMotion {
  readonly forms: TaylorForms;
  readonly #m: Mechanism;
  readonly #pose: Pose;
  readonly #parameters: Parameters;
  readonly #axle: AxleTaylor;
  readonly #third: Taylor | null;
  #steering: SteeringTaylor | null | undefined;
  readonly #bodies = new Map<string, BodyTaylor | null>();
  readonly #sense: number;
  readonly #halves: number[];

  private constructor(
    m: Mechanism,
    pose: Pose,
    parameters: Parameters,
    forms: TaylorForms,
    axle: AxleTaylor,
    third: Taylor | null,
    sense: number,
    cell: Cell,
  ) {
    this.#halves = cell.map(c => c.half);
    this.#m = m;
    this.#pose = pose;
    this.#parameters = parameters;
    this.forms = forms;
    this.#axle = axle;
    this.#third = third;
    this.#sense = sense;
  }

  /**
   * The motion over a cell about its center's pose; null where the axle can't be enclosed.
   *
   * @param axleOf encloses the axle over the travels of a cell; kept by the caller, since cells share it
   */
  static over(
    m: Mechanism,
    pose: Pose,
    parameters: Parameters,
    cell: Cell,
    sense: number,
    axleOf: (cell: Cell) => AxleTaylor | null,
  ): CellMotion | null {
    const p = countOf(parameters);
    const forms = formsFor(p);
    let axle: AxleTaylor;
    if (parameters.travels) {
      const found = axleOf(cell.slice(0, 2));
      if (!found) return null;
      axle = p === 2 ? found : lifted(forms, found);
    } else axle = drawnAxle(forms, m);
    const last = cell[p - 1] as Interval;
    const third = parameters.third ? forms.k.parameter(p - 1, last.center, last.half) : null;
    return new CellMotion(m, pose, parameters, forms, axle, third, sense, cell);
  }

  /** Where a point of a part (vehicle axes as drawn) is over the cell. */
  pointOf(part: Part, drawn: V3, roll = 0): Three<Taylor> | null {
    const { v } = this.forms;
    const motion = part.motion;
    if (motion.kind === 'rigid') return this.#bodyPoint(motion.body, drawn);
    const [first, second] =
      motion.kind === 'ends' ? [motion.from, motion.to] : [motion.at, motion.towards];
    const A = this.#bodyPoint(first.on, first.at);
    const B = this.#bodyPoint(second.on, second.at);
    if (!A || !B) return null;
    const line = unit(sub(second.at, first.at));
    const length = norm(sub(second.at, first.at));
    const from = sub(drawn, first.at);
    const along = dot(from, line);
    const D = v.minus3(B, A);
    let point: Three<Taylor>;
    let d: Three<Taylor> | null = null;
    if (motion.kind === 'ends') point = v.plus3(A, v.times3(D, along / length));
    else {
      d = v.product3(this.#inverseLength(part.name, D), D);
      point = v.plus3(A, v.times3(d, along));
    }
    const off: V3 = [
      from[0] - along * line[0],
      from[1] - along * line[1],
      from[2] - along * line[2],
    ];
    if (norm(off) < 1e-12) return point;
    d ??= v.product3(this.#inverseLength(part.name, D), D);
    const rolled = turned(off, line, Math.cos(roll), Math.sin(roll));
    return v.plus3(point, v.smallestTurn(line, d, v.constant3(rolled)));
  }

  /**
   * 1/|D| of a part between two ends. A link keeps its length, or as an elastic one stretches by its force:
   * 1/|D| = (1 − λ/k)/L. That has no root whose interval forgets that the length hardly changes.
   */
  #inverseLength(name: string, D: Three<Taylor>): Taylor {
    const { k, v } = this.forms;
    const i = this.#m.lengths.names.indexOf(name);
    if (i < 0) return k.reciprocal(k.root(v.inner(D, D)));
    const free = this.#m.lengths.free[i] as number;
    const lambda = this.#axle.forces[i];
    if (!lambda) return k.constant(1 / free);
    return k.times(
      k.shifted(k.times(lambda, -1 / (this.#m.lengths.rates[i] as number)), 1),
      1 / free,
    );
  }

  /** Where a point of a body (vehicle axes as drawn) is over the cell. */
  #bodyPoint(body: string, drawn: V3): Three<Taylor> | null {
    const found = this.#body(body);
    return found ? found.point(drawn) : null;
  }

  /** A rigid part as its turn and where one of its points is; null for a part that is known by its points only. */
  affine(part: Part, drawn: V3): { turn: NineOf<Taylor>; point: Three<Taylor> } | null {
    if (part.motion.kind !== 'rigid') return null;
    const body = this.#body(part.motion.body);
    return body?.turn ? { turn: body.turn(), point: body.point(drawn) } : null;
  }

  /** Where a point of a body is over the cell: for the margins of stops. */
  bodyPoint(body: string, drawn: V3): Three<Taylor> | null {
    return this.#bodyPoint(body, drawn);
  }

  /** Cosine and sine of a knuckle's turn over the cell. */
  turnOf(side: Side): { cos: Taylor; sin: Taylor } | null {
    const s = this.#steeringTaylor();
    const cos = s?.cos[side];
    const sin = s?.sin[side];
    return cos && sin ? { cos, sin } : null;
  }

  #body(body: string): BodyTaylor | null {
    let found = this.#bodies.get(body);
    if (found === undefined) {
      found = this.#make(body);
      this.#bodies.set(body, found);
    }
    return found;
  }

  #make(body: string): BodyTaylor | null {
    const { v } = this.forms;
    const m = this.#m;
    const upright = (): NineOf<Taylor> => [1, 0, 0, 0, 1, 0, 0, 0, 1].map(this.forms.k.constant);
    if (body === 'chassis') return { point: p => v.constant3(p), turn: upright };
    const { o, R } = this.#axle;
    // a point of the axle frame, moved by `inAxle` there
    const throughAxle = (
      inAxle: (p: V3) => Three<Taylor>,
      M: NineOf<Taylor> | null,
    ): BodyTaylor => ({
      point: p => v.plus3(o, v.turnVector(R, inAxle(sub(p, m.origin)))),
      turn: M ? () => v.turnProduct(R, M) : null,
    });
    if (body === 'axle') {
      return { point: p => v.plus3(o, v.turnPlain(R, sub(p, m.origin))), turn: () => R };
    }
    const steering = m.steering;
    if (steering) {
      for (const side of ['left', 'right'] as const) {
        if (body !== `${side} knuckle`) continue;
        const turn = this.turnOf(side);
        if (!turn) return null;
        const { pivot, axis } = steering[side];
        const M = v.turnAbout(axis, turn.cos, turn.sin);
        return throughAxle(p => v.plus3(v.constant3(pivot), v.turnPlain(M, sub(p, pivot))), M);
      }
      const s = this.#steeringTaylor();
      if (body === 'pitman arm' && steering.pitman) {
        const turn = s?.pitman;
        if (!turn) return null;
        const { at } = steering.pitman;
        return {
          point: p => v.plus3(v.constant3(at), v.turnPlain(turn, sub(p, at))),
          turn: () => turn,
        };
      }
      if (body === 'ram rod' && steering.ramAxis) {
        const shift = s?.ram;
        return shift ? throughAxle(p => v.plus3(v.constant3(p), shift), upright()) : null;
      }
      const index = steering.rods.findIndex(r => r.name === body || r.kind === body);
      const rod = steering.rods[index];
      if (rod) {
        const ends = s?.rods[index];
        if (!ends) return null;
        const line = drawnLine(rod, m.origin);
        const D = v.minus3(ends.to, ends.from);
        const d = v.times3(D, 1 / rod.length);
        const drawn = { from: inAxleDrawn(rod, m.origin), to: inAxleDrawnTo(rod, m.origin) };
        const drawnLength = norm(sub(drawn.to, drawn.from));
        return throughAxle(p => {
          const from = sub(p, drawn[rod.anchor]);
          const along = dot(from, line);
          const off: V3 = [
            from[0] - along * line[0],
            from[1] - along * line[1],
            from[2] - along * line[2],
          ];
          // a rod keeps its length: along the line it is the ends' mixture as far as that is the drawn one
          const mixed =
            Math.abs(rod.length - drawnLength) < 1e-9
              ? v.plus3(ends[rod.anchor], v.times3(D, along / drawnLength))
              : v.plus3(ends[rod.anchor], v.times3(d, along));
          if (norm(off) < 1e-12) return mixed;
          const rolled = turned(off, line, Math.cos(rod.rollAt), Math.sin(rod.rollAt));
          return v.plus3(mixed, v.smallestTurn(line, d, v.constant3(rolled)));
        }, null);
      }
    }
    for (const [i, arm] of m.arms.entries()) {
      const jet = this.#axle.arms[i];
      if (arm.name !== body) continue;
      if (!jet) return null;
      return {
        point: p =>
          v.plus3(
            v.plus3(v.constant3(arm.center), jet.shift),
            v.turnPlain(jet.Q, sub(p, arm.center)),
          ),
        turn: () => jet.Q,
      };
    }
    for (const [i, point] of m.points.entries()) {
      const offset = this.#axle.shared[i];
      if (point.name !== body) continue;
      if (!offset) return null;
      return point.on === 'axle'
        ? throughAxle(p => v.plus3(v.constant3(p), offset), upright())
        : { point: p => v.plus3(v.constant3(p), offset), turn: upright };
    }
    return null;
  }

  #steeringTaylor(): SteeringTaylor | null {
    if (this.#steering === undefined) {
      const m = this.#m.steering;
      this.#steering = m ? this.#makeSteering(m) : null;
    }
    return this.#steering;
  }

  #makeSteering(m: SteeringMechanism): SteeringTaylor {
    const { forms } = this;
    const { k, v } = forms;
    const { origin } = this.#m;
    const out: SteeringTaylor = {
      cos: { left: null, right: null },
      sin: { left: null, right: null },
      rods: m.rods.map(() => null),
      pitman: null,
      ram: null,
    };
    const third = this.#third;
    const kind = this.#parameters.third;
    const turn = this.#pose.turn;
    if (!kind || !third || !turn) return out;
    const now = { left: [turn[0], turn[1]], right: [turn[2], turn[3]] } as Record<
      Side,
      [number, number]
    >;
    const put = (side: Side, cos: Taylor, sin: Taylor): void => {
      out.cos[side] = cos;
      out.sin[side] = sin;
    };
    const driveBy = (side: Side, rod: number, S: Three<Taylor>): Three<Taylor> | null => {
      const arm = armVectors(m[side], endOnKnuckle(m, rod, side));
      const turn = this.#encloseTurn(
        now[side],
        (m.rods[rod] as SteeringRod).length,
        (over, cos, sin, by) => {
          const { v } = over;
          return v.minus3(onArm(over, arm, cos, sin), this.#seenBy(over, S, by));
        },
      );
      if (!turn) return null;
      put(side, turn.cos, turn.sin);
      return onArm(forms, arm, turn.cos, turn.sin);
    };
    const other: Side = m.first === 'left' ? 'right' : 'left';
    const acrossTieRod = (side: Side): void => {
      // a tie rod from knuckle to knuckle, seen from the side whose turn is known
      const far: Side = side === 'left' ? 'right' : 'left';
      const arm = armVectors(m[side], endOnKnuckle(m, m.tieRod, side));
      const near = onArm(forms, arm, out.cos[side] as Taylor, out.sin[side] as Taylor);
      const end = driveBy(far, m.tieRod, near);
      if (!end) return;
      out.rods[m.tieRod] = side === m.first ? { from: near, to: end } : { from: end, to: near };
    };
    if (kind.kind === 'turn') {
      put(kind.side, k.cosineOf(third), k.sineOf(third));
      if (m.kind === 'knuckle' || m.kind === 'tieRod') acrossTieRod(kind.side);
      return out;
    }
    const input = k.times(third, this.#sense);
    if (m.kind === 'ram') {
      const shift = v.product3(input, v.constant3(m.ramAxis as V3));
      out.ram = shift;
      for (const [side, rod] of [
        ['left', m.tieRod],
        ['right', m.otherTieRod],
      ] as const) {
        const from = v.plus3(v.constant3((m.rods[rod] as SteeringRod).from.at), shift);
        const to = driveBy(side, rod, from);
        if (to) out.rods[rod] = { from, to };
      }
      return out;
    }
    const p = m.pitman as NonNullable<typeof m.pitman>;
    out.pitman = v.turnAbout(p.axis, k.cosineOf(input), k.sineOf(input));
    const ball = v.plus3(v.constant3(p.at), v.turnPlain(out.pitman, sub(p.ball, p.at)));
    const S = v.turnBack(this.#axle.R, v.minus3(ball, this.#axle.o));
    if (m.kind === 'tieRod') {
      const held = this.#encloseHeld(m, S, now[m.first]);
      if (!held) return out;
      put(m.first, held.cos, held.sin);
      acrossTieRod(m.first);
      const rod = out.rods[m.tieRod];
      if (rod) {
        const T = heldPoint(forms, m, origin, rod.from, rod.to);
        out.rods[m.dragLink] = { from: S, to: T };
      }
      return out;
    }
    const end = driveBy(m.first, m.dragLink, S);
    if (!end) return out;
    out.rods[m.dragLink] = { from: S, to: end };
    if (m.kind === 'knuckle') acrossTieRod(m.first);
    else {
      const hold = heldPoint(forms, m, origin, S, end);
      const to = driveBy(other, m.tieRod, hold);
      if (to) out.rods[m.tieRod] = { from: hold, to };
    }
    return out;
  }

  /** The first knuckle's turn where the drag link holds the tie rod. */
  #encloseHeld(
    m: SteeringMechanism,
    S: Three<Taylor>,
    first: [number, number],
  ): { cos: Taylor; sin: Taylor } | null {
    const { origin } = this.#m;
    const other: Side = m.first === 'left' ? 'right' : 'left';
    const near = armVectors(m[m.first], endOnKnuckle(m, m.tieRod, m.first));
    const far = armVectors(m[other], endOnKnuckle(m, m.tieRod, other));
    const turn = this.#pose.turn as Float64Array;
    const at = other === 'left' ? 0 : 2;
    const tieLength = (m.rods[m.tieRod] as SteeringRod).length;
    return this.#encloseTurn(
      first,
      (m.rods[m.dragLink] as SteeringRod).length,
      (over, cos, sin, by) => {
        const A = onArm(over, near, cos, sin);
        const value: V3 = [A[0][0] as number, A[1][0] as number, A[2][0] as number];
        const sign = branchSign(far, value, turn[at] as number, turn[at + 1] as number);
        const driven = drivenTurn(over, far, A, tieLength, sign);
        const B = onArm(over, far, driven.cos, driven.sin);
        return over.v.minus3(heldPoint(over, m, origin, A, B), this.#seenBy(over, S, by));
      },
    );
  }

  /**
   * A knuckle's turn by the length of one rod: |d|² = L², one unknown. The closed form is exact for numbers, but
   * over a cell its root and quotient forget that they hang together; this keeps the derivatives tight.
   */
  #encloseTurn(
    [c, s]: [number, number],
    length: number,
    d: (forms: TaylorForms, cos: Taylor, sin: Taylor, by: By) => Three<Taylor>,
  ): { cos: Taylor; sin: Taylor } | null {
    const p = this.forms.k.m;
    const found = enclose(
      {
        n: 1,
        residual: (over: TaylorForms, q: Taylor[], _: Taylor[], by: By): Taylor[] => {
          const { k, v } = over;
          const change = q[0] as Taylor;
          const line = d(over, k.cosine(change, c, s), k.sine(change, c, s), by);
          return [k.shifted(k.times(v.inner(line, line), 0.5), -(length * length) / 2)];
        },
      },
      [0],
      Array.from({ length: p }, (_, j) => ({ center: 0, half: this.#halves[j] ?? 0 })),
    );
    const change = found?.[0];
    if (!change) return null;
    const { k } = this.forms;
    return { cos: k.cosine(change, c, s), sin: k.sine(change, c, s) };
  }

  /** A vector over the cell as an arithmetic sees it: with its derivatives in ours, else only its interval. */
  #seenBy(over: TaylorForms, S: Three<Taylor>, by: By): Three<Taylor> {
    if (by === 'parameter') return S;
    return S.map(x => over.k.interval(x[0] as number, x[1] as number)) as Three<Taylor>;
  }
}

type By = 'unknown' | 'parameter';

interface BodyTaylor {
  point(drawn: V3): Three<Taylor>;
  /** Its turn from drawn, by rows; null for a body that is known by its points only. */
  turn: (() => NineOf<Taylor>) | null;
}

interface SteeringTaylor {
  cos: Record<Side, Taylor | null>;
  sin: Record<Side, Taylor | null>;
  rods: ({ from: Three<Taylor>; to: Three<Taylor> } | null)[];
  pitman: NineOf<Taylor> | null;
  ram: Three<Taylor> | null;
}

const inAxleDrawn = (rod: SteeringRod, origin: V3): V3 =>
  rod.from.on === 'pitman arm' ? sub(rod.from.at, origin) : rod.from.at;
const inAxleDrawnTo = (rod: SteeringRod, origin: V3): V3 =>
  rod.to.on === 'pitman arm' ? sub(rod.to.at, origin) : rod.to.at;

/** The axle as drawn, constant. */
function drawnAxle({ k, v }: TaylorForms, m: Mechanism): AxleTaylor {
  return {
    o: v.constant3(m.origin),
    R: [1, 0, 0, 0, 1, 0, 0, 0, 1].map(k.constant),
    shared: [],
    arms: [],
    forces: [],
  };
}

/** Encloses the axle over a cell of travels about its center's pose. */
export function encloseAxle(m: Mechanism, pose: Pose, cell: Cell): AxleTaylor | null {
  const system = axleSystem(m, pose.axle);
  const unknown = enclose(system, system.center, cell);
  if (!unknown) return null;
  const forms = formsFor(2);
  const parameters = cell.map((c, j) => forms.k.parameter(j, c.center, c.half));
  return system.read(forms, unknown, parameters);
}

/** The same intervals with one more parameter, on which nothing hangs. */
function lifted(forms: TaylorForms, axle: AxleTaylor): AxleTaylor {
  const lift = (a: Taylor): Taylor => {
    const r = forms.k.interval(a[0] as number, a[1] as number);
    for (let j = 0; j < 2; j++) {
      for (const half of [0, 1]) {
        r[2 + 2 * j + half] = a[2 + 2 * j + half] as number;
        r[secondAt(3, j) + half] = a[secondAt(2, j) + half] as number;
      }
    }
    return r;
  };
  const three = (a: Three<Taylor>): Three<Taylor> => [lift(a[0]), lift(a[1]), lift(a[2])];
  return {
    o: three(axle.o),
    R: axle.R.map(lift),
    forces: axle.forces.map(lift),
    shared: axle.shared.map(three),
    arms: axle.arms.map(({ shift, Q }) => ({ shift: three(shift), Q: Q.map(lift) })),
  };
}
