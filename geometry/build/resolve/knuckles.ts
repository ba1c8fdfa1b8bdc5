/** Knuckles: from the file to the Build. */
import type { Knuckle, Side } from '../build.ts';
import type { EvaluatedFile } from '../schema/file.ts';
import { type Context, field, pointText, settingOf } from './context.ts';
import type { Setting } from './places.ts';

type AxleFile = EvaluatedFile['axles'][number];
type KnucklesFile = NonNullable<AxleFile['knuckles']>;
type KnuckleFile = Extract<KnucklesFile, { left: unknown }>['left'];

interface SidedKnuckle {
  side: Side;
  part: KnuckleFile;
  setting: Setting;
}

/** Names the points of both knuckles: `left knuckle.lower`, `.upper`, `.shaft joint`. */
export function addKnuckles(axle: AxleFile, path: string, context: Context): void {
  for (const { side, part, setting } of both(axle, path)) {
    const add = (end: string, point: KnuckleFile['shaftJoint'], key: string) =>
      context.places.add(`${side} knuckle.${end}`, point, field(setting, key));
    add('lower', part.kingpin.lower, 'kingpin.lower');
    add('upper', part.kingpin.upper, 'kingpin.upper');
    add('shaft joint', part.shaftJoint, 'shaftJoint');
  }
}

export function makeKnuckles(
  axle: AxleFile,
  path: string,
  context: Context,
): { left: Knuckle; right: Knuckle } | null {
  const [left, right] = both(axle, path).map(knuckle => makeKnuckle(knuckle, context));
  return left && right ? { left, right } : null;
}

function both(axle: AxleFile, path: string): SidedKnuckle[] {
  const { knuckles } = axle;
  if (!knuckles) return [];
  const isMirrored = 'kingpin' in knuckles;
  return (['left', 'right'] as const).map(side => ({
    side,
    part: isMirrored ? knuckles : knuckles[side],
    setting: settingOf(
      'axle',
      axle.name,
      isMirrored ? side : null,
      isMirrored ? `${path}.knuckles` : `${path}.knuckles.${side}`,
    ),
  }));
}

function makeKnuckle({ side, part, setting }: SidedKnuckle, context: Context): Knuckle {
  const { path } = setting;
  const lower = context.places.at(`${side} knuckle.lower`);
  const upper = context.places.at(`${side} knuckle.upper`);
  context.apart(lower, upper, `${path}.kingpin`, 'the ends of the kingpin axis');
  const outboard = side === 'left' ? lower[1] : -lower[1];
  if (outboard <= 0) {
    const message = `the ${side} knuckle lies at ${pointText(lower)}`;
    const wanted = side === 'left' ? 'y above 0: Y points left' : 'y below 0: Y points left';
    context.misshapen(`${path}.kingpin.lower`, '', message, wanted);
  }
  if (upper[2] < lower[2]) {
    const message = `upper lies ${Number((lower[2] - upper[2]).toFixed(3))} in below lower`;
    context.misshapen(`${path}.kingpin.upper`, '', message, 'a point above "lower"');
  }
  return {
    side,
    kingpin: { lower, upper },
    toe: part.toe ?? 0,
    camber: part.camber ?? 0,
    shaftJoint: part.shaftJoint ? context.places.at(`${side} knuckle.shaft joint`) : null,
    shaftLimit: part.shaftLimit ?? null,
    steeringStop: {
      inward: part.steeringStop?.inward ?? null,
      outward: part.steeringStop?.outward ?? null,
    },
  };
}
