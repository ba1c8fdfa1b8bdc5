/**
 * Points: named places, points given from them, and the circles and unknown names that this can lead to.
 */

import type { z } from 'zod';
import type { Place as NamedPlace, Side, Vec3 } from '../build.ts';
import { nearest } from '../nearest.ts';
import { type Problem, shown } from '../problem.ts';
import type { Evaluated } from '../schema/entry.ts';
import type { point } from '../schema/point.ts';
import type { Carrier, Frames } from './frames.ts';
import { onSide } from './sides.ts';

export type WrittenPoint = Evaluated<z.infer<typeof point>>;

/** Where a point stands in the file, and on what. */
export interface Setting extends Carrier {
  /** Which image of a mirrored part it belongs to. */
  image: Side | null;
  path: string;
}

interface Place extends Setting {
  written: WrittenPoint;
}

/** A point at the three stages of frames.ts. */
interface Stages {
  taped: Vec3;
  standing: Vec3;
  ride: Vec3;
}

/** Names of places on the way to a point, each taped from the next. */
type Trail = readonly string[];

/** Most places in one chain; a tape hangs on a handful, and the call stack ends somewhere. */
const LONGEST_CHAIN = 64;

const everywhere = (p: Vec3): Stages => ({ taped: p, standing: p, ride: p });
const nowhere = everywhere([0, 0, 0]);

export class Places {
  /** Problems with names: unknown places, circles. */
  readonly problems: Problem[] = [];
  private readonly frames: Frames;
  private readonly places = new Map<string, Place>();
  private readonly known = new Map<string, Stages | 'open'>();
  private readonly told = new Set<string>();

  constructor(frames: Frames) {
    this.frames = frames;
    for (const axle of ['front', 'rear'] as const) {
      this.known.set(`${axle} axle`, everywhere(frames.origin(axle)));
    }
    for (const name of ['ground', 'centerline']) this.known.set(name, nowhere);
  }

  /** Names a point. A place named twice keeps its first point; the names themselves are checked elsewhere. */
  add(name: string, written: WrittenPoint | null | undefined, setting: Setting): void {
    if (written && !this.places.has(name)) this.places.set(name, { ...setting, written });
  }

  /** A named place, vehicle axes at ride height. */
  at(name: string): Vec3 {
    return this.stagesOf(name, []).ride;
  }

  /** Works out every named place, so that what is wrong with one that nothing hangs on is told too. */
  checkAll(): void {
    for (const name of this.places.keys()) this.at(name);
  }

  /** Every place with its name, those that are built in first. */
  all(): NamedPlace[] {
    return [...this.known.keys()].map(name => {
      const place = this.places.get(name);
      return {
        name,
        path: place?.path ?? null,
        body: place?.body ?? 'none',
        axle: place?.axle ?? null,
        at: this.at(name),
      };
    });
  }

  /** Path of the field that gives this place, or null for one that is built in. */
  pathOf(name: string): string | null {
    return this.places.get(name)?.path ?? null;
  }

  /** The place that this name means in a part of this image: in a mirrored part `X` also means its `left X`. */
  meant(name: string, image: Side | null): string | null {
    if (this.isPlace(name)) return name;
    return image !== null && this.isPlace(`left ${name}`) ? `left ${name}` : null;
  }

  /** Any point, vehicle axes at ride height. */
  point(written: WrittenPoint, setting: Setting): Vec3 {
    return this.stages(written, setting, []).ride;
  }

  private isPlace(name: string): boolean {
    return this.places.has(name) || this.known.has(name);
  }

  /** A named place; worked out once. `trail` leads to it. */
  private stagesOf(name: string, trail: Trail): Stages {
    const known = this.known.get(name);
    if (known !== undefined && known !== 'open') return known;
    const place = this.places.get(name);
    if (place === undefined || known === 'open') return nowhere;
    this.known.set(name, 'open');
    const stages = this.stages(place.written, place, [...trail, name]);
    this.known.set(name, stages);
    return stages;
  }

  /**
   * A point as it is written, then its mirror image where it is on the right. A chassis point was taped on
   * the day of the tape; any other stands at ride height, and what it is taped from has been carried there.
   */
  private stages(written: WrittenPoint, setting: Setting, trail: Trail): Stages {
    const { frames } = this;
    const isChassis = setting.body === 'chassis';
    const typed = this.typed(written, setting, trail, isChassis ? 'taped' : 'standing');
    const standing = isChassis ? frames.standing(typed, setting) : typed;
    const ride = frames.atRide(standing, setting);
    if (setting.image !== 'right') return { taped: typed, standing, ride };
    const image = onSide(ride, 'right');
    const imageStanding = frames.standingFrom(image, setting);
    const imageTaped = isChassis ? frames.tapedFrom(imageStanding, setting) : imageStanding;
    return { taped: imageTaped, standing: imageStanding, ride: image };
  }

  /** What was typed, in the axes of the shop floor at that stage. */
  private typed(written: WrittenPoint, setting: Setting, trail: Trail, stage: keyof Stages): Vec3 {
    const bench = this.isOnBench(written, setting);
    if (!('from' in written)) {
      return bench ? this.frames.pointFromBench(written, setting) : written;
    }
    const start = this.start(written.from, setting, trail, stage);
    const offset = 'by' in written ? written.by : polar(written);
    const by = bench ? this.frames.offsetFromBench(offset, setting) : offset;
    return [start[0] + by[0], start[1] + by[1], start[2] + by[2]];
  }

  private isOnBench(written: WrittenPoint, setting: Setting): boolean {
    const isBench = this.frames.isBench(setting);
    const frame = 'from' in written ? written.frame : null;
    if (frame === 'bench' && !isBench) {
      const wanted = '"vehicle", or "frame": "bench" on the axle that carries it';
      this.tell(`${setting.path}.frame`, 'bench', 'no bench carries this point', wanted);
    }
    return isBench && frame !== 'vehicle';
  }

  private start(
    from: string | [string, string, string],
    setting: Setting,
    trail: Trail,
    stage: keyof Stages,
  ): Vec3 {
    if (typeof from === 'string') return this.named(from, setting, trail, '')[stage];
    const [x, y, z] = from.map((name, i) => this.named(name, setting, trail, `[${i}]`)[stage]);
    return [x?.[0] ?? 0, y?.[1] ?? 0, z?.[2] ?? 0];
  }

  private named(written: string, setting: Setting, trail: Trail, index: string): Stages {
    const path = `${setting.path}.from${index}`;
    const name = this.meant(written, setting.image);
    if (name === null) {
      this.tell(path, written, 'there is no such place', this.suggestion(written));
      return nowhere;
    }
    const known = this.known.get(name);
    if (known === 'open') {
      const circle = [...trail.slice(trail.indexOf(name)), name];
      if (circle.length > 12) circle.splice(6, circle.length - 12, '…');
      const message = `points refer to each other in a circle: ${circle.join(' → ')}`;
      this.tell(path, written, message, 'a place that does not hang on this one');
      return nowhere;
    }
    if (known === undefined && trail.length >= LONGEST_CHAIN) {
      const message = `${LONGEST_CHAIN} places hang on each other up to here`;
      this.tell(path, written, message, 'a place that is nearer to a built-in one');
      return nowhere;
    }
    return this.stagesOf(name, trail);
  }

  private suggestion(written: string): string {
    const names = [...this.known.keys(), ...this.places.keys()];
    const left = `left ${written}`;
    const near = names.includes(left) ? left : nearest(written, names);
    return near === null
      ? 'the name of a datum, of a shared joint, or of an end such as "lower link.axle"'
      : `"${near}"`;
  }

  private tell(path: string, found: string, message: string, wanted: string): void {
    if (this.told.has(path)) return;
    this.told.add(path);
    this.problems.push({ path, found: shown(found), message, wanted });
  }
}

/** side: from X towards Z; front: from Y towards Z; plan: from X towards Y. */
function polar(written: Extract<WrittenPoint, { plane: string }>): Vec3 {
  const along = written.length * Math.cos(written.angle);
  const across = written.length * Math.sin(written.angle);
  if (written.plane === 'side') return [along, 0, across];
  return written.plane === 'front' ? [0, along, across] : [along, across, 0];
}
