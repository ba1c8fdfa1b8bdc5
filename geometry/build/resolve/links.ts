/** Joints, links, track bars and radius arms: from the file to the Build. */
import type {
  Axle,
  AxleName,
  JointEnd,
  Link,
  RadiusArm,
  Rates,
  SharedJoint,
  Side,
  Tube,
} from '../build.ts';
import { nearest } from '../nearest.ts';
import type { EvaluatedFile } from '../schema/file.ts';
import { type Context, settingOf } from './context.ts';
import type { WrittenPoint } from './places.ts';
import { type Sided, sided, turnOnSide } from './sides.ts';

type AxleFile = EvaluatedFile['axles'][number];
type JointFile = NonNullable<AxleFile['joints']>[number];
type LinkFile = AxleFile['links'][number];
type EndFile = LinkFile['chassis'];

/** Young's modulus of steel, lbf/in², common practice for tube of any steel (29 to 30 million psi). */
export const STEEL_psi = 29e6;

interface Joint extends Sided<JointFile> {
  axle: AxleName;
}

/** One end of a link in the file. */
interface EndPlace {
  /** `NAME.axle front` */
  name: string;
  on: 'axle' | 'chassis';
  end: EndFile;
  image: Side | null;
  path: string;
}

const noRates: Rates = {
  radial: null,
  axial: null,
  torsional: null,
  conical: null,
  bracket: null,
};

export class Links {
  private readonly context: Context;
  private readonly joints = new Map<string, Joint>();
  private readonly users = new Map<string, number>();
  private readonly links = new Map<AxleName, Sided<LinkFile>[]>();

  constructor(context: Context) {
    this.context = context;
  }

  /** Learns the joints of an axle, for the links of all axles. */
  addJoints(axle: AxleFile, path: string): void {
    for (const joint of sided(axle.joints, `${path}.joints`)) {
      if (!this.joints.has(joint.name)) this.joints.set(joint.name, { ...joint, axle: axle.name });
      const { at, on } = joint.part;
      if (at && !on) {
        this.context.misnamed(
          `${joint.path}.on`,
          null,
          'missing',
          '"axle" or "chassis", since the joint has a point of its own',
        );
      }
      if (!at && on) {
        this.context.misnamed(
          `${joint.path}.at`,
          null,
          'missing',
          'the point of this shared joint, or no "on"',
        );
      }
      const setting = settingOf(on ?? 'none', axle.name, joint.image, `${joint.path}.at`);
      this.context.places.add(joint.name, at, setting);
    }
  }

  /** Names the ends of an axle's links. */
  addLinks(axle: AxleFile, path: string): void {
    const links = sided<LinkFile>(axle.links, `${path}.links`);
    this.links.set(axle.name, links);
    for (const end of links.flatMap(endsOf)) {
      const joint = this.jointOf(end);
      if (joint?.part.at) {
        this.users.set(joint.name, (this.users.get(joint.name) ?? 0) + 1);
        this.checkShared(end, joint, axle.name);
      } else if (!end.end.at) {
        this.context.misnamed(
          `${end.path}.at`,
          null,
          'missing',
          'a point, or a "joint" that has one',
        );
      }
      if (joint?.part.at) {
        const setting = settingOf(
          joint.part.on ?? 'none',
          joint.axle,
          joint.image,
          `${joint.path}.at`,
        );
        this.context.places.add(end.name, joint.part.at, setting);
      } else {
        const setting = settingOf(end.on, axle.name, end.image, `${end.path}.at`);
        this.context.places.add(end.name, end.end.at, setting);
      }
    }
  }

  private checkShared({ end, on, path }: EndPlace, joint: Joint, axle: AxleName): void {
    if (end.at) {
      const message = `the shared joint "${joint.name}" has a point of its own`;
      this.context.misnamed(`${path}.at`, end.at, message, 'no "at" here');
    }
    if (joint.part.on && joint.part.on !== on) {
      const message = `this shared joint is on the ${joint.part.on}`;
      this.context.misnamed(`${path}.joint`, end.joint, message, `a joint on the ${on}`);
    }
    if (joint.axle !== axle) {
      const message = `this shared joint belongs to the ${joint.axle} axle`;
      this.context.misnamed(`${path}.joint`, end.joint, message, 'a joint of this axle');
    }
  }

  /** The links, radius arms and shared joints of an axle, once all places are named. */
  make(axle: AxleName): Pick<Axle, 'links' | 'radiusArms' | 'sharedJoints'> {
    const made = (this.links.get(axle) ?? []).map(link => this.link(link, axle));
    return {
      links: made.filter(link => link.kind !== 'radius arm'),
      radiusArms: made.filter(link => link.kind === 'radius arm'),
      sharedJoints: [...this.joints.values()]
        .filter(joint => joint.axle === axle)
        .flatMap(joint => this.sharedJoint(joint)),
    };
  }

  /** The path of the joint that each end names, by the end's name. */
  jointPaths(): Record<string, string> {
    const ends = [...this.links.values()].flat().flatMap(endsOf);
    return Object.fromEntries(
      ends.flatMap(end => {
        const joint = this.jointOf(end);
        return joint ? [[end.name, joint.path]] : [];
      }),
    );
  }

  private sharedJoint(joint: Joint): SharedJoint[] {
    const { name, image, path, part } = joint;
    const users = this.users.get(name) ?? 0;
    if (part.at && users === 0)
      this.context.warnings.push(`The joint "${name}" is used by no link.`);
    if (!part.at || users < 2) return [];
    const on = part.on ?? 'axle';
    const setting = settingOf(on, joint.axle, image, `${path}.bolt`);
    return [
      {
        name,
        on,
        at: this.context.places.at(name),
        bolt: part.bolt ? this.context.direction(part.bolt, setting) : null,
        rates: ratesOf(part),
      },
    ];
  }

  private link(link: Sided<LinkFile>, axle: AxleName): Link | RadiusArm {
    const { name, image, part, path } = link;
    const ends = endsOf(link).map(end => this.end(end, axle));
    const through = (part.through ?? []).map((point, i) =>
      this.context.places.point(
        point as WrittenPoint,
        settingOf('none', axle, image, `${path}.through[${i}]`),
      ),
    );
    const common = { name, tube: tubeOf(part.tube, this.context, `${path}.tube`), through };
    const [first, second, third] = ends as [JointEnd, JointEnd, JointEnd];
    if (part.kind === 'radius arm') {
      this.context.apart(first.at, second.at, `${path}.axle`, 'the axle ends of this radius arm');
      this.context.apart(
        first.at,
        third.at,
        path,
        'the axle end and the chassis end of this radius arm',
      );
      this.context.apart(
        second.at,
        third.at,
        path,
        'the axle end and the chassis end of this radius arm',
      );
      return { ...common, kind: part.kind, axle: [first, second], chassis: third };
    }
    this.context.apart(first.at, second.at, path, `the ends of this ${part.kind ?? 'link'}`);
    return {
      ...common,
      kind: part.kind ?? 'link',
      axle: first,
      chassis: second,
      length: part.length ?? null,
      modulus: part.modulus ?? STEEL_psi,
      rate: part.rate ?? null,
    };
  }

  private end(place: EndPlace, axle: AxleName): JointEnd {
    const { name, on, end, image, path } = place;
    const joint = this.jointOf(place);
    const kind = joint?.part;
    // What the end says is on the link's side. So is a kind of joint that both sides name; a shared joint is on its own
    // side, and so is one of the side's own.
    const isOfSide = joint !== null && (kind?.at || joint.name !== end.joint);
    const jointImage = isOfSide ? joint.image : (joint?.image ?? image);
    const direction = (key: 'bolt' | 'bore') => {
      const own = end[key];
      if (own) return this.context.direction(own, settingOf(on, axle, image, `${path}.${key}`));
      const shared = kind?.[key];
      if (!shared || joint === null) return null;
      return this.context.direction(
        shared,
        settingOf(on, axle, jointImage, `${joint.path}.${key}`),
      );
    };
    const clocking =
      typeof end.clocking === 'number'
        ? turnOnSide(end.clocking, image)
        : turnOnSide(kind?.clocking ?? 0, jointImage);
    return {
      name,
      at: this.context.places.at(name),
      kind: kind?.kind ?? 'rodEnd',
      bolt: direction('bolt'),
      bore: direction('bore'),
      limit: end.limit ?? kind?.limit ?? null,
      clocking,
      housing: kind?.housing ?? null,
      holdsRoll: kind?.holdsRoll ?? kind?.kind === 'bushing',
      rates: kind ? ratesOf(kind) : noRates,
      shared:
        joint !== null && kind?.at && (this.users.get(joint.name) ?? 0) > 1 ? joint.name : null,
    };
  }

  /** The joint that an end names: in a mirrored link, its own side's of a mirrored joint. */
  private jointOf({ end, image, path }: EndPlace): Joint | null {
    const { joint: name } = end;
    if (!name) return null;
    const ofSide = image === null ? undefined : this.joints.get(`${image} ${name}`);
    const joint = ofSide ?? this.joints.get(name);
    if (joint !== undefined) return joint;
    const known = [...this.joints.keys()];
    const near = known.includes(`left ${name}`) ? `left ${name}` : nearest(name, known);
    const wanted = near === null ? 'the name of a joint under "joints"' : `"${near}"`;
    this.context.misnamed(`${path}.joint`, name, 'there is no such joint', wanted);
    return null;
  }
}

function endsOf({ name, image, part, path }: Sided<LinkFile>): EndPlace[] {
  const chassis: EndPlace = {
    name: `${name}.chassis`,
    on: 'chassis',
    end: part.chassis,
    image,
    path: `${path}.chassis`,
  };
  if (part.kind !== 'radius arm') {
    return [
      { name: `${name}.axle`, on: 'axle', end: part.axle, image, path: `${path}.axle` },
      chassis,
    ];
  }
  const [front, rear] = part.axle;
  return [
    { name: `${name}.axle front`, on: 'axle', end: front, image, path: `${path}.axle[0]` },
    { name: `${name}.axle rear`, on: 'axle', end: rear, image, path: `${path}.axle[1]` },
    chassis,
  ];
}

function ratesOf({ rates }: JointFile): Rates {
  return {
    radial: rates?.radial ?? null,
    axial: rates?.axial ?? null,
    torsional: rates?.torsional ?? null,
    conical: rates?.conical ?? null,
    bracket: rates?.bracket ?? null,
  };
}

/** A tube of the file; told where its wall is thicker than its radius. */
export function tubeOf(
  tube: { od: number; wall?: number | null | undefined } | null | undefined,
  context: Context,
  path: string,
): Tube | null {
  if (!tube) return null;
  const wall = tube.wall ?? null;
  if (wall !== null && wall * 2 > tube.od) {
    context.misshapen(
      `${path}.wall`,
      '',
      `twice the wall (${wall} in) is more than the outer diameter (${tube.od} in)`,
      'a wall of at most half the outer diameter',
    );
  }
  return { od: tube.od, wall };
}
