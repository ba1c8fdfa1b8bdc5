/** A proposal opens and walks, whatever was answered so far. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { problemLines } from '../../../geometry/build/read.ts';
import type { Start } from '../../../geometry/build/start/answers.ts';
import { axleChoice, type StartLayout } from '../../../geometry/build/start/layouts.ts';
import { measurementsFor } from '../../../geometry/build/start/measurements.ts';
import { propose } from '../../../geometry/build/start/propose.ts';
import { type OpenedBuild, openBuild } from '../../../geometry/cycle/open.ts';
import { findRange } from '../../../geometry/cycle/range.ts';
import { Reach } from '../../../geometry/cycle/reach.ts';
import { problemsOfWanted } from '../../../geometry/finding/wanted.ts';
import { problemsOfPairs } from '../../../geometry/gap/pairNames.ts';
import { allLayouts, anyStart } from './starts.ts';

const SEED = 20250611;

const start = (layout: StartLayout, more: Partial<Start> = {}): Start => ({
  name: 'truck',
  unit: 'in',
  layout,
  answers: {},
  ...more,
});

const front: StartLayout = { axles: [axleChoice('front')], driverSide: 'left' };

function opened(from: Start): OpenedBuild {
  const { file } = propose(from);
  const result = openBuild(JSON.stringify(file));
  if (!result.ok) throw new Error(problemLines(result.problems).join('\n'));
  return result;
}

/** The stops allow ride height and some travel around it. */
function walks(build: OpenedBuild): boolean {
  return build.axles.every(({ axle, model }) => {
    const { range } = findRange(build.build, axle, model, null);
    return range.holdsRide && range.edge.length > 3;
  });
}

test.each(
  allLayouts().map(
    layout =>
      [
        layout.axles
          .map(
            ({ name, links, steering, assistRam, straps }) =>
              `${name} ${links} ${steering} ${assistRam} ${straps}`,
          )
          .join(' + '),
        layout,
      ] as const,
  ),
)('nothing answered: %s opens, names what there is, and walks', (_, layout) => {
  const build = opened(start(layout));
  expect([...problemsOfWanted(build.build), ...problemsOfPairs(build.build)]).toEqual([]);
  expect(walks(build)).toBe(true);
});

/** Ride height lies inside the stops, the steering has room, and poses exist an inch around it. */
function starts(build: OpenedBuild): boolean {
  return build.axles.every(({ axle, model }) => {
    const reach = new Reach(build.build, axle, model);
    if (!(reach.travel(0, 0).margin > 0)) return false;
    const around = [
      [0, 0],
      [1, 1],
      [-1, -1],
      [1, -1],
      [-1, 1],
    ] as const;
    return around.every(([left, right]) => {
      const { pose } = model.pose(left, right);
      if (!pose) return false;
      const turn = axle.steered ? reach.steering(pose) : null;
      return !axle.steered || (turn !== null && turn.least.value < 0 && turn.greatest.value > 0);
    });
  });
}

test(`any subset of plausible answers opens and walks (seed ${SEED})`, () => {
  fc.assert(
    fc.property(anyStart, from => starts(opened(from))),
    { seed: SEED, numRuns: 100 },
  );
});

test('every proposed number says that it is assumed, and how far off it may be', () => {
  for (const layout of allLayouts()) {
    const { build } = opened(start(layout));
    const settled = build.entries.filter(
      ({ path, from, tolerance }) =>
        !/^wanted\.(bands|gaps)/.test(path) && (from !== 'assumed' || tolerance === null),
    );
    expect(settled.map(({ path }) => path)).toEqual([]);
  }
});

test('what was taped stands in the file as it was typed', () => {
  const { file } = propose(
    start(front, {
      answers: {
        wheelbase: { value: `9'4"` },
        'front.lowerFrameHeight': { value: '21 3/8' },
        'front.lowerAxleHeight': { value: '-3 1/2', from: 'wheelCenter' },
        'front.wheelHeight': { value: '20' },
        'front.pinionAngle': { value: '6.5 deg' },
      },
    }),
  );
  const { build } = opened(start(front));
  expect(build.wheelbase).toBe(115);
  expect(file).toMatchObject({ wheelbase: { value: `9'4"`, from: 'measured' } });
  const read = openBuild(JSON.stringify(file));
  if (!read.ok) throw new Error('it opens');
  const [axle] = read.build.axles;
  const link = axle?.links.find(({ name }) => name === 'left lower link');
  expect(link?.chassis.at[2]).toBe(21.375);
  expect(link?.axle.at[2]).toBe(16.5);
  expect(axle?.driveline?.pinion.axis[2]).toBeCloseTo(Math.sin((6.5 * Math.PI) / 180), 12);
});

test('a link runs as far fore and aft as its length and the heights of its ends leave (Pythagoras)', () => {
  const { build } = opened(
    start(front, {
      answers: {
        'front.lowerAxleHeight': { value: '16' },
        'front.lowerFrameHeight': { value: '22' },
        'front.lowerLength': { value: '37' },
      },
    }),
  );
  const link = build.axles[0]?.links.find(({ name }) => name === 'right lower link');
  const [axle, chassis] = [link?.axle.at, link?.chassis.at];
  if (!axle || !chassis) throw new Error('a lower link');
  // written to 1/16 in, and so are both ends: off by no more than half of that each
  expect(Math.hypot(...axle.map((v, i) => v - (chassis[i] ?? 0)))).toBeCloseTo(37, 1);
  expect(chassis[0]).toBeLessThan(axle[0]);
});

test('left and right taped apart stand in the file apart', () => {
  const { build } = opened(
    start(front, {
      answers: {
        'front.lowerFrameHeight': { value: { left: '21 1/2', right: '21' } },
        'front.wheelHeight': { value: { left: '19 1/2', right: '19 1/4' } },
      },
    }),
  );
  const at = (name: string) => build.axles[0]?.links.find(each => each.name === name)?.chassis.at;
  expect(at('left lower link')?.[2]).toBe(21.5);
  expect(at('right lower link')?.[2]).toBe(21);
  expect(at('left lower link')?.[1]).toBeCloseTo(-(at('right lower link')?.[1] ?? 0), 12);
  expect(build.warnings.join()).toMatch(/level/);
});

test('the frame is carried up by the planned rise, the axle is not', () => {
  const now = opened(start(front)).build.axles[0];
  const then = opened(start(front, { stands: { rise: '3' } })).build.axles[0];
  const z = (axle: typeof now, end: 'axle' | 'chassis') => axle?.links[0]?.[end].at[2] ?? 0;
  expect(z(then, 'chassis') - z(now, 'chassis')).toBeCloseTo(3, 9);
  expect(z(then, 'axle')).toBe(z(now, 'axle'));
});

test('a frame end that the link does not reach is told by its field, and the proposal still walks', () => {
  const from = start(front, {
    answers: {
      'front.lowerAxleHeight': { value: '10' },
      'front.lowerFrameHeight': { value: '40' },
      'front.lowerLength': { value: '25' },
    },
  });
  const { problems } = propose(from);
  expect(problems).toEqual([
    {
      path: 'front.lowerFrameHeight',
      found: '"40"',
      message: 'steeper than a link can be that is as long as this one',
      wanted: 'from -5 to 25 in',
    },
  ]);
  expect(walks(opened(from))).toBe(true);
});

test('an answer that cannot be right is told with what would be, and left out', () => {
  const { problems, file } = propose(
    start(front, {
      answers: {
        'front.wheelHeight': { value: '180' },
        'front.wheelCenters': { value: '3 kg' },
        'front.pinionAngle': { value: { left: '4', right: '5' } },
        'front.bumpGap': { value: '3', from: 'wheelCenter' },
      },
      stands: { rise: '9 ft' },
    }),
  );
  expect(problems.map(({ path, message }) => [path, message])).toEqual([
    ['front.wheelHeight', 'too large to be right'],
    ['front.wheelCenters', '3 kg is a mass'],
    ['front.pinionAngle', 'it has no sides'],
    ['front.bumpGap', 'not taped from there'],
    ['rise', 'too large to be right'],
  ]);
  expect(problems[0]?.wanted).toBe('from 10 to 30 in, such as 18 1/2');
  expect(walks(opened(start(front)))).toBe(true);
  expect(JSON.stringify(file)).not.toContain('180');
});

test('every measurement is drawn between two points that the proposal places', () => {
  for (const layout of allLayouts()) {
    const { anchors } = propose(start(layout));
    for (const { from, to } of measurementsFor(layout)) {
      expect(anchors).toHaveProperty([from]);
      expect(anchors).toHaveProperty([to]);
      expect(anchors[from]).not.toEqual(anchors[to]);
    }
  }
});

test('every rule names a field that is there and says where it comes from', () => {
  for (const layout of allLayouts()) {
    const { rules, file } = propose(start(layout));
    const names = JSON.stringify(file);
    for (const { path, sentence } of rules) {
      expect(sentence).toMatch(/common practice, no source|Pythagoras/);
      for (const [, name] of path.matchAll(/\["([^"]+)"\]/g)) expect(names).toContain(`"${name}"`);
    }
  }
});

test('a walk around the vehicle has about a dozen measurements, each id once', () => {
  for (const layout of allLayouts().filter(({ axles }) => axles.length === 1)) {
    const ids = measurementsFor(layout).map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids.length).toBeGreaterThanOrEqual(12);
    expect(ids.length).toBeLessThanOrEqual(16);
  }
});
