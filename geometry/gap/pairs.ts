/**
 * Which pairs of parts are compared: all that can move against each other, and those on one body of which one
 * is new. The others are listed with the reason, so that compared and excluded together are all n(n − 1)/2.
 */
import type { AxleName, Build } from '../build/build.ts';
import { DistanceSolver } from '../solid/distance.ts';
import { unmoved } from '../solid/placement.ts';
import type { Solid } from '../solid/solid.ts';
import { sphere } from '../solid/sphere.ts';
import { isCalled } from './pairNames.ts';
import type { Part, PartKind } from './part.ts';
import { type GapAsDrawn, outsideZones } from './zones.ts';

export interface Pair {
  a: Part;
  b: Part;
  /** What of each is compared: all of it, or what lies outside the zone of a shared joint. */
  solidA: Solid;
  solidB: Solid;
  /** Gap asked for, with what the parts may give, in. */
  required: number;
  /** Why that much; empty for the default of its kind. */
  why: string;
  /** Which of `wanted.gaps` asks for it; null for the default. */
  asked: number | null;
  /** True where the pair never moves: looked at once. */
  still: boolean;
}

export interface Excluded {
  a: string;
  b: string;
  why: string;
}

export interface Pairs {
  pairs: Pair[];
  excluded: Excluded[];
}

/** Pairs with what finds those of a changed axle sooner. */
export interface FoundPairs extends Pairs {
  /** What was found of each two parts: by the first, then by the second. */
  known: ReadonlyMap<Part, ReadonlyMap<Part, Pair | Excluded>>;
  /** What else it hangs on. */
  of: { wanted: Build['wanted']; axle: AxleName; still: boolean };
}

/** Default gaps by kind of pair, in. Common practice, no source. */
export const DEFAULT_GAPS = {
  /** A tire and anything. */
  tire: 1,
  /** The inside of a wheel and what reaches into it: nothing bulges there. */
  wheel: 0.25,
  /** Anything else that moves. */
  rod: 0.5,
  /** Parts that share a joint, outside its zone. */
  sharedJoint: 0,
};

export interface PairsOptions {
  /** False: leave out the pairs that never move, which the build's other axle has told already. */
  still?: boolean;
  /** Pairs of the same axle before a change: they hold for parts that are still the same, as long as the same is wanted. */
  before?: FoundPairs | null;
}

/** All pairs of an axle's parts. */
export function pairsOf(
  build: Build,
  axle: AxleName,
  parts: readonly Part[],
  { still = true, before = null }: PairsOptions = {},
): FoundPairs {
  const pairs: Pair[] = [];
  const excluded: Excluded[] = [];
  const known = new Map<Part, Map<Part, Pair | Excluded>>();
  const of = { wanted: build.wanted, axle, still };
  const holds =
    before?.of.wanted === of.wanted && before.of.axle === axle && before.of.still === still;
  const was = holds ? before.known : null;
  let find: ReturnType<typeof pairFinder> | null = null;
  for (const [i, a] of parts.entries()) {
    const ofA = new Map<Part, Pair | Excluded>();
    const wasOfA = was?.get(a);
    for (let k = i + 1; k < parts.length; k++) {
      const b = parts[k] as Part;
      let found = wasOfA?.get(b);
      if (!found) {
        find ??= pairFinder(build, axle, still);
        found = find(a, b);
      }
      ofA.set(b, found);
      if ('required' in found) pairs.push(found);
      else excluded.push(found);
    }
    known.set(a, ofA);
  }
  return { pairs, excluded, known, of };
}

/** Tells of two parts how they are compared, or why not. */
function pairFinder(
  build: Build,
  axle: AxleName,
  still: boolean,
): (a: Part, b: Part) => Pair | Excluded {
  const solver = new DistanceSolver();
  const here = unmoved();
  const gapAsDrawn: GapAsDrawn = (a, b) => {
    solver.run(a, here, b, here);
    return solver.gap;
  };
  const wanted = new Wanted(build, axle);
  return (a, b) => {
    const exclude = (why: string): Excluded => ({ a: a.name, b: b.name, why });
    const muted = wanted.muted(a, b) ?? inEachOther(a, b, gapAsDrawn);
    if (muted !== null) return exclude(`muted: ${muted}`);
    const sameBody = a.body === b.body;
    if (sameBody && !(a.isNew || b.isNew)) return exclude('ride on the same body');
    if (sameBody && !still) {
      return exclude('ride on the same body, looked at with the other axle');
    }
    const [whole, other] = [facing(a, b, gapAsDrawn), facing(b, a, gapAsDrawn)];
    const outside = outsideZones(a, b, whole, other, gapAsDrawn);
    if (!outside.a || !outside.b) {
      return exclude('muted: all of one lies in the zone of the joint that they share');
    }
    const asked = wanted.gap(a, b);
    return {
      a,
      b,
      solidA: outside.a,
      solidB: outside.b,
      required: (asked?.required ?? defaultGap(a, b, outside.isJoined)) + a.give + b.give,
      why: asked?.why ?? '',
      asked: asked ? build.wanted.gaps.indexOf(asked) : null,
      still: sameBody,
    };
  };
}

function defaultGap(a: Part, b: Part, isJoined: boolean): number {
  if (isJoined) return DEFAULT_GAPS.sharedJoint;
  const has = (kind: PartKind): boolean => a.kind === kind || b.kind === kind;
  if (has('tire')) return DEFAULT_GAPS.tire;
  return has('wheel') ? DEFAULT_GAPS.wheel : DEFAULT_GAPS.rod;
}

/** What the build asks of pairs by name. */
class Wanted {
  readonly #build: Build;
  readonly #axle: AxleName;

  constructor(build: Build, axle: AxleName) {
    this.#build = build;
    this.#axle = axle;
  }

  gap(a: Part, b: Part): Build['wanted']['gaps'][number] | undefined {
    return this.#build.wanted.gaps.find(each => this.#isPair(each.pair, a, b));
  }

  muted(a: Part, b: Part): string | null {
    const found = this.#build.wanted.muted.find(each => this.#isPair(each.pair, a, b));
    return found ? found.why || 'muted in the build' : null;
  }

  #isPair([first, second]: readonly [string, string], a: Part, b: Part): boolean {
    const axle = this.#axle;
    return (
      (isCalled(a, axle, first) && isCalled(b, axle, second)) ||
      (isCalled(b, axle, first) && isCalled(a, axle, second))
    );
  }
}

/**
 * A tire or wheel as another part meets it: open towards the axle for what reaches into the wheel by its nature,
 * and for what stands in the wheel's hollow as drawn.
 */
function facing(part: Part, other: Part, gapAsDrawn: GapAsDrawn): Solid {
  if (!part.open) return part.solid;
  const reaches =
    REACHES_INTO_WHEEL.has(other.kind) ||
    (gapAsDrawn(part.solid, other.solid) < 0 && gapAsDrawn(part.open, other.solid) >= 0);
  return reaches ? part.open : part.solid;
}

const REACHES_INTO_WHEEL: ReadonlySet<PartKind> = new Set([
  'tieRod',
  'dragLink',
  'ram',
  'ramBracket',
  'housing',
  'knuckle',
]);

/** How near to the middle of its strike plane a part must be for a bump stop to be made to meet it, in. */
const STRIKE_in = 0.5;

/** Why two parts meet by their nature, or null. */
function inEachOther(a: Part, b: Part, gapAsDrawn: GapAsDrawn): string | null {
  return meetsByNature(a, b, gapAsDrawn) ?? meetsByNature(b, a, gapAsDrawn);
}

function meetsByNature(a: Part, b: Part, gapAsDrawn: GapAsDrawn): string | null {
  if ((a.kind === 'shock' || a.kind === 'ram') && b.kind === a.kind && a.of === b.of) {
    return 'one slides in the other';
  }
  if (a.kind === 'swayBar' && b.kind === 'swayBar') return 'arms and bar are one piece';
  if (a.kind === 'ramBracket' && b.kind === 'ram' && a.of === b.of) {
    return a.name.endsWith('clamp') ? 'the clamp holds it' : null;
  }
  if (a.kind === 'coil' && (b.kind === 'bumpStop' || b.kind === 'shock')) {
    // as drawn on the coil's center line, or nearer to it than the turns
    const [p, q] = [a.solid.bound, b.solid.bound];
    const off = Math.hypot(
      (p[0] as number) - (q[0] as number),
      (p[1] as number) - (q[1] as number),
    );
    const turns = a.joints[0] ? a.joints[0].housing / 2 : 0;
    return off < turns ? 'it stands inside the coil' : null;
  }
  if (a.kind === 'bumpStop') {
    const strike = a.joints[0];
    if (!strike || b.body !== strike.body) return null;
    const ball = sphere({ center: strike.at, radius: STRIKE_in });
    return 'solid' in ball && gapAsDrawn(ball.solid, b.solid) <= 0 ? 'made to meet' : null;
  }
  return null;
}
