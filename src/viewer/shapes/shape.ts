/** What a part is drawn with: geometries with a look each, in vehicle axes as drawn. */
import type { BufferGeometry } from 'three';
import type { Axle, Build } from '../../../geometry/build/build.ts';
import type { Part } from '../../../geometry/gap/part.ts';
import { dot, scale, sub, unit, type V3 } from '../../../geometry/vector.ts';
import type { LookName } from '../looks.ts';
import { Shaper } from './shaper.ts';

export interface Shape {
  look: LookName;
  geometry: BufferGeometry;
  /**
   * Of a part between two ends: this shape keeps its length and is held at that end (0 first, 1 last), instead of
   * being stretched with the part.
   */
  hold?: 0 | 1;
  /** The same geometry many times: sixteen numbers a copy, columns of its matrix. */
  copies?: Float32Array;
  /** Rewrites the geometry for a length between the part's ends, in. */
  wind?: (length: number) => void;
}

export interface PartShape {
  part: Part;
  shapes: Shape[];
  /** How it was drawn, and what of the axle from: the same part drawn so from the same looks the same. */
  by: Drawer;
  from: unknown;
}

/** Shapers by look: a part is drawn in few pieces, one a look. */
export class Palette {
  readonly #shapers = new Map<
    string,
    { look: LookName; hold: 0 | 1 | undefined; shaper: Shaper }
  >();
  readonly #more: Shape[] = [];

  in(look: LookName, hold?: 0 | 1): Shaper {
    const key = `${look} ${hold ?? ''}`;
    let found = this.#shapers.get(key);
    if (!found) {
      found = { look, hold, shaper: new Shaper() };
      this.#shapers.set(key, found);
    }
    return found.shaper;
  }

  put(shape: Shape): void {
    this.#more.push(shape);
  }

  shapes(): Shape[] {
    const made = [...this.#shapers.values()]
      .filter(({ shaper }) => !shaper.isEmpty)
      .map(({ look, hold, shaper }): Shape => {
        const geometry = shaper.geometry();
        return hold === undefined ? { look, geometry } : { look, geometry, hold };
      });
    return [...made, ...this.#more];
  }
}

/** A part that is about to be drawn. */
export interface Drawing {
  from: unknown;
  into(palette: Palette): void;
}

/** Draws a kind of part; null where this part is not of that kind. */
export type Drawer = (part: Part, axle: Axle, build: Build) => Drawing | null;

/**
 * How a kind of part is drawn.
 *
 * @param from what of the axle it is drawn from beside the part itself; null where the part is not of this kind
 * @param draw sees nothing else of the axle
 */
export function drawer<From extends object>(
  from: (part: Part, axle: Axle, build: Build) => From | null | undefined | false | '',
  draw: (part: Part, from: From, palette: Palette) => void,
): Drawer {
  return (part, axle, build) => {
    const found = from(part, axle, build);
    return found ? { from: found, into: palette => draw(part, found, palette) } : null;
  };
}

/** `a` square to the unit vector `n`, or `other` where it runs along `n`. */
export function square(a: V3, n: V3, other: V3): V3 {
  const rest = sub(a, scale(n, dot(a, n)));
  return Math.hypot(...rest) > 1e-6 ? unit(rest) : other;
}
