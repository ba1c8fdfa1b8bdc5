/**
 * The yardstick of the benchmarks: the textbook way to pose an axle, done with care.
 *
 * Six unknowns s = (x, y, z, yaw, roll, pitch) and six equations, with R = Rz(yaw)·Rx(roll)·Ry(pitch):
 *
 *   (1..4)  (|d_i|² − L_i²) / (2 L_i) = 0,   d_i = o + R a_i − c_i
 *   (5, 6)  z − z_ride ± (W/2) sin roll = travel      (the wheel centers are R (0, ±W/2, 0) + o)
 *
 * The derivative of (1..4) is d_i/L_i · (∂d_i/∂s): the three unit vectors for x, y, z, and for the angles
 * axis × R a_i with the axes ez (yaw), Rz·eX (roll), Rz·Rx·eY (pitch). |d| − L in place of (1..4) costs a
 * square root a length and saves no step.
 *
 * It knows nothing of what makes an axle special: that (5, 6) fix z and roll ahead of the lengths is left
 * to the elimination to find out. Everything else that a plain Newton can have, it has: no allocation, one
 * sine and cosine an angle and step, flat arrays, a start from the last pose.
 */

/** Four lengths between an axle and its chassis. Inches; `origin` and `chassisPoints` in vehicle axes. */
export type YardstickLayout = {
  /** Distance between the straight-ahead wheel centers, which lie at (0, ±W/2, 0) of the axle frame. */
  wheelCenters: number;
  /** Origin of the axle frame at ride height. */
  origin: readonly [x: number, y: number, z: number];
  /** Axle ends of the lengths, in the axle frame: x, y, z of each, 12 numbers. */
  axlePoints: Float64Array;
  /** Chassis ends, in the same order, 12 numbers. */
  chassisPoints: Float64Array;
  /** The four lengths. */
  lengths: Float64Array;
};

export type Yardstick = {
  /**
   * Poses the axle at these wheel travels (inches, bump +), starting from `state`.
   * False when it does not settle; `state` is then what it was before.
   */
  solve(left: number, right: number): boolean;
  /** x, y, z of the axle's origin in vehicle axes (inches), then yaw, roll, pitch (radians). */
  readonly state: Float64Array;
  /** Newton steps of the last `solve`. */
  readonly steps: number;
  /** Back to the drawn pose at ride height. */
  reset(): void;
};

/** The usual stop. The error that is left is about its square over a length: under 1e-13 in. */
export const settled_in = 1e-6;

/** A solve that has not settled by then never will: from a neighbor it takes three or four steps. */
export const mostSteps = 30;

/**
 * A pivot below this is none: the entries are about 1 (lengths) or 1 to 100 (angles), and rounding leaves
 * some 1e-14 of them where nothing should be left.
 */
const leastPivot = 1e-9;

const size = 6;

/**
 * A solver for one layout, at ride height. A solve ends once its last step moved nothing by as much as
 * `stop_in`, inches, angles taken times W/2: give the stop of whatever it is compared with.
 */
export function makeYardstick(layout: YardstickLayout, stop_in = settled_in): Yardstick {
  return new NewtonOfSix(layout, stop_in);
}

class NewtonOfSix implements Yardstick {
  readonly state = new Float64Array(size);
  steps = 0;
  readonly #layout: YardstickLayout;
  readonly #stop_in: number;
  readonly #start = new Float64Array(size);
  // Plain arrays: V8 checks each access to a typed one as soon as any buffer of the process has been
  // detached, as happens where larger modules are loaded, and a pose then takes an eighth longer.
  readonly #matrix = zeros(size * size); // Jacobian by rows; elimination uses it up
  readonly #step = zeros(size); // minus the equations' errors, then the step

  constructor(layout: YardstickLayout, stop_in: number) {
    this.#layout = layout;
    this.#stop_in = stop_in;
    this.reset();
  }

  reset(): void {
    this.state.fill(0);
    this.state.set(this.#layout.origin);
    this.steps = 0;
  }

  solve(left: number, right: number): boolean {
    const state = this.state;
    const step = this.#step;
    const halfWidth = this.#layout.wheelCenters / 2;
    const stop_in = this.#stop_in;
    this.#start.set(state);
    this.steps = 0;
    while (this.steps < mostSteps) {
      this.steps++;
      this.#linearize(left, right);
      if (!solveLinear(this.#matrix, step)) break;
      let moved = 0;
      for (let i = 0; i < size; i++) {
        const change = step[i] as number;
        state[i] = (state[i] as number) + change;
        moved = Math.max(moved, i < 3 ? Math.abs(change) : Math.abs(change) * halfWidth);
      }
      if (moved < stop_in) return true;
    }
    state.set(this.#start);
    return false;
  }

  /** Fills the matrix with the Jacobian at `state` and the right-hand side with minus the errors there. */
  #linearize(left: number, right: number): void {
    const { wheelCenters, origin, axlePoints, chassisPoints, lengths } = this.#layout;
    const state = this.state;
    const matrix = this.#matrix;
    const step = this.#step;
    const x = state[0] as number;
    const y = state[1] as number;
    const z = state[2] as number;
    const cosYaw = Math.cos(state[3] as number);
    const sinYaw = Math.sin(state[3] as number);
    const cosRoll = Math.cos(state[4] as number);
    const sinRoll = Math.sin(state[4] as number);
    const cosPitch = Math.cos(state[5] as number);
    const sinPitch = Math.sin(state[5] as number);
    // Columns of R; its second is the axis of the pitch.
    const xx = cosYaw * cosPitch - sinYaw * sinRoll * sinPitch;
    const xy = sinYaw * cosPitch + cosYaw * sinRoll * sinPitch;
    const xz = -cosRoll * sinPitch;
    const yx = -sinYaw * cosRoll;
    const yy = cosYaw * cosRoll;
    const yz = sinRoll;
    const zx = cosYaw * sinPitch + sinYaw * sinRoll * cosPitch;
    const zy = sinYaw * sinPitch - cosYaw * sinRoll * cosPitch;
    const zz = cosRoll * cosPitch;
    for (let i = 0; i < 4; i++) {
      const ax = axlePoints[3 * i] as number;
      const ay = axlePoints[3 * i + 1] as number;
      const az = axlePoints[3 * i + 2] as number;
      const rx = xx * ax + yx * ay + zx * az;
      const ry = xy * ax + yy * ay + zy * az;
      const rz = xz * ax + yz * ay + zz * az;
      const dx = x + rx - (chassisPoints[3 * i] as number);
      const dy = y + ry - (chassisPoints[3 * i + 1] as number);
      const dz = z + rz - (chassisPoints[3 * i + 2] as number);
      const length = lengths[i] as number;
      const perLength = 1 / length;
      // d · (axis × r) = axis · (r × d)
      const mx = (ry * dz - rz * dy) * perLength;
      const my = (rz * dx - rx * dz) * perLength;
      const mz = (rx * dy - ry * dx) * perLength;
      const row = size * i;
      matrix[row] = dx * perLength;
      matrix[row + 1] = dy * perLength;
      matrix[row + 2] = dz * perLength;
      matrix[row + 3] = mz;
      matrix[row + 4] = cosYaw * mx + sinYaw * my;
      matrix[row + 5] = yx * mx + yy * my + yz * mz;
      step[i] = (length - (dx * dx + dy * dy + dz * dz) * perLength) / 2;
    }
    const halfWidth = wheelCenters / 2;
    const rise = z - origin[2];
    const tilt = halfWidth * sinRoll;
    const tiltRate = halfWidth * cosRoll;
    const leftRow = size * 4;
    const rightRow = size * 5;
    matrix.fill(0, leftRow, size * size);
    matrix[leftRow + 2] = 1;
    matrix[leftRow + 4] = tiltRate;
    matrix[rightRow + 2] = 1;
    matrix[rightRow + 4] = -tiltRate;
    step[4] = left - rise - tilt;
    step[5] = right - rise + tilt;
  }
}

/**
 * Solves the 6 × 6 system `matrix · x = right` by elimination with row pivots; `matrix` (by rows) is
 * overwritten, `right` becomes x. False where no pivot is left.
 */
function solveLinear(matrix: number[], right: number[]): boolean {
  for (let k = 0; k < size; k++) {
    let pivotRow = k;
    let largest = Math.abs(matrix[size * k + k] as number);
    for (let i = k + 1; i < size; i++) {
      const candidate = Math.abs(matrix[size * i + k] as number);
      if (candidate > largest) {
        largest = candidate;
        pivotRow = i;
      }
    }
    if (!(largest > leastPivot)) return false;
    const rowK = size * k;
    if (pivotRow !== k) {
      const rowP = size * pivotRow;
      for (let j = k; j < size; j++) {
        const held = matrix[rowK + j] as number;
        matrix[rowK + j] = matrix[rowP + j] as number;
        matrix[rowP + j] = held;
      }
      const held = right[k] as number;
      right[k] = right[pivotRow] as number;
      right[pivotRow] = held;
    }
    const perPivot = 1 / (matrix[rowK + k] as number);
    for (let i = k + 1; i < size; i++) {
      const rowI = size * i;
      const factor = (matrix[rowI + k] as number) * perPivot;
      if (factor === 0) continue;
      for (let j = k + 1; j < size; j++) {
        matrix[rowI + j] = (matrix[rowI + j] as number) - factor * (matrix[rowK + j] as number);
      }
      right[i] = (right[i] as number) - factor * (right[k] as number);
    }
  }
  for (let k = size - 1; k >= 0; k--) {
    const rowK = size * k;
    let sum = right[k] as number;
    for (let j = k + 1; j < size; j++) sum -= (matrix[rowK + j] as number) * (right[j] as number);
    right[k] = sum / (matrix[rowK + k] as number);
  }
  return true;
}

function zeros(count: number): number[] {
  return Array.from({ length: count }, () => 0);
}
