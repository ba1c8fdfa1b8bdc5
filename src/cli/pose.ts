/** `axlewalk pose`: the axle in one position. */
import { problemLine } from '../../geometry/build/problem.ts';
import { inside } from '../../geometry/cycle/edge.ts';
import type { OpenedAxle } from '../../geometry/cycle/openAxle.ts';
import { poseReport } from '../../geometry/cycle/poseReport.ts';
import { findRange } from '../../geometry/cycle/range.ts';
import type { CommandOf } from './arguments.ts';
import type { Io } from './io.ts';
import { chooseAxle, Entries, openFile } from './opened.ts';
import { type Outcome, refused } from './outcome.ts';
import { poseText } from './poseText.ts';

export function pose({ files: [file], options, output }: CommandOf<'pose'>, io: Io): Outcome {
  const read = openFile(file, io.folder);
  if ('lines' in read) return refused(read.lines);
  const chosen = chooseAxle(read.opened, options.axle);
  const entries = new Entries(read.opened);
  const lines = 'lines' in chosen ? chosen.lines : [];
  const steering = 'lines' in chosen ? null : chosen.axle.model.mechanism.steering;
  const input = {
    left: entries.read('left', options.left, 'length'),
    right: entries.read('right', options.right, 'length'),
    steer: steering
      ? entries.read('steer', options.steer, steering.unit === 'in' ? 'length' : 'angle')
      : 0,
  };
  if (options.steer !== null && !('lines' in chosen) && !steering) {
    const { name } = chosen.axle.axle;
    entries.refuse(
      'steer',
      options.steer,
      `the ${name} axle does not steer`,
      otherSteered(read.opened.axles),
    );
  }
  if (steering?.unit === 'rad' && Math.abs(input.steer) > Math.PI) {
    entries.refuse(
      'steer',
      options.steer ?? '',
      'a pitman arm has no more than half a turn each way',
      'an angle within 180 deg of where it was drawn',
    );
  }
  if ('lines' in chosen || entries.lines.length > 0) return refused([...lines, ...entries.lines]);

  const report = poseReport(chosen.axle, input, {
    connected: (left, right) => hangsTogether(chosen.axle, left, right),
  });
  const { build } = read.opened;
  return {
    code: report.status === 'solved' && report.broken.length === 0 ? 0 : 1,
    out: output === 'json' ? `${JSON.stringify(report)}\n` : poseText(report, build, io.screen),
    err: build.warnings.map(warning =>
      problemLine({ path: 'to know', found: '', message: warning, wanted: '' }),
    ),
  };
}

/** Whether the axle can come from ride height to travels that its stops allow without passing one. */
function hangsTogether({ build, axle, model }: OpenedAxle, left: number, right: number): boolean {
  const { range } = findRange(build, axle, model);
  return range.holdsRide && (range.pieces <= 1 || inside(range.edge, left, right));
}

function otherSteered(axles: readonly OpenedAxle[]): string {
  const other = axles.find(({ axle }) => axle.steered);
  return other ? `no --steer, or --axle ${other.axle.name}` : 'no --steer';
}
