/**
 * The solver against the yardstick, as ratios in one run: exact poses from their neighbors and with starts
 * carried on, compliant ones of five and seven lengths, radius arms; and how the time grows.
 */
import type { Axle } from '../../geometry/build/build.ts';
import { SOLVED } from '../../geometry/pose/exactAxle.ts';
import { SteeringSolver } from '../../geometry/pose/steeringSolver.ts';
import { STEP_END_in } from '../../geometry/tolerances.ts';
import { end, front, link, longArms, modelOf, shortArms } from '../pose/layouts.ts';
import { makeMathjsNewton } from './mathjsNewton.ts';
import { type Candidate, ratioOfMedians, tableOf, timeInRounds } from './timing.ts';
import { makeYardstick } from './yardstick.ts';

const STEP = 0.25;
const HALF = 8;
const SIDE = (2 * HALF) / STEP + 1;

/** Left and right travel of a sweep that goes to and fro, so that each pose is a neighbor of the last. */
function serpentine(side = SIDE, step = STEP): Float64Array {
  const out = new Float64Array(2 * side * side);
  const from = -((side - 1) * step) / 2;
  for (let i = 0, n = 0; i < side; i++) {
    for (let j = 0; j < side; j++, n++) {
      out[2 * n] = from + i * step;
      out[2 * n + 1] = from + (i % 2 ? side - 1 - j : j) * step;
    }
  }
  return out;
}

/** A sweep of the whole axle: solve, then both knuckles; `ahead` carries starts on along the sweep. */
function ours(name: string, axle: Axle, sweep: Float64Array, ahead: 0 | 1 | 2): Candidate {
  const model = modelOf(axle);
  const { mechanism, solver } = model;
  const steering = mechanism.steering
    ? new SteeringSolver(mechanism.steering, mechanism.origin)
    : null;
  const state = solver.state;
  const n = sweep.length / 2;
  const p1 = new Float64Array(4);
  const p2 = new Float64Array(4);
  const p3 = new Float64Array(4);
  let solved = 0;
  let steps = 0;
  const toStart = (): void => {
    model.restore(model.ride);
    for (let k = 1; k <= 64; k++) {
      solver.solve(((sweep[0] as number) * k) / 64, ((sweep[1] as number) * k) / 64);
    }
  };
  return {
    name,
    items: n,
    run: () => {
      toStart();
      solver.totalSteps = 0;
      solved = 0;
      let sum = 0;
      let known = 0;
      for (let i = 0; i < n; i++) {
        if (ahead > 0) {
          for (let c = 0; c < 4; c++) {
            const a = state[c] as number;
            p3[c] = p2[c] as number;
            p2[c] = p1[c] as number;
            p1[c] = a;
            if (ahead === 2 && known > 2)
              state[c] = 3 * (a - (p2[c] as number)) + (p3[c] as number);
            else if (known > 1) state[c] = 2 * a - (p2[c] as number);
          }
          // a turn of the sweep breaks the line of poses
          known = (sweep[2 * i] as number) === (sweep[2 * i - 2] ?? Number.NaN) ? known + 1 : 0;
          if (known === 0) for (let c = 0; c < 4; c++) state[c] = p1[c] as number;
        }
        const code = solver.solve(sweep[2 * i] as number, sweep[2 * i + 1] as number);
        if (code === SOLVED) solved++;
        if (steering) {
          steering.solve(solver.R, solver.o, 0);
          sum += steering.turn[1] as number;
        }
        sum += state[0] as number;
      }
      steps = solver.totalSteps / n;
      return sum;
    },
    outcome: () => `${solved} of ${n} solved, ${steps.toFixed(2)} steps`,
  };
}

/** Seven lengths: the short arms with a third pair of links between them. */
function sevenLengths(): Axle {
  const axle = shortArms();
  axle.links.splice(
    4,
    0,
    link('left middle link', [-1.2, 17.2, 20.5], [-20.8, 15.2, 24.4], { rate: 12000 }),
    link('right middle link', [-1.2, -17.2, 20.5], [-20.8, -15.2, 24.4], { rate: 12000 }),
  );
  return axle;
}

/** Radius arms on bushings, with the track bar. */
function radiusArms(): Axle {
  const rates = { radial: 20000, axial: 5000, torsional: null, conical: 30000, bracket: null };
  const arm = (side: 'left' | 'right') => {
    const s = side === 'left' ? 1 : -1;
    const bushing = (name: string, at: [number, number, number]) =>
      end(name, at, { kind: 'bushing', bolt: [0, 1, 0], rates });
    const name = `${side} radius arm`;
    return {
      name,
      kind: 'radius arm' as const,
      axle: [
        bushing(`${name}.axle front`, [3, s * 17, 21]),
        bushing(`${name}.axle rear`, [-4, s * 17, 20]),
      ] as [ReturnType<typeof end>, ReturnType<typeof end>],
      chassis: bushing(`${name}.chassis`, [-36, s * 16, 22.5]),
      tube: null,
      through: [],
    };
  };
  const trackBar = longArms().links.at(-1);
  return front(trackBar ? [trackBar] : [], { radiusArms: [arm('left'), arm('right')] });
}

/** Prints the solver's figures. */
export function benchSolver(): void {
  const sweep = serpentine();
  const axle = longArms();
  const { mechanism } = modelOf(axle);
  const layout = {
    wheelCenters: mechanism.wheelCenters,
    origin: [...mechanism.origin] as [number, number, number],
    axlePoints: mechanism.lengths.axlePoints,
    chassisPoints: mechanism.lengths.chassisPoints,
    lengths: mechanism.lengths.free,
  };
  const plain = (
    name: string,
    made: ReturnType<typeof makeYardstick>,
    poses: Float64Array,
  ): Candidate => {
    let solved = 0;
    let steps = 0;
    return {
      name,
      items: poses.length / 2,
      run: () => {
        made.reset();
        for (let k = 1; k <= 64; k++)
          made.solve(((poses[0] as number) * k) / 64, ((poses[1] as number) * k) / 64);
        solved = 0;
        steps = 0;
        let sum = 0;
        for (let i = 0; i < poses.length; i += 2) {
          if (made.solve(poses[i] as number, poses[i + 1] as number)) solved++;
          steps += made.steps;
          sum += made.state[0] as number;
        }
        return sum;
      },
      outcome: () =>
        `${solved} of ${poses.length / 2} solved, ${(steps / (poses.length / 2)).toFixed(2)} steps`,
    };
  };
  const yard = 'yardstick: six unknowns, axle alone';
  const neighbor = 'ours: axle and knuckles, from the neighbor';
  const results = timeInRounds([
    plain(yard, makeYardstick(layout, STEP_END_in), sweep),
    ours(neighbor, longArms(), sweep, 0),
    ours('ours: start carried on by a line', longArms(), sweep, 1),
    ours('ours: start carried on by a parabola', longArms(), sweep, 2),
    ours(
      'ours: axle alone, from the neighbor',
      { ...longArms(), steered: false, steering: null, knuckles: null },
      sweep,
      0,
    ),
    ours('compliant, five lengths', shortArms(), sweep, 0),
    ours('compliant, seven lengths', sevenLengths(), sweep, 0),
    ours('radius arms (two bodies)', radiusArms(), serpentine(33, 0.5), 0),
  ]);
  console.log('\nOne pose (±8 in at each wheel, 0.25 in apart)');
  console.log(tableOf(results, yard));
  console.log(
    `ours is ${ratioOfMedians(results, yard, neighbor).toFixed(2)} × as fast as the yardstick (2.5 wanted)`,
  );
  for (const name of ['compliant, five lengths', 'compliant, seven lengths']) {
    console.log(
      `${name}: ${(1 / ratioOfMedians(results, neighbor, name)).toFixed(2)} × the exact one`,
    );
  }
  const few = sweep.slice(0, 2 * 65);
  const slow = timeInRounds(
    [
      plain('mathjs matrices', makeMathjsNewton(layout, STEP_END_in), few),
      ours(neighbor, longArms(), sweep, 0),
    ],
    { rounds: 3 },
  );
  console.log(
    `\nagainst the same Newton in mathjs matrices: ${ratioOfMedians(slow, 'mathjs matrices', neighbor).toFixed(0)} ×`,
  );

  console.log('\nHow the time grows: poses, links, axles');
  const grown = timeInRounds([
    ours('1,089 poses', longArms(), serpentine(33, 0.5), 0),
    ours('4,225 poses', longArms(), serpentine(65, 0.25), 0),
    ours('16,641 poses', longArms(), serpentine(129, 0.125), 0),
    ours('5 lengths', shortArms(), serpentine(33, 0.5), 0),
    ours('7 lengths', sevenLengths(), serpentine(33, 0.5), 0),
  ]);
  console.log(tableOf(grown));
}
