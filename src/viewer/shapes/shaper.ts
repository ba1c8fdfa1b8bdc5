/**
 * Puts simple bodies together into one geometry: tubes along bent lines, turned bodies, balls, blocks. All in the
 * frame that the points are given in (vehicle axes as drawn, in), with normals that are smooth along round faces
 * and sharp at edges.
 */
import { BufferAttribute, BufferGeometry } from 'three';
import {
  add,
  anySquare,
  cross,
  distance,
  dot,
  norm,
  scale,
  sub,
  unit,
  type V3,
} from '../../../geometry/vector.ts';
import { rounded } from './bend.ts';

/** A point of a turned body's outline: how far along the axis, and how far off it, in. */
export type Outline = readonly (readonly [along: number, radius: number])[];

/** Faces that meet at less than this are drawn as one round face: cosine of 40°. */
const SMOOTH = Math.cos((40 * Math.PI) / 180);

export class Shaper {
  readonly #positions: number[] = [];
  readonly #normals: number[] = [];
  readonly #indices: number[] = [];

  get isEmpty(): boolean {
    return this.#indices.length === 0;
  }

  /** A tube along points, its corners bent to a radius, its ends cut square. */
  tube(points: readonly V3[], radius: number, sides = 14, bend = 2.5 * radius): this {
    const line = points.length > 2 ? rounded(points, bend) : points;
    if (line.length < 2 || distance(line[0] as V3, line.at(-1) as V3) === 0) return this;
    let u = anySquare(unit(sub(line[1] as V3, line[0] as V3)));
    const rings: { center: V3; u: V3; v: V3; along: V3 }[] = [];
    for (const [i, center] of line.entries()) {
      const before = line[i - 1] ?? center;
      const after = line[i + 1] ?? center;
      const along = unit(add(unit(sub(center, before)), unit(sub(after, center))));
      // carried along without twist
      u = unit(sub(u, scale(along, dot(u, along))));
      rings.push({ center, u, v: cross(along, u), along });
    }
    const first = this.#count();
    for (const { center, u: a, v: b } of rings) {
      for (let k = 0; k < sides; k++) {
        const angle = (2 * Math.PI * k) / sides;
        const out = add(scale(a, Math.cos(angle)), scale(b, Math.sin(angle)));
        this.#vertex(add(center, scale(out, radius)), out);
      }
    }
    for (let i = 0; i + 1 < rings.length; i++) {
      this.#band(first + i * sides, first + (i + 1) * sides, sides);
    }
    const [head, tail] = [rings[0], rings.at(-1)];
    if (head) this.#disk(head.center, scale(head.along, -1), radius, sides);
    if (tail) this.#disk(tail.center, tail.along, radius, sides);
    return this;
  }

  /** A body turned about the axis through `at`; the outline runs along the axis, material on its axis side. */
  turned(at: V3, axis: V3, outline: Outline, sides = 20): this {
    const u = anySquare(axis);
    const v = cross(axis, u);
    const steps = outline.slice(1).map((next, i) => {
      const [a, r] = outline[i] as readonly [number, number];
      const [da, dr] = [next[0] - a, next[1] - r];
      const length = Math.hypot(da, dr) || 1;
      // outward of a step along the axis
      return [-dr / length, da / length] as const;
    });
    for (const [i, own] of steps.entries()) {
      const ends = [outline[i], outline[i + 1]] as const;
      const normals = ([-1, 1] as const).map(by => {
        const other = steps[i + by];
        const meets = other && own[0] * other[0] + own[1] * other[1] > SMOOTH;
        const sum = meets ? [own[0] + other[0], own[1] + other[1]] : own;
        const length = Math.hypot(sum[0] as number, sum[1] as number) || 1;
        return [(sum[0] as number) / length, (sum[1] as number) / length] as const;
      });
      const first = this.#count();
      for (const e of [0, 1] as const) {
        const [along, radius] = ends[e] as readonly [number, number];
        const [na, nr] = normals[e] as readonly [number, number];
        const center = add(at, scale(axis, along));
        for (let k = 0; k < sides; k++) {
          const angle = (2 * Math.PI * k) / sides;
          const out = add(scale(u, Math.cos(angle)), scale(v, Math.sin(angle)));
          this.#vertex(add(center, scale(out, radius)), add(scale(axis, na), scale(out, nr)));
        }
      }
      this.#band(first, first + sides, sides);
    }
    return this;
  }

  /** A round bar from one point to another, thinner or thicker at its end, with flat faces. */
  bar(from: V3, to: V3, radius: number, atEnd = radius, sides = 16): this {
    const length = distance(from, to);
    if (length === 0) return this;
    const outline: Outline = [
      [0, 0],
      [0, radius],
      [length, atEnd],
      [length, 0],
    ];
    return this.turned(from, unit(sub(to, from)), outline, sides);
  }

  /** A bar about a middle, along an axis, its edges broken. */
  drum(middle: V3, axis: V3, radius: number, length: number, sides = 20, edge = 0.08): this {
    const half = length / 2;
    const b = Math.min(edge, half, radius);
    const outline: Outline = [
      [-half, 0],
      [-half, radius - b],
      [-half + b, radius],
      [half - b, radius],
      [half, radius - b],
      [half, 0],
    ];
    return this.turned(middle, axis, outline, sides);
  }

  /** A ring about an axis: outer and inner radius, its edges broken. */
  ring(
    middle: V3,
    axis: V3,
    outer: number,
    inner: number,
    width: number,
    sides = 24,
    edge = 0.1,
  ): this {
    const half = width / 2;
    const b = Math.min(edge, half, (outer - inner) / 2);
    return this.turned(
      middle,
      axis,
      [
        [-half, inner],
        [-half, outer - b],
        [-half + b, outer],
        [half - b, outer],
        [half, outer - b],
        [half, inner],
        [-half, inner],
      ],
      sides,
    );
  }

  ball(center: V3, radius: number, sides = 18): this {
    const outline: [number, number][] = [];
    const rows = Math.max(4, Math.round(sides / 2));
    for (let i = 0; i <= rows; i++) {
      const angle = (Math.PI * i) / rows;
      outline.push([-radius * Math.cos(angle), radius * Math.sin(angle)]);
    }
    return this.turned(center, [0, 0, 1], outline, sides);
  }

  /** A bar with round ends. */
  capsule(from: V3, to: V3, radius: number, sides = 18): this {
    const length = distance(from, to);
    if (length === 0) return this.ball(from, radius, sides);
    const outline: [number, number][] = [];
    for (let i = 0; i <= 5; i++) {
      const angle = (Math.PI * i) / 10;
      outline.push([-radius * Math.cos(angle), radius * Math.sin(angle)]);
    }
    for (let i = 0; i <= 5; i++) {
      const angle = (Math.PI * i) / 10;
      outline.push([length + radius * Math.sin(angle), radius * Math.cos(angle)]);
    }
    return this.turned(from, unit(sub(to, from)), outline, sides);
  }

  /** A block: its middle, its three unit axes, its half sizes along them. */
  block(middle: V3, axes: readonly [V3, V3, V3], half: V3): this {
    for (const i of [0, 1, 2] as const) {
      for (const sign of [-1, 1]) {
        const n = scale(axes[i], sign);
        const j = ((i + 1) % 3) as 0 | 1 | 2;
        const k = ((i + 2) % 3) as 0 | 1 | 2;
        const a = scale(axes[j], half[j] * sign);
        const b = scale(axes[k], half[k]);
        const face = add(middle, scale(n, half[i]));
        this.face([
          add(sub(face, a), scale(b, -1)),
          add(add(face, a), scale(b, -1)),
          add(add(face, a), b),
          add(sub(face, a), b),
        ]);
      }
    }
    return this;
  }

  /** A flat face, its corners counterclockwise from outside. */
  face(corners: readonly V3[]): this {
    const [a, b, c] = corners;
    if (!a || !b || !c) return this;
    const n = unit(cross(sub(b, a), sub(c, a)));
    const first = this.#count();
    for (const corner of corners) this.#vertex(corner, n);
    for (let i = 2; i < corners.length; i++) this.#indices.push(first, first + i - 1, first + i);
    return this;
  }

  /** Triangles of another geometry, in the same frame. */
  also(other: BufferGeometry): this {
    const at = other.getAttribute('position');
    const normal = other.getAttribute('normal');
    const first = this.#count();
    for (let i = 0; i < at.count; i++) {
      this.#vertex(
        [at.getX(i), at.getY(i), at.getZ(i)],
        [normal.getX(i), normal.getY(i), normal.getZ(i)],
      );
    }
    const index = other.getIndex();
    for (let i = 0; i < (index?.count ?? at.count); i++) {
      this.#indices.push(first + (index ? index.getX(i) : i));
    }
    other.dispose();
    return this;
  }

  geometry(): BufferGeometry {
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(Float32Array.from(this.#positions), 3));
    geometry.setAttribute('normal', new BufferAttribute(Float32Array.from(this.#normals), 3));
    const Index = this.#count() > 65535 ? Uint32Array : Uint16Array;
    geometry.setIndex(new BufferAttribute(Index.from(this.#indices), 1));
    return geometry;
  }

  #count(): number {
    return this.#positions.length / 3;
  }

  #vertex(at: V3, normal: V3): void {
    this.#positions.push(...at);
    const length = norm(normal) || 1;
    this.#normals.push(normal[0] / length, normal[1] / length, normal[2] / length);
  }

  /** Two triangles between each two neighbors of two rings. */
  #band(first: number, second: number, sides: number): void {
    for (let k = 0; k < sides; k++) {
      const next = (k + 1) % sides;
      this.#indices.push(
        first + k,
        first + next,
        second + next,
        first + k,
        second + next,
        second + k,
      );
    }
  }

  #disk(center: V3, normal: V3, radius: number, sides: number): void {
    const u = anySquare(normal);
    const v = cross(normal, u);
    const corners = Array.from({ length: sides }, (_, k) => {
      const angle = (2 * Math.PI * k) / sides;
      return add(
        center,
        add(scale(u, radius * Math.cos(angle)), scale(v, radius * Math.sin(angle))),
      );
    });
    this.face(corners);
  }
}
