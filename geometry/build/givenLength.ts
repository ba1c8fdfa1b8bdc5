/** The length of a link or rod: as drawn, from its two points, or as somebody gives it. */
import { norm, sub } from '../vector.ts';
import { type Json, pathSteps, valueAt } from './address.ts';
import type { Axle } from './build.ts';
import { appliedFile, type Edit, type Edited, withEntry, withField } from './edit.ts';
import { own } from './problem.ts';

/** A part whose length can be given, as it stands on the vehicle: both images of a mirrored one. */
export interface Sized {
  name: string;
  /** Between its two ends as drawn, in. */
  drawn: number;
  /** As given; null: as drawn. */
  given: number | null;
}

/**
 * The links, track bars, drag links and tie rods that a part of the file stands for; none for any other part.
 *
 * @param path of the part: `axles["front"].links["lower link"]`, `axles["front"].steering.dragLink`
 */
export function sizedParts({ links, steering, name: axle }: Axle, path: string): Sized[] {
  const own = `axles[${JSON.stringify(axle)}].`;
  if (!path.startsWith(own)) return [];
  const within = path.slice(own.length);
  const named = /^links\["((?:[^"\\]|\\.)*)"\]$/.exec(within)?.[1];
  if (named !== undefined) {
    const names = [named, `left ${named}`, `right ${named}`];
    return links
      .filter(link => names.includes(link.name))
      .map(({ name, axle: a, chassis: b, length }) => sized(name, a.at, b.at, length));
  }
  const rods =
    within === 'steering.dragLink'
      ? [steering?.dragLink ?? null]
      : within === 'steering.tieRod'
        ? (steering?.tieRods ?? [])
        : [];
  return rods.flatMap(rod => (rod ? [sized(rod.name, rod.from.at, rod.to.at, rod.length)] : []));
}

type Point = Axle['origin'];

const sized = (name: string, from: Point, to: Point, given: number | null): Sized => ({
  name,
  drawn: norm(sub(from, to)),
  given,
});

/** The axle with these parts as long as they are drawn. */
export function asDrawn(axle: Axle, parts: readonly Sized[]): Axle {
  const names = new Set(parts.map(({ name }) => name));
  const drawn = <T extends { name: string; length: number | null }>(part: T): T =>
    names.has(part.name) ? { ...part, length: null } : part;
  const { steering } = axle;
  return {
    ...axle,
    links: axle.links.map(drawn),
    steering: steering && {
      ...steering,
      dragLink: steering.dragLink && drawn(steering.dragLink),
      tieRods: steering.tieRods.map(drawn),
    },
  };
}

/**
 * The file with the length of a part given, or with that taken out.
 *
 * @param path of the part
 * @param typed null: as drawn
 */
export function withGivenLength(edited: Edited, path: string, typed: string | null): Edit {
  const file: Json = appliedFile(edited);
  const steps = pathSteps(file, path);
  const part = steps && valueAt(file, steps);
  if (!steps || typeof part !== 'object' || part === null) {
    return { ok: false, message: `${path} is no part of this build` };
  }
  if (typed !== null && own(part, 'length') != null) {
    return withEntry(edited, `${path}.length`, { value: typed });
  }
  if (typed !== null || edited.variant !== null) {
    return withField(edited, [...steps, 'length'], typed);
  }
  const { length: _, ...rest } = part as Record<string, unknown>;
  return withField(edited, steps, rest);
}
