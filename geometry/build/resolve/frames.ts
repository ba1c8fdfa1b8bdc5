/**
 * From the axes in which points were taped to vehicle axes at ride height.
 *
 * Three stages, each a rigid motion:
 * 1. *taped*: as typed, in the axes of the shop floor on the day of the tape; an axle on the bench in its
 *    own frame is put under the vehicle here: p = origin + Ry(turned) · p_bench.
 * 2. *standing*: chassis points carried over to ride height. As taped the chassis stood turned by
 *    Rx(roll) · Ry(rake) about the point midway between the front wheel centers (of the only axle's loaded
 *    radius, where there is no front axle), and is then raised along Z:
 *    p = c + Ry(−rake) · Rx(−roll) · (p_taped − c) + (0, 0, rideHeightChange).
 * 3. *ride*: where the wheel centers of an axle were measured at different heights, it rolls by
 *    asin((left − right) / wheelCenters); it is turned back about the X line through its origin, so that its
 *    axes are parallel to the vehicle's: its own points alone (level), or everything (roll).
 */
import { turned, type V3 } from '../../vector.ts';
import type { AxleName, Vec3 } from '../build.ts';
import type { EvaluatedFile } from '../schema/file.ts';

/** The body that carries a point, as far as frames go; `none`: a moving part, drawn at ride height. */
export interface Carrier {
  body: 'chassis' | 'axle' | 'none';
  axle: AxleName | null;
}

const X: V3 = [1, 0, 0];
const Y: V3 = [0, 1, 0];

/** A turn right-handed about a unit axis; exactly nothing for an angle of 0. */
const turn = (v: Vec3, axis: V3, angle: number): Vec3 =>
  angle === 0 ? v : turned(v, axis, Math.cos(angle), Math.sin(angle));

const plus = (a: Vec3, b: Vec3): Vec3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
const minus = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];

type AxleFile = EvaluatedFile['axles'][number];

interface AxleFrame {
  origin: Vec3;
  isBench: boolean;
  turned: number;
  /** Roll of the axle as measured, and what is done with it. */
  roll: number;
  keepsRoll: boolean;
}

export class Frames {
  private readonly axles = new Map<AxleName, AxleFrame>();
  private readonly pivot: Vec3;
  private readonly wheelbase: number;
  private readonly rake: number;
  private readonly roll: number;
  private readonly rise: number;

  constructor(file: EvaluatedFile) {
    this.wheelbase = file.wheelbase;
    for (const axle of file.axles) this.axles.set(axle.name, this.frameOf(axle));
    this.pivot = this.origin('front');
    this.rake = file.measuredAt?.rake ?? 0;
    this.roll = file.measuredAt?.roll ?? 0;
    this.rise = file.measuredAt?.rideHeightChange ?? 0;
  }

  private frameOf(axle: AxleFile): AxleFrame {
    const heights = axle.wheelHeights;
    const sine = heights ? (heights.left - heights.right) / axle.wheelCenters : 0;
    return {
      origin: [axle.name === 'front' ? 0 : 0 - this.wheelbase, 0, axle.tire.loadedRadius],
      isBench: axle.frame === 'bench',
      turned: axle.turned ?? 0,
      roll: Math.asin(Math.max(-1, Math.min(1, sine))),
      keepsRoll: heights?.difference === 'roll',
    };
  }

  /** Midway between the wheel centers; of an axle that the build lacks, at the other one's radius. */
  origin(axle: AxleName): Vec3 {
    const own = this.axles.get(axle);
    if (own !== undefined) return own.origin;
    const other = this.axles.values().next().value;
    return [axle === 'front' ? 0 : 0 - this.wheelbase, 0, other?.origin[2] ?? 0];
  }

  /** The roll of an axle as measured, rad. */
  rollOf(axle: AxleName): number {
    return this.axles.get(axle)?.roll ?? 0;
  }

  /** Whether what is typed for this carrier is in bench axes. */
  isBench(carrier: Carrier): boolean {
    return this.axleOf(carrier)?.isBench ?? false;
  }

  /** An offset or direction from bench axes into vehicle axes. */
  offsetFromBench(v: Vec3, carrier: Carrier): Vec3 {
    return turn(v, Y, this.axleOf(carrier)?.turned ?? 0);
  }

  /** A point from bench axes (origin midway between the wheel centers) into vehicle axes. */
  pointFromBench(v: Vec3, carrier: Carrier): Vec3 {
    const origin = this.axleOf(carrier)?.origin ?? [0, 0, 0];
    return plus(origin, this.offsetFromBench(v, carrier));
  }

  get isCarried(): boolean {
    return this.rake !== 0 || this.roll !== 0 || this.rise !== 0;
  }

  /** Stage 1 to 2, a point. */
  standing(taped: Vec3, { body }: Carrier): Vec3 {
    if (body !== 'chassis' || !this.isCarried) return taped;
    const fromPivot = this.unturned(minus(taped, this.pivot));
    return plus(plus(this.pivot, fromPivot), [0, 0, this.rise]);
  }

  /** Stage 2 to 1, a point. */
  tapedFrom(standing: Vec3, { body }: Carrier): Vec3 {
    if (body !== 'chassis' || !this.isCarried) return standing;
    const fromPivot = minus(minus(standing, [0, 0, this.rise]), this.pivot);
    return plus(this.pivot, turn(turn(fromPivot, Y, this.rake), X, this.roll));
  }

  /** Stage 2 to 3, a point. */
  atRide(standing: Vec3, carrier: Carrier): Vec3 {
    return this.leveled(standing, carrier, -1);
  }

  /** Stage 3 to 2, a point. */
  standingFrom(ride: Vec3, carrier: Carrier): Vec3 {
    return this.leveled(ride, carrier, 1);
  }

  private leveled(point: Vec3, carrier: Carrier, sense: 1 | -1): Vec3 {
    const axle = this.leveling(carrier);
    if (axle === null) return point;
    const { origin, roll } = axle;
    return plus(origin, turn(minus(point, origin), X, sense * roll));
  }

  /** Stage 1 to 3, a direction. */
  direction(taped: Vec3, carrier: Carrier): Vec3 {
    const standing = carrier.body === 'chassis' ? this.unturned(taped) : taped;
    return turn(standing, X, -(this.leveling(carrier)?.roll ?? 0));
  }

  private unturned(v: Vec3): Vec3 {
    return turn(turn(v, X, -this.roll), Y, -this.rake);
  }

  /** The axle whose roll is taken out of this carrier's points; null for none. */
  private leveling(carrier: Carrier): AxleFrame | null {
    const own = this.axleOf(carrier);
    if (own !== undefined) return own.roll === 0 ? null : own;
    return [...this.axles.values()].find(axle => axle.keepsRoll && axle.roll !== 0) ?? null;
  }

  private axleOf({ body, axle }: Carrier): AxleFrame | undefined {
    return body === 'axle' && axle !== null ? this.axles.get(axle) : undefined;
  }
}
