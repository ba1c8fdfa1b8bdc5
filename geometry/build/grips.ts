/**
 * Hardpoints that can be taken hold of: every point whose three coordinates are entries of their own, with where it
 * stands on its body. A mirrored part is written once: its one point stands on both sides.
 */
import type { Axle, Build, Entry, Side, Vec3 } from './build.ts';

/** Where a hardpoint stands. */
export interface GripSpot {
  /** The image of a mirrored part; null for a part that is written as it is. */
  image: Side | null;
  /** Body that it rides on; null where it rides on its own part (a bend of a rod, a reservoir, a drawn solid). */
  on: string | null;
  /** That part, where no body is named. */
  part: string;
  /** Vehicle axes as drawn, in. */
  at: Vec3;
}

export interface Grip {
  /** Path of the point in the file: `axles["front"].links["lower link"].axle.at`. */
  path: string;
  /** Its entries of x, y and z. */
  entries: readonly [Entry, Entry, Entry];
  /** One, or the left and the right one. */
  spots: readonly GripSpot[];
}

const known = new WeakMap<Axle, { build: Build; grips: readonly Grip[] }>();

/**
 * All hardpoints of an axle and of what is drawn about it, in the order of the file. The view, the list of points and the
 * hand ask for them at each move: they are found once for each build.
 */
export function gripsOf(build: Build, axle: Axle): readonly Grip[] {
  const before = known.get(axle);
  if (before?.build === build) return before.grips;
  const grips = findGrips(build, axle);
  known.set(axle, { build, grips });
  return grips;
}

function findGrips(build: Build, axle: Axle): Grip[] {
  const byPath = new Map(build.entries.map(entry => [entry.path, entry]));
  const grips: Grip[] = [];
  for (const { path } of build.entries) {
    const point = /^(.*?)(\.by)?\[0\]$/.exec(path);
    if (!point?.[1]) continue;
    const stem = path.slice(0, -3);
    const entries = [0, 1, 2].map(i => byPath.get(`${stem}[${i}]`));
    if (!isPoint(entries)) continue;
    const spots = spotsOf(build, axle, point[1]);
    if (spots.length > 0) grips.push({ path: point[1], entries, spots });
  }
  return grips;
}

const isPoint = (entries: readonly (Entry | undefined)[]): entries is [Entry, Entry, Entry] =>
  entries.length === 3 && entries.every(entry => entry?.dimension === 'length');

/** On the left the entries' own signs hold, on the right sideways is turned round. */
export const acrossOf = ({ image }: GripSpot): 1 | -1 => (image === 'right' ? -1 : 1);

interface Named {
  name: string;
}

type Image<T> = { part: T; image: Side | null };

/** Parts of a list by the names that they may have in the file, each list gone through once. */
const named = new WeakMap<readonly Named[], ReadonlyMap<string, Image<Named>[]>>();

function byFileName(list: readonly Named[]): ReadonlyMap<string, Image<Named>[]> {
  const found = new Map<string, Image<Named>[]>();
  for (const part of list) {
    const [, side, name] = /^(left|right) (.*)$/s.exec(part.name) ?? [];
    const images: [string, Side | null][] = [[part.name, null]];
    if (name !== undefined) images.push([name, side as Side]);
    for (const [each, image] of images) {
      const all = found.get(each) ?? [];
      found.set(each, [...all, { part, image }]);
    }
  }
  named.set(list, found);
  return found;
}

/** A part of the Build with the image that it is of a part called so in the file. */
const imagesIn = <T extends Named>(list: readonly T[], name: string): readonly Image<T>[] =>
  ((named.get(list) ?? byFileName(list)).get(name) ?? []) as unknown as Image<T>[];

type Found = Omit<GripSpot, 'image'> | null;

function spotsOf(build: Build, axle: Axle, path: string): GripSpot[] {
  const solid = /^solids\["((?:[^"\\]|\\.)*)"\]\.(\w+)\.(\w+)(?:\[(\d+)\])?$/.exec(path);
  if (solid) {
    const [, name = '', , key = '', index] = solid;
    return imagesIn(build.solids, name).flatMap(({ part, image }) => {
      // a size is no place
      const { size: _, ...shape } = part.shape as unknown as Record<string, unknown>;
      const at = index === undefined ? shape[key] : (shape[key] as unknown[])?.[Number(index)];
      return isVec3(at) ? [{ image, on: null, part: part.name, at }] : [];
    });
  }
  const datum = /^datums\["((?:[^"\\]|\\.)*)"\]\.point$/.exec(path)?.[1];
  if (datum !== undefined) return ofDatum(build, axle, datum, path);
  const own = `axles[${JSON.stringify(axle.name)}].`;
  if (!path.startsWith(own)) return [];
  const within = path.slice(own.length);
  const listed = /^(\w+(?:\.rams)?)\["((?:[^"\\]|\\.)*)"\]\.(.*)$/.exec(within);
  if (listed) return inList(axle, listed[1] ?? '', listed[2] ?? '', listed[3] ?? '');
  return ofAxle(build, axle, within);
}

/** A datum is no part; on the other axle it is not to be seen. */
function ofDatum({ places }: Build, axle: Axle, name: string, path: string): GripSpot[] {
  const own = places.filter(place => place.path === path);
  return imagesIn(own, name).flatMap(({ part: place, image }) => {
    const isElsewhere = place.body === 'axle' && place.axle !== axle.name;
    const on = place.body === 'axle' ? 'axle' : 'chassis';
    return isElsewhere ? [] : [{ image, on, part: place.name, at: place.at }];
  });
}

const isVec3 = (value: unknown): value is Vec3 =>
  Array.isArray(value) && value.length === 3 && value.every(each => typeof each === 'number');

/** Points of parts that stand in lists by their names. */
function inList(axle: Axle, list: string, name: string, field: string): GripSpot[] {
  const found = <T extends Named>(parts: readonly T[], point: (part: T) => Found): GripSpot[] =>
    imagesIn(parts, name).flatMap(({ part, image }) => {
      const at = point(part);
      return at ? [{ image, ...at }] : [];
    });
  const ends = (part: Named & { axle: Vec3; chassis: Vec3 }): Found =>
    field === 'axle' || field === 'chassis'
      ? { on: field, part: part.name, at: part[field] }
      : null;
  switch (list) {
    case 'links':
      return [
        ...found(axle.links, link => {
          const bend = bendOf(link, field);
          if (bend) return bend;
          return field === 'axle.at' || field === 'chassis.at'
            ? { on: bodyOf(field), part: link.name, at: link[bodyOf(field)].at }
            : null;
        }),
        ...found(axle.radiusArms, arm => {
          const bend = bendOf(arm, field);
          if (bend) return bend;
          const index = /^axle\[([01])\]\.at$/.exec(field)?.[1];
          if (index) return { on: 'axle', part: arm.name, at: arm.axle[index === '0' ? 0 : 1].at };
          return field === 'chassis.at'
            ? { on: 'chassis', part: arm.name, at: arm.chassis.at }
            : null;
        }),
      ];
    case 'joints':
      return found(axle.sharedJoints, joint =>
        field === 'at' ? { on: joint.on, part: joint.name, at: joint.at } : null,
      );
    case 'shocks':
      return found(axle.shocks, shock => {
        const end = /^reservoir\.capsule\.(from|to)$/.exec(field)?.[1];
        if (end === undefined) return ends(shock);
        const { reservoir, name } = shock;
        const at = reservoir?.[end === 'from' ? 'from' : 'to'];
        const on = reservoir?.on === 'chassis' ? 'chassis' : null;
        return at ? { on, part: `${name} reservoir`, at } : null;
      });
    case 'coils':
      return found(axle.coils, ends);
    case 'straps':
      return found(axle.straps, ends);
    case 'bumpStops':
      return found(axle.bumpStops, stop =>
        field === 'pad.at' || field === 'strike.at'
          ? pointOf(stop[field === 'pad.at' ? 'pad' : 'strike'], stop.name)
          : null,
      );
    case 'lines':
      return found(axle.lines, line =>
        field === 'from.at' || field === 'to.at'
          ? pointOf(line[field === 'from.at' ? 'from' : 'to'], line.name)
          : null,
      );
    case 'steering.rams':
      return found(axle.steering?.rams ?? [], ram =>
        field === 'body.at'
          ? { on: ram.body.on, part: ram.name, at: ram.body.at }
          : field === 'rod.at' && ram.rod
            ? { on: ram.rod.on, part: ram.name, at: ram.rod.at }
            : null,
      );
    default:
      return [];
  }
}

const pointOf = ({ on, at }: { on: string; at: Vec3 }, part: string): Found => ({ on, part, at });

const bodyOf = (field: string): 'axle' | 'chassis' => (field === 'axle.at' ? 'axle' : 'chassis');

function bendOf(part: Named & { through: readonly Vec3[] }, field: string): Found {
  const index = /^through\[(\d+)\]$/.exec(field)?.[1];
  const at = index === undefined ? undefined : part.through[Number(index)];
  return at ? { on: null, part: part.name, at } : null;
}

/** Points of what an axle has one of, or one of on each side. */
function ofAxle(build: Build, axle: Axle, field: string): GripSpot[] {
  const { steering, knuckles, swayBar, driveline, housing } = axle;
  const one = (on: string | null, part: string, at: Vec3 | null | undefined): GripSpot[] =>
    at ? [{ image: null, on, part, at }] : [];
  const knuckle = /^knuckles\.(?:(left|right)\.)?(kingpin\.lower|kingpin\.upper|shaftJoint)$/.exec(
    field,
  );
  if (knuckle && knuckles) {
    const [, side, key] = knuckle;
    const sides: readonly Side[] = side === 'left' || side === 'right' ? [side] : ['left', 'right'];
    return sides.flatMap((each): GripSpot[] => {
      const { kingpin, shaftJoint } = knuckles[each];
      const at =
        key === 'shaftJoint' ? shaftJoint : key === 'kingpin.lower' ? kingpin.lower : kingpin.upper;
      return at ? [{ image: side ? null : each, on: 'axle', part: `${each} knuckle`, at }] : [];
    });
  }
  const rod = /^steering\.(dragLink|tieRod)\.(?:(left|right)\.)?(from|to)\.at$/.exec(field);
  const bend = /^steering\.(dragLink|tieRod)\.(?:(left|right)\.)?(through\[\d+\])$/.exec(field);
  const [, which, side, last] = rod ?? bend ?? [];
  if (which && last && steering) {
    const rods =
      which === 'dragLink' ? (steering.dragLink ? [steering.dragLink] : []) : steering.tieRods;
    const isPair = rods.length > 1;
    return rods.flatMap((each): GripSpot[] => {
      const own: Side = each.name.startsWith('right') ? 'right' : 'left';
      if (side && own !== side) return [];
      const image = isPair && !side ? own : null;
      if (bend) {
        const found = bendOf(each, last);
        return found ? [{ image, ...found }] : [];
      }
      const end = last === 'from' ? each.from : each.to;
      return [{ image, on: end.on, part: each.name, at: end.at }];
    });
  }
  switch (field) {
    case 'steering.box.axis.at':
      return one('chassis', 'pitman arm', steering?.box?.axis.at);
    case 'swayBar.axis.at':
      return one('chassis', 'sway bar', swayBar?.axis.at);
    case 'driveline.pinion.joint':
      return one('axle', 'driveshaft', driveline?.pinion.joint);
    case 'driveline.transferCase.joint':
      return one('chassis', 'driveshaft', driveline?.transferCase.joint);
    case 'housing.differential.center':
      return one('axle', 'differential', housing.differential?.center);
    case 'housing.differential.cover.center':
      return one('axle', 'differential', housing.differential?.cover?.center);
    default:
      return ofSwayBar(build, axle, field);
  }
}

function ofSwayBar({ places }: Build, { name, swayBar }: Axle, field: string): GripSpot[] {
  const key = /^swayBar\.(?:arms|endLinks)\[\d\]\.(tip|axle)$/.exec(field)?.[1];
  if (!swayBar || !key) return [];
  // written once for both sides, or for one of them
  const own = places.filter(({ path }) => path === `axles["${name}"].${field}`);
  return swayBar.arms.flatMap(({ side, tip, axle }): GripSpot[] => {
    if (!own.some(place => place.name.endsWith(`.${side} ${key}`))) return [];
    return [
      {
        image: own.length > 1 ? side : null,
        on: key === 'tip' ? `${side} sway bar arm` : 'axle',
        part: 'sway bar',
        at: key === 'tip' ? tip : axle,
      },
    ];
  });
}

/** Distance under which points of one body may sit on one bracket, in. */
const BRACKET_in = 7;

/** Hardpoints that may sit on the same bracket as this one: near to it and on the same body, the nearest first. */
export function onSameBracket(grips: readonly Grip[], grip: Grip): Grip[] {
  const away = (other: Grip): number => {
    let least = Number.POSITIVE_INFINITY;
    for (const a of grip.spots) {
      for (const b of other.spots) {
        if (a.on === null || a.on !== b.on) continue;
        least = Math.min(
          least,
          Math.hypot(a.at[0] - b.at[0], a.at[1] - b.at[1], a.at[2] - b.at[2]),
        );
      }
    }
    return least;
  };
  return grips
    .filter(other => other !== grip)
    .map(other => ({ other, least: away(other) }))
    .filter(({ least }) => least < BRACKET_in)
    .sort((a, b) => a.least - b.least)
    .map(({ other }) => other);
}
