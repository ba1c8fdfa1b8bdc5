/**
 * Where the points of all bodies and parts are over a cell of poses, seen from the chassis or from the axle, with
 * bounds of their derivatives by the cell's parameters. (20) to (26) of PROOF.md.
 *
 * A pair of parts is looked at in the fewest parameters that its motion against each other has:
 *   `travel`  left and right travel (axle against chassis);
 *   `turn`    a knuckle's turn, with both travels before it where the chassis is one side of the pair (knuckles,
 *             tires, tie rod): the turn, since the steering input hangs on the travels too;
 *   `input`   the steering input, with both travels (pitman arm, drag link, and all that hangs on them).
 */
import type { Vec3 } from '../build/build.ts';
import type { DrawnJoint } from '../measure/rolling.ts';
import type { Ends } from '../measure/span.ts';
import type { Mechanism, SteeringMechanism, SteeringRod, SwayArm } from '../mechanism/mechanism.ts';
import type { Pose } from '../pose/pose.ts';
import { armVectors, drawnLine, endOnKnuckle } from '../pose/steeringForms.ts';
import { smallestTurn } from '../pose/steeringSolver.ts';
import { squareTo } from '../solid/support.ts';
import { add, cross, dot, norm, reject, scale, sub, turned, unit, type V3 } from '../vector.ts';
import type { AxleCell } from './axleCell.ts';
import { BOX_SIZE, type Box, copy, type Form, makeBox, makeForm, RADIUS } from './forms.ts';
import type { Anchor, Part, PartRoll } from './part.ts';
import {
  arcOf,
  bodyFromChassis,
  type Curve,
  carriedBy,
  carriedBySmallestTurn,
  changesOf,
  chassisFromBody,
  directionOfBody,
  drivenTurning,
  type Halves,
  innerForm,
  lineForm,
  makeTurning,
  meanRoll,
  mixed,
  type NumberForm,
  type PointForm,
  pointOfBody,
  pointOnArc,
  ROLL,
  type RollForm,
  rollForm,
  smallestTurnForm,
  stillPoint,
  summed,
  type Turning,
  type TurnRates,
  turningParameter,
} from './pointForm.ts';
import { isHeld, standingRoll } from './roll.ts';

export type Side = 'left' | 'right';
export type Frame = 'chassis' | 'axle';

/** What the parameters of a cell are, and whether the travels are among them. */
export interface Parameters {
  /** Null: the travels alone. */
  third: { kind: 'turn'; side: Side } | { kind: 'input' } | null;
  travels: boolean;
  /** Of a link or steering rod that is free to roll: its roll is the last parameter. */
  roll?: PartRoll | undefined;
}

/** A point that is off its rod's line by less is on it, in. */
const ON_LINE_in = 1e-12;

interface RodForm {
  rod: SteeringRod;
  /** Seen from the axle. */
  from: PointForm;
  to: PointForm;
}

/** A part between two bodies, seen from the chassis or from the axle. */
interface SpanForm {
  /** Direction and length as drawn. */
  line: V3;
  length: number;
  a: PointForm;
  b: PointForm;
  u: PointForm;
  /** Undefined: not asked for yet. */
  turn: { rates: TurnRates; angle: number } | null | undefined;
}

/**
 * How a body's point `ref` (vehicle axes as drawn) and its three drawn axes bend: for each of the four parameters the
 * boxes of the second derivatives of these four, one after the other in one array.
 */
export interface Basis {
  ref: V3;
  bends: Float64Array;
}

const AXES: readonly V3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

/** The bodies over one cell. A point comes back null where it can't be enclosed. */
export class CellBodies {
  readonly #m: Mechanism;
  readonly #pose: Pose;
  readonly #parameters: Parameters;
  readonly #axle: AxleCell | null;
  readonly #changes: readonly Form[];
  readonly #half: number;
  readonly #sense: number;
  readonly #linkRoll: number;
  readonly #turnings = new Map<Side | 'pitman', Turning | null>();
  readonly #rods = new Map<number, RodForm | null>();
  readonly #sway = new Map<SwayArm, Turning | null>();
  readonly #lines = new Map<number, PointForm>();
  readonly #bases = new Map<string, Basis | null>();
  readonly #spans = new Map<string, SpanForm | null>();

  /**
   * @param pose the pose at the cell's center
   * @param axle the axle over the cell's travels; null where these are not among the parameters
   * @param halves half-widths of the cell
   * @param linkRoll roll at the cell's center of the link whose roll is a parameter, rad
   */
  constructor(
    m: Mechanism,
    pose: Pose,
    parameters: Parameters,
    axle: AxleCell | null,
    halves: Halves,
    sense: number,
    linkRoll = 0,
  ) {
    this.#m = m;
    this.#pose = pose;
    this.#parameters = parameters;
    this.#axle = axle;
    this.#changes = changesOf(halves);
    this.#half = halves[2];
    this.#sense = sense;
    this.#linkRoll = linkRoll;
  }

  /** A point of a body (vehicle axes as drawn), seen from the chassis or from the axle. */
  point(body: string, drawn: V3, frame: Frame): PointForm | null {
    const m = this.#m;
    const found = this.#own(body, drawn);
    if (!found) return null;
    if (found.frame === frame) return found.point;
    const axle = this.#axle?.axle;
    if (axle) {
      return frame === 'chassis'
        ? chassisFromBody(axle, found.point)
        : bodyFromChassis(axle, found.point);
    }
    // the axle stands as drawn: what rides on it alone may be seen from the chassis too
    if (found.frame !== 'axle') return null;
    return summed(found.point, stillPoint(m.origin as V3));
  }

  /**
   * A body's reference point and its axes as drawn, each as it moves: (20) to (26) are affine in the drawn point, so that
   * any point of the body is at ref + Σ d_k e_k. Null where it can't be enclosed.
   */
  basis(body: string, frame: Frame): Basis | null {
    const key = `${body}|${frame}`;
    let found = this.#bases.get(key);
    if (found === undefined) {
      found = this.#makeBasis(body, frame);
      this.#bases.set(key, found);
    }
    return found;
  }

  #makeBasis(body: string, frame: Frame): Basis | null {
    const ref = this.#m.origin as V3;
    const bends = new Float64Array(4 * 4 * BOX_SIZE);
    for (let i = 0; i < 4; i++) {
      const form =
        i === 0 ? this.point(body, ref, frame) : this.#vector(body, AXES[i - 1] as V3, frame);
      if (!form) return null;
      for (let k = 0; k < 4; k++) bends.set(form.second[k] as Box, BOX_SIZE * (4 * k + i));
    }
    return { ref, bends };
  }

  /** A vector fixed in a body (drawn axes), seen from the chassis or from the axle. */
  #vector(body: string, e: V3, frame: Frame): PointForm | null {
    const found = this.#ownVector(body, e);
    if (!found) return null;
    if (found.frame === frame) return found.point;
    const axle = this.#axle?.axle;
    if (axle) {
      const turning = turningAlone(axle);
      return frame === 'chassis'
        ? chassisFromBody(turning, found.point)
        : bodyFromChassis(turning, found.point);
    }
    return found.frame === 'axle' ? found.point : null;
  }

  #ownVector(body: string, e: V3): { point: PointForm; frame: Frame } | null {
    const m = this.#m;
    const { steering } = m;
    const onAxle = (point: PointForm | null) => (point ? { point, frame: 'axle' as const } : null);
    const chassis = (point: PointForm) => ({ point, frame: 'chassis' as const });
    if (body === 'chassis') return chassis(stillPoint(e));
    if (body === 'axle' || (body === 'ram rod' && steering?.ramAxis)) return onAxle(stillPoint(e));
    for (const side of ['left', 'right'] as const) {
      if (!steering || body !== `${side} knuckle`) continue;
      const turning = this.#turning(side);
      return turning && onAxle(pointOnArc(turningVector(steering[side].axis as V3, e), turning));
    }
    if (body === 'pitman arm' && steering?.pitman) {
      const turning = this.#turning('pitman');
      const { axis } = steering.pitman;
      return turning && chassis(pointOnArc(turningVector(axis as V3, e), turning));
    }
    const index = steering?.rods.findIndex(rod => rod.name === body || rod.kind === body) ?? -1;
    if (index >= 0) return onAxle(this.#vectorOnRod(index, e));
    const axle = this.#axle;
    if (!axle) return null;
    const sway = m.swayArms.find(({ name }) => name === body);
    if (sway) {
      const turning = this.#swayTurning(sway);
      return turning && chassis(pointOnArc(turningVector(sway.axis as V3, e), turning));
    }
    const arm = m.arms.findIndex(each => each.name === body);
    if (arm >= 0) return chassis(directionOfBody(axle.arms[arm] as AxleCell['axle'], e));
    const point = m.points.findIndex(each => each.name === body);
    if (point >= 0) return chassis(directionOfBody(axle.points[point] as AxleCell['axle'], e));
    return null;
  }

  #vectorOnRod(index: number, e: V3): PointForm | null {
    const ends = this.#rod(index);
    if (!ends) return null;
    const line = drawnLine(ends.rod, this.#m.origin as V3);
    const along = dot(e, line);
    const onLine = summed(
      stillPoint([0, 0, 0]),
      summed(ends.to, ends.from, -1),
      along / ends.rod.length,
    );
    return this.#offRod(index, onLine, sub(e, scale(line, along)));
  }

  /** A point of a part (vehicle axes as drawn), in the roll in which it stands. */
  pointOf(part: Part, drawn: V3, frame: Frame): PointForm | null {
    const { motion } = part;
    if (motion.kind === 'rigid') return this.point(motion.body, drawn, frame);
    const [first, second]: [Anchor, Anchor] =
      motion.kind === 'ends' ? [motion.from, motion.to] : [motion.at, motion.towards];
    const line = unit(sub(second.at, first.at));
    const along = dot(sub(drawn, first.at), line);
    const off = sub(sub(drawn, first.at), scale(line, along));
    const isOn = norm(off) < ON_LINE_in;
    // a point on the line goes with the ends in any frame; what is beside it is turned as the chassis sees it
    const of = this.#spanOf(
      `${part.body}|${part.roll?.by ?? ''}`,
      motion.kind,
      first,
      second,
      isOn ? frame : 'chassis',
    );
    if (!of) return null;
    const onLine =
      motion.kind === 'ends' ? mixed(of.a, of.b, along / of.length) : summed(of.a, of.u, along);
    if (isOn) return onLine;
    const turning = this.#turnOf(part, of);
    if (!turning) return null;
    // as placePart has it: rolled about the drawn line, then carried by the smallest turn of the line
    const rolled = turned(off, line, Math.cos(turning.angle), Math.sin(turning.angle));
    const now = smallestTurn(line, unit(center(of.u)), rolled);
    const out = summed(onLine, carriedBy(turning.rates, now, this.#changes));
    if (frame === 'chassis') return out;
    return this.#axle ? bodyFromChassis(this.#axle.axle, out) : null;
  }

  /** Both ends of a part that rides on two bodies, and its line. */
  #spanOf(
    name: string,
    kind: 'ends' | 'aim',
    first: Anchor,
    second: Anchor,
    frame: Frame,
  ): SpanForm | null {
    const key = `${name}|${kind}|${frame}`;
    let found = this.#spans.get(key);
    if (found === undefined) {
      const a = this.point(first.on, first.at, frame);
      const b = this.point(second.on, second.at, frame);
      const line = sub(second.at, first.at);
      found =
        a && b
          ? {
              line: unit(line),
              length: norm(line),
              a,
              b,
              u: lineForm(a, b, null),
              turn: undefined,
            }
          : null;
      this.#spans.set(key, found);
    }
    return found;
  }

  /** How a part turns with its line, held in its roll or at the roll that is a parameter; null where neither is so. */
  #turnOf(part: Part, span: SpanForm): { rates: TurnRates; angle: number } | null {
    if (span.turn === undefined) {
      if (part.roll?.by === 'line' && part.roll.of === this.#parameters.roll?.of) {
        span.turn = {
          rates: smallestTurnForm(span.line, span.u, ownRoll(1)),
          angle: this.#linkRoll,
        };
        return span.turn;
      }
      const held = part.roll?.by === 'line' ? part.roll : null;
      const roll = held ? this.#heldRoll(held, span.u) : null;
      span.turn =
        held && !roll
          ? null
          : {
              rates: smallestTurnForm(span.line, span.u, roll),
              angle: held ? standingRoll(held, this.#pose) : 0,
            };
    }
    return span.turn;
  }

  /**
   * (34) Cosine of the misalignment at a joint of the link whose roll is a parameter: bolt · bore, with the derivatives.
   */
  misalignment({ from, to }: Ends, joint: DrawnJoint): NumberForm | null {
    const roll = this.#parameters.roll;
    const bolt = this.#direction(joint.on, joint.bolt);
    const span = this.#spanOf(`${roll?.of.name}|joints`, 'ends', from, to, 'chassis');
    if (!roll || !bolt || !span) return null;
    const { line, u } = span;
    const angle = this.#linkRoll;
    const rolled = turned(joint.bore, line, Math.cos(angle), Math.sin(angle));
    const now = smallestTurn(line, unit(center(u)), rolled);
    const bore = carriedBySmallestTurn(line, u, now, this.#changes, ownRoll(1));
    return innerForm(bolt, bore);
  }

  /** A knuckle's turn over the cell. */
  turning(side: Side): Turning | null {
    return this.#turning(side);
  }

  /**
   * (27) How the roll changes in which the joints of a link hold it: at each, the bore is as close to the bolt as drawn;
   * of two, the mean. Null where the link is free to roll.
   */
  #heldRoll(roll: PartRoll, u: PointForm): RollForm | null {
    const { of } = roll;
    if (!isHeld(roll) || of.frame !== 'chassis') return null;
    const carried = (drawn: V3): PointForm => {
      const now = smallestTurn(of.line as V3, unit(center(u)), drawn);
      return carriedBySmallestTurn(of.line as V3, u, now, this.#changes);
    };
    const rolls: (RollForm | null)[] = [];
    for (const joint of of.joints) {
      if (!joint.holds) continue;
      const bolt = this.#direction(joint.on, joint.bolt as V3);
      rolls.push(bolt && rollForm(u, carried(joint.bore as V3), bolt));
    }
    if (of.holders.length > 0) {
      const mark = anySquare(of.line as V3);
      const atZero = carried(mark);
      for (const body of of.holders) {
        const now = this.#carriedIn(body, of.line as V3, mark, u);
        rolls.push(now && rollForm(u, atZero, now));
      }
    }
    const [first, second] = rolls;
    if (!first || rolls.length > 2 || (rolls.length === 2 && !second)) return null;
    return second ? meanRoll(first, second) : first;
  }

  /** A direction of a body as drawn, seen from the chassis. */
  #direction(on: string, drawn: V3): PointForm | null {
    if (on === 'chassis') return stillPoint(drawn);
    if (on === 'axle' && this.#axle) return directionOfBody(this.#axle.axle, drawn);
    return null;
  }

  /** A vector square to a link's drawn line, carried by the smallest turn of the line as a body sees it. */
  #carriedIn(body: string, line: V3, mark: V3, u: PointForm): PointForm | null {
    if (body === 'chassis') {
      return carriedBySmallestTurn(
        line,
        u,
        smallestTurn(line, unit(center(u)), mark),
        this.#changes,
      );
    }
    const axle = this.#axle?.axle;
    if (body !== 'axle' || !axle) return null;
    const turning = turningAlone(axle);
    const seen = bodyFromChassis(turning, u);
    const now = smallestTurn(line, unit(center(seen)), mark);
    return chassisFromBody(turning, carriedBySmallestTurn(line, seen, now, this.#changes));
  }

  #own(body: string, drawn: V3): { point: PointForm; frame: Frame } | null {
    const m = this.#m;
    const chassis = (point: PointForm) => ({ point, frame: 'chassis' as const });
    const onAxle = (point: PointForm | null) => (point ? { point, frame: 'axle' as const } : null);
    if (body === 'chassis') return chassis(stillPoint(drawn));
    const y = sub(drawn, m.origin as V3);
    if (body === 'axle') return onAxle(stillPoint(y));
    const { steering } = m;
    if (steering) {
      for (const side of ['left', 'right'] as const) {
        if (body !== `${side} knuckle`) continue;
        const turning = this.#turning(side);
        return turning && onAxle(pointOnArc(armVectors(steering[side], y), turning));
      }
      if (body === 'pitman arm' && steering.pitman) {
        const turning = this.#turning('pitman');
        return turning && chassis(pointOnArc(pitmanArm(steering.pitman, drawn), turning));
      }
      if (body === 'ram rod' && steering.ramAxis) return onAxle(this.#onRam(y));
      const index = steering.rods.findIndex(rod => rod.name === body || rod.kind === body);
      if (index >= 0) return onAxle(this.#onRod(index, y));
    }
    const axle = this.#axle;
    if (!axle) return null;
    const sway = m.swayArms.find(({ name }) => name === body);
    if (sway) {
      const turning = this.#swayTurning(sway);
      return turning && chassis(pointOnArc(pitmanArm(sway, drawn), turning));
    }
    const arm = m.arms.findIndex(each => each.name === body);
    if (arm >= 0) return chassis(pointOfBody(axle.arms[arm] as AxleCell['axle'], drawn));
    const point = m.points.findIndex(each => each.name === body);
    if (point >= 0) return chassis(pointOfBody(axle.points[point] as AxleCell['axle'], drawn));
    return null;
  }

  /** (26) a point of a steering rod (axle frame as drawn), seen from the axle. */
  #onRod(index: number, y: V3): PointForm | null {
    const ends = this.#rod(index);
    if (!ends) return null;
    const { rod } = ends;
    const m = this.#m;
    const line = drawnLine(rod, m.origin as V3);
    const anchor = rod.anchor === 'from' ? rod.from : rod.to;
    const at = anchor.on === 'pitman arm' ? sub(anchor.at, m.origin as V3) : anchor.at;
    const from = sub(y, at as V3);
    const along = dot(from, line);
    const fraction = rod.anchor === 'from' ? along / rod.length : 1 + along / rod.length;
    return this.#offRod(index, mixed(ends.from, ends.to, fraction), sub(from, scale(line, along)));
  }

  /** A point on a rod's line, and what it is off the line as drawn. */
  #offRod(index: number, onLine: PointForm, off: V3): PointForm {
    if (norm(off) < ON_LINE_in) return onLine;
    const { rod, from, to } = this.#rods.get(index) as RodForm;
    let u = this.#lines.get(index);
    if (!u) {
      u = lineForm(from, to, rod.length);
      this.#lines.set(index, u);
    }
    const line = drawnLine(rod, this.#m.origin as V3);
    const rolled = turned(off, line, Math.cos(rod.rollAt), Math.sin(rod.rollAt));
    const now = smallestTurn(line, unit(center(u)), rolled);
    return summed(onLine, carriedBySmallestTurn(line, u, now, this.#changes, this.#rollOf(rod)));
  }

  /** A rod's own roll, where that is a parameter: counted as the build writes the rod. */
  #rollOf(rod: SteeringRod): RollForm | null {
    if (!this.#rolls(rod)) return null;
    return ownRoll(rod.from.name === `${rod.name}.from` ? 1 : -1);
  }

  #rolls({ name }: SteeringRod): boolean {
    const { roll } = this.#parameters;
    return roll?.by === 'rod' && roll.of.name === name;
  }

  #rod(index: number): RodForm | null {
    let found = this.#rods.get(index);
    if (found === undefined) {
      found = this.#makeRod(index);
      this.#rods.set(index, found);
    }
    return found;
  }

  #makeRod(index: number): RodForm | null {
    const steering = this.#m.steering as SteeringMechanism;
    const rod = steering.rods[index] as SteeringRod;
    const from = this.#rodEnd(rod.from);
    const to = this.#rodEnd(rod.to);
    return from && to ? { rod, from, to } : null;
  }

  #rodEnd(end: SteeringRod['from']): PointForm | null {
    const m = this.#m;
    const steering = m.steering as SteeringMechanism;
    if (end.on === 'pitman arm') return this.point('pitman arm', end.at as V3, 'axle');
    if (end.on === 'tie rod' || end.on === 'drag link') return this.#held(steering);
    return this.point(end.on, add(end.at as V3, m.origin as V3), 'axle');
  }

  /** The point by which one rod holds the other. */
  #held(steering: SteeringMechanism): PointForm | null {
    const { held } = steering;
    if (!held) return null;
    const ends = this.#rod(held.rod);
    return ends && this.#offRod(held.rod, mixed(ends.from, ends.to, held.fraction), held.off as V3);
  }

  #onRam(y: V3): PointForm | null {
    const third = this.#parameters.third;
    const axis = this.#m.steering?.ramAxis;
    if (!axis || third?.kind !== 'input') return null;
    const shift = this.#pose.input.steer * this.#sense;
    const out = stillPoint(add(y, scale(axis as V3, shift)));
    for (let c = 0; c < 3; c++) {
      const rate = (axis[c] as number) * this.#sense;
      out.first[2][c] = rate;
      out.value[9 + c] = rate * this.#half;
    }
    return out;
  }

  /** (25) an arm of the sway bar, turned by its end link from the axle. */
  #swayTurning(arm: SwayArm): Turning | null {
    let found = this.#sway.get(arm);
    if (found === undefined) {
      const S = this.point('axle', add(arm.axle as V3, this.#m.origin as V3), 'chassis');
      const { cos, sin, margin } = this.#pose.swayTurn(arm);
      const tip = pitmanArm(arm, arm.tip as V3);
      // beyond over-center the arm follows another rule
      found =
        S && margin > 0
          ? drivenTurning(turning => arcOf(tip, turning), cos, sin, S, this.#changes)
          : null;
      this.#sway.set(arm, found);
    }
    return found;
  }

  #turning(which: Side | 'pitman'): Turning | null {
    let found = this.#turnings.get(which);
    if (found === undefined) {
      found = this.#makeTurning(which);
      this.#turnings.set(which, found);
    }
    return found;
  }

  #makeTurning(which: Side | 'pitman'): Turning | null {
    const steering = this.#m.steering;
    const third = this.#parameters.third;
    const now = this.#pose.turn;
    if (!steering || !third || !now) return null;
    if (which === 'pitman') {
      if (third.kind !== 'input') return null;
      return turningParameter(this.#pose.input.steer, this.#half, this.#sense);
    }
    const at = which === 'left' ? 0 : 2;
    const cos = now[at] as number;
    const sin = now[at + 1] as number;
    if (third.kind === 'turn' && third.side === which) {
      const out = makeTurning(cos, sin);
      out.change[3] = this.#half;
      out.rate[2][0] = 1;
      return out;
    }
    const driven = (rod: number, S: PointForm | null): Turning | null => {
      if (!S) return null;
      const arm = armVectors(steering[which], endOnKnuckle(steering, rod, which));
      return drivenTurning(turning => arcOf(arm, turning), cos, sin, S, this.#changes);
    };
    const farEnd = (rod: number): PointForm | null => {
      const { from, to } = steering.rods[rod] as SteeringRod;
      return this.#rodEnd(from.on === `${which} knuckle` ? to : from);
    };
    if (third.kind === 'turn') {
      // a tie rod from knuckle to knuckle carries the other one along
      if (steering.kind !== 'knuckle' && steering.kind !== 'tieRod') return null;
      return driven(steering.tieRod, farEnd(steering.tieRod));
    }
    if (steering.kind === 'ram') {
      const rod = which === 'left' ? steering.tieRod : steering.otherTieRod;
      return driven(rod, farEnd(rod));
    }
    if (steering.kind === 'tieRod') {
      if (which !== steering.first) return driven(steering.tieRod, farEnd(steering.tieRod));
      return this.#drivenByHeld(steering, cos, sin);
    }
    const rod = which === steering.first ? steering.dragLink : steering.tieRod;
    return driven(rod, farEnd(rod));
  }

  /** The first knuckle's turn where the drag link holds the tie rod: its held point is a curve by that turn. */
  #drivenByHeld(steering: SteeringMechanism, cos: number, sin: number): Turning | null {
    const S = this.#rodEnd((steering.rods[steering.dragLink] as SteeringRod).from);
    if (!S) return null;
    const { first } = steering;
    const other: Side = first === 'left' ? 'right' : 'left';
    const near = armVectors(steering[first], endOnKnuckle(steering, steering.tieRod, first));
    const far = armVectors(steering[other], endOnKnuckle(steering, steering.tieRod, other));
    const now = this.#pose.turn as Float64Array;
    const at = other === 'left' ? 0 : 2;
    const rod = steering.rods[steering.tieRod] as SteeringRod;
    const held = steering.held as NonNullable<typeof steering.held>;
    // its roll would move the curve itself
    if (this.#rolls(rod)) return null;
    const line = drawnLine(rod, this.#m.origin as V3);
    const off = turned(held.off as V3, line, Math.cos(rod.rollAt), Math.sin(rod.rollAt));
    const curve: Curve = turning => {
      // by the first knuckle's turn as the only parameter, in the third's place
      const own: Turning = makeTurning(turning.cos, turning.sin);
      copy(own.change, turning.change);
      own.rate[2][0] = 1;
      const still = makeForm();
      const changes = [still, still, turning.change, still];
      const A = pointOnArc(near, own);
      const second = drivenTurning(
        t => arcOf(far, t),
        now[at] as number,
        now[at + 1] as number,
        A,
        changes,
      );
      if (!second) return null;
      const B = pointOnArc(far, second);
      let T = mixed(A, B, held.fraction);
      if (norm(off) >= ON_LINE_in) {
        const u = lineForm(A, B, rod.length);
        const carried = smallestTurn(line, unit(center(u)), off);
        T = summed(T, carriedBySmallestTurn(line, u, carried, changes));
      }
      return { value: T.value, t: T.first[2], n: T.second[2] };
    };
    return drivenTurning(curve, cos, sin, S, this.#changes);
  }
}

/** A body's turning without its movement. */
function turningAlone(body: AxleCell['axle']): AxleCell['axle'] {
  const still = [makeBox(), makeBox()] as const;
  return { ...body, at: still[0], first: still, second: still };
}

/** A vector that goes round an axis. */
function turningVector(axis: V3, e: V3): { c: V3; r: V3; w: V3 } {
  const r = reject(e, axis);
  return { c: sub(e, r), r, w: cross(axis, r) };
}

/** A roll that is the parameter itself, in its sense or against it. */
function ownRoll(sense: 1 | -1): RollForm {
  const { rate, bend } = makeTurning(1, 0);
  rate[ROLL][0] = sense;
  return { rate, bend };
}

/** A unit vector square to a line. */
function anySquare(line: V3): V3 {
  const [first] = squareTo(...line);
  return first as unknown as V3;
}

const center = (u: PointForm): V3 => [
  u.value[0] as number,
  u.value[1] as number,
  u.value[2] as number,
];

function pitmanArm({ at, axis }: { at: Vec3; axis: Vec3 }, drawn: V3): { c: V3; r: V3; w: V3 } {
  const r = reject(sub(drawn, at as V3), axis as V3);
  return { c: sub(drawn, r), r, w: cross(axis as V3, r) };
}

/** How the second derivatives of a point bound it along a direction: kept as center and spread by component. */
export function bendsOf(point: PointForm, k: 0 | 1 | 2 | 3, out: Float64Array, at: number): void {
  const box = point.second[k];
  for (let c = 0; c < 3; c++) {
    out[at + c] = box[c] as number;
    out[at + 3 + c] =
      Math.abs(box[3 + c] as number) +
      Math.abs(box[6 + c] as number) +
      Math.abs(box[9 + c] as number) +
      (box[12 + c] as number);
  }
}

/** The same of a point of a body, from the body's basis: what is linear in it adds up with its sign, radii by size. */
export function bendsOfBasis(
  { ref, bends }: Basis,
  drawn: V3,
  k: 0 | 1 | 2 | 3,
  out: Float64Array,
  at: number,
): void {
  const x = drawn[0] - ref[0];
  const y = drawn[1] - ref[1];
  const z = drawn[2] - ref[2];
  const o = BOX_SIZE * 4 * k;
  for (let c = 0; c < 3; c++) {
    const r = o + RADIUS + c;
    out[at + c] = combined(bends, o + c, x, y, z);
    out[at + 3 + c] =
      Math.abs(combined(bends, o + 3 + c, x, y, z)) +
      Math.abs(combined(bends, o + 6 + c, x, y, z)) +
      Math.abs(combined(bends, o + 9 + c, x, y, z)) +
      (bends[r] as number) +
      Math.abs(x) * (bends[r + BOX_SIZE] as number) +
      Math.abs(y) * (bends[r + 2 * BOX_SIZE] as number) +
      Math.abs(z) * (bends[r + 3 * BOX_SIZE] as number);
  }
}

const combined = (bends: Float64Array, at: number, x: number, y: number, z: number): number =>
  (bends[at] as number) +
  x * (bends[at + BOX_SIZE] as number) +
  y * (bends[at + 2 * BOX_SIZE] as number) +
  z * (bends[at + 3 * BOX_SIZE] as number);
