/** Solids that the user draws: from the file to the Build. */
import { cross, norm, reject, unit } from '../../vector.ts';
import type { Shape, Solid, Vec3 } from '../build.ts';
import type { EvaluatedFile } from '../schema/file.ts';
import type { Bodies } from './bodies.ts';
import { type Context, field, pointText, settingOf } from './context.ts';
import type { Setting } from './places.ts';
import { type Sided, sided } from './sides.ts';

type SolidFile = NonNullable<EvaluatedFile['solids']>[number];

/** All solids on their sides. */
export function solidsOf(file: EvaluatedFile): Sided<SolidFile>[] {
  return sided(file.solids, 'solids');
}

export function makeSolid(item: Sided<SolidFile>, bodies: Bodies, context: Context): Solid {
  const { name, image, part, path } = item;
  const written = part.on ?? 'chassis';
  const body = bodies.find(written, { axle: part.axle ?? null, image, path: `${path}.on` });
  const setting = settingOf(bodies.carrierOf(written), body.axle, image, path);
  return {
    name,
    on: body.name,
    axle: body.axle,
    shape: shapeOf(item, setting, context),
    isNew: part.new ?? false,
    mayBeCut: part.mayBeCut ?? false,
    give: part.give ?? 0,
  };
}

function shapeOf({ part, path }: Sided<SolidFile>, setting: Setting, context: Context): Shape {
  const maker = new ShapeMaker(context, setting);
  const { sphere, capsule, bentTube, box, cylinder, hull, mesh } = part;
  if (sphere) {
    const at = maker.in('sphere');
    return { kind: 'sphere', center: at.point(sphere.center, 'center'), radius: sphere.radius };
  }
  if (capsule) {
    return { kind: 'capsule', ...maker.in('capsule').ends(capsule), radius: capsule.radius };
  }
  if (cylinder) {
    return { kind: 'cylinder', ...maker.in('cylinder').ends(cylinder), radius: cylinder.radius };
  }
  if (bentTube) {
    const at = maker.in('bentTube');
    const points = at.points(bentTube.points);
    at.atLeast(2, points, 'a bent tube');
    points.slice(1).forEach((point, i) => {
      const before = points[i] as Vec3;
      context.apart(
        before,
        point,
        `${path}.bentTube.points[${i + 1}]`,
        'this point and the one before',
      );
    });
    return { kind: 'bentTube', points, radius: bentTube.radius };
  }
  if (hull) {
    const at = maker.in('hull');
    const points = at.points(hull.points);
    at.atLeast(4, points, 'a hull');
    return { kind: 'hull', points, radius: hull.radius ?? 0 };
  }
  if (box) {
    const at = maker.in('box');
    const center = at.point(box.center, 'center');
    return { kind: 'box', center, size: box.size, axes: at.axes(box) };
  }
  return mesh ? maker.in('mesh').mesh(mesh) : { kind: 'sphere', center: [0, 0, 0], radius: 1 };
}

/** Points and attitudes of one shape. */
class ShapeMaker {
  private readonly context: Context;
  private readonly setting: Setting;

  constructor(context: Context, setting: Setting) {
    this.context = context;
    this.setting = setting;
  }

  in(key: string): ShapeMaker {
    return new ShapeMaker(this.context, field(this.setting, key));
  }

  point(written: Parameters<Context['places']['point']>[0], key: string): Vec3 {
    return this.context.places.point(written, field(this.setting, key));
  }

  points(written: readonly Parameters<Context['places']['point']>[0][]): Vec3[] {
    return written.map((point, i) => this.point(point, `points[${i}]`));
  }

  ends({ from, to }: NonNullable<SolidFile['capsule']>): { from: Vec3; to: Vec3 } {
    const ends = { from: this.point(from, 'from'), to: this.point(to, 'to') };
    this.context.apart(ends.from, ends.to, this.setting.path, 'its ends');
    return ends;
  }

  atLeast(least: number, points: readonly Vec3[], what: string): void {
    if (points.length >= least) return;
    const message = `it has ${points.length} points`;
    this.context.misshapen(
      `${this.setting.path}.points`,
      '',
      message,
      `at least ${least} points for ${what}`,
    );
  }

  /** Rows: its own X (forward), Y, Z (up, squared to forward) in vehicle axes. */
  axes({ forward, up }: Pick<NonNullable<SolidFile['box']>, 'forward' | 'up'>): [Vec3, Vec3, Vec3] {
    const x = this.direction(forward ?? [1, 0, 0], 'forward');
    const upward = this.direction(up ?? [0, 0, 1], 'up');
    const squared = reject(upward, x);
    if (norm(squared) < 1e-6) {
      const message = `it is parallel to "forward", ${pointText(x).replace(' in', '')}`;
      this.context.misshapen(`${this.setting.path}.up`, '', message, 'another direction');
    }
    const z = unit(squared);
    return [x, cross(z, x), z];
  }

  mesh(mesh: NonNullable<SolidFile['mesh']>): Shape {
    if (this.setting.image !== null) {
      const wanted = 'no "sides": a mesh is not mirrored, give the other side a file of its own';
      this.context.misnamed(this.setting.path.replace(/\.mesh$/, '.sides'), 'mirror', '', wanted);
    }
    return {
      kind: 'mesh',
      file: mesh.file,
      scale: mesh.scale ?? 1,
      at: this.point(mesh.at ?? [0, 0, 0], 'at'),
      axes: this.axes(mesh),
      sha256: mesh.sha256 ?? null,
      size: mesh.size ?? null,
    };
  }

  private direction(written: Vec3, key: string): Vec3 {
    return this.context.direction(written, field(this.setting, key));
  }
}
