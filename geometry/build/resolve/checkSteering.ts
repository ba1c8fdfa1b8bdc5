/** Whether the parts of a steering fit each other. */
import type { EvaluatedFile } from '../schema/file.ts';
import type { Context } from './context.ts';
import { rodsOf, type SidedRod } from './rods.ts';
import type { Sided } from './sides.ts';
import type { RamFile } from './steering.ts';

type AxleFile = EvaluatedFile['axles'][number];

const knuckles = ['left knuckle', 'right knuckle'];
const eitherKnuckle = '"left knuckle" or "right knuckle"';

/** Refuses a steering that has no input or two, and rods and rams that are joined to what is not there. */
export function checkSteering(
  axle: AxleFile,
  axlePath: string,
  rams: readonly Sided<RamFile>[],
  context: Context,
): void {
  const { dragLink, tieRods } = rodsOf(axle, axlePath);
  const [double, second] = rams.filter(({ part }) => part.kind === 'double');
  if (second) {
    const wanted = 'one double-ended ram, or "single"';
    context.misnamed(`${second.path}.kind`, 'double', `"${double?.name}" steers already`, wanted);
  }
  if (double) {
    checkDouble(double, axle, axlePath, context);
  } else {
    checkBox(axle, axlePath, context);
  }
  if (dragLink) checkDragLink(dragLink, context);
  for (const rod of tieRods) {
    if (double) checkTieRodOfRam(rod, context);
    else checkTieRod(rod, dragLink, context);
  }
  for (const ram of rams) checkRam(ram, tieRods, dragLink, context);
}

function checkDouble(
  { name, part, path }: Sided<RamFile>,
  axle: AxleFile,
  axlePath: string,
  context: Context,
): void {
  const { dragLink, tieRods } = rodsOf(axle, axlePath);
  const at = `${axlePath}.steering`;
  const why = `the double-ended ram "${name}" steers`;
  if (dragLink) context.misnamed(dragLink.path, null, why, 'no drag link');
  if (axle.steering?.box) context.misnamed(`${at}.box`, null, why, 'no steering box');
  if (part.body.on !== 'axle') {
    const message = 'the barrel of a double-ended ram is clamped to the axle';
    context.misnamed(`${path}.body.on`, part.body.on, message, '"axle"');
  }
  const [left, right] = tieRods;
  if (tieRods.length !== 2) {
    const wanted = 'a tie rod on either side: "sides": "mirror", or "left" and "right"';
    context.misnamed(`${at}.tieRod`, null, why, wanted);
  } else if (left?.image === null && left.part.to.on === right?.part.to.on) {
    const wanted = 'the other knuckle';
    context.misnamed(`${right.path}.to.on`, right.part.to.on, 'both tie rods push it', wanted);
  }
}

function checkBox(axle: AxleFile, axlePath: string, context: Context): void {
  const { dragLink, tieRods } = rodsOf(axle, axlePath);
  const at = `${axlePath}.steering`;
  const missing = (key: string, what: string) =>
    context.misnamed(`${at}.${key}`, null, 'missing', `${what}, or a ram of kind "double"`);
  if (!axle.steering?.box) missing('box', 'a steering box');
  if (!dragLink) missing('dragLink', 'a drag link');
  if (tieRods.length === 0) context.misnamed(`${at}.tieRod`, null, 'missing', 'a tie rod');
  if (tieRods.length === 2) {
    const message = 'there is no double-ended ram between two tie rods';
    context.misnamed(`${at}.tieRod`, null, message, 'one tie rod');
  }
}

function checkDragLink({ part, path }: SidedRod, context: Context): void {
  const { from, to } = part;
  if (from.on !== 'pitman arm') {
    const message = 'a drag link begins at the pitman arm';
    context.misnamed(`${path}.from.on`, from.on, message, '"pitman arm"');
  }
  if (![...knuckles, 'tie rod'].includes(to.on)) {
    context.misnamed(`${path}.to.on`, to.on, '', '"left knuckle", "right knuckle" or "tie rod"');
  }
}

function checkTieRodOfRam({ part, path }: SidedRod, context: Context): void {
  const { from, to } = part;
  if (from.on !== 'ram rod') context.misnamed(`${path}.from.on`, from.on, '', '"ram rod"');
  if (!knuckles.includes(to.on)) context.misnamed(`${path}.to.on`, to.on, '', eitherKnuckle);
}

function checkTieRod({ part, path }: SidedRod, dragLink: SidedRod | null, context: Context): void {
  const { from, to } = part;
  if (!knuckles.includes(from.on)) {
    context.misnamed(`${path}.from.on`, from.on, '', eitherKnuckle);
  }
  if (![...knuckles, 'drag link'].includes(to.on)) {
    const wanted = '"left knuckle", "right knuckle" or "drag link"';
    context.misnamed(`${path}.to.on`, to.on, '', wanted);
  } else if (to.on === from.on) {
    context.misnamed(`${path}.to.on`, to.on, 'both ends are on it', 'the other knuckle');
  }
  if (to.on !== 'drag link' || dragLink === null) return;
  const end = dragLink.part.to.on;
  if (end === 'tie rod') {
    const message = 'the tie rod itself hangs on the drag link';
    context.misnamed(`${dragLink.path}.to.on`, end, message, eitherKnuckle);
  } else if (end === from.on) {
    const message = 'the drag link turns it already';
    context.misnamed(`${path}.from.on`, from.on, message, 'the other knuckle');
  }
}

/** A ram pushes what is there: one tie rod, or a drag link. */
function checkRam(
  { part, path }: Sided<RamFile>,
  tieRods: readonly SidedRod[],
  dragLink: SidedRod | null,
  context: Context,
): void {
  if (part.kind !== 'single') return;
  const { on } = part.rod;
  if (on === 'tie rod' && tieRods.length !== 1) {
    context.misnamed(`${path}.rod.on`, on, 'there is no single tie rod', eitherKnuckle);
  }
  if (on === 'drag link' && dragLink === null) {
    context.misnamed(`${path}.rod.on`, on, 'there is no drag link', eitherKnuckle);
  }
}
