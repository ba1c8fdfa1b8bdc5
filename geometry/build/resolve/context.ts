/** What resolving one build shares: frames, places, problems by stage, warnings. */
import { norm, unit } from '../../vector.ts';
import type { Side, Vec3 } from '../build.ts';
import { type Problem, shown } from '../problem.ts';
import type { EvaluatedFile } from '../schema/file.ts';
import { Frames } from './frames.ts';
import { Places, type Setting } from './places.ts';
import { onSide } from './sides.ts';

/** Points nearer than this coincide, in: far under what a tape can tell apart. */
export const COINCIDENT_in = 1e-6;

export class Context {
  readonly frames: Frames;
  readonly places: Places;
  /** Unknown and repeated names, parts that do not fit each other. */
  readonly names: Problem[] = [];
  /** What is no shape in space. */
  readonly geometry: Problem[] = [];
  readonly warnings: string[] = [];

  constructor(file: EvaluatedFile) {
    this.frames = new Frames(file);
    this.places = new Places(this.frames);
  }

  /** A problem of the stage `names`: what stands in the file, why it is wrong, what would be right. */
  misnamed(path: string, found: unknown, message: string, wanted: string): void {
    const text = found === undefined || found === null ? '' : shown(found);
    tell(this.names, { path, found: text, message, wanted });
  }

  /** A problem of the stage `geometry`; `found` is a value in internal units with its unit, or ''. */
  misshapen(path: string, found: string, message: string, wanted: string): void {
    tell(this.geometry, { path, found, message, wanted });
  }

  /** A direction of length 1 in vehicle axes at ride height. */
  direction(written: Vec3, setting: Setting): Vec3 {
    const length = norm(written);
    if (length === 0) {
      this.misshapen(
        setting.path,
        '[0, 0, 0]',
        'it points nowhere',
        'a direction that is not zero',
      );
      return [1, 0, 0];
    }
    const { frames } = this;
    const taped = unit(written);
    const turned = frames.isBench(setting)
      ? frames.offsetFromBench(taped, setting)
      : frames.direction(taped, setting);
    return onSide(turned, setting.image);
  }

  /** Tells two points that may not coincide; `of` says whose they are: 'the ends of this link'. */
  apart(a: Vec3, b: Vec3, path: string, of: string): void {
    if (Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]) < COINCIDENT_in) {
      this.misshapen(path, '', `${of} coincide at ${pointText(a)}`, 'two different points');
    }
  }
}

/** One problem a place: both images of a mirrored part meet the same ones. */
function tell(problems: Problem[], problem: Problem): void {
  if (!problems.some(({ path }) => path === problem.path)) problems.push(problem);
}

/** The setting of another field of the same part. */
export const field = (setting: Setting, name: string): Setting => ({
  ...setting,
  path: `${setting.path}.${name}`,
});

export const settingOf = (
  body: Setting['body'],
  axle: Setting['axle'],
  image: Side | null,
  path: string,
): Setting => ({ body, axle, image, path });

/** [1.5, 0, 20] for messages, to 1/1000 in. */
export const pointText = (p: Vec3): string =>
  `[${p.map(value => Number(value.toFixed(3))).join(', ')}] in`;
