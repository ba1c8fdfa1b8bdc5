/** Steering: from the file to the Build, and whether its parts fit each other. */
import type { Ram, Steering, SteeringBox } from '../build.ts';
import type { EvaluatedFile } from '../schema/file.ts';
import { type Context, settingOf } from './context.ts';
import { tubeOf } from './links.ts';
import { addRod, carrierOf, makeRod, rodsOf } from './rods.ts';
import { nameOnSide, type Sided, sided } from './sides.ts';

type AxleFile = EvaluatedFile['axles'][number];
type SteeringFile = NonNullable<AxleFile['steering']>;
type RamFile = NonNullable<SteeringFile['rams']>[number];

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
  checkParts(axle, `${path}.steering`, context);
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

/** Refuses steering whose parts do not fit each other. */
function checkParts(axle: AxleFile, path: string, context: Context): void {
  const { dragLink, tieRods } = rodsOf(axle, path.replace(/\.steering$/, ''));
  const steering = axle.steering as SteeringFile;
  const double = steering.rams?.find(ram => ram.kind === 'double');
  const refuse = (at: string, found: unknown, message: string, wanted: string) =>
    context.misnamed(at === '' ? path : `${path}.${at}`, found, message, wanted);

  if (double) {
    const why = `the double-ended ram "${double.name}" steers`;
    if (dragLink) refuse('dragLink', null, why, 'no drag link');
    if (steering.box) refuse('box', null, why, 'no steering box');
    if (double.body.on !== 'axle') {
      refuse(
        'rams',
        double.body.on,
        `the barrel of "${double.name}" is clamped to the axle`,
        '"on": "axle"',
      );
    }
    if (tieRods.length !== 2) {
      refuse(
        'tieRod',
        null,
        why,
        'a tie rod on either side: "sides": "mirror", or "left" and "right"',
      );
    }
  } else {
    if (!steering.box) refuse('box', null, 'missing', 'a steering box, or a ram of kind "double"');
    if (!dragLink) refuse('dragLink', null, 'missing', 'a drag link, or a ram of kind "double"');
    if (tieRods.length === 0) refuse('tieRod', null, 'missing', 'a tie rod');
    if (tieRods.length === 2) {
      refuse('tieRod', null, 'there is no double-ended ram between two tie rods', 'one tie rod');
    }
  }

  if (dragLink) {
    const { from, to } = dragLink.part;
    if (from.on !== 'pitman arm') {
      refuse('dragLink.from.on', from.on, 'a drag link begins at the pitman arm', '"pitman arm"');
    }
    if (!['left knuckle', 'right knuckle', 'tie rod'].includes(to.on)) {
      refuse('dragLink.to.on', to.on, '', '"left knuckle", "right knuckle" or "tie rod"');
    }
  }
  for (const { part, path: at } of tieRods) checkTieRod(part, at, Boolean(double), context);
  const hangsOn = tieRods.some(({ part }) => part.to.on === 'drag link');
  if (hangsOn && dragLink?.part.to.on === 'tie rod') {
    refuse('dragLink.to.on', 'tie rod', 'the tie rod hangs on the drag link', 'a knuckle');
  }
}

function checkTieRod(
  part: ReturnType<typeof rodsOf>['tieRods'][number]['part'],
  path: string,
  isDouble: boolean,
  context: Context,
): void {
  const { from, to } = part;
  const knuckles = ['left knuckle', 'right knuckle'];
  if (isDouble) {
    if (from.on !== 'ram rod') context.misnamed(`${path}.from.on`, from.on, '', '"ram rod"');
    if (!knuckles.includes(to.on)) {
      context.misnamed(`${path}.to.on`, to.on, '', '"left knuckle" or "right knuckle"');
    }
    return;
  }
  if (!knuckles.includes(from.on)) {
    context.misnamed(`${path}.from.on`, from.on, '', '"left knuckle" or "right knuckle"');
  }
  if (![...knuckles, 'drag link'].includes(to.on)) {
    context.misnamed(`${path}.to.on`, to.on, '', '"left knuckle", "right knuckle" or "drag link"');
  } else if (to.on === from.on) {
    context.misnamed(`${path}.to.on`, to.on, 'both ends are on it', 'the other knuckle');
  }
}
