/** What ends up-travel and droop of both wheels first, and the travel that each other limit would allow. */
import { closeOn, type Sided } from '../cycle/crossing.ts';
import { furthest } from '../cycle/edge.ts';
import type { AxleWalk } from '../cycle/walkReport.ts';
import type { LimitId } from '../limit/limit.ts';
import { limits } from '../limit/list.ts';
import { MeasureContext } from '../measure/measure.ts';
import { LENGTHS } from './fields.ts';
import type { Draft, Rule } from './finding.ts';
import { listed, partWords, riseWords } from './words.ts';

/** How far beyond the end the other limits are looked for, and in what steps, in. */
const BEYOND_in = 4;
const STEP_in = 0.25;
/** Travels nearer than this are told as one, in. */
const SAME_in = 1 / 32;
const FOUND_in = 1e-6;

export const travelEnd: Rule = {
  kinds: ['upTravelEnds', 'droopEnds'],
  find: walk => (walk.range.holdsRide ? ([1, -1] as const).flatMap(way => draftOf(walk, way)) : []),
};

/** A limit that both wheels meet at the same travel, with the parts that meet it. */
interface Met {
  by: LimitId;
  label: string;
  parts: string[];
  /** Of both wheels, with its sign, in. */
  travel: number;
}

function draftOf(walk: AxleWalk, way: 1 | -1): Draft[] {
  const { build, axle, reach } = walk;
  const end = furthest(reach, [0, 0], [way, way]);
  const { pose } = reach.travel(end.left, end.right);
  const size = Math.abs(end.left);
  const all = metOnTheWay(walk, way, size + BEYOND_in);
  const first = all.find(met => met.by === end.by && met.parts.includes(end.part ?? ''));
  // ends that are assumed, or where no pose exists, are told by findings of their own
  if (!pose || !first) return [];
  const words = ({ label, parts }: Met): string =>
    `${label} (${listed(parts.map(part => partWords(build, axle, part)))})`;
  // those that are met before the end are told as broken
  const others = all.filter(met => met !== first && Math.abs(met.travel) > size - SAME_in);
  const rest = others.map(met => `${words(met)} at ${riseWords(build, met.travel)}`).join('; ');
  const isHard = end.by === 'shockShort' || end.by === 'coilSolid';
  const up = way > 0;
  return [
    {
      kind: up ? 'upTravelEnds' : 'droopEnds',
      severity: isHard ? 'watch' : 'note',
      parts: first.parts,
      pose,
      amount: { value: size, unit: 'in' },
      limit: first.by,
      others: Object.fromEntries(
        others.flatMap(({ by, parts, travel }) =>
          parts.map(part => [`${by} ${part}`, { value: Math.abs(travel), unit: 'in' }]),
        ),
      ),
      fields: first.parts.map(part => ({ part, only: LENGTHS })),
      text: () =>
        `With both wheels, ${up ? 'up-travel' : 'droop'} ends at ${riseWords(build, end.left)}: ${words(first)}.` +
        `${isHard ? ' A bump stop is to hold before shock and coil do.' : ''}${rest ? ` Without that: ${rest}.` : ''}`,
    },
  ];
}

/** The limits that both wheels meet going one way, straight ahead, nearest first; as far as poses exist. */
function metOnTheWay({ build, axle, model }: AxleWalk, way: 1 | -1, most: number): Met[] {
  let near = model.ride;
  const contextAt = (size: number): MeasureContext | null => {
    const { pose } = model.near(near, way * size, way * size, 0);
    return pose && new MeasureContext(build, axle, model, pose);
  };
  const open = limits
    .filter(limit => limit.role !== 'steering')
    .flatMap(limit => limit.targets(axle, build).map(target => ({ limit, target, margin: 0 })));
  const found: Met[] = [];
  for (let size = 0; size <= most && open.length > 0; size += STEP_in) {
    const context = contextAt(size);
    if (!context) break;
    for (const each of [...open]) {
      const { limit, target } = each;
      const at = (s: number): Sided<null> => {
        const there = s === size ? context : contextAt(s);
        const margin = there && limit.margin(there, target);
        return { margin: margin ?? Number.POSITIVE_INFINITY, what: null };
      };
      const here = at(size);
      if (here.margin < 0) {
        open.splice(open.indexOf(each), 1);
        const from = Math.max(0, size - STEP_in);
        const { inner } = closeOn(at, from, each.margin, size, here, FOUND_in);
        add(found, { by: limit.id, label: limit.label, parts: [target.part], travel: way * inner });
      }
      each.margin = here.margin;
    }
    near = context.pose;
  }
  return found.sort((a, b) => Math.abs(a.travel) - Math.abs(b.travel));
}

function add(all: Met[], met: Met): void {
  const same = all.find(each => each.by === met.by && Math.abs(each.travel - met.travel) < SAME_in);
  if (same) same.parts.push(...met.parts);
  else all.push(met);
}
