/**
 * What an exact axle and its steering obey, written in complex numbers from the Build alone, so that its
 * derivatives come by complex steps (Squire and Trapp 1998; from memory): nothing of the solver is in it.
 *
 * Unknowns: x, y, yaw, pitch, turn of the left knuckle, turn of the right one. Parameters: left, right, steer.
 */
import type { Axle, Rod, RodEnd, Vec3 } from '../../geometry/build/build.ts';
import {
  about3,
  add,
  add3,
  type Complex,
  type Complex3,
  cos,
  cross3,
  dot3,
  mul,
  mul3,
  real,
  real3,
  sin,
  sqrt,
  sub,
  sub3,
  unit3,
} from './complex.ts';
import { distance, minus, solveLinear, unit } from './witness.ts';

const half = real(0.5);

/** The axle frame at complex unknowns: its origin and its three axes. */
interface Frame {
  o: Complex3;
  x: Complex3;
  y: Complex3;
  z: Complex3;
}

export class Equations {
  readonly axle: Axle;
  /** 1 or −1: the sense of the input about (along) the entered axis that turns the wheels left. */
  readonly sense: number;
  readonly rods: Rod[];

  constructor(axle: Axle, sense: number) {
    this.axle = axle;
    this.sense = sense;
    const steering = axle.steered ? axle.steering : null;
    this.rods = [steering?.dragLink, ...(steering?.tieRods ?? [])].filter(rod => !!rod);
  }

  get unknowns(): number {
    return this.axle.steered ? 6 : 4;
  }

  #frame(q: Complex[], p: Complex[]): Frame {
    const [x0, y0, yaw, pitch] = q as [Complex, Complex, Complex, Complex];
    const [left, right] = p as [Complex, Complex];
    const s = mul(sub(left, right), real(1 / this.axle.wheelCenters));
    const c = sqrt(sub(real(1), mul(s, s)));
    const level: Complex3 = [cos(yaw), sin(yaw), real(0)];
    const y: Complex3 = [mul(sub(real(0), sin(yaw)), c), mul(cos(yaw), c), s];
    // turned about y by the pitch from where its x is level
    const x = add3(mul3(cos(pitch), level), mul3(sin(pitch), cross3(y, level)));
    const rise = mul(half, add(left, right));
    return { o: [x0, y0, add(real(this.axle.origin[2]), rise)], x, y, z: cross3(x, y) };
  }

  #place(f: Frame, local: Complex3): Complex3 {
    return add3(f.o, add3(mul3(local[0], f.x), add3(mul3(local[1], f.y), mul3(local[2], f.z))));
  }

  #local(f: Frame, p: Complex3): Complex3 {
    const d = sub3(p, f.o);
    return [dot3(d, f.x), dot3(d, f.y), dot3(d, f.z)];
  }

  /** A rod's end in the axle frame. */
  #end(e: RodEnd, f: Frame, q: Complex[], p: Complex[]): Complex3 {
    const { axle } = this;
    const drawn = minus(e.at, axle.origin);
    const input = mul(real(this.sense), p[2] as Complex);
    if (e.on === 'left knuckle' || e.on === 'right knuckle') {
      const side = e.on === 'left knuckle' ? 'left' : 'right';
      const { lower, upper } = (axle.knuckles as NonNullable<Axle['knuckles']>)[side].kingpin;
      const pivot = minus(lower, axle.origin);
      const turn = q[side === 'left' ? 4 : 5] as Complex;
      const arm = about3(unit(minus(upper, lower)), turn, real3(minus(drawn, pivot)));
      return add3(real3(pivot), arm);
    }
    if (e.on === 'pitman arm') {
      const axis = axle.steering?.box?.axis as { at: Vec3; direction: Vec3 };
      const arm = about3(axis.direction, input, real3(minus(e.at, axis.at)));
      return this.#local(f, add3(real3(axis.at), arm));
    }
    if (e.on === 'ram rod') {
      const axis = axle.steering?.rams.find(ram => ram.kind === 'double')?.axis as Vec3;
      return add3(real3(drawn), mul3(input, real3(axis)));
    }
    const rod = this.rods.find(r => r.name === e.on) as Rod;
    const from = this.#end(rod.from, f, q, p);
    const to = this.#end(rod.to, f, q, p);
    const line = unit(minus(rod.to.at, rod.from.at));
    // the smallest turn of the line, by two reflections; then its own roll about the line as drawn
    const a = real3(line);
    const b = unit3(sub3(to, from));
    const middle = unit3(add3(a, b));
    const v = about3(line, real(rod.roll.at), real3(minus(e.at, rod.from.at)));
    const once = sub3(mul3(mul(real(2), dot3(a, v)), a), v);
    return add3(from, sub3(mul3(mul(real(2), dot3(middle, once)), middle), once));
  }

  /** (|d|² − L²)/2 of every length: zero at a pose. */
  residual(q: Complex[], p: Complex[]): Complex[] {
    const f = this.#frame(q, p);
    const open = (d: Complex3, length: number): Complex =>
      mul(half, sub(dot3(d, d), real(length * length)));
    const { origin, links } = this.axle;
    return [
      ...links.map(l =>
        open(
          sub3(this.#place(f, real3(minus(l.axle.at, origin))), real3(l.chassis.at)),
          l.length ?? distance(l.axle.at, l.chassis.at),
        ),
      ),
      ...this.rods.map(rod =>
        open(
          sub3(this.#end(rod.to, f, q, p), this.#end(rod.from, f, q, p)),
          rod.length ?? distance(rod.from.at, rod.to.at),
        ),
      ),
    ];
  }

  /** Derivatives of the unknowns by left, right and steer at a pose: rows by unknown. */
  derivatives(unknowns: readonly number[], parameters: readonly number[]): number[][] {
    const h = 1e-40;
    const slopes = (which: 'q' | 'p', i: number): number[] => {
      const shifted = (values: readonly number[], own: boolean): Complex[] =>
        values.map((re, k) => ({ re, im: own && k === i ? h : 0 }));
      const F = this.residual(shifted(unknowns, which === 'q'), shifted(parameters, which === 'p'));
      return F.map(value => value.im / h);
    };
    const columns = unknowns.map((_, i) => slopes('q', i));
    const A = unknowns.map((_, r) => columns.map(column => column[r] as number));
    const solved = [0, 1, 2].map(i =>
      solveLinear(
        A,
        slopes('p', i).map(x => -x),
      ),
    );
    return unknowns.map((_, r) => solved.map(column => column[r] as number));
  }
}
