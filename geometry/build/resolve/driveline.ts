/** Driveline: from the file to the Build. */
import { turned } from '../../vector.ts';
import type { Driveline, DrivelineEnd, Vec3 } from '../build.ts';
import type { EvaluatedFile } from '../schema/file.ts';
import { type Context, settingOf } from './context.ts';

type AxleFile = EvaluatedFile['axles'][number];
type EndFile = NonNullable<AxleFile['driveline']>['pinion'];

const ends = [
  { key: 'pinion', end: 'pinion', body: 'axle' },
  { key: 'transferCase', end: 'transfer case', body: 'chassis' },
] as const;

/** Names both joints: `driveshaft.pinion` and `driveshaft.transfer case`; `shaft` is its name. */
export function addDriveline(axle: AxleFile, path: string, shaft: string, context: Context): void {
  for (const { key, end, body } of ends) {
    const setting = settingOf(body, axle.name, null, `${path}.driveline.${key}.joint`);
    context.places.add(`${shaft}.${end}`, axle.driveline?.[key].joint, setting);
  }
}

export function makeDriveline(
  axle: AxleFile,
  path: string,
  shaft: string,
  context: Context,
): Driveline | null {
  const { driveline } = axle;
  if (!driveline) return null;
  const at = `${path}.driveline`;
  const pinion = context.places.at(`${shaft}.pinion`);
  const transferCase = context.places.at(`${shaft}.transfer case`);
  context.apart(pinion, transferCase, at, 'the joints of this driveshaft');
  const [shorter, longer] = driveline.slip ?? [0, 0];
  if (shorter > 0 || longer < 0) {
    const wanted = '[shorter (0 or negative), longer (0 or positive)]';
    context.misshapen(`${at}.slip`, '', 'the drawn length is not between its ends', wanted);
  }
  const forward = transferCase[0] > pinion[0] ? 1 : -1;
  return {
    pinion: makeEnd(driveline.pinion, 'axle', pinion, forward, axle, `${at}.pinion`, context),
    transferCase: makeEnd(
      driveline.transferCase,
      'chassis',
      transferCase,
      -forward,
      axle,
      `${at}.transferCase`,
      context,
    ),
    slip: driveline.slip ? [shorter, longer] : null,
    phase: driveline.phase ?? 0,
    tubeOd: driveline.tube?.od ?? null,
    axleRatio: driveline.axleRatio ?? null,
  };
}

/** @param forward 1 where the flange points forward, −1 where rearward: towards the other flange */
function makeEnd(
  { axis, kind, limit }: EndFile,
  body: 'axle' | 'chassis',
  joint: Vec3,
  forward: number,
  axle: AxleFile,
  path: string,
  context: Context,
): DrivelineEnd {
  const up = axis.up;
  const level: Vec3 = [forward * Math.cos(up), 0, Math.sin(up)];
  const aside = axis.aside ?? 0;
  const taped = aside === 0 ? level : turned(level, [0, 0, 1], Math.cos(aside), Math.sin(aside));
  return {
    joint,
    axis: context.direction(taped, settingOf(body, axle.name, null, `${path}.axis`)),
    kind: kind ?? 'single',
    limit: limit ?? null,
  };
}
