import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Axle, Build } from '../../geometry/build/build.ts';
import type { Edit } from '../../geometry/build/edit.ts';
import {
  isSingle,
  isSteeringLayout,
  type NewPart,
  newPartsFor,
  type Offered,
  pathOfNew,
  ramTargets,
} from '../../geometry/build/newParts.ts';
import type { BuildFile } from '../../geometry/build/schema/file.ts';
import { withNewPart } from '../../geometry/build/withNewPart.ts';
import { writeBuild } from '../../geometry/build/write.ts';
import { type OpenedBuild, openBuild } from '../../geometry/cycle/open.ts';
import { Reach } from '../../geometry/cycle/reach.ts';

const folder = new URL('../../examples/', import.meta.url);
/** Each steering, an axle taped on the bench, one that leaned, a frame that is going to be raised. */
const examples = [
  'double-ram-front.axlewalk.json',
  'hung-tie-rod-front.axlewalk.json',
  'long-arm-front.axlewalk.json',
  'wishbone-rear.axlewalk.json',
];

/** All that is offered, a ram once for each pair of ends that it can have. */
function partsOf({ id }: Offered, axle: Axle): NewPart[] {
  const name = 'a new thing';
  if (isSteeringLayout(id)) return [{ kind: 'steering', layout: id }];
  if (isSingle(id)) return [{ kind: id }];
  if (id !== 'ram') return [{ kind: id, name }];
  return ramTargets(axle).flatMap(rod =>
    (['axle', 'chassis'] as const).map((body): NewPart => {
      return { kind: 'ram', name, ends: { body, rod } };
    }),
  );
}

function fileOf(edit: Edit): BuildFile {
  if (!edit.ok) throw new Error(edit.message);
  return edit.file;
}

/** The file with all but these fields of its axles: what hangs on them is left out with them. */
const without = (file: BuildFile, keys: readonly string[]): BuildFile => ({
  ...file,
  axles: file.axles.map(
    axle =>
      Object.fromEntries(
        Object.entries(axle).filter(([key]) => !keys.includes(key)),
      ) as unknown as typeof axle,
  ),
  variants: [],
  alternatives: [],
});

describe.each(examples)('%s', example => {
  const written: BuildFile = JSON.parse(readFileSync(new URL(example, folder), 'utf8'));
  const add = (file: BuildFile, part: NewPart, build: Build, axle: Axle) => {
    const opened = openBuild(
      writeBuild(fileOf(withNewPart({ file, variant: null }, part, build, axle))),
    );
    expect(opened.ok ? [] : opened.problems, JSON.stringify(part)).toEqual([]);
    if (!opened.ok) throw new Error('it is refused');
    return opened;
  };

  const file: BuildFile = { ...written, variants: [], alternatives: [] };
  const before = openBuild(writeBuild(file));
  if (!before.ok) throw new Error('the example is not read');

  test('whatever is offered stands, all of it assumed; what steers can be turned both ways', () => {
    for (const { axle } of before.axles) {
      for (const part of newPartsFor(axle).flatMap(each => partsOf(each, axle))) {
        const opened = add(file, part, before.build, axle);
        const path = pathOfNew(part, axle);
        const own = opened.build.entries.filter(entry => entry.path.startsWith(path));
        expect(own.length, path).toBeGreaterThan(3);
        const taped = own.filter(({ from }) => from !== 'assumed').map(entry => entry.path);
        // a bar's axis lies straight across by its making
        expect(taped.filter(each => !each.includes('.axis.direction'))).toEqual([]);
        if (part.kind === 'steering' || part.kind === 'ram') expectTurned(opened, axle, part);
      }
    }
  });

  test('what was taken out whole is offered, and walks again', () => {
    const bare = without(written, ['swayBar', 'driveline', 'housing']);
    const stripped = openBuild(writeBuild(bare));
    if (!stripped.ok) throw new Error(JSON.stringify(stripped.problems));
    for (const { axle } of stripped.axles) {
      for (const kind of ['swayBar', 'driveline', 'housing'] as const) {
        expect(newPartsFor(axle).map(({ id }) => id)).toContain(kind);
        const opened = add(bare, { kind }, stripped.build, axle);
        const again = opened.axles.find(each => each.axle.name === axle.name);
        if (!again) throw new Error('the axle is gone');
        expect(newPartsFor(again.axle).map(({ id }) => id)).not.toContain(kind);
        for (const travel of [-3, 3]) {
          expect(again.model.pose(travel, -travel, 0).pose).not.toBeNull();
        }
      }
    }
  });

  test('parts lie where they are meant to, however points of the build are taped', () => {
    const measuredAt = { rake: '2 deg', roll: '1 deg', rideHeightChange: '4 in' };
    // a frame that leaned with its axle is turned back with it, which the way to typed points leaves out
    const axles = file.axles.map(({ wheelHeights: _, ...axle }) => axle);
    const raised = { ...file, axles, measuredAt } as unknown as BuildFile;
    for (const of of [{ ...file, axles } as BuildFile, raised]) {
      const opened = openBuild(writeBuild(of));
      if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
      const { build } = opened;
      const [first] = opened.axles;
      if (!first) throw new Error('there is no axle');
      const { axle } = first;
      const [x, , z] = axle.origin;
      for (const [kind, up] of [
        ['box', 22],
        ['axleBox', 6],
      ] as const) {
        const made = add(of, { kind, name: 'a new thing' }, build, axle).build.solids.at(-1);
        if (made?.shape.kind !== 'box') throw new Error('no box was made');
        const { center } = made.shape;
        // a point is written to sixteenths, off by a thirty-second at most each way
        for (const [i, at] of [x, 0, z + up].entries()) {
          expect(Math.abs((center[i] ?? 0) - at), kind).toBeLessThan(1 / 16);
        }
      }
    }
  });
});

function expectTurned({ build, axles }: OpenedBuild, { name }: Axle, part: NewPart): void {
  const own = axles.find(({ axle }) => axle.name === name);
  if (!own) throw new Error('the axle is gone');
  const reach = new Reach(build, own.axle, own.model);
  const interval = reach.steering(own.model.ride, null);
  // a good third of a box's 45°, or of a ram's stroke
  const half = own.model.mechanism.steering?.unit === 'in' ? 3 : 0.3;
  expect(interval?.least.value, JSON.stringify(part)).toBeLessThan(-half);
  expect(interval?.greatest.value, JSON.stringify(part)).toBeGreaterThan(half);
}
