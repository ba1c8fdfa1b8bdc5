/**
 * What a walk decides: each gap, limit, band and end of travel that could turn out otherwise if a number of the
 * build were a little different, as a function that can be asked of another build at the same pose.
 */
import type { AxleName } from '../build/build.ts';
import { furthest } from '../cycle/edge.ts';
import type { AxleWalk } from '../cycle/walkReport.ts';
import { FAMILIES } from '../finding/limits.ts';
import { leastMargins } from '../finding/margins.ts';
import { boundOf } from '../finding/wanted.ts';
import { amountWords, partWords } from '../finding/words.ts';
import type { AxleGaps } from '../gap/gapReport.ts';
import { type Asked, contextOf, gapOf } from '../gap/heldPose.ts';
import type { PairGap } from '../gap/pairGap.ts';
import type { LimitId } from '../limit/limit.ts';
import { limits } from '../limit/list.ts';
import { measures } from '../measure/list.ts';
import { MeasureContext, SHOWN } from '../measure/measure.ts';
import type { Pose } from '../pose/pose.ts';

export interface Margin {
  axle: AxleName;
  kind: 'gap' | 'limit' | 'band' | 'end';
  /** Names and kinds of parts that it looks at, beside what locates the axle. */
  owners: ReadonlySet<string>;
  pose: Pose;
  /** Value at that pose, in, rad or the measure's internal unit; null where it has none. */
  value(asked: Asked): number | null;
  /** Its value in the build that was walked. */
  now: number;
  /** Values at which the answer turns. */
  turns: readonly number[];
  /** A value this near to a turn counts as settled, as a tape can tell no more. */
  fine: number;
  /** What it decides: 'whether the track bar clears the differential'. */
  decides: string;
}

/** From now to the nearest value at which the answer turns. */
export const distanceOf = ({ now, turns }: Pick<Margin, 'now' | 'turns'>): number =>
  Math.min(...turns.map(turn => Math.abs(now - turn)));

/** Gaps over what is asked that are looked at, in: what is further away is clear whatever is still assumed. */
const FAR_in = 6;
/** Whether words are told in the plural: 'the ball joints of the knuckle', and not 'the lower link with its ends'. */
export const isPlural = (words = ''): boolean =>
  /[^s]s$/.test(words.replace(/ (?:with|of|between) .*$/, ''));

/** What a tape can tell, in and rad. */
const FINE = { in: 1 / 8, rad: (1 * Math.PI) / 180 };

export function marginsOf(walk: AxleWalk, gaps: AxleGaps | null): Margin[] {
  if (!walk.range.holdsRide) return stopsAtRide(walk);
  return [
    ...(gaps ? gapMargins(gaps) : []),
    ...limitMargins(walk),
    ...bandMargins(walk),
    ...ends(walk),
  ];
}

function gapMargins(gaps: AxleGaps): Margin[] {
  const { build, axle } = gaps.walk;
  const groups = new Map<string, PairGap>();
  for (const found of gaps.gaps) {
    const { a, b, still } = found.pair;
    if (still || found.gap > found.pair.required + FAR_in) continue;
    const key = JSON.stringify([a.of, b.of].sort());
    const best = groups.get(key);
    if (!best || spare(found) < spare(best)) groups.set(key, found);
  }
  return [...groups.values()].map((found): Margin => {
    const { pair, pose, gap } = found;
    const { a, b, required } = pair;
    const [one, other] = [a, b].map(part => partWords(build, axle, part.name));
    return {
      axle: axle.name,
      kind: 'gap',
      owners: new Set([a.name, a.of, a.kind, b.name, b.of, b.kind]),
      pose,
      now: gap,
      turns: [0, required],
      fine: FINE.in,
      decides: `whether the ${one} ${isPlural(one) ? 'clear' : 'clears'} the ${other}`,
      value: asked => gapOf(asked, a.name, b.name),
    };
  });
}

const spare = ({ gap, pair }: PairGap): number => gap - pair.required;

function limitMargins(walk: AxleWalk): Margin[] {
  const { build, axle } = walk;
  return leastMargins(walk, Object.keys(FAMILIES) as LimitId[]).map(
    ({ limit, target, margin, pose }): Margin => {
      const whole = target.part.replace(/\.[^.]*$/, '');
      return {
        axle: axle.name,
        kind: 'limit',
        owners: new Set([target.part, whole, 'knuckle']),
        pose,
        now: margin,
        turns: [0, FAMILIES[limit.id]?.asked ?? 0],
        fine: limit.unit === 'in' ? FINE.in : limit.unit === 'deg' ? FINE.rad : 0.02,
        decides: `whether the ${partWords(build, axle, target.part)} keeps within its limit`,
        value: asked => limit.margin(contextOf(asked), target),
      };
    },
  );
}

function bandMargins(walk: AxleWalk): Margin[] {
  const { build, axle, finder } = walk;
  return build.wanted.bands.flatMap((band, index): Margin[] => {
    const measure = measures.find(({ id }) => id === band.measure);
    if (!measure || !finder || (band.axle !== null && band.axle !== axle.name)) return [];
    return measure.targets(axle, build).flatMap(target =>
      (['least', 'greatest'] as const).flatMap((end): Margin[] => {
        const bound = boundOf(build, band, index, end);
        const extreme = finder.extremes(measure, target)[end];
        if (bound === null || !extreme) return [];
        return [
          {
            axle: axle.name,
            kind: 'band',
            owners: new Set([target.part ?? '', 'driveshaft', 'knuckle']),
            pose: extreme.pose,
            now: extreme.value,
            turns: [bound],
            fine: measure.unit === 'deg' ? FINE.rad / 4 : measure.unit === 'in' ? FINE.in : 0.02,
            decides: `whether the ${measure.label} stays within ${amountWords(build, bound * SHOWN[measure.unit], measure.unit)}`,
            value: asked => {
              const reading = measure.value(contextOf(asked), target);
              return typeof reading === 'number' ? reading : null;
            },
          },
        ];
      }),
    );
  });
}

/** Which stop ends up-travel and droop of both wheels: a margin of the second one where the first ends it. */
function ends(walk: AxleWalk): Margin[] {
  const { build, axle, model, reach } = walk;
  return ([1, -1] as const).flatMap((way): Margin[] => {
    const { left, right } = furthest(reach, [0, 0], [way, way]);
    const { pose } = reach.travel(left, right);
    if (!pose) return [];
    const context = new MeasureContext(build, axle, model, pose);
    return limits
      .filter(({ role }) => role === 'travel')
      .flatMap(limit =>
        limit.targets(axle, build).flatMap((target): Margin[] => {
          const now = limit.margin(context, target);
          if (now === null || now > NEXT_in) return [];
          return [
            {
              axle: axle.name,
              kind: 'end',
              owners: new Set([target.part]),
              pose,
              now,
              turns: [0],
              fine: FINE.in,
              decides: `whether the ${partWords(build, axle, target.part)} ends the ${way > 0 ? 'up-travel' : 'droop'}`,
              value: asked => limit.margin(contextOf(asked), target),
            },
          ];
        }),
      );
  });
}

/** Where the stops do not even allow ride height: by how much each of them allows it. */
function stopsAtRide({ build, axle, model }: AxleWalk): Margin[] {
  const context = new MeasureContext(build, axle, model, model.ride);
  return limits
    .filter(({ role }) => role === 'travel')
    .flatMap(limit =>
      limit.targets(axle, build).flatMap((target): Margin[] => {
        const now = limit.margin(context, target);
        if (now === null || now > NEXT_in) return [];
        return [
          {
            axle: axle.name,
            kind: 'end',
            owners: new Set([target.part]),
            pose: model.ride,
            now,
            turns: [0],
            fine: FINE.in,
            decides: `whether the ${partWords(build, axle, target.part)} allows ride height`,
            value: asked => limit.margin(contextOf(asked), target),
          },
        ];
      }),
    );
}

/** Stops whose margin is under this where the first one holds are in question, in. */
const NEXT_in = 3;
