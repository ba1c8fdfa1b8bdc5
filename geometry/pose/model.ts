/**
 * The model of one axle: settled at ride height, then asked for poses. `settle` refuses layouts that have no
 * pose, leave a motion free, or can't be steered; `pose` answers for any travels with a verdict.
 */
import type { Problem } from '../build/problem.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { FOLD, ON_LINE_in, PATH_STEP_in, RANK } from '../tolerances.ts';
import { type AxleJets, elasticJets, exactJets } from './axleJets.ts';
import { ElasticAxle } from './elasticAxle.ts';
import { ExactAxle, SOLVED, TOO_STEEP } from './exactAxle.ts';
import { type AxleSolver, type Followed, follow, followPath } from './follow.ts';
import { type AxleNumbers, Pose, type PoseInput, type Status } from './pose.ts';
import { motionsInWords, type Rank, rankOfLengths, rankOfStiffness } from './rank.ts';
import { OUT_OF_REACH, STEERED, SteeringSolver } from './steeringSolver.ts';
import { mostStretched, overstretched } from './stretch.ts';

/** A pose with its verdict. `pose` is null unless solved. */
export interface Verdict {
  status: Status;
  /** Unreachable: the part that ran out of length. */
  part: string | null;
  pose: Pose | null;
}

export type Settled = { ok: true; model: AxleModel } | { ok: false; problems: Problem[] };

/**
 * Settles a mechanism at ride height, from the drawn pose.
 *
 * @returns the model, or what is wrong: a free motion, a given length that can't be assembled, a steering
 * whose sense is undecided
 */
export function settle(mechanism: Mechanism): Settled {
  const refuse = (field: string, found: string, wanted: string, message: string): Settled => ({
    ok: false,
    problems: [
      { path: `axles[${JSON.stringify(mechanism.axle)}]${field}`, found, wanted, message },
    ],
  });
  const { lengths, exact } = mechanism;
  const count = lengths.names.length;
  const none = lengths.names.findIndex(
    (_, i) => !((lengths.drawn[i] as number) > ON_LINE_in && Number.isFinite(lengths.drawn[i])),
  );
  if (none >= 0) {
    const name = lengths.names[none] as string;
    return refuse(
      `.links[${JSON.stringify(name)}]`,
      'both ends at one point',
      'an axle end and a chassis end that are apart',
      `${name} has no length as drawn`,
    );
  }
  if (exact && count < 4) {
    const solver = new ElasticAxle(mechanism, lengths.drawn);
    solver.cosRoll = 1;
    solver.o[2] = mechanism.origin[2];
    solver.place();
    return refuse(
      '.links',
      `${count} lengths that locate the axle`,
      'four or more links and track bars, or radius arms',
      count === 0
        ? 'nothing locates the axle'
        : motionsInWords(rankOfLengths(solver, mechanism), RANK),
    );
  }
  const solver: AxleSolver = exact
    ? new ExactAxle(mechanism, lengths.drawn)
    : new ElasticAxle(mechanism, lengths.drawn);
  placeDrawn(solver);
  const onlyLengths = mechanism.arms.length === 0 && mechanism.points.length === 0;
  const rank =
    onlyLengths || solver instanceof ExactAxle
      ? rankOfLengths(solver, mechanism)
      : rankOfStiffness(solver);
  if (!((rank.values[3] ?? 0) > RANK * (rank.values[0] ?? 0))) {
    return refuse(
      '.links',
      `${count} lengths${mechanism.arms.length ? ` and ${mechanism.arms.length} radius arms` : ''}`,
      'links that hold the axle fore and aft, sideways, in yaw and in pitch',
      `${motionsInWords(rank, RANK)} at ride height`,
    );
  }
  if (solver.solve(0, 0) !== SOLVED) {
    return refuse(
      '.links',
      'the drawn links',
      'links that fit together at ride height',
      'no pose was found',
    );
  }
  if (solver instanceof ExactAxle) solver.settleSign();
  const given = lengths.free.some((free, i) => free !== lengths.drawn[i]);
  if (given) {
    const free = Float64Array.from(lengths.drawn);
    let change = 0;
    for (let i = 0; i < count; i++) {
      change = Math.max(
        change,
        Math.abs((lengths.free[i] as number) - (lengths.drawn[i] as number)),
      );
    }
    const done = followPath(
      solver,
      t => {
        for (let i = 0; i < count; i++) {
          const drawn = lengths.drawn[i] as number;
          free[i] =
            t === 1
              ? (lengths.free[i] as number)
              : drawn + t * ((lengths.free[i] as number) - drawn);
        }
        solver.setFree(free);
        return solver.solve(0, 0);
      },
      change,
      // far steps are proved like near ones, so that an absurd length is refused soon
      Math.max(PATH_STEP_in, change / 500),
    );
    const broken = done.code === SOLVED ? overstretched(solver, mechanism) : null;
    if (done.code !== SOLVED || broken) {
      const names = lengths.names.filter((_, i) => lengths.free[i] !== lengths.drawn[i]);
      return refuse(
        `.links[${JSON.stringify(names[0] ?? '')}].length`,
        names
          .map(
            name =>
              `${name} ${(lengths.free[lengths.names.indexOf(name)] as number).toFixed(3)} in`,
          )
          .join(', '),
        'lengths with which the axle can be assembled at ride height',
        broken
          ? `${broken} would be stretched or squeezed by more than a quarter`
          : `the links part after ${Math.round(100 * done.at)} % of the change`,
      );
    }
  }
  const steering = mechanism.steering
    ? new SteeringSolver(mechanism.steering, mechanism.origin)
    : null;
  if (steering && mechanism.steering) {
    const { wheelsLeft, kind } = mechanism.steering;
    const what = kind === 'ram' ? 'rams' : 'box.axis';
    if (steering.sense === 0) {
      return refuse(
        `.steering.${what}`,
        'a linkage at its dead point as drawn',
        'a drag link that pushes its arm on both ends, so that a turn of the wheel turns the knuckles',
        'which way is left is undecided',
      );
    }
    if (wheelsLeft !== null && wheelsLeft !== steering.sense) {
      return refuse(
        '.steering.box.wheelsLeft',
        wheelsLeft > 0 ? '"+"' : '"-"',
        steering.sense > 0 ? '"+"' : '"-"',
        'about the entered axis the drawn linkage turns the wheels left the other way round',
      );
    }
    if (steering.solve(solver.R, solver.o, 0) !== STEERED) {
      const rod = mechanism.steering.rods[steering.failed];
      return refuse(
        `.steering[${JSON.stringify(rod?.name ?? '')}]`,
        'a rod that is at the end of its reach at ride height',
        'a rod that can turn its knuckle both ways as drawn',
        'over-center at ride height',
      );
    }
  }
  return { ok: true, model: new AxleModel(mechanism, solver, steering, rank) };
}

/** R and o as drawn, without solving. */
function placeDrawn(solver: AxleSolver): void {
  solver.R.set([1, 0, 0, 0, 1, 0, 0, 0, 1]);
  solver.o.set([solver.state[0] as number, solver.state[1] as number, solver.zDrawn]);
}

export class AxleModel {
  readonly mechanism: Mechanism;
  readonly rank: Rank;
  /** The solved pose 0/0, straight ahead: what every measure means by 'ride'. */
  readonly ride: Pose;
  readonly solver: AxleSolver;
  readonly steering: SteeringSolver | null;
  readonly #rideState: Float64Array;
  /** Longest step along a path, in; tests halve it. */
  longestStep = PATH_STEP_in;

  /** Use `settle`. */
  constructor(
    mechanism: Mechanism,
    solver: AxleSolver,
    steering: SteeringSolver | null,
    rank: Rank,
  ) {
    this.mechanism = mechanism;
    this.solver = solver;
    this.steering = steering;
    this.rank = rank;
    this.#rideState = Float64Array.from(solver.state);
    steering?.reset();
    steering?.solve(solver.R, solver.o, 0);
    this.ride = this.#keep({ left: 0, right: 0, steer: 0 });
  }

  /**
   * The pose at these travels (in) and this steering input (rad, or in of ram rod), followed from ride height.
   * A straight path first; where that ends at a fold, three others, so that `unreachable` does not hang on
   * the path.
   */
  pose(left: number, right: number, steer = 0): Verdict {
    const mean = (left + right) / 2;
    const routes: [number, number][][] = [
      [[left, right]],
      [
        [mean, mean],
        [left, right],
      ],
      [
        [left, 0],
        [left, right],
      ],
      [
        [0, right],
        [left, right],
      ],
    ];
    let verdict: Verdict | null = null;
    for (const route of routes) {
      const got = this.#followRoute(route);
      if (got.status === 'solved') return this.#steer({ left, right, steer });
      verdict ??= got;
      if (got.part === TRACK) break;
    }
    return verdict ?? { status: 'undecided', part: null, pose: null };
  }

  /**
   * The pose at these travels from a neighbor: one solve where that is near enough, else along the path from
   * it, else from ride height.
   */
  near(neighbor: Pose, left: number, right: number, steer = neighbor.input.steer): Verdict {
    const { solver } = this;
    solver.state.set(neighbor.axle.state);
    if (solver.solve(left, right) !== SOLVED) {
      solver.state.set(neighbor.axle.state);
      const { left: l, right: r } = neighbor.input;
      solver.solve(l, r);
      const got = this.#follow([l, r], [left, right]);
      if (got.code !== SOLVED || got.stopped) return this.pose(left, right, steer);
    }
    const broken = overstretched(solver, this.mechanism);
    if (broken) return { status: 'unreachable', part: broken, pose: null };
    return this.#steer({ left, right, steer });
  }

  /** The same pose of the axle at another steering input. */
  atSteer(pose: Pose, steer: number): Verdict {
    const { left, right } = pose.input;
    // the axle does not hang on the steering: its numbers and derivatives are the pose's
    return this.#steer({ left, right, steer }, pose.axle, () => pose.axleJets());
  }

  /** Puts the solver where it stood at a pose of this model. */
  restore(pose: Pose): void {
    const { solver } = this;
    const a = pose.axle;
    solver.state.set(a.state);
    solver.R.set(a.R);
    solver.o.set(a.o);
    solver.sinYaw = a.sinYaw;
    solver.cosYaw = a.cosYaw;
    solver.sinRoll = a.sinRoll;
    solver.cosRoll = a.cosRoll;
    solver.sinPitch = a.sinPitch;
    solver.cosPitch = a.cosPitch;
  }

  #followRoute(route: [number, number][]): Verdict {
    const { solver } = this;
    solver.state.set(this.#rideState);
    solver.solve(0, 0);
    let from: [number, number] = [0, 0];
    for (const to of route) {
      const got = this.#follow(from, to);
      if (got.code !== SOLVED || got.stopped) return this.#ended(got);
      from = to;
    }
    return { status: 'solved', part: null, pose: null };
  }

  /** Follows a straight path that ends where a member is stretched too far. */
  #follow(from: readonly [number, number], to: readonly [number, number]): Followed {
    const { solver, mechanism } = this;
    return follow(
      solver,
      from,
      to,
      this.longestStep,
      mechanism.exact ? undefined : () => overstretched(solver, mechanism) !== null,
    );
  }

  /** Why a path ended: at a fold a length has run out; elsewhere it is undecided. */
  #ended(got: Followed): Verdict {
    if (got.code === TOO_STEEP) return { status: 'unreachable', part: TRACK, pose: null };
    const { solver, mechanism } = this;
    if (solver instanceof ExactAxle) {
      const rank = rankOfLengths(solver, mechanism);
      if ((rank.values[3] as number) > FOLD * (rank.values[0] as number)) {
        return { status: 'undecided', part: null, pose: null };
      }
      const most = rank.lengthShares.indexOf(Math.max(...rank.lengthShares));
      return { status: 'unreachable', part: mechanism.lengths.names[most] ?? null, pose: null };
    }
    const part = mostStretched(solver, mechanism)?.name ?? null;
    if (got.stopped) return { status: 'unreachable', part, pose: null };
    // an elastic layout gives way rather than ends: under load its stiffness vanishes before J does
    const [most = 0, , , least = 0] = rankOfStiffness(solver).values;
    solver.state.set(this.#rideState);
    solver.solve(0, 0);
    const [mostAtRide = 0, , , leastAtRide = 0] = rankOfStiffness(solver).values;
    const atFold = least * mostAtRide <= FOLD * leastAtRide * most;
    return { status: atFold ? 'unreachable' : 'undecided', part: atFold ? part : null, pose: null };
  }

  /** Adds the steering to the axle where the solver stands. */
  #steer(
    input: PoseInput,
    axle: AxleNumbers = this.#axleNumbers(),
    axleJets: (pose: Pose) => AxleJets = pose => this.#axleJets(pose),
  ): Verdict {
    const { steering } = this;
    if (steering) {
      steering.reset();
      const code = steering.follow(axle.R, axle.o, input.steer);
      if (code !== STEERED) {
        const part = this.mechanism.steering?.rods[steering.failed]?.name ?? null;
        return { status: code === OUT_OF_REACH ? 'unreachable' : 'undecided', part, pose: null };
      }
    }
    return { status: 'solved', part: null, pose: this.#keep(input, axle, axleJets) };
  }

  #keep(
    input: PoseInput,
    axle: AxleNumbers = this.#axleNumbers(),
    axleJets: (pose: Pose) => AxleJets = pose => this.#axleJets(pose),
  ): Pose {
    const { steering, mechanism } = this;
    return new Pose(
      mechanism,
      input,
      axle,
      steering ? steering.turn.slice() : null,
      steering ? steering.margins.slice() : new Float64Array(0),
      steering ? steering.sense : 1,
      axleJets,
    );
  }

  #axleJets(pose: Pose): AxleJets {
    this.restore(pose);
    const { solver, mechanism } = this;
    return solver instanceof ExactAxle
      ? exactJets(solver, mechanism)
      : elasticJets(solver, mechanism);
  }

  /** What a pose keeps of the axle where the solver stands. */
  #axleNumbers(): AxleNumbers {
    const { solver } = this;
    return {
      R: solver.R.slice(),
      o: solver.o.slice(),
      state: solver.state.slice(),
      sinYaw: solver.sinYaw,
      cosYaw: solver.cosYaw,
      sinRoll: solver.sinRoll,
      cosRoll: solver.cosRoll,
      sinPitch: solver.sinPitch,
      cosPitch: solver.cosPitch,
      W: solver.W,
    };
  }
}

/** The part that ends a pose whose wheel centers would have to be further apart than the axle is wide. */
const TRACK = 'axle housing';
