/**
 * The yardstick's Newton as one writes it first with a general matrix library: same unknowns, equations,
 * start and stop (yardstick.ts has them), each term a mathjs matrix. Nothing in it is slow on purpose; what
 * depends on the layout alone is made once.
 */
import {
  add,
  cross,
  dot,
  flatten,
  lusolve,
  type Matrix,
  matrix,
  multiply,
  rotationMatrix,
  subtract,
} from 'mathjs';
import { mostSteps, settled_in, type Yardstick, type YardstickLayout } from './yardstick.ts';

type SixNumbers = [number, number, number, number, number, number];

const alongX = matrix([1, 0, 0]);
const alongY = matrix([0, 1, 0]);
const alongZ = matrix([0, 0, 1]);

/**
 * Same signature as `makeYardstick`, and the same answers to rounding wherever the lengths hold the axle.
 * It is for timing only: `lusolve` answers singular systems and NaN too, so what the yardstick refuses
 * there this may call solved.
 */
export function makeMathjsNewton(layout: YardstickLayout, stop_in = settled_in): Yardstick {
  const halfWidth = layout.wheelCenters / 2;
  const links = Array.from(layout.lengths, (length, i) => ({
    length,
    onAxle: pointOf(layout.axlePoints, i),
    onChassis: pointOf(layout.chassisPoints, i),
  }));
  const leftCenter = matrix([0, halfWidth, 0]);
  const rightCenter = matrix([0, -halfWidth, 0]);
  const ride = [...layout.origin, 0, 0, 0];
  const state = Float64Array.from(ride);
  let steps = 0;

  /** The Jacobian at `at` and minus the equations' errors there. */
  function linearize(at: Matrix, left: number, right: number): [Matrix, Matrix] {
    const [x, y, z, yaw, roll, pitch] = at.toArray() as SixNumbers;
    const origin = matrix([x, y, z]);
    const turnZ = rotationMatrix(yaw, alongZ);
    const turnZX = multiply(turnZ, rotationMatrix(roll, alongX));
    const chassisFromAxle = multiply(turnZX, rotationMatrix(pitch, alongY));
    const axes = [alongZ, multiply(turnZ, alongX), multiply(turnZX, alongY)];
    const rows: number[][] = [];
    const errors: number[] = [];
    for (const { length, onAxle, onChassis } of links) {
      const arm = multiply(chassisFromAxle, onAxle);
      const line = subtract(add(origin, arm), onChassis);
      const unit = multiply(line, 1 / length);
      const byTurn = axes.map(axis => dot(unit, cross(axis, arm) as Matrix));
      rows.push([...(unit.toArray() as number[]), ...byTurn]);
      errors.push((dot(line, line) / length - length) / 2);
    }
    for (const [center, travel] of [
      [leftCenter, left],
      [rightCenter, right],
    ] as const) {
      const arm = multiply(chassisFromAxle, center);
      const byTurn = axes.map(axis => dot(alongZ, cross(axis, arm) as Matrix));
      rows.push([0, 0, 1, ...byTurn]);
      errors.push(z + dot(alongZ, arm) - layout.origin[2] - travel);
    }
    return [matrix(rows), multiply(matrix(errors), -1)];
  }

  return {
    state,
    get steps() {
      return steps;
    },
    reset() {
      state.set(ride);
      steps = 0;
    },
    solve(left, right) {
      let at = matrix([...state]);
      steps = 0;
      while (steps < mostSteps) {
        steps++;
        const [jacobian, minusErrors] = linearize(at, left, right);
        let step: Matrix;
        try {
          step = flatten(lusolve(jacobian, minusErrors));
        } catch {
          return false; // mathjs throws where a singular system has no solution
        }
        at = add(at, step);
        const moved = (step.toArray() as number[]).map((v, i) =>
          Math.abs(i < 3 ? v : v * halfWidth),
        );
        if (Math.max(...moved) < stop_in) {
          state.set(at.toArray() as number[]);
          return true;
        }
      }
      return false;
    },
  };
}

/** Point `index` of a flat array as a mathjs vector. */
function pointOf(points: Float64Array, index: number): Matrix {
  return matrix([...points.subarray(3 * index, 3 * index + 3)]);
}
