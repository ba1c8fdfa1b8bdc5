/** What must hold of every gap, whatever its value: on seeded cases of each pair of shapes. */
import { describe, expect, it } from 'vitest';
import { DistanceSolver, type Gap, pairStart } from '../../geometry/solid/distance.ts';
import { type Placement, placement } from '../../geometry/solid/placement.ts';
import type { Solid } from '../../geometry/solid/solid.ts';
import { gapAlong } from '../../geometry/solid/support.ts';
import { type Case, casesOf, pairsOfKinds, type Shape } from '../oracle/solidCases.ts';
import { moved, onSurface, placementOf, solidOfCase } from './made.ts';

const seed = 4711;
const count = Number(process.env.AXLEWALK_SOLID_INVARIANTS ?? 150);
/** Solved to: the bounds of the search meet within 1e-9 in; rounding at sizes of 50 in is 1e-14. */
const solved_in = 5e-9;
/**
 * What a turn of the normal makes of a gap: bounds within 1e-9 in leave it off by √(2e-9 / distance), and faces over
 * which nothing changes by 1e-8, over shapes that reach 10 in.
 */
const turned_in = 2e-7;
/** Points where cores overlap, on round shapes: the depth search stops at 1e-5 in. */
const deepPoints_in = 2e-5;

interface Placed {
  a: Solid;
  placeA: Placement;
  b: Solid;
  placeB: Placement;
}

function placedOf(each: Case): Placed {
  return {
    a: solidOfCase(each.a),
    placeA: placementOf(each.placeA),
    b: solidOfCase(each.b),
    placeB: placementOf(each.placeB),
  };
}

const solver = new DistanceSolver();

function gapOf({ a, placeA, b, placeB }: Placed): Gap {
  solver.run(a, placeA, b, placeB);
  const gap = solver.result();
  if (gap === null) throw new Error('beyond a cutoff that is infinite');
  return gap;
}

const between = (p: ArrayLike<number>, q: ArrayLike<number>): number =>
  Math.hypot(...[0, 1, 2].map(i => (p[i] as number) - (q[i] as number)));

const isRound = (shape: Shape) => shape.kind === 'cylinder' || shape.kind === 'tire';

for (const [kindA, kindB] of pairsOfKinds) {
  describe(`${kindA} and ${kindB} (seed ${seed})`, () => {
    const cases = [...casesOf(kindA, kindB, seed, count)];
    const isMesh = kindB === 'mesh';

    it('have finite results, and points on both surfaces that span the gap', () => {
      for (const [k, each] of cases.entries()) {
        const placed = placedOf(each);
        const gap = gapOf(placed);
        const numbers = [gap.gap, ...gap.pointA, ...gap.pointB, ...gap.normal];
        expect(numbers.every(Number.isFinite), `case ${k}`).toBe(true);
        for (const along of [gap.alongA, gap.alongB]) {
          if (along !== null) expect(along >= 0 && along <= 1, `case ${k}`).toBe(true);
        }
        const deep = gap.gap < 0 && (isRound(each.a) || isRound(each.b));
        const near = deep ? deepPoints_in : 1e-7;
        expect(Math.abs(Math.hypot(...gap.normal) - 1), `case ${k}`).toBeLessThan(1e-9);
        const end = gap.pointA.map((p, i) => p + gap.gap * (gap.normal[i] as number));
        expect(between(end, gap.pointB), `case ${k}: span`).toBeLessThan(near);
        expect(onSurface(each.a, each.placeA, gap.pointA), `case ${k}: a`).toBeLessThan(near);
        expect(onSurface(each.b, each.placeB, gap.pointB), `case ${k}: b`).toBeLessThan(near);
      }
    });

    it('do not depend on which is named first', () => {
      for (const [k, each] of cases.entries()) {
        const placed = placedOf(each);
        const one = gapOf(placed);
        const { a, placeA, b, placeB } = placed;
        const other = gapOf({ a: b, placeA: placeB, b: a, placeB: placeA });
        expect(Math.abs(one.gap - other.gap), `case ${k}`).toBeLessThan(solved_in);
      }
    });

    it('keep their gap when both are moved as one', () => {
      const turn = placement([0.36, 0.48, -0.8, -0.8, 0.6, 0, 0.48, 0.64, 0.6], [13, -7, 29]);
      for (const [k, each] of cases.entries()) {
        const placed = placedOf(each);
        const one = gapOf(placed);
        const { a, placeA, b, placeB } = placed;
        const other = gapOf({ a, placeA: moved(turn, placeA), b, placeB: moved(turn, placeB) });
        expect(Math.abs(one.gap - other.gap), `case ${k}`).toBeLessThan(solved_in);
      }
    });

    it('close their gap when one is moved along the normal', () => {
      for (const [k, each] of cases.entries()) {
        const placed = placedOf(each);
        const one = gapOf(placed);
        // a mesh need not be convex, and pieces of a bent tube may come nearer from elsewhere
        if (isMesh || one.gap <= 0) continue;
        const by = [0.5 * one.gap, one.gap].map(step => {
          const place = placed.placeB.slice();
          for (let i = 0; i < 3; i++) {
            place[9 + i] = (place[9 + i] as number) - step * (one.normal[i] as number);
          }
          return gapOf({ ...placed, placeB: place }).gap;
        });
        expect(by[0] as number, `case ${k}: half`).toBeLessThan(0.5 * one.gap + turned_in);
        expect(by[1] as number, `case ${k}: touching`).toBeLessThan(turned_in);
        if (kindA !== 'bentTube' && kindB !== 'bentTube') {
          expect(by[0] as number, `case ${k}: half`).toBeGreaterThan(0.5 * one.gap - turned_in);
          expect(by[1] as number, `case ${k}: touching`).toBeGreaterThan(-turned_in);
        }
      }
    });

    it('are bounded from below along every direction, and met along the normal', () => {
      if (isMesh) return;
      const directions = [
        [1, 0, 0],
        [0, -1, 0],
        [0.6, 0, 0.8],
        [-0.48, 0.6, -0.64],
      ];
      for (const [k, each] of cases.entries()) {
        const placed = placedOf(each);
        const gap = gapOf(placed);
        const along = (n: readonly number[]): number =>
          Math.min(
            ...placed.a.pieces.flatMap(p =>
              placed.b.pieces.map(q =>
                gapAlong(p, placed.placeA, q, placed.placeB, n[0] ?? 0, n[1] ?? 0, n[2] ?? 0),
              ),
            ),
          );
        for (const n of directions) {
          expect(along(n), `case ${k}`).toBeLessThan(gap.gap + solved_in);
        }
        const single = placed.a.pieces.length === 1 && placed.b.pieces.length === 1;
        if (single && gap.gap > 1e-3) {
          expect(along(gap.normal), `case ${k}`).toBeGreaterThan(gap.gap - turned_in);
        }
      }
    });

    it('come out the same from a start and under a cutoff', () => {
      const start = pairStart();
      for (const [k, each] of cases.entries()) {
        const { a, placeA, b, placeB } = placedOf(each);
        solver.run(a, placeA, b, placeB);
        const gap = solver.gap;
        solver.run(a, placeA, b, placeB, start);
        expect(Math.abs(solver.gap - gap), `case ${k}: start`).toBeLessThan(solved_in);
        solver.cutoff = gap + 0.01;
        solver.run(a, placeA, b, placeB, start);
        expect(solver.beyond, `case ${k}: within`).toBe(false);
        expect(Math.abs(solver.gap - gap), `case ${k}: cutoff`).toBeLessThan(solved_in);
        solver.cutoff = gap - 0.01;
        solver.run(a, placeA, b, placeB, start);
        // rods are measured whatever the cutoff
        if (!(a.rods && b.rods)) expect(solver.beyond, `case ${k}: beyond`).toBe(true);
        expect(solver.gap, `case ${k}: lower bound`).toBeLessThan(gap + solved_in);
        expect(solver.gap, `case ${k}: under the cutoff`).toBeGreaterThan(gap - 0.01 - 1e-12);
        solver.cutoff = Infinity;
      }
    });
  });
}
