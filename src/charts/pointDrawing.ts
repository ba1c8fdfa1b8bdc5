/**
 * Where to tape one number of a part: the axle seen from the side, from ahead or from above as the build has it, its part
 * over it, and the tape from its datum to the point. Made of the build's own positions alone.
 */
import type { Axle, Build, Entry, Solid, Vec3 } from '../../geometry/build/build.ts';
import { acrossOf, type Grip, type GripSpot, gripsOf } from '../../geometry/build/grips.ts';
import type { View } from '../../geometry/build/start/measurement.ts';
import { line, type Mark, type Spot } from './marks.ts';

export interface PointDrawing {
  width: number;
  height: number;
  marks: Mark[];
  view: View;
  /** From where to where, in words: 'from the floor up'. Null where the number is no place. */
  from: string | null;
}

const WIDTH = 560;
const TALLEST = 340;
const MARGIN = 44;
/** Room that a tag takes about its middle. */
const TAG = { x: 80, y: 30 };
/** A chassis point was taped before it went up: as far as this its datum is the plane that it was taped from, in. */
const RAISED_in = 21;

/** Which way a view looks: right and up on the paper, of forward, left and up. */
const SEEN: Readonly<Record<View, (p: Vec3) => Spot>> = {
  side: ([x, , z]) => [x, z],
  // as one stands ahead of the vehicle and looks back, its left is on the right
  front: ([, y, z]) => [y, z],
  top: ([x, y]) => [-y, x],
};

/**
 * The drawing of one entry of a part that belongs to `axle` or stands near it; null where there is nothing to show.
 *
 * @param spot path with which all entries of the part begin
 * @param path of the entry
 * @param text on the tape: what it reads
 */
export function pointDrawing(
  build: Build,
  axle: Axle,
  spot: string,
  path: string,
  text: string,
): PointDrawing | null {
  const entry = build.entries.find(each => each.path === path);
  if (!entry) return null;
  const own = gripsOf(build, axle).filter(each => isWithin(spot, each.path));
  const grip = own.find(({ entries }) => entries.some(each => each.path === path));
  const index = grip?.entries.findIndex(each => each.path === path) ?? -1;
  const at = grip?.spots[0];
  const outline = outlineOf(build, axle, own, spot);
  if (outline.length === 0) return null;
  const view = viewOf(index, outline[0] ?? []);
  const taped = at && index >= 0 ? tapeTo(at, index as 0 | 1 | 2, entry, axle) : null;
  const seen = SEEN[view];
  const all = [...outline.flat(), ...axlePoints(axle, view), ...(taped ? taped.points : [])];
  const [xs, ys] = [all.map(p => seen(p)[0]), all.map(p => seen(p)[1])];
  const low = view === 'top' ? Math.min(...ys) : Math.min(0, ...ys);
  const [least, most, high] = [Math.min(...xs), Math.max(...xs), Math.max(...ys)];
  const scale = Math.min(
    (WIDTH - 2 * MARGIN) / (most - least),
    (TALLEST - 2 * MARGIN) / (high - low),
  );
  const height = Math.ceil((high - low) * scale + 2 * MARGIN);
  const middle = (WIDTH - (most - least) * scale) / 2;
  const place = (p: Vec3): Spot => {
    const [x, y] = seen(p);
    return [middle + (x - least) * scale, height - MARGIN - (y - low) * scale];
  };
  return {
    width: WIDTH,
    height,
    view,
    from: taped?.from ?? null,
    marks: once([
      ...background(axle, view, place, scale, height),
      ...outline.flatMap(points => partMarks(points.map(place))),
      ...(taped
        ? tapeMarks(taped.points.map(place) as [Spot, Spot], unsigned(text), height)
        : noteOn(outline.flat().map(place), text, height)),
    ]),
  };
}

/** Both sides of a part lie on one another as seen from the side. */
const once = (marks: readonly Mark[]): Mark[] => [
  ...new Map(marks.map(mark => [JSON.stringify(mark), mark])).values(),
];

const isWithin = (spot: string, path: string): boolean =>
  path === spot || (path.startsWith(spot) && /^[.[]/.test(path.slice(spot.length)));

/** Fore and aft and heights from the side, unless the part runs across; sideways from ahead. */
function viewOf(index: number, points: readonly Vec3[]): View {
  const span = (i: 0 | 1 | 2): number =>
    Math.max(...points.map(p => p[i])) - Math.min(...points.map(p => p[i]));
  const isAcross = span(1) > Math.max(span(0), span(2));
  if (index === 0) return isAcross ? 'top' : 'side';
  return index === 1 || isAcross ? 'front' : 'side';
}

interface Tape {
  points: [Vec3, Vec3];
  from: string;
}

/** From the plane that the number is taped from straight to the point. */
function tapeTo(at: GripSpot, index: 0 | 1 | 2, { value, uses }: Entry, axle: Axle): Tape {
  const across = index === 1 ? acrossOf(at) : 1;
  const datum = at.at[index] - across * value;
  const planes =
    index === 0
      ? [
          { at: 0, words: 'from the middle of the front axle' },
          { at: axle.origin[0], words: `from the middle of the ${axle.name} axle` },
        ]
      : [{ at: 0, words: index === 1 ? 'from the middle of the vehicle' : 'from the floor' }];
  const nearest = planes.reduce((a, b) =>
    Math.abs(b.at - datum) < Math.abs(a.at - datum) ? b : a,
  );
  const isPlane = uses.length === 0 && Math.abs(nearest.at - datum) < (index === 2 ? RAISED_in : 1);
  const foot = [...at.at] as [number, number, number];
  foot[index] = isPlane ? nearest.at : datum;
  const way = [
    ['forward', 'rearward'],
    ['to the left', 'to the right'],
    ['up', 'down'],
  ][index] as [string, string];
  const words = isPlane ? nearest.words : 'from its datum';
  return {
    points: [foot, at.at],
    from: `${words} ${at.at[index] >= foot[index] ? way[0] : way[1]}`,
  };
}

/** The part as lines from point to point, one for each side that it has; a drawn box by its corners. */
function outlineOf(build: Build, axle: Axle, own: readonly Grip[], spot: string): Vec3[][] {
  const name = /^solids\["((?:[^"\\]|\\.)*)"\]/.exec(spot)?.[1];
  if (name !== undefined) {
    const isOne = (each: Solid): boolean =>
      [name, `left ${name}`, `right ${name}`].includes(each.name);
    return build.solids.filter(isOne).map(({ shape }) => solidPoints(shape));
  }
  const ends = own.flatMap(({ spots }) => spots.filter(({ image }) => image !== 'right'));
  const mirrored = own.flatMap(({ spots }) => spots.filter(({ image }) => image === 'right'));
  const lines = [ends, mirrored].map(spots => ordered(spots.map(({ at }) => at)));
  const found = lines.filter(points => points.length > 0);
  if (found.length > 0) return found;
  return spot.includes('.joints[') ? jointEnds(build, axle, spot) : wholePoints(axle, spot);
}

/** Where a joint sits: every end that names it. */
function jointEnds({ jointPaths }: Build, { links, radiusArms }: Axle, spot: string): Vec3[][] {
  const ends = [
    ...links.flatMap(each => [each.axle, each.chassis]),
    ...radiusArms.flatMap(each => [...each.axle, each.chassis]),
  ];
  return ends.filter(({ name }) => jointPaths[name] === spot).map(({ at }) => [at]);
}

/** Of an axle, what has no point of its own. */
function wholePoints({ origin, wheelCenters, tire }: Axle, spot: string): Vec3[][] {
  if (!/^axles/.test(spot)) return [];
  const [x, , z] = origin;
  const half = wheelCenters / 2;
  if (spot.endsWith('.tire')) {
    const low = z - tire.loadedRadius;
    return [
      [
        [x, half, low],
        [x, half, low + tire.diameter],
      ],
    ];
  }
  return [
    [
      [x, half, z],
      [x, -half, z],
    ],
  ];
}

/** From end to end with the bends between: along what they are furthest apart in. */
function ordered(points: Vec3[]): Vec3[] {
  const span = ([0, 1, 2] as const).map(
    i => Math.max(...points.map(p => p[i])) - Math.min(...points.map(p => p[i])),
  );
  const long = span.indexOf(Math.max(...span)) as 0 | 1 | 2;
  return points.toSorted((a, b) => a[long] - b[long]);
}

function solidPoints(shape: Solid['shape']): Vec3[] {
  switch (shape.kind) {
    case 'sphere':
      return [shape.center];
    case 'capsule':
    case 'cylinder':
      return [shape.from, shape.to];
    case 'bentTube':
    case 'hull':
      return shape.points;
    case 'mesh':
      return [shape.at];
    case 'box': {
      const { center, size, axes } = shape;
      const corner = (signs: Vec3): Vec3 =>
        [0, 1, 2].map(
          k =>
            (center[k] as number) +
            [0, 1, 2].reduce(
              (sum, i) =>
                sum + (((signs[i] as number) * (size[i] as number)) / 2) * (axes[i]?.[k] ?? 0),
              0,
            ),
        ) as unknown as Vec3;
      // once around each of both faces: closed seen from anywhere along an axis
      const face = (z: number): Vec3[] =>
        [
          [-1, -1],
          [1, -1],
          [1, 1],
          [-1, 1],
          [-1, -1],
        ].map(([a = 0, b = 0]) => corner([a, b, z]));
      return [...face(-1), ...face(1)];
    }
  }
}

/** What the drawing has to hold of the axle. */
function axlePoints({ origin, wheelCenters, tire, links, radiusArms }: Axle, view: View): Vec3[] {
  const [x, , z] = origin;
  const [round, half] = [tire.diameter / 2, wheelCenters / 2 + tire.width / 2];
  const tires: Vec3[] = [-1, 1].flatMap(side => [
    [x - round, side * half, z - tire.loadedRadius] as Vec3,
    [x + round, side * half, z + round] as Vec3,
  ]);
  if (view === 'front') return tires;
  return [...tires, ...[...links, ...radiusArms].map(({ chassis }) => chassis.at)];
}

type Place = (p: Vec3) => Spot;

/** Floor, tires, axle and what holds it, faint. */
function background(axle: Axle, view: View, place: Place, scale: number, height: number): Mark[] {
  const { origin, wheelCenters, tire, housing, links, radiusArms } = axle;
  const [x, , z] = origin;
  const marks: Mark[] = [];
  const round = tire.diameter / 2;
  for (const side of view === 'side' ? [1] : [1, -1]) {
    const center = place([x, (side * wheelCenters) / 2, z]);
    const [wide, tall] = [tire.width * scale, 2 * round * scale];
    if (view === 'side') {
      marks.push({ kind: 'circle', tone: 'tire', at: center, radius: round * scale });
      marks.push({ kind: 'circle', tone: 'frame', at: center, radius: round * scale * 0.42 });
    } else {
      const corner: Spot = [center[0] - wide / 2, center[1] - tall / 2];
      marks.push({ kind: 'box', tone: 'tire', at: corner, size: [wide, tall], round: 10 });
    }
  }
  if (view !== 'top') {
    const floor = place([x, 0, 0])[1];
    marks.push({
      kind: 'box',
      tone: 'ground',
      at: [0, floor],
      size: [WIDTH, Math.max(0, height - floor)],
      round: 0,
    });
    marks.push(line('floor', 2, [16, floor], [WIDTH - 16, floor]));
  }
  if (view !== 'side') {
    const end = wheelCenters / 2 - tire.width / 2;
    marks.push(line('frame', 7, place([x, end, z]), place([x, -end, z])));
  }
  const center = housing.differential?.center;
  if (center) {
    const radius = (housing.differential?.radius ?? 0) * scale;
    marks.push({ kind: 'circle', tone: 'frame', at: place(center), radius });
  }
  for (const { points } of [
    ...links.map(each => ({ points: [each.axle.at, ...each.through, each.chassis.at] })),
    ...radiusArms.map(each => ({ points: [each.axle[0].at, each.chassis.at] })),
  ]) {
    marks.push(line('frame', 4, ...points.map(place)));
  }
  return marks;
}

function partMarks(spots: readonly Spot[]): Mark[] {
  const marks: Mark[] = spots.length > 1 ? [line('link', 5, ...spots)] : [];
  if (spots.length > 6) return marks;
  return [...marks, ...spots.map((at): Mark => ({ kind: 'circle', tone: 'joint', at, radius: 5 }))];
}

const within = (value: number, most: number, room: number): number =>
  Math.min(most - room, Math.max(room, value));

const tag = ([x, y]: Spot, text: string, height: number): Mark => ({
  kind: 'tag',
  at: [within(x, WIDTH, TAG.x), within(y, height, TAG.y)],
  text,
});

/** The tape with its ends, and the number beside its middle. */
function tapeMarks([foot, end]: [Spot, Spot], text: string, height: number): Mark[] {
  const isUpright = Math.abs(foot[0] - end[0]) < Math.abs(foot[1] - end[1]);
  const [x, y] = [(foot[0] + end[0]) / 2, (foot[1] + end[1]) / 2];
  const beside: Spot = isUpright ? [x + TAG.x, y] : [x, y - TAG.y];
  // a short tick square to the tape says where it starts
  const tick: [Spot, Spot] = isUpright
    ? [
        [foot[0] - 14, foot[1]],
        [foot[0] + 14, foot[1]],
      ]
    : [
        [foot[0], foot[1] - 14],
        [foot[0], foot[1] + 14],
      ];
  return [
    line('tape', 2, ...tick),
    { kind: 'line', tone: 'tape', points: [foot, end], width: 2.5, isDashed: true },
    { kind: 'circle', tone: 'tape', at: end, radius: 6 },
    tag(beside, text, height),
  ];
}

/** Which way the tape goes is said in words: '−5 in' rearward is 5 in. What is worked out stays as it is. */
const unsigned = (text: string): string => text.replace(/^[-−]\s*(?=[^-−+*()]+$)/, '');

/** A number that is no place stands over its part. */
function noteOn(spots: readonly Spot[], text: string, height: number): Mark[] {
  const [xs, ys] = [spots.map(([x]) => x), spots.map(([, y]) => y)];
  const x = (Math.min(...xs) + Math.max(...xs)) / 2;
  return [tag([x, Math.min(...ys) - TAG.y], text, height)];
}
