/**
 * What a pose must obey, computed from the Build and the pose's points by code that shares nothing with the
 * solver: lengths from named points, the elastic energy from its definition, derivatives of it from
 * differences.
 */
import type { Axle, JointEnd, Link, Vec3 } from '../../geometry/build/build.ts';
import type { Pose } from '../../geometry/pose/pose.ts';

export const minus = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const plus = (a: Vec3, b: Vec3): Vec3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const times = (a: Vec3, s: number): Vec3 => [a[0] * s, a[1] * s, a[2] * s];
export const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const size = (a: Vec3): number => Math.hypot(a[0], a[1], a[2]);
export const distance = (a: Vec3, b: Vec3): number => size(minus(a, b));
export const unit = (a: Vec3): Vec3 => times(a, 1 / size(a));

/** Three rows. */
export type Rows = readonly [Vec3, Vec3, Vec3];
export const turn = (R: Rows, v: Vec3): Vec3 => [dot(R[0], v), dot(R[1], v), dot(R[2], v)];

/** Every named point where the pose has it, vehicle axes. */
export function pointsOf(pose: Pose): Map<string, Vec3> {
  return new Map(pose.mechanism.named.map(({ name, on, at }) => [name, pose.point(on, at)]));
}

export interface Held {
  name: string;
  now: number;
  free: number;
}

/** Links, track bars and steering rods: distance of their named points, and the length they should have. */
export function lengthsOf(axle: Axle, pose: Pose): { links: Held[]; rods: Held[] } {
  const points = pointsOf(pose);
  const at = (name: string): Vec3 => {
    const found = points.get(name);
    if (!found) throw new Error(`no point is called ${name}`);
    return found;
  };
  const steering = axle.steered ? axle.steering : null;
  const rods = [steering?.dragLink, ...(steering?.tieRods ?? [])].filter(rod => !!rod);
  return {
    links: axle.links.map(l => ({
      name: l.name,
      now: distance(at(l.axle.name), at(l.chassis.name)),
      free: l.length ?? distance(l.axle.at, l.chassis.at),
    })),
    rods: rods.map(rod => ({
      name: rod.name,
      now: distance(at(`${rod.name}.from`), at(`${rod.name}.to`)),
      free: rod.length ?? distance(rod.from.at, rod.to.at),
    })),
  };
}

/** Largest error of a length that holds exactly, in: rods always, links in a layout of four. */
export function residual(axle: Axle, pose: Pose): number {
  const { links, rods } = lengthsOf(axle, pose);
  const exact = isExact(axle) ? [...links, ...rods] : rods;
  return Math.max(0, ...exact.map(({ now, free }) => Math.abs(now - free)));
}

export const isExact = (axle: Axle): boolean =>
  axle.links.length === 4 && axle.radiusArms.length === 0;

/** Total rate of a link, lbf/in: 1/k = L/EA + Σ (sin²θ/k_radial + cos²θ/k_axial + 1/k_bracket). Derived. */
export function seriesRate(axle: Axle, l: Link): number {
  if (l.rate !== null) return l.rate;
  const line = unit(minus(l.chassis.at, l.axle.at));
  const tube = l.tube ?? { od: 2, wall: 0.25 };
  const bore = tube.wall === null ? 0 : tube.od - 2 * tube.wall;
  let compliance =
    distance(l.chassis.at, l.axle.at) / (l.modulus * 0.25 * Math.PI * (tube.od ** 2 - bore ** 2));
  for (const e of [l.axle, l.chassis]) {
    if (e.rates.bracket !== null) compliance += 1 / e.rates.bracket;
    const joint = axle.sharedJoints.find(({ name }) => name === e.shared);
    if (e.rates.radial === null || (joint && joint.rates.radial !== null)) continue;
    const sine2 = e.bolt ? 1 - dot(e.bolt, line) ** 2 : 1;
    compliance += sine2 / e.rates.radial + (1 - sine2) / (e.rates.axial ?? e.rates.radial);
  }
  return 1 / compliance;
}

/** Rotation of the unit vector a onto b by the smallest turn: two reflections, through a and their middle. */
export function smallestTurn(a: Vec3, b: Vec3, v: Vec3): Vec3 {
  const middle = unit(plus(a, b));
  const once = minus(times(a, 2 * dot(a, v)), v);
  return minus(times(middle, 2 * dot(middle, once)), once);
}

/** v turned right-handed about a unit axis. */
export function about(axis: Vec3, angle: number, v: Vec3): Vec3 {
  const along = times(axis, dot(axis, v));
  const across = minus(v, along);
  return plus(
    along,
    plus(times(across, Math.cos(angle)), times(cross(axis, across), Math.sin(angle))),
  );
}

const fromVector = (w: Vec3, v: Vec3): Vec3 => {
  const angle = size(w);
  return angle === 0 ? v : about(times(w, 1 / angle), angle, v);
};

/**
 * chassisFromAxle at a yaw, the travels' roll and a pitch: the wheels' line a is laid first, then the axle is
 * turned about it from where its own x is level.
 */
export function axleRows(yaw: number, sinRoll: number, pitch: number): Rows {
  const c = Math.sqrt(1 - sinRoll * sinRoll);
  const a: Vec3 = [-Math.sin(yaw) * c, Math.cos(yaw) * c, sinRoll];
  const level: Vec3 = [Math.cos(yaw), Math.sin(yaw), 0];
  const x = about(a, pitch, level);
  const z = cross(x, a);
  return [
    [x[0], a[0], z[0]],
    [x[1], a[1], z[1]],
    [x[2], a[2], z[2]],
  ];
}

/**
 * The elastic problem of a compliant axle, as its definition says: unknowns x, y, yaw, pitch, then three a
 * shared joint that gives (offset in its body's axes), then six a radius arm (shift of its chassis end, turn
 * as a rotation vector from `base`).
 */
export class Elastic {
  readonly axle: Axle;
  readonly left: number;
  readonly right: number;
  readonly giving: Axle['sharedJoints'];
  readonly count: number;
  /** Rotation of each arm from which its vector is taken: rows. */
  readonly base: Rows[];
  readonly #rates: number[];

  constructor(axle: Axle, left: number, right: number, base?: Rows[]) {
    this.axle = axle;
    this.left = left;
    this.right = right;
    this.giving = isExact(axle) ? [] : axle.sharedJoints.filter(j => j.rates.radial !== null);
    this.count = 4 + 3 * this.giving.length + 6 * axle.radiusArms.length;
    this.base = base ?? axle.radiusArms.map(() => IDENTITY);
    this.#rates = axle.links.map(l => seriesRate(axle, l));
  }

  /** The unknowns of a pose that the solver gave; its arms' turns become the base. */
  static at(axle: Axle, pose: Pose): { problem: Elastic; unknowns: Float64Array } {
    const { left, right } = pose.input;
    const rows = (on: string): Rows => {
      const M = pose.displacement(on).R;
      return [0, 3, 6].map(r => [M[r], M[r + 1], M[r + 2]] as unknown as Vec3) as unknown as Rows;
    };
    const problem = new Elastic(
      axle,
      left,
      right,
      axle.radiusArms.map(arm => rows(arm.name)),
    );
    const o = pose.point('axle', axle.origin);
    const R = rows('axle');
    const unknowns = new Float64Array(problem.count);
    const yaw = Math.atan2(-R[0][1], R[1][1]);
    unknowns.set([o[0], o[1], yaw, Math.atan2(-R[2][0], R[2][2])]);
    for (const [i, joint] of problem.giving.entries()) {
      const off = minus(pose.point(joint.name, joint.at), pose.point(joint.on, joint.at));
      unknowns.set(joint.on === 'axle' ? turn(transposed(R), off) : off, 4 + 3 * i);
    }
    for (const [k, arm] of axle.radiusArms.entries()) {
      const at = 4 + 3 * problem.giving.length + 6 * k;
      unknowns.set(minus(pose.point(arm.name, arm.chassis.at), arm.chassis.at), at);
    }
    return { problem, unknowns };
  }

  /** Residuals whose half sum of squares is the energy, lbf·in. */
  residuals(q: ArrayLike<number>): number[] {
    const { axle } = this;
    const R = axleRows(
      q[2] as number,
      (this.left - this.right) / axle.wheelCenters,
      q[3] as number,
    );
    const o: Vec3 = [q[0] as number, q[1] as number, axle.origin[2] + (this.left + this.right) / 2];
    const onAxle = (p: Vec3): Vec3 => plus(o, turn(R, minus(p, axle.origin)));
    const three = (at: number): Vec3 => [q[at] as number, q[at + 1] as number, q[at + 2] as number];
    const place = (e: JointEnd, on: 'axle' | 'chassis'): Vec3 => {
      const i = this.giving.findIndex(joint => joint.name === e.shared);
      const p = i < 0 ? e.at : plus(e.at, three(4 + 3 * i));
      return on === 'axle' ? onAxle(p) : p;
    };
    const out: number[] = [];
    for (const [i, l] of axle.links.entries()) {
      const now = distance(place(l.axle, 'axle'), place(l.chassis, 'chassis'));
      const free = l.length ?? distance(l.axle.at, l.chassis.at);
      out.push(Math.sqrt(this.#rates[i] as number) * (now - free));
    }
    for (const [i, joint] of this.giving.entries()) {
      const root = Math.sqrt(joint.rates.radial as number);
      out.push(...three(4 + 3 * i).map(d => root * d));
    }
    for (const [k, arm] of axle.radiusArms.entries()) {
      const at = 4 + 3 * this.giving.length + 6 * k;
      const pivot = arm.chassis.at;
      const turned = (v: Vec3): Vec3 => fromVector(three(at + 3), turn(this.base[k] as Rows, v));
      for (const e of [...arm.axle, arm.chassis]) {
        const body = e === arm.chassis ? 'chassis' : 'axle';
        const half = plus(plus(pivot, three(at)), turned(minus(e.at, pivot)));
        const bolt = e.bolt ?? ([0, 1, 0] as Vec3);
        const b = body === 'axle' ? turn(R, bolt) : bolt;
        const d = minus(half, body === 'axle' ? onAxle(e.at) : e.at);
        const along = dot(d, b);
        const across = minus(d, times(b, along));
        const inSeries = (rate: number): number =>
          1 / (1 / rate + (e.rates.bracket === null ? 0 : 1 / e.rates.bracket));
        const radial = e.rates.radial ?? 400_000;
        out.push(Math.sqrt(inSeries(e.rates.axial ?? radial)) * along);
        out.push(...across.map(x => Math.sqrt(inSeries(radial)) * x));
        // the tilt's size, spread over the axes so that it is smooth at zero
        const tilt = cross(b, turned(bolt));
        const sine = size(tilt);
        const share =
          sine < 1e-4 ? 1 + sine ** 2 / 6 : Math.atan2(sine, dot(b, turned(bolt))) / sine;
        out.push(...tilt.map(x => Math.sqrt(e.rates.conical ?? 0) * share * x));
      }
    }
    return out;
  }

  energy(q: ArrayLike<number>): number {
    return this.residuals(q).reduce((sum, r) => sum + (r * r) / 2, 0);
  }

  /** Unknowns that are angles. */
  isAngle(i: number): boolean {
    if (i < 4) return i > 1;
    const at = i - 4 - 3 * this.giving.length;
    return at >= 0 && at % 6 > 2;
  }

  /** Jacobian of the residuals by eighth-order central differences, rows by residual. */
  slopes(q: Float64Array): number[][] {
    const columns = Array.from(q, (x, i) => {
      const h = this.isAngle(i) ? 2e-3 : 4e-2;
      const at = (n: number): number[] => {
        const moved = Float64Array.from(q);
        moved[i] = x + n * h;
        return this.residuals(moved);
      };
      const pairs = CENTRAL.map(([n, weight]) => ({ up: at(n), down: at(-n), weight }));
      return (pairs[0] as (typeof pairs)[0]).up.map((_, r) =>
        pairs.reduce(
          (sum, { up, down, weight }) =>
            sum + (weight * ((up[r] as number) - (down[r] as number))) / h,
          0,
        ),
      );
    });
    const [first = []] = columns;
    return first.map((_, r) => columns.map(column => column[r] as number));
  }

  /** Gradient of the energy, lbf: moments divided by half the track. */
  gradient(q: Float64Array): number[] {
    const r = this.residuals(q);
    const J = this.slopes(q);
    return Array.from(q, (_, i) => {
      const sum = J.reduce((s, row, k) => s + (row[i] as number) * (r[k] as number), 0);
      return this.isAngle(i) ? sum / (this.axle.wheelCenters / 2) : sum;
    });
  }

  /** Raw gradient of the energy, moments not divided. */
  #force(q: Float64Array): number[] {
    const r = this.residuals(q);
    const J = this.slopes(q);
    return Array.from(q, (_, i) =>
      J.reduce((sum, row, k) => sum + (row[i] as number) * (r[k] as number), 0),
    );
  }

  /** Second derivative of the energy: Jᵀ J, or with the forces' share by differences of the gradient. */
  #stiffness(q: Float64Array, underLoad: boolean): number[][] {
    if (!underLoad) {
      const J = this.slopes(q);
      return Array.from(q, (_, i) =>
        Array.from(q, (__, j) =>
          J.reduce((sum, row) => sum + (row[i] as number) * (row[j] as number), 0),
        ),
      );
    }
    return Array.from(q, (x, i) => {
      const h = this.isAngle(i) ? 1e-4 : 3e-3;
      const at = (shift: number): number[] => {
        const moved = Float64Array.from(q);
        moved[i] = x + shift;
        return this.#force(moved);
      };
      const down = at(-h);
      return at(h).map((up, j) => (up - (down[j] as number)) / (2 * h));
    });
  }

  /**
   * Least energy near a start, by damped steps (Levenberg and Marquardt): Gauss–Newton, or with the forces'
   * share in the stiffness where members carry much. @throws where it does not end
   */
  minimize(start: Float64Array, underLoad = false): Float64Array {
    let q = Float64Array.from(start);
    let energy = this.energy(q);
    let damping = 1e-9;
    let ends = 0;
    for (let step = 0; step < 400; step++) {
      const A = this.#stiffness(q, underLoad);
      const J = this.slopes(q);
      for (const [i, row] of A.entries()) {
        const size2 = J.reduce((sum, slope) => sum + (slope[i] as number) ** 2, 0);
        row[i] = (row[i] as number) + damping * size2;
      }
      const change = solveLinear(
        A,
        this.#force(q).map(g => -g),
      );
      const next = q.map((x, i) => x + (change[i] as number));
      const nextEnergy = this.energy(next);
      const moved = Math.max(...change.map((x, i) => Math.abs(x) * (this.isAngle(i) ? 36 : 1)));
      if (moved < 1e-9 && ++ends > 2) return q;
      if (nextEnergy <= energy * (1 + 1e-12) + 1e-12) {
        q = next;
        energy = nextEnergy;
        damping = Math.max(1e-12, damping / 10);
      } else damping = Math.max(1e-9, damping) * 10;
    }
    throw new Error('the test’s own minimization does not end');
  }
}

/** Weights of the eighth-order central difference (Fornberg 1988, table 1; from memory, its sum is checked). */
export const CENTRAL: readonly (readonly [number, number])[] = [
  [1, 4 / 5],
  [2, -1 / 5],
  [3, 4 / 105],
  [4, -1 / 280],
];

const IDENTITY: Rows = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

export const transposed = (R: Rows): Rows =>
  [0, 1, 2].map(c => [R[0][c], R[1][c], R[2][c]]) as unknown as Rows;

/** Gaussian elimination with full row pivoting. */
export function solveLinear(A: number[][], b: number[]): number[] {
  const n = b.length;
  const M = A.map((row, i) => [...row, b[i] as number]);
  for (let c = 0; c < n; c++) {
    let p = c;
    for (let r = c + 1; r < n; r++) {
      if (Math.abs(M[r]?.[c] as number) > Math.abs(M[p]?.[c] as number)) p = r;
    }
    [M[c], M[p]] = [M[p] as number[], M[c] as number[]];
    const pivot = M[c] as number[];
    for (let r = c + 1; r < n; r++) {
      const row = M[r] as number[];
      const f = (row[c] as number) / (pivot[c] as number);
      for (let k = c; k <= n; k++) row[k] = (row[k] as number) - f * (pivot[k] as number);
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let r = n - 1; r >= 0; r--) {
    const row = M[r] as number[];
    let sum = row[n] as number;
    for (let k = r + 1; k < n; k++) sum -= (row[k] as number) * (x[k] as number);
    x[r] = sum / (row[r] as number);
  }
  return x;
}
