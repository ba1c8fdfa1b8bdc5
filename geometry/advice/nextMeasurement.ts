/**
 * Which measurement is worth taking next: the one that settles most of what is still open.
 *
 * For each margin j (a gap, a limit, a band, an end of travel) and each entered number i that may be off by τᵢ, the
 * walk is asked again at the margin's pose with the number a little more and a little less: sᵢⱼ = |dmⱼ/dxᵢ| τᵢ. The pose
 * is where the margin is least (or a measure greatest) within the stops, so that where stops make it the margin
 * follows them, by the envelope theorem with their multipliers:
 *
 *     dm/dxᵢ = ∂m/∂xᵢ − Σ λₐ ∂gₐ/∂xᵢ,   ∇m = Σ λₐ ∇gₐ      gₐ the margins of the stops that hold there
 *
 * The errors are taken to be independent, so that Uⱼ² = Σᵢ sᵢⱼ² (GUM, JCGM 100:2008, eq. 10: law of propagation of
 * uncertainty). With dⱼ the distance to the value at which the answer turns, it is settled to the share erf(dⱼ/(√2 Uⱼ)):
 * 0 where it may as well turn out otherwise, 1 where nothing that is still open can turn it. A measurement is worth
 * what it adds to the mean of these shares, in which what is a finding now weighs more.
 */
import type { AxleName, Build } from '../build/build.ts';
import type { EntrySlope } from '../build/entrySlopes.ts';
import { sentence } from '../finding/words.ts';
import type { MeshReader } from '../gap/parts.ts';
import { toEnd } from '../toEnd.ts';
import { distanceOf, isPlural, type Margin } from './margins.ts';
import { sensitivitySteps, type WalkedAxle } from './sensitivity.ts';
import { spotOf, spotWords } from './spots.ts';

/** One thing to tape, with what hangs on it. */
export interface NextMeasurement {
  /** Path with which all of its entries begin. */
  spot: string;
  axle: AxleName | null;
  /** Entries that it settles, as `build.entries` has their paths. */
  paths: string[];
  /** The one or two of them that settle most. */
  leading: string[];
  /** What to tape: 'the frame end of the lower link'. */
  what: string;
  /** Share of the whole answer that it would settle, 0 to 1. */
  worth: number;
  /** Why, in a sentence. */
  reason: string;
  /** True where some of it is only assumed, false where it was measured loosely. */
  isAssumed: boolean;
}

/** What may be off, as `entrySlopes` tells it. */
export type Slopes = readonly EntrySlope[];

export interface Settled {
  /** How much of the answer no longer hangs on what is open, 0 to 1. */
  share: number;
  /** Answers in question, and how many of them are settled by nine tenths. */
  questions: number;
  answered: number;
  /** Worth most first; empty where nothing is open. */
  next: NextMeasurement[];
}

/** How far off a number is once it was taped carefully, in and rad, others as a share: common practice, no source. */
const TAPED = { length: 1 / 16, angle: (0.5 * Math.PI) / 180, share: 1 / 10 };
/** Least worth that is told. */
const LEAST_WORTH = 1e-4;
/** Answers settled to this share count as answered. */
const ANSWERED = 0.9;

/**
 * Ranks what is still open: takes walked axles and slopes, and reads no file.
 *
 * @param walked every axle of the build, walked, with its gaps
 * @param slopes of the same build: `entrySlopes`
 * @param readMesh as the gaps were made with
 */
export function nextMeasurements(
  build: Build,
  walked: readonly WalkedAxle[],
  slopes: Slopes,
  readMesh: MeshReader,
): Settled {
  return toEnd(nextMeasurementSteps(build, walked, slopes, readMesh));
}

/** The same in short steps, for a worker that others wait for. */
export function* nextMeasurementSteps(
  build: Build,
  walked: readonly WalkedAxle[],
  slopes: Slopes,
  readMesh: MeshReader,
): Generator<void, Settled> {
  const rows = yield* sensitivitySteps(build, walked, slopes, readMesh);
  const spots = new Map<string, number[]>();
  for (const [i, { path }] of slopes.entries()) {
    const spot = spotOf(path);
    spots.set(spot, [...(spots.get(spot) ?? []), i]);
  }
  const settledBy = rows.map(({ margin, by }) => settledShare(margin, sumOfSquares(by)));
  const weights = rows.map(({ margin }) => weightOf(margin));
  const count = Math.max(1, total(weights));
  const next = [...spots].flatMap(([spot, indexes]): NextMeasurement[] => {
    let worth = 0;
    let most = 0;
    let reason: Margin | null = null;
    // what each entry has of the worth: its part of what goes from the variance
    const shares = new Map<number, number>();
    for (const [j, { margin, by }] of rows.entries()) {
      const whole = sumOfSquares(by);
      const gone = indexes.map(i => (by[i] ?? 0) ** 2 * (1 - left(slopes[i] as EntrySlope) ** 2));
      const without = whole - total(gone);
      const gain = settledShare(margin, Math.max(0, without)) - (settledBy[j] ?? 0);
      const counted = gain * (weights[j] ?? 0);
      worth += counted / count;
      for (const [k, i] of indexes.entries()) {
        const part = without < whole ? (gone[k] ?? 0) / (whole - without) : 0;
        shares.set(i, (shares.get(i) ?? 0) + counted * part);
      }
      if (counted > most) {
        most = counted;
        reason = margin;
      }
    }
    if (worth < LEAST_WORTH || !reason) return [];
    const paths = indexes.map(i => (slopes[i] as EntrySlope).path);
    const isAssumed = indexes.some(i => slopes[i]?.from === 'assumed');
    const name = /^axles\["(\w+)"\]/.exec(spot)?.[1] as AxleName | undefined;
    const axle = build.axles.find(each => each.name === name) ?? null;
    const what = spotWords(build, axle, spot);
    return [
      {
        spot,
        axle: name ?? null,
        paths,
        leading: leadingOf(shares).map(i => (slopes[i] as EntrySlope).path),
        what,
        worth,
        isAssumed,
        reason: `${sentence(what)} ${isPlural(what) ? 'decide' : 'decides'} ${reason.decides}: tape ${isPlural(what) ? 'them' : 'it'}${isAssumed ? '' : ' more closely'}.`,
      },
    ];
  });
  return {
    share:
      settledBy.length === 0
        ? 1
        : total(settledBy.map((each, j) => each * (weights[j] ?? 0))) / count,
    questions: rows.length,
    answered: settledBy.filter(each => each >= ANSWERED).length,
    next: next.sort((a, b) => b.worth - a.worth || (a.spot < b.spot ? -1 : 1)),
  };
}

/** The one that has most, and the next where that is less than half of the whole. */
function leadingOf(shares: ReadonlyMap<number, number>): number[] {
  const ranked = [...shares].toSorted(([, a], [, b]) => b - a);
  const [first] = ranked;
  const isHalf = first !== undefined && first[1] >= total([...shares.values()]) / 2;
  return ranked.slice(0, isHalf ? 1 : 2).map(([i]) => i);
}

const total = (values: readonly number[]): number => values.reduce((sum, each) => sum + each, 0);

/** What is a finding now is read and acted on: it counts for more, most where it has to be fixed. */
const weightOf = ({ kind, now, turns }: Margin): number => {
  if (kind !== 'gap' && kind !== 'limit') return 1;
  return now < 0 ? 6 : now < Math.max(...turns) ? 3 : 1;
};

const sumOfSquares = (values: Float64Array): number => values.reduce((sum, v) => sum + v * v, 0);

/** Share of an entry's error that is left once it was taped carefully. */
function left({ dimension, tolerance }: EntrySlope): number {
  const taped =
    dimension === 'length' || dimension === 'angle' ? TAPED[dimension] : TAPED.share * tolerance;
  return Math.min(1, taped / tolerance);
}

/** erf of the distance to the nearest turn over √2 of the uncertainty. */
function settledShare({ now, turns, fine }: Margin, squares: number): number {
  const distance = Math.max(fine, distanceOf({ now, turns }));
  return squares === 0 ? 1 : erf(distance / Math.sqrt(2 * squares));
}

/** Error function to 1.5e-7: Abramowitz and Stegun, Handbook of Mathematical Functions, 7.1.26 (from memory). */
export function erf(x: number): number {
  const t = 1 / (1 + 0.3275911 * x);
  const series =
    t *
    (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  return 1 - series * Math.exp(-x * x);
}
