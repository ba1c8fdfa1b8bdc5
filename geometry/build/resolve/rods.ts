/** Drag link and tie rods: from the file to the Build. */
import type { Rod, RodBody, RodEnd, Side } from '../build.ts';
import type { EvaluatedFile } from '../schema/file.ts';
import { type Context, field, settingOf } from './context.ts';
import type { Carrier } from './frames.ts';
import { tubeOf } from './links.ts';
import type { Setting } from './places.ts';
import { nameOnSide, turnOnSide } from './sides.ts';

type AxleFile = EvaluatedFile['axles'][number];
type RodFile = NonNullable<NonNullable<AxleFile['steering']>['dragLink']>;
type EndFile = RodFile['from'];

/** A rod of the steering on its side. */
export interface SidedRod {
  name: string;
  image: Side | null;
  part: RodFile;
  path: string;
}

/** The drag link and the tie rods of an axle: `drag link`, `tie rod`, or `left tie rod` and `right tie rod`. */
export function rodsOf(
  axle: AxleFile,
  path: string,
): { dragLink: SidedRod | null; tieRods: SidedRod[] } {
  const { dragLink, tieRod } = axle.steering ?? {};
  const at = `${path}.steering`;
  return {
    dragLink: dragLink
      ? { name: 'drag link', image: null, part: dragLink, path: `${at}.dragLink` }
      : null,
    tieRods: tieRod ? tieRodsOf(tieRod, `${at}.tieRod`) : [],
  };
}

function tieRodsOf(
  tieRod: NonNullable<NonNullable<AxleFile['steering']>['tieRod']>,
  path: string,
): SidedRod[] {
  const pair = (['left', 'right'] as const).map(side => ({ name: `${side} tie rod`, side }));
  if ('left' in tieRod) {
    return pair.map(({ name, side }) => ({
      name,
      image: null,
      part: tieRod[side],
      path: `${path}.${side}`,
    }));
  }
  if (tieRod.sides !== 'mirror') return [{ name: 'tie rod', image: null, part: tieRod, path }];
  return pair.map(({ name, side }) => ({ name, image: side, part: tieRod, path }));
}

/** The body of a rod's end as frames take it. */
export function carrierOf(on: RodBody): Carrier['body'] {
  if (on === 'pitman arm') return 'chassis';
  return on === 'drag link' ? 'none' : 'axle';
}

/** Names both ends of a rod: `tie rod.from`, `tie rod.to`. */
export function addRod(
  { name, image, part, path }: SidedRod,
  axle: AxleFile,
  context: Context,
): void {
  for (const end of ['from', 'to'] as const) {
    const { on, at } = part[end];
    const setting = settingOf(carrierOf(on), axle.name, image, `${path}.${end}.at`);
    context.places.add(`${name}.${end}`, at, setting);
  }
}

export function makeRod(
  { name, image, part, path }: SidedRod,
  axle: AxleFile,
  context: Context,
): Rod {
  const setting = settingOf('none', axle.name, image, path);
  const from = makeEnd(`${name}.from`, part.from, field(setting, 'from'), context);
  const to = makeEnd(`${name}.to`, part.to, field(setting, 'to'), context);
  context.apart(from.at, to.at, path, `the ends of the ${name}`);
  return {
    name,
    from,
    to,
    length: part.length ?? null,
    tube: tubeOf(part.tube, context, `${path}.tube`),
    through: (part.through ?? []).map((point, i) =>
      context.places.point(point, field(setting, `through[${i}]`)),
    ),
    roll: {
      held: part.roll?.held ?? 'clocked',
      at: turnOnSide(part.roll?.at ?? 0, image),
    },
  };
}

function makeEnd(name: string, end: EndFile, setting: Setting, context: Context): RodEnd {
  const { image } = setting;
  const on = nameOnSide(end.on, image) as RodBody;
  const stud = { ...field(setting, 'stud'), body: carrierOf(end.on) };
  return {
    on,
    at: context.places.at(name),
    stud: end.stud ? context.direction(end.stud, stud) : null,
    limit: end.limit ?? null,
  };
}
