/** Shocks with their reservoirs, coils and bump stops. */
import type { Axle, BumpStop, Coil, Shock } from '../build/build.ts';
import { capsule } from '../solid/capsule.ts';
import { cylinder } from '../solid/cylinder.ts';
import { segmentPiece } from '../solid/piece.ts';
import { solidOf } from '../solid/solid.ts';
import { squareTo } from '../solid/support.ts';
import { add, norm, scale, sub, unit, type V3 } from '../vector.ts';
import type { SharedJoint } from './part.ts';
import { anchor, type PartList } from './partList.ts';
import { ASSUMED } from './partSizes.ts';
import { telescope } from './telescope.ts';

export function springParts(axle: Axle, list: PartList): void {
  for (const shock of axle.shocks) shockParts(shock, list);
  for (const coil of axle.coils) coilPart(coil, list);
  for (const stop of axle.bumpStops) bumpStopPart(stop, list);
}

function shockParts(shock: Shock, list: PartList): void {
  const ends = { axle: anchor('axle', shock.axle), chassis: anchor('chassis', shock.chassis) };
  const body = ends[shock.bodyEnd];
  const rod = ends[shock.bodyEnd === 'axle' ? 'chassis' : 'axle'];
  telescope(
    {
      name: shock.name,
      kind: 'shock',
      words: ['body', 'shaft'],
      body: {
        anchor: body,
        radius: (shock.body.od ?? ASSUMED.shockBody) / 2,
        length: shock.body.length,
      },
      rod: { anchor: rod, radius: (shock.shaft.od ?? ASSUMED.shockShaft) / 2 },
      shortest: shock.shortest,
      longest: shock.longest,
      assumed: {
        body: shock.body.od === null || shock.body.length === null,
        rod: shock.shaft.od === null,
      },
    },
    list,
  );
  const { reservoir } = shock;
  if (!reservoir) return;
  const onBody = reservoir.on === 'body';
  list.put(
    `${shock.name} reservoir`,
    'reservoir',
    onBody ? { kind: 'aim', at: body, towards: rod } : { kind: 'rigid', body: 'chassis' },
    capsule({ from: reservoir.from, to: reservoir.to, radius: reservoir.radius }),
    onBody ? { of: shock.name, body: `${shock.name} body` } : { of: shock.name },
  );
}

/** Staves around a coil: what lies between two of them stands back by 2 % of the coil's radius. */
const STAVES = 16;

/**
 * The tube that the turns fill, open inside, which follows its seats: staves of wire from seat to seat, so that
 * it can be stretched along its line.
 */
function coilPart(coil: Coil, list: PartList): void {
  const wire = (coil.wire ?? ASSUMED.wire) / 2;
  const mean = (coil.diameter ?? ASSUMED.coilDiameter) / 2;
  const line = sub(coil.chassis, coil.axle);
  const axis = unit(line);
  const inset = scale(axis, Math.min(wire, 0.45 * norm(line)));
  const [u, v] = squareTo(...axis).map(([x = 0, y = 0, z = 0]): V3 => [x, y, z]) as [V3, V3];
  const pieces = Array.from({ length: STAVES }, (_, k) => {
    const angle = (2 * Math.PI * k) / STAVES;
    const off = add(scale(u, mean * Math.cos(angle)), scale(v, mean * Math.sin(angle)));
    return segmentPiece(
      add(add(coil.axle, inset), off),
      add(sub(coil.chassis, inset), off),
      wire,
      0,
      1,
    );
  });
  const joint = (end: 'axle' | 'chassis', at: 0 | 1): SharedJoint => ({
    name: `${coil.name}.${end}`,
    at: coil[end],
    body: end,
    end: at,
    housing: 2 * (mean + wire),
  });
  list.put(
    coil.name,
    'coil',
    { kind: 'ends', from: anchor('axle', coil.axle), to: anchor('chassis', coil.chassis) },
    solidOf('bentTube', pieces),
    {
      assumed: coil.diameter === null || coil.wire === null,
      joints: [joint('axle', 0), joint('chassis', 1)],
    },
  );
}

/** What does not give way: from behind the pad to where it is solid. The rubber before it is made to be pressed. */
function bumpStopPart(stop: BumpStop, list: PartList): void {
  const { pad, strike } = stop;
  const backing = ASSUMED.bumpBacking[stop.kind];
  list.put(
    stop.name,
    'bumpStop',
    { kind: 'rigid', body: pad.on },
    cylinder({
      from: add(pad.at, scale(strike.normal, -Math.max(0, stop.solidHeight))),
      to: add(pad.at, scale(strike.normal, backing)),
      radius: ASSUMED.bumpRadius,
    }),
    {
      assumed: true,
      joints: [
        {
          name: `${stop.name}.strike`,
          at: strike.at,
          body: strike.on,
          end: 0,
          housing: 2 * ASSUMED.bumpRadius,
        },
      ],
    },
  );
}
