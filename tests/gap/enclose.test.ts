/**
 * Enclosures of the motion over cells: the true values and derivatives of any pose of a cell, by jets (second-order
 * Taylor arithmetic, which shares no interval with them), lie inside, and the bounds are not far above.
 */
import { describe, expect, test } from 'vitest';
import type { Axle } from '../../geometry/build/build.ts';
import { CellMotion, encloseAxle, type Parameters } from '../../geometry/gap/cellMotion.ts';
import { secondAt, type Taylor } from '../../geometry/gap/taylor.ts';
import { type Jet, SECOND } from '../../geometry/pose/jet.ts';
import type { V3 } from '../../geometry/vector.ts';
import { longArms, modelOf, shortArms } from '../pose/layouts.ts';

/** The minimal standard generator of Park and Miller, so that each run draws the same cells. */
function draws(seed: number): () => number {
  let s = seed;
  return () => {
    s = (s * 16807) % 2147483647;
    return s / 2147483647;
  };
}

/** Rounding of sums of numbers up to 1e3 in either arithmetic. */
const ROUNDING = 1e-9;

const points: [string, V3][] = [
  ['axle', [1, 9.5, 14]],
  ['left knuckle', [0, 40, 30]],
  ['right knuckle', [0, -40, 30]],
  ['tie rod', [6.75, 20, 17.75]],
  ['drag link', [7.1, 0, 25]],
];

/** Half the edge of a cell: travels in in, input in rad; the exact one is a base cell of the proof. */
const cases: { name: string; axle: () => Axle; half: number }[] = [
  { name: 'exact', axle: longArms, half: 0.5 },
  { name: 'elastic', axle: shortArms, half: 0.25 },
];

describe.each(cases)('$name layout', ({ axle, half }) => {
  test('every pose of a cell lies in its enclosure, and K is not far above the truth (seed 7)', () => {
    const random = draws(7);
    const model = modelOf(axle());
    const parameters: Parameters = { third: { kind: 'input' }, travels: true };
    const ratios: number[] = [];
    let looked = 0;
    for (let k = 0; k < 12; k++) {
      const center = [(random() - 0.5) * 10, (random() - 0.5) * 10, (random() - 0.5) * 0.8];
      const halves = [half, half, half / 10];
      const [l, r, s] = center as [number, number, number];
      const pose = model.pose(l, r, s).pose;
      if (!pose) continue;
      const motion = CellMotion.over(
        model.mechanism,
        pose,
        parameters,
        center.map((c, j) => ({ center: c, half: halves[j] as number })),
        model.steering?.sense || 1,
        travels => encloseAxle(model.mechanism, pose, travels),
      );
      expect(motion, `cell about ${center}`).not.toBeNull();
      if (!motion) continue;
      for (const [body, drawn] of points) {
        const enclosed = motion.bodyPoint(body, drawn);
        expect(enclosed, body).not.toBeNull();
        if (!enclosed) continue;
        for (let draw = 0; draw < 6; draw++) {
          const at = center.map((c, j) => c + (2 * random() - 1) * (halves[j] as number));
          const there =
            draw === 0 ? pose : model.pose(at[0] as number, at[1] as number, at[2]).pose;
          if (!there) continue;
          const truth = there.pointJets(body, drawn);
          for (let c = 0; c < 3; c++) {
            const jet = truth[c] as Jet;
            const box = enclosed[c] as Taylor;
            const holds = (value: number, i: number): void => {
              expect(
                Math.abs(value - (box[i] as number)),
                `${body} ${c} ${i} at ${at}`,
              ).toBeLessThanOrEqual((box[i + 1] as number) + ROUNDING);
              looked++;
            };
            holds(jet[0] as number, 0);
            for (let j = 0; j < 3; j++) {
              holds(jet[1 + j] as number, 2 + 2 * j);
              holds(jet[SECOND[j]?.[j] as number] as number, secondAt(3, j));
            }
          }
          if (draw > 0 || body !== 'axle') continue;
          for (const j of [0, 1]) {
            const size = (of: (c: number) => number): number => Math.hypot(of(0), of(1), of(2));
            const bound = size(c => {
              const box = enclosed[c] as Taylor;
              return Math.abs(box[secondAt(3, j)] as number) + (box[secondAt(3, j) + 1] as number);
            });
            const real = size(c => (truth[c] as Jet)[SECOND[j]?.[j] as number] as number);
            ratios.push(bound / real);
          }
        }
      }
    }
    ratios.sort((a, b) => a - b);
    const worst = ratios.at(-1) as number;
    console.info(
      `${looked} numbers held; bound ÷ true for a point of the axle: median ${ratios[ratios.length >> 1]?.toFixed(2)}, worst ${worst.toFixed(2)}`,
    );
    expect(looked).toBeGreaterThan(2000);
    expect(worst).toBeLessThan(20);
  });
});
