/** The axle housing: tubes with their flanges, yokes, the differential with its cover and pinion. */
import type { Axle } from '../../../geometry/build/build.ts';
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
import { drawer, type Palette } from './shape.ts';

const Y: V3 = [0, 1, 0];

function tubesFrom({ name, solid }: Part, { housing: { differential } }: Axle) {
  const [segment] = solid.pieces;
  return name === 'axle tubes' && segment ? { segment, differential } : null;
}

function yokeFrom({ name }: Part, { knuckles }: Axle) {
  const side = /^(left|right) yoke$/.exec(name)?.[1] as 'left' | 'right' | undefined;
  const kingpin = side && knuckles?.[side].kingpin;
  return kingpin ? { side, kingpin } : null;
}

function differentialFrom({ kind }: Part, { housing: { differential }, driveline }: Axle) {
  if (kind !== 'differential' || !differential) return null;
  return { differential, joint: driveline?.pinion.joint ?? null };
}

export const drawTubes = drawer(tubesFrom, (_part, { segment, differential }, palette) => {
  const radius = segment.radius;
  const d = segment.data;
  const [a, b]: [V3, V3] = [
    [d[0] as number, d[1] as number, d[2] as number],
    [d[3] as number, d[4] as number, d[5] as number],
  ];
  const metal = palette.in('housing');
  metal.bar(a, b, radius, radius, 26);
  const u = unit(sub(b, a));
  for (const [end, way] of [
    [a, 1],
    [b, -1],
  ] as const) {
    // the flange that yoke or brake plate is welded to, and a seam a little inboard
    metal.drum(add(end, scale(u, 0.35 * way)), u, radius * 1.28, 0.7, 26, 0.12);
    metal.ring(add(end, scale(u, 3.2 * way)), u, radius * 1.05, radius * 0.9, 0.35, 26);
  }
  if (differential) {
    // where the tubes are pressed into the center
    for (const side of [-1, 1]) {
      const seat = differential.center[1] + side * (differential.radius + 1.1);
      if (Math.abs(seat) > Math.abs(a[1])) continue;
      const at: V3 = [a[0], seat, a[2]];
      metal.turned(
        add(at, scale(Y, -1.6 * side)),
        scale(Y, side),
        [
          [0, radius * 1.5],
          [1.4, radius * 1.3],
          [3.2, radius * 1.18],
          [3.3, radius],
        ],
        26,
      );
    }
  }
});

/** The forged C that carries the kingpin's balls. */
export const drawYoke = drawer(yokeFrom, (part, { side, kingpin }, palette) => {
  const out = side === 'left' ? 1 : -1;
  const metal = palette.in('housing');
  for (const piece of part.solid.pieces) {
    const d = piece.data;
    const root: V3 = [d[0] as number, d[1] as number, d[2] as number];
    const tip: V3 = [d[3] as number, d[4] as number, d[5] as number];
    metal.capsule(root, add(root, scale(Y, out * 0.2)), piece.radius * 1.35, 16);
    const u = unit(sub(tip, root));
    metal.turned(
      root,
      u,
      [
        [0, piece.radius * 1.3],
        [distance(root, tip) * 0.6, piece.radius * 1.02],
        [distance(root, tip), piece.radius * 0.92],
        [distance(root, tip) + 0.3, piece.radius * 0.5],
      ],
      16,
    );
  }
  const k = unit(sub(kingpin.upper, kingpin.lower));
  for (const ball of [kingpin.lower, kingpin.upper]) {
    metal.drum(add(ball, scale(Y, -0.35 * out)), k, 1.2, 1.25, 18, 0.2);
  }
});

export const drawDifferential = drawer(differentialFrom, (part, from, palette) => {
  const { differential, joint } = from;
  if (part.name === 'differential') drawCenter(palette, differential);
  else if (part.name === 'differential cover') drawCover(palette, differential);
  else drawPinion(palette, differential.center, joint, part.solid.pieces[0]?.data);
});

type Differential = { center: V3; radius: number; cover: { center: V3; radius: number } | null };

/** The plane in which the cover leaves the center: where both balls meet. */
function seam({
  center,
  radius,
  cover,
}: Differential): { at: V3; axis: V3; radius: number } | null {
  if (!cover) return null;
  const away = distance(center, cover.center);
  if (away < 1e-3) return null;
  const axis = unit(sub(cover.center, center));
  const along = (away * away + radius * radius - cover.radius * cover.radius) / (2 * away);
  // the face that a cover is bolted to: as wide as the cover, wherever it stands
  const off = Math.abs(along) < radius ? Math.sqrt(radius * radius - along * along) : 0;
  const wide = Math.min(0.97 * radius, Math.max(off, 0.9 * cover.radius));
  return {
    at: add(center, scale(axis, Math.sqrt(radius * radius - wide * wide))),
    axis,
    radius: wide,
  };
}

/** The cast center, cut flat where the cover is bolted on, with ribs along the tubes. */
function drawCenter(palette: Palette, differential: Differential): void {
  const { center, radius } = differential;
  const metal = palette.in('housing');
  metal.ball(center, radius, 30);
  for (const side of [-1, 1]) {
    metal.turned(
      center,
      [0, side, 0],
      [
        [0.55 * radius, 0.84 * radius],
        [0.9 * radius, 0.52 * radius],
        [1.25 * radius, 0.4 * radius],
      ],
      26,
    );
  }
  const face = seam(differential);
  if (face) metal.drum(face.at, face.axis, face.radius * 1.03, 0.9, 32, 0.15);
}

/** A domed cover with its flange and a ring of bolts. */
function drawCover(palette: Palette, differential: Differential): void {
  const { cover } = differential;
  const face = seam(differential);
  if (!cover) return;
  const metal = palette.in('cover');
  if (!face) {
    metal.ball(cover.center, cover.radius, 28);
    return;
  }
  const { at, axis } = face;
  const top = distance(cover.center, at) * Math.sign(1) + cover.radius;
  const reach = Math.max(
    0.8,
    (cover.center[0] - at[0]) * axis[0] +
      (cover.center[1] - at[1]) * axis[1] +
      (cover.center[2] - at[2]) * axis[2] +
      cover.radius,
  );
  const dome = 0.84 * face.radius;
  const outline: [number, number][] = [
    [0.4, 0],
    [0.4, face.radius],
    [0.75, face.radius],
    [0.85, face.radius - 0.1],
    [0.85, dome],
  ];
  for (let i = 1; i <= 8; i++) {
    const angle = (Math.PI / 2) * (i / 8);
    outline.push([0.85 + (Math.min(reach, top) - 0.85) * Math.sin(angle), dome * Math.cos(angle)]);
  }
  metal.turned(at, axis, outline, 32);
  const u = anySquare(axis);
  const v = cross(axis, u);
  const bolts = palette.in('bright');
  for (let k = 0; k < 12; k++) {
    const angle = (2 * Math.PI * (k + 0.5)) / 12;
    const r = 0.92 * face.radius;
    const off = add(scale(u, r * Math.cos(angle)), scale(v, r * Math.sin(angle)));
    bolts.drum(add(add(at, off), scale(axis, 1)), axis, 0.3, 0.4, 6, 0.06);
  }
}

/** The snout that holds the pinion's bearings, its seal, and the yoke. */
function drawPinion(
  palette: Palette,
  center: V3,
  joint: V3 | null,
  data: Float64Array | undefined,
): void {
  if (!data) return;
  const end: V3 = [data[3] as number, data[4] as number, data[5] as number];
  const axis = unit(sub(end, center));
  const length = distance(center, end);
  const r = ASSUMED.pinion;
  palette.in('housing').turned(
    center,
    axis,
    [
      [0.35 * length, 1.9 * r],
      [0.75 * length, 1.3 * r],
      [0.85 * length, r],
      [length + 0.7 * r, 0.95 * r],
      [length + 0.7 * r, 0],
    ],
    24,
  );
  if (!joint) return;
  const flange = add(end, scale(axis, r * 0.95));
  palette.in('driveshaft').bar(flange, joint, 0.62 * r, 0.5 * r, 18);
}
