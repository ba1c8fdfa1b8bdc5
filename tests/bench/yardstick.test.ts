import { describe, expect, it } from 'vitest';
import { makeMathjsNewton } from './mathjsNewton.ts';
import { ratioOfMedians, tableOf, timeInRounds } from './timing.ts';
import { makeYardstick, mostSteps, type Yardstick, type YardstickLayout } from './yardstick.ts';

type Vector = [x: number, y: number, z: number];

/** Long arms of a front axle, vehicle axes at ride height: two lower links, an upper link, the track bar. */
const links: [onAxle: Vector, onChassis: Vector][] = [
  [
    [-1.5, 17.5, 16.5],
    [-38, 15.5, 22],
  ],
  [
    [-1.5, -17.5, 16.5],
    [-38, -15.5, 22],
  ],
  [
    [-1, -8, 27],
    [-33.5, -11, 30.25],
  ],
  [
    [3.5, -20.5, 25],
    [4, 18, 27.75],
  ],
];
const loadedRadius = 20;
const degree = Math.PI / 180;
const layout = layoutOf(links);

/**
 * Poses by an independent least-squares solver: scipy 1.10.1, optimize.least_squares (dogbox, 3-point
 * differences) on |d| − L and the wheel centers' heights, with a rotation vector for unknowns and
 * Rotation.as_euler('ZXY') at the end. Recorded; its largest residual was 7.1e-15 in, and scipy 1.17.1
 * gives the same twelve decimals. state: x, y, z (in), yaw, roll, pitch (rad).
 */
const recorded: { travel: [number, number]; state: number[] }[] = [
  { travel: [0, 0], state: [0, 0, 20, 0, 0, 0] },
  {
    travel: [5, 5],
    state: [0.311588149852, -0.028394731741, 25, -0.000087543662, 0, -0.027417039238],
  },
  {
    travel: [-5, -5],
    state: [-1.072462175747, 0.71360256496, 15, 0.002293277051, 0, 0.012060844987],
  },
  {
    travel: [5, -5],
    state: [-0.064606695916, 0.888163639744, 20, -0.017230726004, 0.141314942193, 0.011079573659],
  },
  {
    travel: [-5, 5],
    state: [-0.082654857395, -1.067229018233, 20, 0.016734852669, -0.141314942193, 0.008112243782],
  },
  {
    travel: [8, 8],
    state: [0.14871066847, 0.283404111238, 28, 0.000875810746, 0, -0.051557379189],
  },
  {
    travel: [-8, -8],
    state: [-2.132956704622, 1.501889641677, 12, 0.00497403585, 0, 0.010982198227],
  },
  {
    travel: [8, -8],
    state: [-0.171055928111, 1.343874795676, 20, -0.028847081713, 0.227304430143, 0.026481433206],
  },
  {
    travel: [-8, 8],
    state: [-0.211442227935, -1.808335041245, 20, 0.027740438377, -0.227304430143, 0.023554679219],
  },
  {
    travel: [3.25, -6.5],
    state: [-0.34008229776, 1.172746486827, 18.375, -0.022210673258, 0.137759254013, 0.01549174974],
  },
  {
    travel: [-1.75, 7],
    state: [
      0.183201676759, -0.823788953282, 22.625, 0.005980307597, -0.123553547454, -0.010494266239,
    ],
  },
];

const solvers: [name: string, make: (layout: YardstickLayout) => Yardstick][] = [
  ['yardstick', makeYardstick],
  ['mathjs Newton', makeMathjsNewton],
];

describe.each(solvers)('%s', (_, make) => {
  it.each(recorded)('agrees with scipy at $travel', ({ travel: [left, right], state }) => {
    const solver = make(layout);
    expect(solver.solve(left, right)).toBe(true);
    // 1e-9: the stop leaves some 1e-13, twelve recorded decimals 5e-13.
    expect(largestDifference(solver.state, state)).toBeLessThan(1e-9);
    expect(residual(solver.state, left, right)).toBeLessThan(1e-9);
  });

  // Values of a worked example computed by an independent least-squares solver, to its printed digits:
  // shift of the axle's origin (in), change of the pinion angle and axle steer (deg).
  it.each([
    { travel: [5, 5], shift: ['0.31', '-0.03'], pinion: '-1.57' },
    { travel: [-5, -5], shift: ['-1.07', '0.71'], pinion: '0.69' },
    { travel: [5, -5], shift: ['-0.06', '0.89'], pinion: '0.56', yaw: '-0.99' },
    { travel: [-5, 5], shift: ['-0.08', '-1.07'], pinion: '0.39', yaw: '0.96' },
  ] as const)('gives the worked example at $travel', ({ travel, shift, pinion, ...rest }) => {
    const solver = make(layout);
    expect(solver.solve(travel[0], travel[1])).toBe(true);
    const [x, y, , yaw, roll, pitch] = [...solver.state] as [
      number,
      number,
      number,
      number,
      number,
      number,
    ];
    expect([x, y].map(v => v.toFixed(2))).toEqual(shift);
    // The pinion axis points rearward out of its flange, 7° nose up.
    const noseUp = 7 * degree;
    const axis = turned([-Math.cos(noseUp), 0, Math.sin(noseUp)], yaw, roll, pitch);
    expect(((Math.asin(axis[2]) - noseUp) / degree).toFixed(2)).toBe(pinion);
    if ('yaw' in rest) expect((yaw / degree).toFixed(2)).toBe(rest.yaw);
  });

  it('says no where no pose exists, and stays where it was', () => {
    const solver = make(layout);
    solver.solve(2, 1);
    const before = [...solver.state];
    // The wheel centers are 71 in apart: their heights cannot differ by 80.
    expect(solver.solve(40, -40)).toBe(false);
    expect([...solver.state]).toEqual(before);
    expect(solver.steps).toBeLessThanOrEqual(mostSteps);
  });

  it('is back at ride height after a reset', () => {
    const solver = make(layout);
    solver.solve(3, -2);
    solver.reset();
    expect([...solver.state]).toEqual([0, 0, loadedRadius, 0, 0, 0]);
    expect(solver.solve(0, 0)).toBe(true);
    expect(largestDifference(solver.state, [0, 0, loadedRadius, 0, 0, 0])).toBeLessThan(1e-9);
  });
});

describe('the yardstick alone', () => {
  it('solves lengths in an order that leaves no first pivot', () => {
    // The track bar first, square to X: its row begins with 0 at ride height.
    const [onAxle, onChassis]: [Vector, Vector] = [links[3]?.[0] as Vector, [3.5, 18, 27.75]];
    const barFirst = layoutOf([[onAxle, onChassis], ...links.slice(0, 3)]);
    const yardstick = makeYardstick(barFirst);
    expect(yardstick.solve(1, 0)).toBe(true);
    expect(residual(yardstick.state, 1, 0, barFirst)).toBeLessThan(1e-9);
  });

  it('says no to lengths that leave the axle free', () => {
    // Three times the same link: rank 4 of 6.
    const twice = {
      ...layout,
      axlePoints: layout.axlePoints.slice(),
      chassisPoints: layout.chassisPoints.slice(),
    };
    for (const points of [twice.axlePoints, twice.chassisPoints]) {
      points.copyWithin(3, 0, 3);
      points.copyWithin(6, 0, 3);
    }
    twice.lengths = layout.lengths.slice().fill(layout.lengths[0] as number, 0, 3);
    const yardstick = makeYardstick(twice);
    expect(yardstick.solve(1, 0)).toBe(false);
    expect([...yardstick.state]).toEqual([0, 0, loadedRadius, 0, 0, 0]);
  });

  it('says no to a travel that is no number', () => {
    const yardstick = makeYardstick(layout);
    expect(yardstick.solve(Number.NaN, 0)).toBe(false);
    expect(yardstick.solve(0, Number.POSITIVE_INFINITY)).toBe(false);
    expect([...yardstick.state]).toEqual([0, 0, loadedRadius, 0, 0, 0]);
  });
});

describe('a serpentine over ±8 in at steps of 0.25 in', () => {
  const poses: [left: number, right: number][] = [];
  for (let i = 0; i <= 64; i++) {
    for (let j = 0; j <= 64; j++) poses.push([i / 4 - 8, (i % 2 === 0 ? j : 64 - j) / 4 - 8]);
  }

  it('takes the yardstick about three steps a pose, each with the right lengths', () => {
    const yardstick = makeYardstick(layout);
    expect(yardstick.solve(-8, -8)).toBe(true);
    let steps = 0;
    let worst = 0;
    for (const [left, right] of poses) {
      if (!yardstick.solve(left, right)) throw new Error(`no pose at ${left}/${right}`);
      steps += yardstick.steps;
      worst = Math.max(worst, residual(yardstick.state, left, right));
    }
    // Quadratic convergence: 0.25, 1e-3, 1e-8 in. A wrong term in the Jacobian costs steps.
    expect(steps / poses.length).toBeGreaterThan(2.8);
    expect(steps / poses.length).toBeLessThan(3.2);
    expect(worst).toBeLessThan(1e-9);
  });

  it('takes the mathjs Newton through the same poses in the same steps', () => {
    const yardstick = makeYardstick(layout);
    const mathjsNewton = makeMathjsNewton(layout);
    for (const [left, right] of poses.filter((_, i) => i % 97 === 0)) {
      expect(yardstick.solve(left, right)).toBe(true);
      expect(mathjsNewton.solve(left, right)).toBe(true);
      expect(mathjsNewton.steps).toBe(yardstick.steps);
      expect(largestDifference(mathjsNewton.state, yardstick.state)).toBeLessThan(1e-9);
    }
  });
});

describe('timing', () => {
  /** A clock that stands still but for what the candidates take. */
  function fakeRun() {
    let clock_ms = 0;
    const order: string[] = [];
    const candidate = (name: string, takes_ms: number[]) => {
      let runs = 0;
      return {
        name,
        items: 10,
        run: () => {
          clock_ms += takes_ms[runs++ % takes_ms.length] as number;
          order.push(name);
          return 1;
        },
      };
    };
    return {
      candidate,
      order,
      options: { rounds: 4, warmUp_ms: 1, sample_ms: 1, now: () => clock_ms },
    };
  }

  it('gives the time of an item, and the ratio of the medians', () => {
    const { candidate, options } = fakeRun();
    // The first run of each warms up.
    const slow = { ...candidate('slow', [6, 5, 6, 9, 7]), outcome: () => '3 solved' };
    const timings = timeInRounds([slow, candidate('quick', [2])], options);
    expect(timings).toEqual([
      { name: 'slow', least_us: 500, median_us: 650, greatest_us: 900, outcome: '3 solved' },
      { name: 'quick', least_us: 200, median_us: 200, greatest_us: 200, outcome: '' },
    ]);
    expect(ratioOfMedians(timings, 'slow', 'quick')).toBe(3.25);
    expect(tableOf(timings, 'slow').split('\n')).toEqual([
      '       least µs  median µs  most µs  × slow',
      'slow        500        650      900    1.00  3 solved',
      'quick       200        200      200    3.25',
    ]);
    expect(() => ratioOfMedians(timings, 'slow', 'swift')).toThrow(
      "'swift'; there are 'slow', 'quick'",
    );
  });

  it('lets the candidates take turns, each round begun by the next', () => {
    const { candidate, order, options } = fakeRun();
    timeInRounds([candidate('a', [1]), candidate('b', [1]), candidate('c', [1])], options);
    expect(order.join('')).toBe('abc' + 'abc' + 'bca' + 'cab' + 'abc');
  });

  it('repeats what is short, and refuses what cannot be timed', () => {
    const { candidate, order, options } = fakeRun();
    timeInRounds([candidate('a', [0.25])], { ...options, rounds: 2 });
    expect(order.length).toBe(4 + 2 * 4); // 1 ms of warm-up, then two samples of 1 ms
    expect(() => timeInRounds([{ ...candidate('a', [1]), items: 0 }], options)).toThrow(
      "items of 'a' is 0",
    );
    expect(() => timeInRounds([candidate('a', [1])], { ...options, rounds: 0.5 })).toThrow(
      'rounds is 0.5',
    );
  });
});

function layoutOf(drawn: [onAxle: Vector, onChassis: Vector][]): YardstickLayout {
  return {
    wheelCenters: 71,
    origin: [0, 0, loadedRadius],
    axlePoints: Float64Array.from(drawn.flatMap(([[x, y, z]]) => [x, y, z - loadedRadius])),
    chassisPoints: Float64Array.from(drawn.flatMap(([, onChassis]) => onChassis)),
    lengths: Float64Array.from(drawn, ([[ax, ay, az], [cx, cy, cz]]) =>
      Math.hypot(ax - cx, ay - cy, az - cz),
    ),
  };
}

/** v turned by Rz(yaw)·Rx(roll)·Ry(pitch), one elementary turn after the other. */
function turned([x, y, z]: Vector, yaw: number, roll: number, pitch: number): Vector {
  const [x1, z1] = [
    x * Math.cos(pitch) + z * Math.sin(pitch),
    z * Math.cos(pitch) - x * Math.sin(pitch),
  ];
  const [y2, z2] = [
    y * Math.cos(roll) - z1 * Math.sin(roll),
    z1 * Math.cos(roll) + y * Math.sin(roll),
  ];
  return [x1 * Math.cos(yaw) - y2 * Math.sin(yaw), y2 * Math.cos(yaw) + x1 * Math.sin(yaw), z2];
}

/** The largest error of a length or of a wheel center's height, in, by other code than the solvers'. */
function residual(state: Float64Array, left: number, right: number, of = layout): number {
  const [x, y, z, yaw, roll, pitch] = [...state] as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const inChassis = (inAxle: Vector): Vector => {
    const [rx, ry, rz] = turned(inAxle, yaw, roll, pitch);
    return [x + rx, y + ry, z + rz];
  };
  const ofLengths = Array.from(of.lengths, (length, i) => {
    const [ax, ay, az] = inChassis([...of.axlePoints.slice(3 * i, 3 * i + 3)] as Vector);
    const [cx, cy, cz] = [...of.chassisPoints.slice(3 * i, 3 * i + 3)] as Vector;
    return Math.hypot(ax - cx, ay - cy, az - cz) - length;
  });
  const halfWidth = of.wheelCenters / 2;
  const ofHeights = [
    inChassis([0, halfWidth, 0])[2] - loadedRadius - left,
    inChassis([0, -halfWidth, 0])[2] - loadedRadius - right,
  ];
  return Math.max(...[...ofLengths, ...ofHeights].map(Math.abs));
}

function largestDifference(a: ArrayLike<number>, b: ArrayLike<number>): number {
  return Math.max(...Array.from(a, (value, i) => Math.abs(value - (b[i] as number))));
}
