/**
 * Points: named places, points given from them, and the circles and unknown names that this can lead to.
 */

import type { z } from 'zod';
import type { Side, Vec3 } from '../build.ts';
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

/** A point as taped and after its chassis was carried over (frames.ts). */
interface Stages {
  taped: Vec3;
  standing: Vec3;
}

const nowhere: Stages = { taped: [0, 0, 0], standing: [0, 0, 0] };

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
      const origin = frames.origin(axle);
      this.known.set(`${axle} axle`, { taped: origin, standing: origin });
    }
    for (const name of ['ground', 'centerline']) this.known.set(name, nowhere);
  }

  /** Names a point. A place named twice keeps its first point; the names themselves are checked elsewhere. */
  add(name: string, written: WrittenPoint | null | undefined, setting: Setting): void {
    if (written && !this.places.has(name)) this.places.set(name, { ...setting, written });
  }

  /** A named place, vehicle axes at ride height. */
  at(name: string): Vec3 {
    const place = this.places.get(name);
    return place === undefined ? [0, 0, 0] : this.point(place.written, place);
  }

  has(name: string): boolean {
    return this.places.has(name);
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
    const { standing } = this.stages(written, setting, '');
    const ride = isOnBench(written, this.frames, setting)
      ? standing
      : this.frames.atRide(standing, setting);
    return onSide(ride, setting.image);
  }

  private isPlace(name: string): boolean {
    return this.places.has(name) || this.known.has(name);
  }

  /** A point before mirroring: mirrored parts are worked out on the left. `label` names it in a circle. */
  private stages(written: WrittenPoint, setting: Setting, label: string): Stages {
    const taped = this.taped(written, setting, label, 'taped');
    // A chassis point is taped on the day of the tape; all others stand at ride height, so that what they
    // are taped from has been carried over before.
    const standing =
      setting.body === 'chassis'
        ? this.frames.standing(taped, setting)
        : this.taped(written, setting, label, 'standing');
    return { taped, standing };
  }

  private taped(written: WrittenPoint, setting: Setting, label: string, stage: keyof Stages): Vec3 {
    const bench = isOnBench(written, this.frames, setting);
    if (bench && setting.body !== 'axle') {
      const wanted = '"vehicle", since this point is not on an axle';
      this.tell(`${setting.path}.frame`, 'bench', 'no bench carries it', wanted);
    }
    if (!('from' in written)) {
      return bench ? this.frames.pointFromBench(written, setting) : written;
    }
    const start = this.start(written.from, setting, label, stage);
    const offset = 'by' in written ? written.by : polar(written);
    const by = bench ? this.frames.offsetFromBench(offset, setting) : offset;
    return [start[0] + by[0], start[1] + by[1], start[2] + by[2]];
  }

  private start(
    from: string | [string, string, string],
    setting: Setting,
    label: string,
    stage: keyof Stages,
  ): Vec3 {
    if (typeof from === 'string') return this.named(from, setting, label, '')[stage];
    const [x, y, z] = from.map((name, i) => this.named(name, setting, label, `[${i}]`)[stage]);
    return [x?.[0] ?? 0, y?.[1] ?? 0, z?.[2] ?? 0];
  }

  private named(written: string, setting: Setting, label: string, index: string): Stages {
    const path = `${setting.path}.from${index}`;
    const name = this.meant(written, setting.image);
    if (name === null) {
      this.tell(path, written, 'there is no such place', this.suggestion(written));
      return nowhere;
    }
    const known = this.known.get(name);
    if (known === 'open') {
      const circle = label === '' ? name : `${label} → ${name}`;
      this.tell(
        path,
        written,
        `points refer to each other in a circle: ${circle}`,
        'a place that does not hang on this one',
      );
      return nowhere;
    }
    if (known !== undefined) return known;
    const place = this.places.get(name);
    if (place === undefined) return nowhere;
    this.known.set(name, 'open');
    const trail = label === '' ? name : `${label} → ${name}`;
    const before = this.stages(place.written, place, trail);
    const stages = {
      taped: onSide(before.taped, place.image),
      standing: onSide(before.standing, place.image),
    };
    this.known.set(name, stages);
    return stages;
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

function isOnBench(written: WrittenPoint, frames: Frames, setting: Setting): boolean {
  const frame = 'from' in written ? written.frame : null;
  return frame ? frame === 'bench' : frames.isBench(setting);
}

/** side: from X towards Z; front: from Y towards Z; plan: from X towards Y. */
function polar(written: Extract<WrittenPoint, { plane: string }>): Vec3 {
  const along = written.length * Math.cos(written.angle);
  const across = written.length * Math.sin(written.angle);
  if (written.plane === 'side') return [along, 0, across];
  return written.plane === 'front' ? [0, along, across] : [along, across, 0];
}
