/**
 * Bounds of the motion over cells: true positions and derivatives at any pose of a cell, by jets (second-order Taylor
 * arithmetic, which shares nothing with first-order forms), lie within them, on random layouts of every family and kind of
 * steering; and the bounds are not far above the truth.
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { AxleEnclosure } from '../../geometry/gap/axleCell.ts';
import { bendsOfBasis, CellBodies, type Frame } from '../../geometry/gap/cellBodies.ts';
import { type Box, most, spread } from '../../geometry/gap/forms.ts';
import { assemble } from '../../geometry/mechanism/assemble.ts';
import { type Jet, SECOND } from '../../geometry/pose/jet.ts';
import { type AxleModel, settle } from '../../geometry/pose/model.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import { add, type V3 } from '../../geometry/vector.ts';
import { plausible } from '../pose/arbitrary.ts';

const seed = 8855;
/** Layouts that are drawn. */
const RUNS = 60;
/** Half of a cell: travels, in; input, rad or in. About the size at which most pairs are decided. */
const TRAVEL = 0.25;
const INPUT = { rad: 0.02, in: 0.15 };
/** Rounding of sums of numbers up to 1e3 in either arithmetic; of second derivatives near soft directions more. */
const ROUNDING = 1e-7;
const bend = new Float64Array(6);

/** Bodies of a model with a point of each, vehicle axes as drawn. */
function pointsOf({ mechanism: m }: AxleModel): [string, V3][] {
  const beside = (at: readonly number[]): V3 =>
    add([at[0], at[1], at[2]] as unknown as V3, [2, -1, 3]);
  const fromAxle = (at: readonly number[]): V3 => beside(add(at as unknown as V3, m.origin as V3));
  const s = m.steering;
  return [
    ['axle', beside(m.origin)],
    ...m.arms.map((arm): [string, V3] => [arm.name, beside(arm.center)]),
    ...m.points.map((point): [string, V3] => [
      point.name,
      point.on === 'axle' ? add(point.home as V3, m.origin as V3) : (point.home as V3),
    ]),
    ...(s
      ? [
          ['left knuckle', fromAxle(s.left.pivot)] as [string, V3],
          ['right knuckle', fromAxle(s.right.pivot)] as [string, V3],
          ...s.rods.map((rod): [string, V3] => [
            rod.name,
            rod.from.on === 'pitman arm' ? beside(rod.from.at) : fromAxle(rod.from.at),
          ]),
        ]
      : []),
  ];
}

/** A point with its derivatives seen from the axle: y = Rᵀ(x − o), by finite products of jets. */
function truth(pose: Pose, body: string, drawn: V3): Jet[] {
  return pose.pointJets(body, drawn);
}

test('every pose of a cell lies within its bounds, which are under twenty times the truth', () => {
  const ratios: number[] = [];
  let looked = 0;
  let cells = 0;
  let open = 0;
  fc.assert(
    fc.property(
      plausible,
      fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 9, maxLength: 9 }),
      (axle, draws) => {
        const assembly = assemble(axle);
        if (!assembly.ok) return;
        const settled = settle(assembly.mechanism);
        if (!settled.ok) return;
        const { model } = settled;
        const m = model.mechanism;
        const unit = m.steering?.unit ?? 'rad';
        const share = (i: number): number => (draws[i] as number) / 1000;
        const input = m.steering ? share(2) * (unit === 'rad' ? 0.3 : 2) : 0;
        const [l, r] = [4 * share(0), 4 * share(1)];
        const pose = model.pose(l, r, input).pose;
        if (!pose) return;
        const cell = new AxleEnclosure(m).over(pose.axle, [TRAVEL, TRAVEL]);
        cells++;
        if (!cell) {
          open++;
          return;
        }
        const half = INPUT[unit];
        const bodies = new CellBodies(
          m,
          pose,
          { travels: true, third: m.steering ? { kind: 'input' } : null },
          cell,
          [TRAVEL, TRAVEL, half, 0],
          model.steering?.sense || 1,
        );
        const frame: Frame = 'chassis';
        for (const [body, drawn] of pointsOf(model)) {
          const form = bodies.point(body, drawn, frame);
          if (!form) {
            open++;
            continue;
          }
          for (const away of [0, 1, 2]) {
            const there =
              away === 0
                ? pose
                : model.pose(
                    l + TRAVEL * share(2 + away),
                    r + TRAVEL * share(4 + away),
                    m.steering ? input + half * share(6 + away) : 0,
                  ).pose;
            if (!there) continue;
            const jets = truth(there, body, drawn);
            for (const k of [0, 1, 2] as const) {
              if (k === 2 && !m.steering) continue;
              let size = 0;
              for (let c = 0; c < 3; c++) {
                const jet = jets[c] as Jet;
                const second = jet[SECOND[k]?.[k] as number] as number;
                const holds = (value: number, box: Box, what: string): void => {
                  looked++;
                  const off = Math.abs(value - (box[c] as number)) - spread(box, c);
                  expect(off, `${what} of ${body} by ${k}`).toBeLessThanOrEqual(
                    ROUNDING * (1 + Math.abs(value)),
                  );
                };
                holds(jet[0] as number, form.value, 'place');
                holds(jet[1 + k] as number, form.first[k], 'rate');
                holds(second, form.second[k], 'bend');
                // and by the body's axes, as the proof has it for all points of a body
                const basis = bodies.basis(body, frame);
                if (!basis) throw new Error(`${body} has points and no axes`);
                bendsOfBasis(basis, drawn, k, bend, 0);
                const off = Math.abs(second - (bend[c] as number)) - (bend[3 + c] as number);
                expect(off, `bend of ${body} by ${k} from its axes`).toBeLessThanOrEqual(
                  ROUNDING * (1 + Math.abs(second)),
                );
                size += second * second;
              }
              if (away > 0 || size < 1e-8) continue;
              const box = form.second[k];
              ratios.push(Math.hypot(most(box, 0), most(box, 1), most(box, 2)) / Math.sqrt(size));
            }
          }
        }
      },
    ),
    { seed, numRuns: RUNS },
  );
  ratios.sort((a, b) => a - b);
  const at = (share: number): string => (ratios[Math.floor(share * ratios.length)] ?? 0).toFixed(2);
  const worst = ratios.at(-1) as number;
  console.info(
    `seed ${seed}: ${looked} numbers of ${cells} cells held, ${open} not enclosed; ` +
      `bound ÷ true: median ${at(0.5)}, 99 of 100 under ${at(0.99)}, worst ${worst.toFixed(2)}`,
  );
  expect(looked).toBeGreaterThan(5000);
  expect(worst).toBeLessThan(20);
});
