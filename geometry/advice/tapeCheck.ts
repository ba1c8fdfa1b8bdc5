/**
 * Check of the tape: measurements that contradict each other, by how much, and which of them is likely wrong.
 *
 * Every number that was entered is an observation l with its own standard error, and every further reading t (a
 * link's length beside the points of its ends, the same link on the other side, an angle beside two heights) is one
 * that a function f of the others has to give: w = t − f(l). With J = ∂f/∂l, the adjustment by conditions gives the
 * least squares corrections of all observations, weighted by their errors:
 *
 *     S = T + J Σ Jᵀ          covariance of the misclosures w                                        (1)
 *     v = Σ Bᵀ S⁻¹ w          B = (J, −1), Σ with T appended                                         (2)
 *     wₖ = (Bᵀ S⁻¹ w)ₖ / √(Bᵀ S⁻¹ B)ₖₖ      is standard normal while no observation is wrong           (3)
 *     ∇ₖ = (Bᵀ S⁻¹ w)ₖ / (Bᵀ S⁻¹ B)ₖₖ       is the error of k, were it the only wrong one              (4)
 *
 * (3) and (4) are data snooping: W. Baarda, A Testing Procedure for Use in Geodetic Networks, Netherlands Geodetic
 * Commission, 1968 (from memory). An observation that no condition sees cannot be told wrong, and is not.
 */
import type { Build, Vec3 } from '../build/build.ts';
import type { EntrySlope } from '../build/entrySlopes.ts';
import { entry as at, dotted, inverted, multiplied } from '../matrix.ts';
import { assemble } from '../mechanism/assemble.ts';
import { distance, sub } from '../vector.ts';
import { movedBuild } from './movedBuild.ts';

/** A reading beside the entered numbers. Lengths in in, angles in rad. */
export interface TapeReading {
  /** What it is called when it is told: 'lower link, bolt to bolt'. */
  name: string;
  value: number;
  tolerance: number;
  unit: 'in' | 'deg';
  /** What the build says to it; null where it names what is not there. */
  of(places: Places): number | null;
}

/** Points by name, and the axes of the driveline, as the vehicle stood when it was taped. */
export interface Places {
  point(name: string): Vec3 | null;
  /** Elevation of the axis out of a flange, rad; null where there is none. */
  elevation(of: string): number | null;
}

/** One observation that may be wrong. */
export interface Suspect {
  /** Path of an entry, or name of a reading. */
  name: string;
  kind: 'entry' | 'reading';
  /** What has to be added to it, were it alone wrong: internal unit. */
  correction: number;
  unit: 'in' | 'deg';
  /** |wₖ| of (3): how far beyond its tolerance it would lie. */
  score: number;
}

/** `fits`: as much as tapes are off; `doubtful`: rarely by chance, to be taped again; `wrong`: not by chance. */
export type Verdict = 'fits' | 'doubtful' | 'wrong';

/** A reading and what the build says to it. */
export interface Misfit {
  name: string;
  value: number;
  says: number;
  unit: 'in' | 'deg';
  /** The greater of its misclosure over its own standard error and of |wₖ| of (3). */
  score: number;
  verdict: Verdict;
}

export interface TapeCheck {
  /** Most contradicting first. */
  misfits: Misfit[];
  /** That of the worst reading, or of an entry where that is worse: no reading is worse than the whole. */
  verdict: Verdict;
  /** True where more than chance is needed to explain them: the verdict is `wrong`. */
  contradicts: boolean;
  /** Likely culprits, likeliest first; empty where nothing contradicts. */
  suspects: Suspect[];
  /** Readings that name places which the build does not have. */
  unknown: string[];
}

/** Beyond this a normalized correction is no chance: one in a thousand, two-sided (normal distribution). */
const BEYOND = 3.29;
/** Beyond this it is rare: one in twenty. Common practice for when to tape again, no source. */
const RARE = 2;
/** A tolerance is a half-width: twice the standard error. Common practice, no source. */
const SIGMA = 1 / 2;
/** Share of its own variance under which an observation is not seen by the others. */
const UNSEEN = 1e-4;

/**
 * @param build of the file without `measuredAt.rideHeightChange`: as the vehicle stood when it was taped
 * @param slopes of the same file: `entrySlopes`; each entry is an observation
 */
export function checkTape(
  build: Build,
  slopes: readonly EntrySlope[],
  readings: readonly TapeReading[],
): TapeCheck {
  const here = placesOf(build);
  const unknown = readings.filter(({ of }) => of(here) === null).map(({ name }) => name);
  const known = readings.filter(({ of }) => of(here) !== null);
  const m = known.length;
  const says = known.map(({ of }) => of(here) as number);
  const misclosure = known.map(({ value, unit }, j) => wrapped(value - (says[j] as number), unit));
  const { jacobian, moving } = jacobianOf(build, slopes, known, says);
  const errors = moving.map(({ tolerance }) => SIGMA * tolerance);
  // (1)
  const covariance = known.map((one, i) =>
    known.map((_, j) => {
      const own = i === j ? (SIGMA * Math.max(one.tolerance, 1e-6)) ** 2 : 0;
      return moving.reduce(
        (sum, _entry, k) =>
          sum + at(jacobian, i, k) * at(jacobian, j, k) * (errors[k] as number) ** 2,
        own,
      );
    }),
  );
  const inverse = inverted(covariance);
  const weighed = multiplied(inverse, misclosure);
  // (3), (4): the column of B that belongs to an observation, with its own unit
  const suspectOf = (column: readonly number[], error: number): { score: number; size: number } => {
    const information = dotted(column, multiplied(inverse, column));
    if (information * error ** 2 < UNSEEN) return { score: 0, size: 0 };
    const pull = dotted(column, weighed);
    return { score: Math.abs(pull) / Math.sqrt(information), size: pull / information };
  };
  const suspects: Suspect[] = [
    ...moving.map(({ path, unit }, k): Suspect => {
      const column = Array.from({ length: m }, (_, j) => at(jacobian, j, k));
      const { score, size } = suspectOf(column, errors[k] as number);
      return { name: path, kind: 'entry', correction: size, unit, score };
    }),
    ...known.map(({ name, unit, tolerance }, i): Suspect => {
      const column = Array.from({ length: m }, (_, j) => (i === j ? -1 : 0));
      const { score, size } = suspectOf(column, SIGMA * tolerance);
      return { name, kind: 'reading', correction: size, unit, score };
    }),
  ]
    .filter(({ score }) => score > 0)
    .sort((a, b) => b.score - a.score || Math.abs(a.correction) - Math.abs(b.correction));
  const misfits = known.map(({ name, value, unit }, i): Misfit => {
    const own = suspects.find(each => each.kind === 'reading' && each.name === name)?.score ?? 0;
    const alone = Math.abs(misclosure[i] as number) / Math.sqrt(at(covariance, i, i));
    const score = Math.max(own, alone);
    return { name, value, says: says[i] as number, unit, score, verdict: verdictOf(score) };
  });
  misfits.sort((a, b) => b.score - a.score);
  const worst = misfits[0]?.verdict ?? 'fits';
  const verdict = verdictOf(suspects[0]?.score ?? 0) === 'wrong' ? 'wrong' : worst;
  return {
    misfits,
    verdict,
    contradicts: verdict === 'wrong',
    suspects: verdict === 'wrong' ? suspects.filter(({ score }) => score > RARE) : [],
    unknown,
  };
}

const verdictOf = (score: number): Verdict =>
  score > BEYOND ? 'wrong' : score > RARE ? 'doubtful' : 'fits';

interface Moving extends EntrySlope {
  unit: 'in' | 'deg';
}

/** ∂f/∂l of the entries that any reading sees. */
function jacobianOf(
  build: Build,
  slopes: readonly EntrySlope[],
  readings: readonly TapeReading[],
  says: readonly number[],
): { jacobian: number[][]; moving: Moving[] } {
  const angles = new Set(
    build.entries.filter(each => each.dimension === 'angle').map(each => each.path),
  );
  const moving: Moving[] = [];
  const columns: number[][] = [];
  const STEP = 1 / 64;
  for (const slope of slopes) {
    const moved = placesOf(movedBuild(build, slope.leaves, STEP));
    const column = readings.map(({ of, unit }, j) => {
      const value = of(moved);
      return value === null ? 0 : wrapped(value - (says[j] as number), unit) / STEP;
    });
    if (column.every(value => Math.abs(value) < 1e-9)) continue;
    moving.push({ ...slope, unit: angles.has(slope.path) ? 'deg' : 'in' });
    columns.push(column);
  }
  return { jacobian: readings.map((_, j) => columns.map(column => column[j] as number)), moving };
}

/** An angle finder tells a line's slant, not which way the line points. */
function wrapped(value: number, unit: TapeReading['unit']): number {
  return unit === 'in' ? value : value - Math.PI * Math.round(value / Math.PI);
}

/** Points as drawn, by `part.end`; the axles and the ground by their own names. */
function placesOf(build: Build): Places {
  const points = new Map<string, Vec3>([['ground', [0, 0, 0]]]);
  for (const axle of build.axles) {
    points.set(`${axle.name} axle`, axle.origin);
    const half = axle.wheelCenters / 2;
    const [x, y, z] = axle.origin;
    points.set(`left ${axle.name} wheel`, [x, y + half, z]);
    points.set(`right ${axle.name} wheel`, [x, y - half, z]);
    const assembly = assemble(axle);
    if (!assembly.ok) continue;
    for (const { name, at: here } of assembly.mechanism.named)
      points.set(name, [here[0], here[1], here[2]]);
  }
  return {
    point: name => points.get(name) ?? null,
    elevation: of => {
      const [, name, end] = /^(front|rear) (pinion|transfer case)$/.exec(of) ?? [];
      const driveline = build.axles.find(axle => axle.name === name)?.driveline;
      const flange = end === 'pinion' ? driveline?.pinion : driveline?.transferCase;
      return flange ? Math.asin(Math.max(-1, Math.min(1, flange.axis[2]))) : null;
    },
  };
}

/** A distance between two places, straight or along an axis. */
export function distanceReading(
  reading: Pick<TapeReading, 'name' | 'value' | 'tolerance'>,
  from: string,
  to: string,
  along: 'straight' | 'forward' | 'left' | 'up' = 'straight',
): TapeReading {
  const axis = { forward: 0, left: 1, up: 2 } as const;
  return {
    ...reading,
    unit: 'in',
    of: places => {
      const [a, b] = [places.point(from), places.point(to)];
      if (!a || !b) return null;
      return along === 'straight' ? distance(a, b) : (sub(b, a)[axis[along]] as number);
    },
  };
}

/** The slant of the line through two places, by angle finder. */
export function slantReading(
  reading: Pick<TapeReading, 'name' | 'value' | 'tolerance'>,
  from: string,
  to: string,
  plane: 'side' | 'front' | 'plan',
): TapeReading {
  const [over, up] = ({ side: [0, 2], front: [1, 2], plan: [0, 1] } as const)[plane];
  return {
    ...reading,
    unit: 'deg',
    of: places => {
      const [a, b] = [places.point(from), places.point(to)];
      if (!a || !b) return null;
      const line = sub(b, a);
      return Math.atan2(line[up], line[over]);
    },
  };
}

/** The elevation of an axis of the driveline, from two heights `over` apart along it. */
export function riseReading(
  name: string,
  of: string,
  rise: { value: number; tolerance: number },
  over: number,
): TapeReading {
  const sine = Math.max(-1, Math.min(1, rise.value / over));
  return {
    name,
    value: Math.asin(sine),
    tolerance: rise.tolerance / over / Math.sqrt(Math.max(1e-4, 1 - sine ** 2)),
    unit: 'deg',
    of: places => places.elevation(of),
  };
}
