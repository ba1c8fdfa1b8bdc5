/** A small build for the tests of this room, and readers of what became of it. */
import type { Axle, Build, Vec3 } from '../../geometry/build/build.ts';
import { problemLines, readBuild } from '../../geometry/build/read.ts';

/** A file as written. */
export type Written = Record<string, unknown>;

/**
 * The file with other values at these places: keys and indexes with dots between, `axles.0.links.1.axle.at`.
 * Undefined takes a field out.
 */
export function edited(file: Written, changes: Record<string, unknown>): Written {
  const copy = structuredClone(file);
  for (const [path, value] of Object.entries(changes)) {
    const steps = path.split('.');
    const last = steps.pop() ?? '';
    const target = steps.reduce<Written>((at, step) => at[step] as Written, copy);
    if (value === undefined) delete target[last];
    else target[last] = value;
  }
  return copy;
}

/** Front axle without steering: wheelbase 100, loaded radius 20, lower links mirrored, one upper link, a track bar. */
export function sample(): Written {
  return {
    axlewalk: 1,
    name: 'sample',
    unit: 'in',
    wheelbase: 100,
    axles: [
      {
        name: 'front',
        steered: false,
        wheelCenters: 70,
        tire: { diameter: 42, width: 13, loadedRadius: 20, shoulder: 2 },
        links: [
          {
            name: 'lower link',
            sides: 'mirror',
            axle: { at: [-2, 17, 16] },
            chassis: { at: [-38, 15, 22] },
          },
          { name: 'upper link', axle: { at: [-1, -8, 27] }, chassis: { at: [-33, -11, 30] } },
          {
            name: 'track bar',
            kind: 'track bar',
            axle: { at: [3, -20, 25] },
            chassis: { at: [4, 18, 28] },
          },
        ],
      },
    ],
  };
}

/** The sample with knuckles and the usual steering: pitman arm, drag link to the right knuckle, tie rod. */
export function steered(): Written {
  return edited(sample(), {
    'axles.0.steered': true,
    'axles.0.knuckles': {
      sides: 'mirror',
      kingpin: { lower: [0.5, 31, 16], upper: [-0.5, 30, 24] },
    },
    'axles.0.steering': {
      box: { axis: { at: [13, 18, 30], direction: [0, 0, 1] } },
      dragLink: {
        from: { on: 'pitman arm', at: [7, 18, 27] },
        to: { on: 'right knuckle', at: [7, -29, 24] },
      },
      tieRod: {
        from: { on: 'left knuckle', at: [7, 31, 18] },
        to: { on: 'right knuckle', at: [7, -31, 18] },
      },
    },
  });
}

/** The Build of a file that has to be right. */
export function built(file: Written, variant?: string): Build {
  const read = readBuild(JSON.stringify(file), { variant });
  if (!read.ok) throw new Error(problemLines(read.problems).join('\n'));
  return read.build;
}

/** The problems of a file that has to be wrong, a line each. */
export function refused(file: Written | string, variant?: string): string[] {
  const read = readBuild(typeof file === 'string' ? file : JSON.stringify(file), { variant });
  if (read.ok) throw new Error('the file was taken');
  return problemLines(read.problems);
}

export function axleOf(build: Build, index = 0): Axle {
  const axle = build.axles[index];
  if (axle === undefined) throw new Error(`no axle ${index}`);
  return axle;
}

/** Both ends of a link by name. */
export function linkEnds(build: Build, name: string, axle = 0): { axle: Vec3; chassis: Vec3 } {
  const link = axleOf(build, axle).links.find(one => one.name === name);
  if (link === undefined) throw new Error(`no link ${name}`);
  return { axle: link.axle.at, chassis: link.chassis.at };
}
