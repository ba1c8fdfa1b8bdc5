/** Steering: from the file to the Build. */
import type { Ram, Steering, SteeringBox } from '../build.ts';
import type { EvaluatedFile } from '../schema/file.ts';
import { checkSteering } from './checkSteering.ts';
import { type Context, settingOf } from './context.ts';
import { tubeOf } from './links.ts';
import { addRod, carrierOf, makeRod, rodsOf } from './rods.ts';
import { nameOnSide, type Sided, sided } from './sides.ts';

type AxleFile = EvaluatedFile['axles'][number];
type SteeringFile = NonNullable<AxleFile['steering']>;
export type RamFile = NonNullable<SteeringFile['rams']>[number];

/** Names the points of box, rods and rams. */
export function addSteering(axle: AxleFile, path: string, context: Context): void {
  const { steering } = axle;
  if (!steering) return;
  const box = settingOf('chassis', axle.name, null, `${path}.steering.box.axis.at`);
  context.places.add('steering box', steering.box?.axis.at, box);
  const { dragLink, tieRods } = rodsOf(axle, path);
  for (const rod of dragLink ? [dragLink, ...tieRods] : tieRods) addRod(rod, axle, context);
  for (const { name, image, part, path: at } of ramsOf(axle, path)) {
    const body = settingOf(part.body.on, axle.name, image, `${at}.body.at`);
    context.places.add(`${name}.body`, part.body.at, body);
    if (part.kind === 'single') {
      const rod = settingOf(carrierOf(part.rod.on), axle.name, image, `${at}.rod.at`);
      context.places.add(`${name}.rod`, part.rod.at, rod);
    }
  }
}

/** The rams of an axle on their sides; only single ones are mirrored. */
export function ramsOf(axle: AxleFile, path: string): Sided<RamFile>[] {
  const rams: readonly (RamFile & { sides?: 'mirror' | null | undefined })[] =
    axle.steering?.rams ?? [];
  return sided(rams, `${path}.steering.rams`);
}

export function makeSteering(axle: AxleFile, path: string, context: Context): Steering | null {
  const { steering } = axle;
  if (!steering) return null;
  const { dragLink, tieRods } = rodsOf(axle, path);
  checkSteering(axle, path, ramsOf(axle, path), context);
  return {
    box: makeBox(axle, `${path}.steering.box`, context),
    pitmanArm: steering.pitmanArm
      ? { tube: tubeOf(steering.pitmanArm.tube, context, `${path}.steering.pitmanArm.tube`) }
      : null,
    dragLink: dragLink === null ? null : makeRod(dragLink, axle, context),
    tieRods: tieRods.map(rod => makeRod(rod, axle, context)),
    rams: ramsOf(axle, path).map(ram => makeRam(ram, axle, context)),
  };
}

function makeBox(axle: AxleFile, path: string, context: Context): SteeringBox | null {
  const box = axle.steering?.box;
  if (!box) return null;
  const setting = settingOf('chassis', axle.name, null, `${path}.axis.direction`);
  const [right, left] = box.sweep ?? [0, 0];
  if (box.sweep && !(right < 0 && left > 0)) {
    const wanted = '[to the right (negative), to the left (positive)]';
    context.misshapen(`${path}.sweep`, '', 'the drawn position is not between its ends', wanted);
  }
  return {
    axis: {
      at: context.places.at('steering box'),
      direction: context.direction(box.axis.direction, setting),
    },
    ratio: box.ratio ?? null,
    sweep: box.sweep ? [right, left] : null,
    wheelsLeft: box.wheelsLeft ? (box.wheelsLeft === '+' ? 1 : -1) : null,
  };
}

function makeRam(
  { name, image, part, path }: Sided<RamFile>,
  axle: AxleFile,
  context: Context,
): Ram {
  const at = context.places.at(`${name}.body`);
  const common = {
    name,
    body: { on: part.body.on, at, diameter: part.body.diameter ?? null },
    closed: part.closed ?? null,
    stroke: part.stroke ?? null,
    bore: part.bore ?? null,
    rodDiameter: part.rodDiameter ?? null,
  };
  if (part.bore && part.rodDiameter && part.rodDiameter >= part.bore) {
    const message = `it is as thick as the bore (${part.bore} in)`;
    context.misshapen(
      `${path}.rodDiameter`,
      `${part.rodDiameter} in`,
      message,
      'a rod thinner than the bore',
    );
  }
  if (part.kind === 'double') {
    const setting = settingOf('axle', axle.name, null, `${path}.axis`);
    const axis = context.direction(part.axis ?? [0, 1, 0], setting);
    // To the left, whichever way it was written.
    return {
      ...common,
      kind: 'double',
      axis: axis[1] < 0 ? [0 - axis[0], 0 - axis[1], 0 - axis[2]] : axis,
      rod: null,
    };
  }
  const rodAt = context.places.at(`${name}.rod`);
  context.apart(at, rodAt, path, 'the ends of this ram');
  const on = nameOnSide(part.rod.on, image) as NonNullable<Ram['rod']>['on'];
  return { ...common, kind: 'single', axis: null, rod: { on, at: rodAt } };
}
