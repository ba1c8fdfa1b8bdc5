/** Which of the four kinds of steering a build draws, and its rods as the solver takes them. */
import type { Axle, Rod, RodEnd, Vec3 } from '../build/build.ts';
import type { Problem } from '../build/problem.ts';
import { ON_LINE_in } from '../tolerances.ts';
import { distance, dot, norm, scale, sub, unit } from '../vector.ts';
import type {
  KnuckleTurn,
  RodAttachment,
  RodPoint,
  SteeringKind,
  SteeringMechanism,
  SteeringRod,
} from './mechanism.ts';

export type SteeringAssembly =
  | { ok: true; steering: SteeringMechanism | null }
  | { ok: false; problems: Problem[] };

/** Assembles the steering of an axle; null for an axle that does not steer. */
export function assembleSteering(axle: Axle): SteeringAssembly {
  if (!axle.steered) return { ok: true, steering: null };
  const where = `axles[${JSON.stringify(axle.name)}].steering`;
  const refuse = (path: string, found: string, wanted: string, message = ''): SteeringAssembly => ({
    ok: false,
    problems: [{ path: path ? `${where}.${path}` : where, found, wanted, message }],
  });
  const { steering, knuckles } = axle;
  if (!steering || !knuckles) {
    return refuse(
      '',
      'nothing',
      'knuckles and steering, or "steered": false for an axle that does not steer',
    );
  }
  const left = knuckle(knuckles.left.kingpin, axle.origin);
  const right = knuckle(knuckles.right.kingpin, axle.origin);
  const rods: SteeringRod[] = [];
  const take = (rod: Rod, kind: SteeringRod['kind'], first: RodEnd['on'][]): number => {
    // `from` is the end nearer to the driver's hand
    const [from, to] = first.includes(rod.to.on) ? [rod.to, rod.from] : [rod.from, rod.to];
    const asWritten = from === rod.from;
    rods.push({
      name: rod.name,
      kind,
      from: rodPoint(from, asWritten ? `${rod.name}.from` : `${rod.name}.to`, axle.origin),
      to: rodPoint(to, asWritten ? `${rod.name}.to` : `${rod.name}.from`, axle.origin),
      length: rod.length ?? distance(rod.from.at, rod.to.at),
      rollAt: asWritten ? rod.roll.at : -rod.roll.at,
      anchor: asWritten ? 'from' : 'to',
    });
    return rods.length - 1;
  };
  const common = { left, right, wheelsLeft: steering.box?.wheelsLeft ?? null };

  const double = steering.rams.find(ram => ram.kind === 'double');
  if (double && !steering.dragLink) {
    const sideRod = (side: 'left' | 'right'): Rod | undefined =>
      steering.tieRods.find(({ from, to }) =>
        from.on === 'ram rod'
          ? to.on === `${side} knuckle`
          : to.on === 'ram rod' && from.on === `${side} knuckle`,
      );
    const rodLeft = sideRod('left');
    const rodRight = sideRod('right');
    if (!rodLeft || !rodRight || !double.axis || steering.tieRods.length !== 2) {
      return refuse(
        'tieRod',
        steering.tieRods.map(rod => `from the ${rod.from.on} to the ${rod.to.on}`).join(', ') ||
          'no tie rods',
        'beside a double-ended ram two tie rods, each from the ram rod to its knuckle ("sides": "mirror")',
      );
    }
    if (double.body.on !== 'axle') {
      return refuse(
        `rams[${JSON.stringify(double.name)}].body.on`,
        JSON.stringify(double.body.on),
        '"axle": a double-ended ram that steers is clamped to the axle',
      );
    }
    const tieRod = take(rodLeft, 'tie rod', ['ram rod']);
    const otherTieRod = take(rodRight, 'tie rod', ['ram rod']);
    return {
      ok: true,
      steering: {
        ...common,
        kind: 'ram',
        unit: 'in',
        first: 'left',
        pitman: null,
        ramAxis: double.axis,
        rods,
        dragLink: -1,
        tieRod,
        otherTieRod,
        held: null,
      },
    };
  }
  const { box, dragLink } = steering;
  const tie = steering.tieRods[0];
  if (!box || !dragLink || !tie || steering.tieRods.length !== 1) {
    return refuse(
      '',
      [box ? '' : 'no box', dragLink ? '' : 'no drag link', `${steering.tieRods.length} tie rods`]
        .filter(Boolean)
        .join(', '),
      'a box, a drag link and one tie rod; or a double-ended ram with two tie rods and no drag link',
    );
  }
  const dragAt = take(dragLink, 'drag link', ['pitman arm']);
  const drag = rods[dragAt] as SteeringRod;
  if (drag.from.on !== 'pitman arm') {
    return refuse(
      'dragLink.from.on',
      JSON.stringify(dragLink.from.on),
      '"pitman arm" at one end of the drag link',
    );
  }
  const pitman = { at: box.axis.at, axis: box.axis.direction, ball: drag.from.at };
  const sides: RodEnd['on'][] = ['left knuckle', 'right knuckle'];
  const dragTo = drag.to.on;
  let kind: SteeringKind;
  let first: 'left' | 'right';
  let tieFrom: RodEnd['on'][];
  if (dragTo === 'tie rod') {
    if (!sides.includes(tie.from.on) || !sides.includes(tie.to.on) || tie.from.on === tie.to.on) {
      return refuse(
        'tieRod',
        `from the ${tie.from.on} to the ${tie.to.on}`,
        'from one knuckle to the other, as the drag link takes hold of it',
      );
    }
    kind = 'tieRod';
    first = tie.from.on === 'left knuckle' ? 'left' : 'right';
    tieFrom = [tie.from.on];
  } else if (sides.includes(dragTo)) {
    first = dragTo === 'left knuckle' ? 'left' : 'right';
    const other = first === 'left' ? 'right knuckle' : 'left knuckle';
    const ends = [tie.from.on, tie.to.on];
    if (ends.includes(other) && ends.includes(dragTo)) {
      kind = 'knuckle';
      tieFrom = [dragTo];
    } else if (ends.includes(other) && ends.includes('drag link')) {
      kind = 'dragLink';
      tieFrom = ['drag link'];
    } else {
      return refuse(
        'tieRod',
        `from the ${tie.from.on} to the ${tie.to.on}`,
        `from the ${dragTo} or the drag link to the ${other}, since the drag link turns the ${dragTo}`,
      );
    }
  } else {
    return refuse(
      'dragLink.to.on',
      JSON.stringify(dragTo),
      '"left knuckle", "right knuckle" or "tie rod"',
    );
  }
  const tieRod = take(tie, 'tie rod', tieFrom);
  const tieRodTaken = rods[tieRod] as SteeringRod;
  const held =
    kind === 'tieRod'
      ? attachment(tieRod, tieRodTaken, drag.to.at, axle.origin)
      : kind === 'dragLink'
        ? attachment(dragAt, drag, tieRodTaken.from.at, axle.origin)
        : null;
  return {
    ok: true,
    steering: {
      ...common,
      kind,
      unit: 'rad',
      first,
      pitman,
      ramAxis: null,
      rods,
      dragLink: dragAt,
      tieRod,
      otherTieRod: -1,
      held,
    },
  };
}

function knuckle(kingpin: { lower: Vec3; upper: Vec3 }, origin: Vec3): KnuckleTurn {
  const axis = unit(sub(kingpin.upper, kingpin.lower));
  return { pivot: sub(kingpin.lower, origin), axis: axis[2] < 0 ? scale(axis, -1) : axis };
}

function rodPoint(end: RodEnd, name: string, origin: Vec3): RodPoint {
  return { name, on: end.on, at: end.on === 'pitman arm' ? end.at : sub(end.at, origin) };
}

/** Where along and how far off a rod's drawn line a point lies; `point` in the axle frame. */
export function attachment(rod: number, of: SteeringRod, point: Vec3, origin: Vec3): RodAttachment {
  const inAxle = (p: RodPoint): Vec3 => (p.on === 'pitman arm' ? sub(p.at, origin) : p.at);
  const a = inAxle(of.from);
  const line = sub(inAxle(of.to), a);
  const q = sub(point, a);
  const drawn = dot(q, line) / dot(line, line);
  const off = sub(q, scale(line, drawn));
  const share = norm(line) / of.length;
  const fraction = of.anchor === 'from' ? drawn * share : 1 - (1 - drawn) * share;
  return { rod, fraction, off: norm(off) <= ON_LINE_in ? [0, 0, 0] : off };
}
