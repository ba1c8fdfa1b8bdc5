/** Tires with their tread, and wheels. */
import {
  BufferAttribute,
  BufferGeometry,
  ExtrudeGeometry,
  Shape as Flat,
  Matrix4,
  Path,
  Vector3,
} from 'three';
import type { Axle, Tire } from '../../../geometry/build/build.ts';
import type { Part } from '../../../geometry/gap/part.ts';
import { rimOf } from '../../../geometry/gap/tireRing.ts';
import { add, anySquare, cross, scale, type V3 } from '../../../geometry/vector.ts';
import { drawer } from './shape.ts';
import type { Outline } from './shaper.ts';
import { drawBrake } from './steering.ts';

interface Round {
  center: V3;
  /** Unit, away from the vehicle. */
  outboard: V3;
}

function roundOf(part: Part, axle: Axle): Round {
  const out = part.name.startsWith('left') ? 1 : -1;
  const center: V3 = [axle.origin[0], (out * axle.wheelCenters) / 2, axle.origin[2]];
  return { center, outboard: part.hollow?.axis ?? [0, out, 0] };
}

/** How far the lugs stand out of the carcass, in. */
const TREAD_in = 0.95;

const tireFrom = (part: Part, axle: Axle) =>
  part.kind === 'tire' && { ...roundOf(part, axle), tire: axle.tire };

export const drawTire = drawer(tireFrom, (_part, { center, outboard, tire }, palette) => {
  const { diameter, width } = tire;
  const rim = rimOf(tire);
  const R = diameter / 2;
  const half = width / 2;
  const bead = rim.diameter / 2;
  const seat = Math.min(rim.width / 2, half - 0.6);
  const top = R - TREAD_in;
  // the sidewall bulges over the bead and runs into the shoulder
  const tall = top - bead;
  const side: Outline = [
    [seat - 0.5, bead - 0.35],
    [seat + 0.05, bead - 0.15],
    [seat + 0.3, bead + 0.45],
    [half - 0.42, bead + 0.3 * tall],
    [half - 0.3, bead + 0.34 * tall],
    [half - 0.2, bead + 0.44 * tall],
    [half - 0.26, bead + 0.56 * tall],
    [half - 0.5, bead + 0.7 * tall],
    [half - 0.9, bead + 0.83 * tall],
  ];
  const tread: Outline = [
    [half - 0.9, bead + 0.83 * tall],
    [half - 1.4, bead + 0.94 * tall],
    [half - 2.1, top - 0.04],
    [0, top + 0.08],
    [2.1 - half, top - 0.04],
    [1.4 - half, bead + 0.94 * tall],
    [0.9 - half, bead + 0.83 * tall],
  ];
  const rubber = palette.in('rubber');
  rubber.turned(
    center,
    outboard,
    side.map(([a, r]) => [-a, r] as const),
    52,
  );
  rubber.turned(center, outboard, [...side].reverse(), 52);
  palette.in('groove').turned(center, outboard, [...tread].reverse(), 52);
  // a raised ring on the sidewall
  const lettered = palette.in('rubber');
  for (const way of [-1, 1]) {
    const at = add(center, scale(outboard, way * (half - 0.32)));
    lettered.ring(at, outboard, bead + 0.31 * tall, bead + 0.255 * tall, 0.5, 52, 0.12);
  }
  for (const each of lugs(tire, { center, outboard })) palette.put(each);
});

/** The lugs: a row on each shoulder that runs down its side, two rows in the middle, staggered. */
function lugs({ diameter, width }: Tire, { center, outboard }: Round) {
  const R = diameter / 2;
  const half = width / 2;
  const count = Math.max(16, Math.round((Math.PI * diameter) / 4.6));
  const pitch = (2 * Math.PI * R) / count;
  const u = anySquare(outboard);
  const v = cross(outboard, u);
  const basis = new Matrix4().makeBasis(
    new Vector3(...outboard),
    new Vector3(...u),
    new Vector3(...v),
  );
  basis.setPosition(...center);
  const copies = (angles: readonly number[], flip: boolean): Float32Array => {
    const out = new Float32Array(16 * angles.length);
    const m = new Matrix4();
    const turn = new Matrix4();
    for (const [i, angle] of angles.entries()) {
      // lug frame: x across, y along the tread, z out
      turn.makeRotationX(angle);
      m.copy(basis).multiply(turn);
      if (flip) m.multiply(flipAcross);
      m.toArray(out, 16 * i);
    }
    return out;
  };
  const even = Array.from({ length: count }, (_, k) => (2 * Math.PI * k) / count);
  const odd = even.map(angle => angle + Math.PI / count);
  const low = R - TREAD_in - 0.35;
  // seen from above, x across: the shoulder lug runs over the edge and down the side
  const shoulder = lug(
    [
      [0.47 * half, -0.27 * pitch, 0],
      [0.5 * half, 0.16 * pitch, 0],
      [half - 0.62, 0.22 * pitch, 1],
      [half - 0.62, -0.24 * pitch, 1],
    ],
    R,
    low,
    { drop: 2.7, half },
  );
  const long = lug(
    [
      [0.55 * half, 0.3 * pitch, 0],
      [0.55 * half, 0.6 * pitch, 0],
      [half - 1.3, 0.64 * pitch, 1],
      [half - 1.3, 0.35 * pitch, 1],
    ],
    R - 0.04,
    low,
    { drop: 1.2, half: half - 0.5 },
  );
  const middle = lug(
    [
      [0.05 * half, -0.34 * pitch, 0],
      [0.09 * half, 0.1 * pitch, 0],
      [0.41 * half, 0.3 * pitch, 0],
      [0.38 * half, -0.16 * pitch, 0],
    ],
    R,
    low,
    null,
  );
  return [
    { look: 'lug' as const, geometry: shoulder, copies: copies(even, false) },
    { look: 'lug' as const, geometry: shoulder.clone(), copies: copies(odd, true) },
    { look: 'lug' as const, geometry: long, copies: copies(even, false) },
    { look: 'lug' as const, geometry: long.clone(), copies: copies(odd, true) },
    { look: 'lug' as const, geometry: middle, copies: copies(even, false) },
    { look: 'lug' as const, geometry: middle.clone(), copies: copies(odd, true) },
  ];
}

/** Half a turn about the radial axis: across and along the tread both change sides, so that it stays right-handed. */
const flipAcross = new Matrix4().makeRotationZ(Math.PI);

type Corner = readonly [across: number, along: number, edge: 0 | 1];

/**
 * A lug: four corners of its top, counterclockwise from outside, drafted to its foot. Corners that are at the
 * tire's edge run on down its side.
 */
function lug(
  corners: readonly Corner[],
  top: number,
  foot: number,
  edge: { drop: number; half: number } | null,
): BufferGeometry {
  const positions: number[] = [];
  const colors: number[] = [];
  const quad = (...q: readonly V3[]): void => {
    for (const i of [0, 1, 2, 0, 2, 3]) {
      const p = q[i] as V3;
      positions.push(...p);
      // darker down in the groove, where little light gets
      const shade = 0.35 + 0.65 * Math.min(1, Math.max(0, (p[2] - foot) / (top - 0.3 - foot)));
      const share = edge && p[0] > edge.half - 0.6 ? 1 : shade;
      colors.push(share, share, share);
    }
  };
  const mid: V3 = [
    corners.reduce((s, c) => s + c[0], 0) / 4,
    corners.reduce((s, c) => s + c[1], 0) / 4,
    0,
  ];
  // the tread is round: a point at y stands lower
  const onto = (x: number, y: number, r: number): V3 => [
    x,
    y,
    Math.sqrt(Math.max(1, r * r - y * y)),
  ];
  const inset = (c: Corner, by: number): readonly [number, number] => {
    const [dx, dy] = [mid[0] - c[0], mid[1] - c[1]];
    const length = Math.hypot(dx, dy);
    return [c[0] + (by * dx) / length, c[1] + (by * dy) / length];
  };
  const tops = corners.map(c => {
    const [x, y] = inset(c, 0.13);
    return onto(x, y, top - (c[2] === 1 ? 0.12 : 0));
  });
  const bevels = corners.map(c => onto(c[0], c[1], top - 0.13 - (c[2] === 1 ? 0.14 : 0)));
  const feet = corners.map(c => {
    const [x, y] = inset(c, -0.1);
    return onto(x, y, foot);
  });
  const [t0, t1, t2, t3] = tops as [V3, V3, V3, V3];
  quad(t0, t3, t2, t1);
  for (let i = 0; i < 4; i++) {
    const j = (i + 1) % 4;
    quad(tops[i] as V3, tops[j] as V3, bevels[j] as V3, bevels[i] as V3);
    quad(bevels[i] as V3, bevels[j] as V3, feet[j] as V3, feet[i] as V3);
  }
  if (edge) {
    // down the side: from the outer edge of the top to the sidewall
    const [outA, outB] = [corners[2] as Corner, corners[3] as Corner];
    const [a, b] = [bevels[2] as V3, bevels[3] as V3];
    const lowA: V3 = [edge.half - 0.1, outA[1] * 0.8, top - edge.drop];
    const lowB: V3 = [edge.half - 0.1, outB[1] * 0.8, top - edge.drop];
    const inA: V3 = [edge.half - 0.75, lowA[1], lowA[2] - 0.25];
    const inB: V3 = [edge.half - 0.75, lowB[1], lowB[2] - 0.25];
    quad(a, b, lowB, lowA);
    quad(lowA, lowB, inB, inA);
    const back = (p: V3): V3 => [p[0] - 1.5, p[1], p[2] - 0.4];
    quad(back(a), a, lowA, inA);
    quad(b, back(b), inB, lowB);
  }
  // reversed winding: corners were given as seen from outside with x to the right and y up
  for (let i = 0; i < positions.length; i += 9) {
    for (let k = 0; k < 3; k++) {
      const keep = positions[i + 3 + k] as number;
      positions[i + 3 + k] = positions[i + 6 + k] as number;
      positions[i + 6 + k] = keep;
      const shade = colors[i + 3 + k] as number;
      colors[i + 3 + k] = colors[i + 6 + k] as number;
      colors[i + 6 + k] = shade;
    }
  }
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(Float32Array.from(positions), 3));
  geometry.setAttribute('color', new BufferAttribute(Float32Array.from(colors), 3));
  geometry.computeVertexNormals();
  return geometry;
}

const wheelFrom = (part: Part, axle: Axle) =>
  part.kind === 'wheel' && {
    ...roundOf(part, axle),
    rim: rimOf(axle.tire),
    // an axle that does not steer has its brakes on the housing, drawn with the wheel
    hasBrake: !axle.steered,
  };

export const drawWheel = drawer(
  wheelFrom,
  (_part, { center, outboard, rim, hasBrake }, palette) => {
    const R = rim.diameter / 2;
    const half = rim.width / 2;
    const metal = palette.in('wheel');
    const barrel: Outline = [
      [-half, R - 0.9],
      [-half, R + 0.28],
      [-half + 0.35, R + 0.3],
      [-half + 0.8, R - 0.25],
      [-0.35 * half, R - 1.1],
      [0.35 * half, R - 1.1],
      [half - 0.9, R - 0.3],
      [half - 0.4, R + 0.3],
      [half, R + 0.28],
      [half + 0.05, R - 0.55],
      [half - 0.3, R - 0.8],
      [0.35 * half, R - 1.5],
      [-0.35 * half, R - 1.5],
      [-half, R - 0.9],
    ];
    metal.turned(center, outboard, barrel, 44);
    const disk = add(center, scale(outboard, rim.offset + 0.25));
    metal.also(spokes(R - 1.2, disk, outboard));
    const u = anySquare(outboard);
    const v = cross(outboard, u);
    const around = (r: number, angle: number): V3 =>
      add(scale(u, r * Math.cos(angle)), scale(v, r * Math.sin(angle)));
    const bright = palette.in('bright');
    for (let k = 0; k < 8; k++) {
      const at = add(disk, around(0.3 * R, (2 * Math.PI * (k + 0.5)) / 8));
      bright.drum(add(at, scale(outboard, 0.6)), outboard, 0.42, 0.8, 6, 0.1);
    }
    bright.turned(
      disk,
      outboard,
      [
        [0, 0.2 * R],
        [1.7, 0.17 * R],
        [2, 0.13 * R],
        [2, 0],
      ],
      22,
    );
    // the bolts of the outer lip
    for (let k = 0; k < 24; k++) {
      const at = add(add(center, scale(outboard, half)), around(R - 0.1, (2 * Math.PI * k) / 24));
      bright.drum(add(at, scale(outboard, 0.16)), outboard, 0.2, 0.25, 6, 0.04);
    }
    if (hasBrake) drawBrake(rim, palette, add(disk, scale(outboard, -2.6)), outboard);
  },
);

/** The disk of a wheel with eight windows. */
function spokes(radius: number, at: V3, outboard: V3): BufferGeometry {
  const flat = new Flat();
  flat.absarc(0, 0, radius, 0, 2 * Math.PI, false);
  for (let k = 0; k < 8; k++) {
    const middle = (2 * Math.PI * k) / 8;
    const [inner, outer] = [0.5 * radius, 0.88 * radius];
    const window = new Path();
    const points: [number, number][] = [];
    for (const [r, spread] of [
      [inner, 0.17],
      [outer, 0.27],
    ] as const) {
      const steps = 5;
      for (let i = 0; i <= steps; i++) {
        const t = r === inner ? i / steps : 1 - i / steps;
        points.push([r, middle - spread + 2 * spread * t]);
      }
    }
    for (const [i, [r, angle]] of points.entries()) {
      const [x, y] = [r * Math.cos(angle), r * Math.sin(angle)];
      if (i === 0) window.moveTo(x, y);
      else window.lineTo(x, y);
    }
    window.closePath();
    flat.holes.push(window);
  }
  const geometry = new ExtrudeGeometry(flat, {
    depth: 0.5,
    bevelEnabled: true,
    bevelSize: 0.16,
    bevelThickness: 0.16,
    bevelSegments: 1,
    curveSegments: 32,
  });
  geometry.translate(0, 0, -0.25);
  const u = anySquare(outboard);
  const v = cross(outboard, u);
  const place = new Matrix4().makeBasis(
    new Vector3(...u),
    new Vector3(...v),
    new Vector3(...outboard),
  );
  place.setPosition(...at);
  geometry.applyMatrix4(place);
  return geometry;
}
