/**
 * A part as it is written for one side: from a mirrored one, which is written for the left, or from its twin on the
 * other side. Points and directions change the sign of y, clockings and turns their sense; entries without a sign
 * stay as typed. Names of places, joints and bodies become those of that side.
 */
import type { z } from 'zod';
import type { Side, Vec3 } from './build.ts';
import { negated, supplement } from './negated.ts';
import { own } from './problem.ts';
import { nameOnSide } from './resolve/sides.ts';
import { linkEnd } from './schema/link.ts';
import { direction, point } from './schema/point.ts';
import { isOf, schemaOf, settled, unwrapped } from './schema/walk.ts';
import type { WrittenEntry } from './tape.ts';

/** What names mean in the build that the part stands in. */
export interface Names {
  /** Where a place is, vehicle axes as drawn; null for none of that name. */
  place(name: string): Vec3 | null;
  /** A joint as it is written, with its own name; null for none. */
  joint(name: string): { mirrored: boolean; written: Readonly<Record<string, unknown>> } | null;
  /** Whether there is a body of that name. */
  body(name: string): boolean;
}

/** Why a part has no mirror image in writing. */
export class NoImage extends Error {}

/** From what a part is rewritten, and for what: a mirrored part is written for the left side. */
export interface Turn {
  from: 'mirrored' | Side;
  to: 'mirrored' | Side;
}

const sideIn = (written: 'mirrored' | Side): Side => (written === 'right' ? 'right' : 'left');

/** Places nearer than this to each other's mirror image are alike, in. */
const ALIKE_in = 1e-6;

/**
 * @param schema that the value was read by
 * @throws NoImage where a point hangs on what is not alike on both sides
 */
export function rewritten(
  schema: z.core.$ZodType,
  value: unknown,
  turn: Turn,
  names: Names,
): unknown {
  return new Rewriter(turn, names).walk(schema, value);
}

class Rewriter {
  private readonly turn: Turn;
  private readonly names: Names;
  /** Whether the value goes to the other side. */
  private readonly crosses: boolean;

  constructor(turn: Turn, names: Names) {
    this.turn = turn;
    this.names = names;
    this.crosses = sideIn(turn.from) !== sideIn(turn.to);
  }

  walk(schema: z.core.$ZodType, value: unknown): unknown {
    if (value === null || typeof value !== 'object') return value;
    const plain = unwrapped(schema);
    if (isOf(plain, point)) return this.point(value);
    if (isOf(plain, direction)) return this.crosses ? acrossIn(value) : value;
    const here = settled(schema, value);
    if (here === null) return value;
    if (Array.isArray(value)) {
      return value.map((item, i) => {
        const of = schemaOf(here, i);
        return of === null ? item : this.walk(of, item);
      });
    }
    const fields = Object.fromEntries(
      Object.entries(value).map(([key, field]) => [key, this.field(here, key, field)]),
    );
    return isOf(plain, linkEnd) ? this.end(value, fields) : fields;
  }

  private field(schema: z.core.$ZodType, key: string, value: unknown): unknown {
    // a clocking of a joint or an end; a turn of a rod about its line
    const isTurn = key === 'clocking' || (key === 'at' && schemaOf(schema, 'held') !== null);
    if (isTurn) return this.crosses && isWritten(value) ? negated(value) : value;
    if (typeof value === 'string' && key === 'joint') return this.joint(value);
    if (typeof value === 'string' && key === 'on') return this.body(value);
    const of = schemaOf(schema, key);
    return of === null ? value : this.walk(of, value);
  }

  private point(value: object): unknown {
    if (Array.isArray(value)) return this.crosses ? acrossIn(value) : value;
    const from = own(value, 'from');
    const start = Array.isArray(from)
      ? from.map((name, axis) => this.place(String(name), axis))
      : this.place(String(from), null);
    const moved = { ...value, from: start };
    if (!this.crosses) return moved;
    const by = own(value, 'by');
    if (Array.isArray(by)) return { ...moved, by: acrossIn(by) };
    const angle = own(value, 'angle') as WrittenEntry;
    const plane = own(value, 'plane');
    if (plane === 'front') return { ...moved, angle: supplement(angle) };
    return plane === 'plan' ? { ...moved, angle: negated(angle) } : moved;
  }

  /** @param axis of which the place gives the coordinate; null for all three */
  private place(name: string, axis: number | null): string {
    const { from, to } = this.turn;
    const isLeft = from === 'mirrored' && this.names.place(name) === null;
    const meant = isLeft ? `left ${name}` : name;
    const there = this.crosses ? this.across(meant, axis) : meant;
    return to === 'mirrored' ? this.once(there) : there;
  }

  /** The place that is on the other side what this one is here. */
  private across(name: string, axis: number | null): string {
    const at = this.names.place(name);
    if (at === null) return name;
    const twin = [nameOnSide(name, 'right'), endAcross(name)].find(
      each => each !== name && this.names.place(each) !== null,
    );
    const image = this.names.place(twin ?? name) ?? at;
    const differs = ([0, 1, 2] as const).filter(
      i => Math.abs(image[i] - (i === 1 ? -at[1] : at[i])) > ALIKE_in,
    );
    if (axis === null ? differs.length === 0 : !differs.includes(axis as 0)) return twin ?? name;
    if (axis === 0 || axis === 2) return name;
    throw new NoImage(`a point is taped from "${name}", which is not alike on both sides`);
  }

  /** The name that a mirrored part calls a left place by. */
  private once(name: string): string {
    const rest = /^left (.*)$/.exec(name)?.[1];
    if (rest === undefined || this.names.place(rest) !== null) return name;
    return this.names.place(`right ${rest}`) === null ? name : rest;
  }

  private joint(name: string): string {
    const { from, to } = this.turn;
    if (from === 'mirrored') {
      const own = this.names.joint(`left ${name}`);
      const isPair = own !== null && this.names.joint(`right ${name}`) !== null;
      return isPair ? `${sideIn(to)} ${name}` : name;
    }
    const side = sideIn(from);
    const rest = name.startsWith(`${side} `) ? name.slice(side.length + 1) : null;
    const other = side === 'left' ? 'right' : 'left';
    if (rest === null || this.names.joint(`${other} ${rest}`) === null) return name;
    return to === 'mirrored' ? rest : `${sideIn(to)} ${rest}`;
  }

  private body(name: string): string {
    const { from, to } = this.turn;
    if (from === 'mirrored') {
      const meant = nameOnSide(name, sideIn(to));
      return this.names.body(meant) || !this.names.body(`${sideIn(to)} ${name}`)
        ? meant
        : `${sideIn(to)} ${name}`;
    }
    return this.crosses ? nameOnSide(name, 'right') : name;
  }

  /**
   * A kind of joint that both sides name is turned with a mirrored part; a part of one side takes it as it is, so that
   * the right one says for itself what is turned.
   */
  private end(value: object, fields: Readonly<Record<string, unknown>>): unknown {
    const joint = own(value, 'joint');
    if (typeof joint !== 'string' || this.joint(joint) !== joint) return fields;
    const found = this.names.joint(joint);
    if (!found || found.mirrored || found.written.at != null) return fields;
    const turned = Object.entries({
      bolt: acrossIn,
      bore: acrossIn,
      clocking: (entry: unknown) => (isWritten(entry) ? negated(entry) : entry),
    }).flatMap(([key, turn]) => {
      const common = found.written[key];
      const image = common == null ? common : turn(common);
      return isSame(image, common) ? [] : [{ key, common, image }];
    });
    const out: Record<string, unknown> = { ...fields };
    for (const { key, common, image } of turned) {
      if (this.turn.to === 'right') out[key] ??= image;
      else if (this.turn.from === 'right') {
        // what it said for itself is what the joint says on the left
        if (isSame(out[key], common)) delete out[key];
        else out[key] ??= image;
      }
    }
    return out;
  }
}

/** `sway bar.left tip` → `sway bar.right tip`, and the other way. */
const endAcross = (name: string): string =>
  name.replace(/\.(left|right) /, (_, side) => (side === 'left' ? '.right ' : '.left '));

const isWritten = (value: unknown): value is WrittenEntry =>
  typeof value === 'number' ||
  typeof value === 'string' ||
  (typeof value === 'object' && value !== null && own(value, 'value') !== undefined);

/** A point or direction with y of the other sign. */
function acrossIn(value: unknown): unknown {
  if (!Array.isArray(value)) return value;
  const y: unknown = value[1];
  return isWritten(y) ? value.with(1, negated(y)) : value;
}

const isSame = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);
