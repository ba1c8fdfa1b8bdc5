/** Shocks with their reservoirs, wound coils, bump stops. */

import { type BufferAttribute, BufferGeometry, Float32BufferAttribute } from 'three';
import type { Axle, Coil } from '../../../geometry/build/build.ts';
import type { Part } from '../../../geometry/gap/part.ts';
import { ASSUMED } from '../../../geometry/gap/partSizes.ts';
import {
  add,
  anySquare,
  cross,
  distance,
  scale,
  sub,
  unit,
  type V3,
} from '../../../geometry/vector.ts';
import { drawer, type Shape } from './shape.ts';
import { drawEye, farEnd, heldLine } from './steering.ts';

function shockFrom({ kind, of, solid }: Part, { shocks }: Axle) {
  const shock = shocks.find(({ name }) => name === of);
  const [eye, along] = heldLine(solid.pieces);
  const end = farEnd(solid.pieces);
  return kind === 'shock' && shock && eye && end ? { shock, eye, along, end } : null;
}

export const drawShock = drawer(shockFrom, (part, { shock, eye, along, end }, palette) => {
  const isBody = part.name.endsWith(' body');
  drawEye(palette, eye, along, ASSUMED.eye, 'shock');
  const at = (by: number): V3 => add(eye, scale(along, by));
  if (!isBody) {
    const radius = (shock.shaft.od ?? ASSUMED.shockShaft) / 2;
    palette.in('bright').bar(at(0.6), end, radius, radius, 18);
    // what the shaft is screwed into, and its bumper
    palette.in('shock').bar(at(0.55), at(1.5), 0.8, radius * 1.25, 18);
    palette.in('bushing').drum(at(2), along, radius * 1.7, 0.8, 18, 0.25);
    return;
  }
  const radius = (shock.body.od ?? ASSUMED.shockBody) / 2;
  const length = distance(eye, end) + radius;
  const body = palette.in('shock');
  body.turned(
    eye,
    along,
    [
      [0.55, 0.62],
      [1.1, 0.95 * radius],
      [1.3, radius],
      [2.1, radius],
      [2.15, 0.93 * radius],
      [length - 1.6, 0.93 * radius],
      [length - 1.55, radius],
      [length - 0.25, radius],
      [length, 0.86 * radius],
      [length, 0],
    ],
    22,
  );
  const dark = palette.in('bushing');
  dark.ring(at(length - 1), along, 1.02 * radius, 0.9 * radius, 0.28, 22, 0.05);
});

const reservoirFrom = ({ kind, solid }: Part) => kind === 'reservoir' && solid.pieces[0];

/** A can with its caps, its rings and the fitting of its hose. */
export const drawReservoir = drawer(reservoirFrom, (_part, piece, palette) => {
  const d = piece.data;
  const [a, b]: [V3, V3] = [
    [d[0] as number, d[1] as number, d[2] as number],
    [d[3] as number, d[4] as number, d[5] as number],
  ];
  const u = unit(sub(b, a));
  const r = piece.radius;
  const whole = distance(a, b);
  palette.in('shock').turned(
    add(a, scale(u, -r)),
    u,
    [
      [0, 0],
      [0, 0.7 * r],
      [0.3, 0.94 * r],
      [whole + 2 * r - 0.3, 0.94 * r],
      [whole + 2 * r, 0.7 * r],
      [whole + 2 * r, 0],
    ],
    22,
  );
  for (const by of [0.2 * whole, 0.8 * whole]) {
    palette.in('bushing').ring(add(a, scale(u, by)), u, r, 0.9 * r, 0.7, 22, 0.08);
  }
  palette.in('bright').bar(add(a, scale(u, -r - 0.5)), add(a, scale(u, -r)), 0.4, 0.5, 6);
});

/** Sides of the wire, and steps of a turn. */
const SIDES = 8;
const STEPS = 20;

const coilFrom = ({ name }: Part, { coils }: Axle) => coils.find(each => each.name === name);

export const drawCoil = drawer(coilFrom, (_part, coil, palette) => palette.put(winding(coil)));

/** A wound coil that is wound anew for each length between its seats: wire stays round, ends lie flat. */
export function winding(coil: Coil): Shape {
  const wire = (coil.wire ?? ASSUMED.wire) / 2;
  const mean = (coil.diameter ?? ASSUMED.coilDiameter) / 2;
  const turns = coil.turns ?? Math.max(4, Math.round(distance(coil.axle, coil.chassis) / 1.8));
  const axis = unit(sub(coil.chassis, coil.axle));
  const u = anySquare(axis);
  const v = cross(axis, u);
  const rings = Math.ceil(turns * STEPS) + 1;
  const positions = new Float32Array(3 * rings * SIDES);
  const normals = new Float32Array(3 * rings * SIDES);
  const index: number[] = [];
  for (let i = 0; i + 1 < rings; i++) {
    for (let k = 0; k < SIDES; k++) {
      const [a, b] = [i * SIDES + k, i * SIDES + ((k + 1) % SIDES)];
      index.push(a, b, b + SIDES, a, b + SIDES, a + SIDES);
    }
  }
  for (const ring of [0, rings - 1]) {
    for (let k = 2; k < SIDES; k++) {
      const [a, b, c] = [ring * SIDES, ring * SIDES + k - 1, ring * SIDES + k];
      if (ring === 0) index.push(a, c, b);
      else index.push(a, b, c);
    }
  }
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new Float32BufferAttribute(positions, 3));
  geometry.setAttribute('normal', new Float32BufferAttribute(normals, 3));
  geometry.setIndex(index);
  // three keeps its own copies
  const at = geometry.getAttribute('position') as BufferAttribute;
  const out = geometry.getAttribute('normal') as BufferAttribute;
  const wind = (length: number): void => {
    const rise = Math.max(0.1, length - 2 * wire);
    // closed and flat for three quarters of a turn at both ends
    const flat = Math.min(0.75, turns / 4);
    for (let i = 0; i < rings; i++) {
      const turn = Math.min(turns, i / STEPS);
      const h = wire + rise * climb(turn, turns, flat, (2 * wire) / rise);
      const angle = 2 * Math.PI * turn;
      const cos = Math.cos(angle);
      const sin = Math.sin(angle);
      for (let k = 0; k < SIDES; k++) {
        const around = (2 * Math.PI * k) / SIDES;
        const c = Math.cos(around);
        const s = -Math.sin(around);
        const r = mean + wire * c;
        const n = i * SIDES + k;
        const [ox, oy, oz] = [
          cos * u[0] + sin * v[0],
          cos * u[1] + sin * v[1],
          cos * u[2] + sin * v[2],
        ];
        at.setXYZ(
          n,
          coil.axle[0] + ox * r + axis[0] * (h + wire * s),
          coil.axle[1] + oy * r + axis[1] * (h + wire * s),
          coil.axle[2] + oz * r + axis[2] * (h + wire * s),
        );
        out.setXYZ(n, ox * c + axis[0] * s, oy * c + axis[1] * s, oz * c + axis[2] * s);
      }
    }
    at.needsUpdate = true;
    out.needsUpdate = true;
  };
  wind(distance(coil.axle, coil.chassis));
  geometry.computeBoundingSphere();
  return { look: 'coil', geometry, hold: 0, wind };
}

/** Share of the rise at a turn: wire on wire at both ends, even between. */
function climb(turn: number, turns: number, flat: number, wire: number): number {
  const end = Math.min(0.45, wire * flat);
  if (turn < flat) return (end * turn) / flat;
  if (turn > turns - flat) return 1 - (end * (turns - turn)) / flat;
  return end + ((1 - 2 * end) * (turn - flat)) / (turns - 2 * flat);
}

const stopFrom = ({ name }: Part, { bumpStops }: Axle) =>
  bumpStops.find(each => each.name === name);

/** A rubber stop narrows to its pad; an air bump is a can with its shaft. */
export const drawBumpStop = drawer(stopFrom, (_part, stop, palette) => {
  const n = stop.strike.normal;
  const at = (by: number): V3 => add(stop.pad.at, scale(n, by));
  const tall = Math.max(0.5, stop.contactHeight);
  const r = ASSUMED.bumpRadius;
  if (stop.kind === 'air') {
    palette.in('shock').bar(at(0), at(ASSUMED.bumpBacking.air), r, r, 22);
    palette.in('bright').bar(at(-tall), at(0), 0.5 * r, 0.5 * r, 18);
    palette.in('bushing').drum(at(-tall), n, 0.85 * r, 0.6, 20, 0.15);
    return;
  }
  palette.in('housing').drum(at(0.25), n, 1.1 * r, 0.5, 22);
  palette.in('bushing').turned(
    at(-tall),
    n,
    [
      [0, 0],
      [0.05, 0.5 * r],
      [0.3, 0.68 * r],
      [0.45 * tall, 0.74 * r],
      [0.6 * tall, 0.86 * r],
      [tall, r],
    ],
    22,
  );
});
