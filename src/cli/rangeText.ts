/** The range of an axle in words: how far it goes each way, and what ends that. */
import type { Build } from '../../geometry/build/build.ts';
import type { WalkReport } from '../../geometry/cycle/walkReport.ts';
import { lengthWords, listed, seat } from '../../geometry/finding/words.ts';
import type { EndId } from '../../geometry/limit/limit.ts';
import { labeled, type Style, wrap } from './layout.ts';
import type { Walked } from './walk.ts';
import { fixed, limitLabel } from './words.ts';

type Edge = WalkReport['range']['edge'];

/** Where a ray from ride height first meets the edge. */
export function edgeAlong(edge: Edge, direction: readonly [number, number]): Edge[number] | null {
  const [dl, dr] = direction;
  let found: { t: number; at: Edge[number] } | null = null;
  for (const [i, a] of edge.entries()) {
    const b = edge[(i + 1) % edge.length];
    if (!b) continue;
    // across the ray: c of both ends; the crossing lies at the share s of the chord
    const ca = a.right_in * dl - a.left_in * dr;
    const cb = b.right_in * dl - b.left_in * dr;
    if (ca === cb || ca * cb > 0) continue;
    const s = ca / (ca - cb);
    const left_in = a.left_in + s * (b.left_in - a.left_in);
    const right_in = a.right_in + s * (b.right_in - a.right_in);
    const t = left_in * dl + right_in * dr;
    if (t > 0 && (!found || t < found.t)) found = { t, at: { ...a, left_in, right_in } };
  }
  return found?.at ?? null;
}

export function rangeLines({ report, walk }: Walked, build: Build, style: Style): string[] {
  const { edge, assumed, holdsRide, pieces } = report.range;
  if (!holdsRide) {
    const first = report.range.ends[0];
    const why = first ? ` (${endWords(first, build)})` : '';
    return wrap(
      `The stops do not even allow ride height${why}: there is nothing to walk.`,
      '  ',
    ).map(style.wrong);
  }
  const driverUp: [number, number] = build.driverSide === 'left' ? [1, -1] : [-1, 1];
  const ways: [string, [number, number]][] = [
    ['both wheels up', [1, 1]],
    ['both wheels down', [-1, -1]],
    ['driver side flexed up', driverUp],
    ['passenger side flexed up', [-driverUp[0], -driverUp[1]]],
  ];
  const rows = ways.flatMap(([label, direction]): [string, string][] => {
    const at = edgeAlong(edge, direction);
    if (!at) return [];
    const size = lengthWords(build, Math.abs(at.left_in));
    const far = direction[0] === direction[1] ? size : `${size} up and as much down`;
    return [[label, `${far}: ${endWords(at, build)}`]];
  });
  const interval = walk.axle.steered ? walk.reach.steering(walk.model.ride) : null;
  if (interval) {
    for (const [label, end] of [
      ['steered left', interval.greatest],
      ['steered right', interval.least],
    ] as const) {
      rows.push([
        `${label}, at ride`,
        `${steerWords(end.value, walk, build)}: ${endWords(end, build)}`,
      ]);
    }
  }
  const whole = endsWords(report.range.ends, build);
  rows.push(['what ends travel', whole]);
  const lines = labeled(rows);
  for (const { side, direction, travel_in } of assumed) {
    const whose = seat(build, side === 'left' ? 'left' : 'right');
    lines.push(
      ...wrap(
        `Nothing stops the ${whose} wheel going ${direction}: ${lengthWords(build, travel_in)} is assumed.`,
        '  ',
        '    ',
      ),
    );
  }
  if (pieces > 1) {
    lines.push(
      ...wrap(
        `What the stops allow falls into ${pieces} pieces; the one with ride height in it is walked.`,
        '  ',
        '    ',
      ),
    );
  }
  return lines;
}

function steerWords(value: number, { model }: Walked['walk'], build: Build): string {
  const size = Math.abs(value);
  return model.mechanism.steering?.unit === 'in'
    ? `${lengthWords(build, size)} of ram rod`
    : `${fixed((size * 180) / Math.PI, 1)}° of pitman arm`;
}

/** 'shock topped out, left shock'. */
function endWords(
  end: { by: EndId; part: string | null; side: 'left' | 'right' | null },
  build: Build,
): string {
  if (end.by === 'assumedTravel') return limitLabel(end.by);
  const side = end.side === null ? '' : ` (${seat(build, end.side)} side)`;
  return end.part === null ? limitLabel(end.by) : `${limitLabel(end.by)}, ${end.part}${side}`;
}

/** The ends in their order, the parts of one kind together. */
function endsWords(ends: WalkReport['range']['ends'], build: Build): string {
  const kinds = [...new Set(ends.map(end => end.by))];
  return kinds
    .map(by => {
      if (by === 'assumedTravel') return limitLabel(by);
      const parts = ends
        .filter(end => end.by === by && end.part !== null)
        .map(end => end.part ?? '');
      const names = [...new Set(parts)];
      const own = ends.find(end => end.by === by);
      if (names.length === 1 && own) return endWords(own, build);
      return names.length === 0 ? limitLabel(by) : `${limitLabel(by)} (${listed(names)})`;
    })
    .join('; ');
}
