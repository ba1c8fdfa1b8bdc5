/** Starts for tests: every layout, and answers at random within what is plausible. */
import fc from 'fast-check';
import type { Answer, Start } from '../../../geometry/build/start/answers.ts';
import {
  type AxleChoice,
  axleChoice,
  linkLayouts,
  type StartLayout,
  steeringLayouts,
  strapLayouts,
} from '../../../geometry/build/start/layouts.ts';
import type { Measurement } from '../../../geometry/build/start/measurement.ts';
import { measurementsFor } from '../../../geometry/build/start/measurements.ts';
import { surroundings } from '../../../geometry/build/start/surroundings.ts';

/** Every pair of link layout and steering, and the rear ones without steering. */
export function allLayouts(): StartLayout[] {
  const front = linkLayouts.flatMap(({ id: links }) =>
    steeringLayouts.flatMap(({ id: steering }) =>
      [false, true].map(assistRam => axleChoice('front', { links, steering, assistRam })),
    ),
  );
  const rear = linkLayouts.flatMap(({ id: links }) =>
    strapLayouts.map(({ id: straps }) => axleChoice('rear', { links, straps })),
  );
  const both = linkLayouts.map(({ id: links }): AxleChoice[] => [
    axleChoice('front', { links }),
    axleChoice('rear', { links }),
  ]);
  const alone = [...front, ...rear].map(axle => [axle]);
  return [...alone, ...both].map(axles => ({ axles, driverSide: 'left' }));
}

const layoutOf = fc.constantFrom(...allLayouts()).chain(layout =>
  fc.constantFrom('left' as const, 'right' as const).map(
    (driverSide): StartLayout => ({
      driverSide,
      axles: layout.axles.map(axle =>
        axle.differential === null ? axle : { ...axle, differential: driverSide },
      ),
    }),
  ),
);

/** A value between the least and the most that is plausible, in eighths or tenths of a degree. */
const typed = ({ least, most, dimension }: Measurement, unit: 'in' | 'mm') =>
  fc.double({ min: 0, max: 1, noNaN: true }).map(share => {
    const value = least + share * (most - least);
    if (dimension === 'angle') return `${Math.round((value * 1800) / Math.PI) / 10} deg`;
    if (unit === 'mm')
      return String(Math.ceil(least * 25.4) + Math.floor(share * (most - least) * 25));
    return String(Math.min(most, Math.max(least, Math.round(value * 8) / 8)));
  });

function answerOf(measurement: Measurement, unit: 'in' | 'mm'): fc.Arbitrary<Answer | null> {
  const one = typed(measurement, unit).map((value): Answer => ({ value }));
  const sided = fc
    .tuple(typed(measurement, unit), typed(measurement, unit))
    .map(([left, right]): Answer => ({ value: { left, right } }));
  const skipped = fc.constant(null);
  return measurement.sided ? fc.oneof(one, sided, skipped) : fc.oneof(one, skipped);
}

/** Any subset of answers, each anywhere within what is plausible, for any layout. */
export const anyStart: fc.Arbitrary<Start> = layoutOf.chain(layout =>
  fc.constantFrom('in' as const, 'mm' as const).chain(unit =>
    fc
      .record({
        answers: fc.tuple(
          ...measurementsFor(layout).map(each =>
            answerOf(each, unit).map(answer => [each.id, answer] as const),
          ),
        ),
        near: fc.subarray(surroundings.map(({ id }) => id)),
        rise: fc.constantFrom('0', '2 1/2 in', '100 mm'),
        rake: fc.constantFrom('0', '1.5 deg', '-1 deg'),
      })
      .map(
        ({ answers, near, rise, rake }): Start => ({
          name: 'any',
          unit,
          layout,
          near,
          stands: { rise, rake },
          answers: Object.fromEntries(
            answers.flatMap(([id, answer]) => (answer === null ? [] : [[id, answer]])),
          ),
        }),
      ),
  ),
);
