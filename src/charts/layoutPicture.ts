/** A layout seen from above, front up: small, so that it can be picked from a row of them. */
import type { Axle, Vec3 } from '../../geometry/build/build.ts';
import { line, type Mark, type Spot } from './marks.ts';

export interface LayoutPicture {
  width: number;
  height: number;
  marks: Mark[];
}

/** What of an axle the picture is about; the rest is drawn faint or not at all. */
export type About = 'links' | 'steering';

/** Units of the drawing for an inch, and room around it. */
const SCALE = 2;
const MARGIN = 6;
/** Half of the rails' width, in. */
const RAIL_in = 1.5;

/** An axle of a build with its links or its steering. */
export function layoutPicture(axle: Axle, about: About): LayoutPicture {
  const { origin, wheelCenters, tire, housing } = axle;
  const [x] = origin;
  const lines = about === 'links' ? heldBy(axle) : steeredBy(axle);
  const ends = lines.flatMap(({ points }) => points.map(point => point[0]));
  const half = wheelCenters / 2 + tire.width / 2;
  // tires are drawn shorter than they are, so that the links have the room
  const round = tire.diameter * 0.36;
  const top = Math.max(x + round, ...ends.map(each => each + 3));
  const bottom = Math.min(x - round, ...ends.map(each => each - 3));
  const at = ([px, py]: Vec3): Spot => [MARGIN + (half - py) * SCALE, MARGIN + (top - px) * SCALE];
  const marks: Mark[] = [];
  const rail = railOf(axle);
  for (const y of [rail, -rail]) {
    const [left, upper] = at([top, y + RAIL_in, 0]);
    const size: Spot = [2 * RAIL_in * SCALE, (top - bottom) * SCALE];
    marks.push({ kind: 'box', tone: 'frame', at: [left, upper], size, round: 2 });
  }
  const end = wheelCenters / 2 - tire.width / 2;
  marks.push(line('part', 7, at([x, end, 0]), at([x, -end, 0])));
  const center = housing.differential?.center ?? origin;
  marks.push({ kind: 'circle', tone: 'part', at: at([x, center[1], 0]), radius: 6 * SCALE });
  for (const side of [1, -1]) {
    const corner = at([x + round, (side * wheelCenters) / 2 + tire.width / 2, 0]);
    const size: Spot = [tire.width * SCALE, 2 * round * SCALE];
    marks.push({ kind: 'box', tone: 'tire', at: corner, size, round: 7 });
  }
  for (const { points, tone, width } of lines) {
    const spots = points.map(at);
    marks.push(line(tone, width, ...spots));
    const [first, last] = [spots[0], spots.at(-1)];
    for (const spot of [first, last])
      if (spot) marks.push({ kind: 'circle', tone, at: spot, radius: width * 0.75 });
  }
  return {
    width: 2 * half * SCALE + 2 * MARGIN,
    height: (top - bottom) * SCALE + 2 * MARGIN,
    marks,
  };
}

interface Line {
  points: Vec3[];
  tone: 'link' | 'bar' | 'rod' | 'drag' | 'part';
  width: number;
}

function heldBy({ links, radiusArms }: Axle): Line[] {
  return [
    ...links.map(({ kind, axle, chassis }): Line => {
      const isBar = kind === 'track bar';
      return {
        points: [axle.at, chassis.at],
        tone: isBar ? 'bar' : 'link',
        width: isBar ? 5 : 7,
      };
    }),
    ...radiusArms.map(
      ({ axle, chassis }): Line => ({
        points: [axle[0].at, axle[1].at, chassis.at],
        tone: 'link',
        width: 8,
      }),
    ),
  ];
}

const rod = (tone: Line['tone'], width: number, ...points: Vec3[]): Line => ({
  points,
  tone,
  width,
});

/** How far the drag link is drawn ahead of where it is: from above it mostly lies over the tie rod, in. */
const AHEAD_in = 5;

function steeredBy({ steering, knuckles }: Axle): Line[] {
  if (!steering) return [];
  const { box, dragLink, tieRods, rams } = steering;
  const ahead = ([x, y, z]: Vec3): Vec3 => [x + AHEAD_in, y, z];
  const tied = tieRods.map(({ from, through, to }) => ({
    ends: [from, to].map(({ on, at }) => ({ on, at: on === 'drag link' ? ahead(at) : at })),
    through,
  }));
  const dragged = dragLink
    ? [dragLink.from, dragLink.to].map(({ on, at }) => ({
        on,
        at: on === 'tie rod' ? at : ahead(at),
      }))
    : [];
  const arms = [...tied.flatMap(({ ends }) => ends), ...dragged].flatMap(({ on, at }): Line[] => {
    if (!knuckles || (on !== 'left knuckle' && on !== 'right knuckle')) return [];
    const { kingpin } = knuckles[on === 'left knuckle' ? 'left' : 'right'];
    return [{ points: [kingpin.lower, at], tone: 'part', width: 5 }];
  });
  const [pitman] = dragged;
  return [
    ...arms,
    ...(box && pitman ? [rod('part', 6, ahead(box.axis.at), pitman.at)] : []),
    ...rams.map(({ body, axis, rod: pushed, stroke }): Line => {
      const reach = (stroke ?? 8) / 2 + 8;
      const points: Vec3[] =
        axis === null
          ? [body.at, pushed?.at ?? body.at]
          : [-reach, reach].map(
              (by): Vec3 => [body.at[0] + by * axis[0], body.at[1] + by * axis[1], body.at[2]],
            );
      return { points, tone: 'part', width: 9 };
    }),
    ...tied.map(({ ends, through }): Line => {
      const points = [...through];
      const [first, last] = ends;
      if (first) points.unshift(first.at);
      if (last) points.push(last.at);
      return { points, tone: 'rod', width: 5 };
    }),
    ...(dragged.length > 0 ? [rod('drag', 5, ...dragged.map(({ at }) => at))] : []),
  ];
}

/** How far out the rails are: the frame ends of the lower links hang under them. */
function railOf({ links, radiusArms }: Axle): number {
  const ends = [...links.filter(({ kind }) => kind === 'link'), ...radiusArms];
  return Math.max(...ends.map(({ chassis }) => Math.abs(chassis.at[1])), 12);
}
