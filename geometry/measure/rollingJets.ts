/**
 * Derivatives of what `rolling.ts` finds. A roll is a function of the pose, so it is a jet too; where it is
 * the one at which two shares are equal, E(pose, φ) = 0, its first derivatives are −E_pose / E_φ (implicit
 * function theorem) and its second ones are left at zero: slopes need the first alone.
 */
import {
  composed,
  constant,
  constant3,
  cosine,
  inner,
  type Jet,
  type Jet3,
  jetVectors,
  minus,
  minus3,
  outer,
  plus,
  plus3,
  product,
  product3,
  reciprocal,
  root,
  shifted,
  sine,
  times,
  turnBack,
  turnJets,
} from '../pose/jet.ts';
import type { Pose } from '../pose/pose.ts';

import { anySquare, type V3 } from '../vector.ts';
import { angleBetween3, arctangent, length3, quotient } from './derivative.ts';
import { misalignmentAt, rollParts } from './linkRoll.ts';
import { drawnCenter, endsOf, type Rolling } from './rolling.ts';

interface JointJets {
  bolt: Jet3;
  bore: Jet3;
  line: Jet3;
}

/** Under this angle between bolt and bore, rad, the misalignment has a kink and no derivative. */
const KINK = 1e-9;

export class RollingJets {
  readonly #rolling: Rolling;
  readonly #pose: Pose;
  readonly #joints: JointJets[];
  readonly #line: Jet3;

  constructor(pose: Pose, rolling: Rolling) {
    this.#pose = pose;
    this.#rolling = rolling;
    const { line, joints, frame } = rolling.part;
    const ends = endsOf(pose, rolling.part);
    const d = minus3(
      pose.pointJets(ends.to.on, ends.to.at),
      pose.pointJets(ends.from.on, ends.from.at),
    );
    this.#line = product3(reciprocal(length3(d)), d);
    const carried = this.#carriedIn(frame, line);
    this.#joints = joints.map(joint => ({
      bolt: pose.directionJets(joint.on, joint.bolt),
      bore: carried(joint.bore),
      line: this.#line,
    }));
  }

  /** Misalignment of joint `i` at a roll; null where it is 0 or π. */
  misalignment(i: number, roll: Jet): Jet | null {
    const joint = this.#joints[i] as JointJets;
    const now = this.#rolling.joints[i];
    const value = now ? misalignmentAt(now, roll[0] as number) : 0;
    if (value < KINK || value > Math.PI - KINK) return null;
    return angleBetween3(joint.bolt, rolled(joint, roll));
  }

  /** φ₀ of joint `i`. */
  center(i: number): Jet {
    const { bolt, bore, line } = this.#joints[i] as JointJets;
    const now = this.#rolling.joints[i];
    if (!now || rollParts(now).cosines < KINK) return constant(0);
    const along = minus(inner(bolt, bore), product(inner(bolt, line), inner(bore, line)));
    return arctangent(inner(line, outer(bore, bolt)), along);
  }

  /** The easiest roll, or the one in which the part is held; null where no derivative is. */
  easiest(): Jet | null {
    const { easiest } = this.#rolling;
    if (easiest.by === 'held') return this.#held();
    if (easiest.by !== 'both') return this.center(easiest.by);
    const [a, b] = this.#limited();
    if (a === undefined || b === undefined) return null;
    const roll = constant(easiest.roll);
    const shareA = this.#share(a, roll);
    const shareB = this.#share(b, roll);
    const slopeA = this.#shareByRoll(a, easiest.roll);
    const slopeB = this.#shareByRoll(b, easiest.roll);
    if (!shareA || !shareB || slopeA === null || slopeB === null) return null;
    for (let k = 1; k <= 3; k++) {
      roll[k] = -((shareA[k] as number) - (shareB[k] as number)) / (slopeA - slopeB);
    }
    return roll;
  }

  /** The end of the window that a joint makes: φ₀ ∓ acos q. Null where its window just closes or opens. */
  windowEnd(which: 'from' | 'to'): Jet | null {
    const { window } = this.#rolling;
    if (window.kind !== 'arc') return null;
    if (this.#rolling.held !== null) return this.#held();
    const by = which === 'from' ? window.fromBy : window.toBy;
    const { bolt, bore, line } = this.#joints[by] as JointJets;
    const limit = this.#rolling.joints[by]?.limit ?? 0;
    const sines = product(inner(bolt, line), inner(bore, line));
    const along = minus(inner(bolt, bore), sines);
    const across = inner(line, outer(bore, bolt));
    const cosines = root(plus(product(along, along), product(across, across)));
    const q = quotient(shifted(times(sines, -1), Math.cos(limit)), cosines);
    const value = q[0] as number;
    const square = 1 - value * value;
    if (!(square > 0)) return null;
    const half = composed(
      q,
      Math.acos(value),
      -1 / Math.sqrt(square),
      -value / (square * Math.sqrt(square)),
    );
    const end = which === 'from' ? minus(this.center(by), half) : plus(this.center(by), half);
    end[0] = window[which];
    return end;
  }

  /** The rolls that the holding joints dictate, as `rolling.ts` mixes them. */
  #held(): Jet {
    const { part, held } = this.#rolling;
    const rolls = part.joints.flatMap((joint, i) =>
      joint.holds ? [shifted(this.center(i), -drawnCenter(joint, part.line))] : [],
    );
    if (part.holders.length > 0) {
      const mark = anySquare(part.line);
      const atZero = this.#carriedIn(part.frame, part.line)(mark);
      for (const body of part.holders) {
        const now = this.#carriedIn(body, part.line)(mark);
        rolls.push(arctangent(inner(this.#line, outer(atZero, now)), inner(atZero, now)));
      }
    }
    const [first, second] = rolls;
    const roll = first && second ? times(plus(first, second), 0.5) : (first ?? constant(0));
    roll[0] = held ?? 0;
    return roll;
  }

  #carriedIn(body: string, drawn: V3): (v: V3) => Jet3 {
    if (body === 'chassis') return v => jetVectors.smallestTurn(drawn, this.#line, constant3(v));
    const { R } = this.#pose.displacementJets(body);
    const seen = turnBack(R, this.#line);
    return v => turnJets(R, jetVectors.smallestTurn(drawn, seen, constant3(v)));
  }

  /** Indices of the two joints whose shares are weighed. */
  #limited(): number[] {
    const { joints } = this.#rolling;
    const withLimit = [...joints.keys()].filter(i => joints[i]?.limit !== null);
    return withLimit.length > 0 ? withLimit : [...joints.keys()];
  }

  #share(i: number, roll: Jet): Jet | null {
    const angle = this.misalignment(i, roll);
    return angle && times(angle, 1 / (this.#rolling.joints[i]?.limit ?? 1));
  }

  /** d(share)/dφ: from (1), dμ/dφ = cos α cos β sin(φ − φ₀) / sin μ. */
  #shareByRoll(i: number, roll: number): number | null {
    const joint = this.#rolling.joints[i];
    if (!joint) return null;
    const { cosines, center } = rollParts(joint);
    return (
      (cosines * Math.sin(roll - center)) /
      (Math.sin(misalignmentAt(joint, roll)) * (joint.limit ?? 1))
    );
  }
}

/** The bore at a roll that moves with the pose (Rodrigues about the line). */
function rolled({ bore, line }: JointJets, roll: Jet): Jet3 {
  const at = roll[0] as number;
  const cos = cosine(roll, Math.cos(at), Math.sin(at));
  const sin = sine(roll, Math.cos(at), Math.sin(at));
  const along = product(inner(line, bore), shifted(times(cos, -1), 1));
  return plus3(plus3(product3(cos, bore), product3(sin, outer(line, bore))), product3(along, line));
}
