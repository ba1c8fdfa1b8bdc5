/** The Build from an evaluated file: names settled, parts mirrored, points in vehicle axes at ride height. */
import type { Axle, AxleName, Build, Entry, Tire, Vec3, Wanted, Weights } from '../build.ts';
import type { ReadEntry } from '../evaluate.ts';
import type { Problem } from '../problem.ts';
import type { EvaluatedFile } from '../schema/file.ts';
import { Bodies } from './bodies.ts';
import { checkAxles } from './check.ts';
import { Context, settingOf } from './context.ts';
import { addDriveline, makeDriveline } from './driveline.ts';
import { addKnuckles, makeKnuckles } from './knuckles.ts';
import { Links } from './links.ts';
import { checkNames } from './names.ts';
import { parentOf } from './paths.ts';
import { rodsOf } from './rods.ts';
import { sided } from './sides.ts';
import { makeSolid, solidsOf } from './solids.ts';
import { Springs } from './springs.ts';
import { addSteering, makeSteering, ramsOf } from './steering.ts';
import { addSwayBar, makeSwayBar } from './swayBar.ts';

type AxleFile = EvaluatedFile['axles'][number];

export interface Resolved {
  build: Build;
  /** Problems of the stage `names`; where there are any, those of `geometry` mean nothing. */
  names: Problem[];
  geometry: Problem[];
}

/** Share of a tire's width that its shoulder's radius is taken as; common practice, no source. */
const SHOULDER = 0.15;

/**
 * @param entries what was typed, with the places that points were taped from
 * @param settled the same as a file with these names had them before: they hang on no value of a field
 */
export function resolveBuild(
  file: EvaluatedFile,
  entries: readonly ReadEntry[],
  settled: Entry[] | null = null,
): Resolved {
  const context = new Context(file);
  const axles = file.axles.map(axle => new AxleMaker(axle, file, context));
  const bodies = new Bodies(context);
  const links = new Links(context);
  const datums = sided(file.datums, 'datums');
  const solids = solidsOf(file);

  checkAxles(file, context);
  for (const axle of axles) axle.addBodies(bodies);
  for (const { name, image, part, path } of datums) {
    const on = part.on ?? 'chassis';
    const axle = on === 'chassis' ? null : on === 'front axle' ? 'front' : 'rear';
    const setting = settingOf(axle === null ? 'chassis' : 'axle', axle, image, `${path}.point`);
    context.places.add(name, part.point, setting);
  }
  for (const { file: axle, path } of axles) links.addJoints(axle, path);
  for (const axle of axles) axle.addPlaces(links, bodies);
  context.places.checkAll();
  checkNames([...axles.flatMap(axle => axle.parts()), ...datums, ...solids], context);

  const build: Build = {
    name: file.name,
    variant: null,
    unit: file.unit,
    driverSide: file.driverSide ?? 'left',
    notes: file.notes ?? null,
    wheelbase: file.wheelbase,
    weights: makeWeights(file, context),
    axles: axles.map(axle => axle.make(links, bodies)),
    solids: solids.map(solid => makeSolid(solid, bodies, context)),
    wanted: makeWanted(file, entries),
    entries: settled ?? withPlaces(entries, context),
    places: context.places.all(),
    jointPaths: links.jointPaths(),
    warnings: context.warnings,
  };
  return {
    build,
    names: [...context.places.problems, ...context.names],
    geometry: context.geometry,
  };
}

/** One axle on its way into the Build. */
class AxleMaker {
  readonly file: AxleFile;
  readonly path: string;
  private readonly context: Context;
  private readonly springs: Springs;
  /** Names of the axle's driveshaft and sway bar: with the axle's own before them where there are two axles. */
  private readonly shaft: string;
  private readonly bar: string;

  constructor(axle: AxleFile, file: EvaluatedFile, context: Context) {
    this.file = axle;
    this.path = `axles["${axle.name}"]`;
    this.context = context;
    this.springs = new Springs(axle, this.path, context);
    const own = file.axles.length > 1 ? `${axle.name} ` : '';
    this.shaft = `${own}driveshaft`;
    this.bar = `${own}sway bar`;
  }

  private get name(): AxleName {
    return this.file.name;
  }

  /** The named parts of the axle with where they stand. */
  parts() {
    const { file, path } = this;
    return [
      ...sided(file.joints, `${path}.joints`),
      ...sided<AxleFile['links'][number]>(file.links, `${path}.links`),
      ...ramsOf(file, path),
      ...this.springs.parts(),
    ];
  }

  addBodies(bodies: Bodies): void {
    const { file, path } = this;
    const add = (name: string) => bodies.add(name, this.name);
    add('axle');
    if (file.knuckles) for (const side of ['left', 'right']) add(`${side} knuckle`);
    if (file.steering?.box) add('pitman arm');
    const { dragLink, tieRods } = rodsOf(file, path);
    if (dragLink) add(dragLink.name);
    for (const rod of tieRods) add(rod.name);
    for (const link of sided<AxleFile['links'][number]>(file.links, path)) add(link.name);
    for (const ram of ramsOf(file, path))
      for (const end of ['body', 'rod']) add(`${ram.name}.${end}`);
    for (const shock of this.springs.shocks) {
      for (const end of ['body', 'shaft']) add(`${shock.name}.${end}`);
    }
    if (file.driveline) add('driveshaft');
    if (file.swayBar) {
      add('sway bar');
      for (const side of ['left', 'right'] as const) {
        for (const part of ['arm', 'link']) add(`${side} sway bar ${part}`);
      }
    }
  }

  addPlaces(links: Links, bodies: Bodies): void {
    const { file, path, context } = this;
    links.addLinks(file, path);
    addKnuckles(file, path, context);
    addSteering(file, path, context);
    this.springs.add(bodies);
    addSwayBar(file, path, this.bar, context);
    addDriveline(file, path, this.shaft, context);
  }

  make(links: Links, bodies: Bodies): Axle {
    const { file, path, context } = this;
    return {
      name: file.name,
      steered: file.steered,
      wheelCenters: file.wheelCenters,
      origin: context.frames.origin(file.name),
      housing: this.housing(),
      tire: this.tire(),
      ...links.make(file.name),
      knuckles: makeKnuckles(file, path, context),
      steering: makeSteering(file, path, context),
      ...this.springs.make(bodies),
      swayBar: makeSwayBar(file, path, this.bar, context),
      driveline: makeDriveline(file, path, this.shaft, context),
    };
  }

  private housing(): Axle['housing'] {
    const { tube, differential } = this.file.housing ?? {};
    const point = (written: NonNullable<typeof differential>['center'], key: string): Vec3 =>
      this.context.places.point(
        written,
        settingOf('axle', this.name, null, `${this.path}.housing.differential.${key}`),
      );
    const cover = differential?.cover;
    return {
      tubeOd: tube?.od ?? null,
      differential: differential
        ? {
            center: point(differential.center, 'center'),
            radius: differential.radius,
            cover: cover
              ? { center: point(cover.center, 'cover.center'), radius: cover.radius }
              : null,
          }
        : null,
    };
  }

  private tire(): Tire {
    const { tire } = this.file;
    const { context, path } = this;
    const shoulder = tire.shoulder ?? SHOULDER * tire.width;
    if (typeof tire.shoulder !== 'number') {
      context.warnings.push(
        `The ${this.name} tire's shoulder is taken as 15 % of its width; give "shoulder" to say otherwise.`,
      );
    }
    const refuse = (key: string, value: number, message: string, wanted: string) =>
      context.misshapen(`${path}.tire.${key}`, `${value} in`, message, wanted);
    if (tire.loadedRadius > tire.diameter / 2) {
      const most = `half the diameter is ${tire.diameter / 2} in`;
      refuse('loadedRadius', tire.loadedRadius, most, 'at most half the unloaded diameter');
    }
    if (shoulder > tire.width / 2 || shoulder > tire.diameter / 2) {
      refuse('shoulder', shoulder, '', 'at most half the width and half the diameter');
    }
    if (tire.rim && tire.rim.diameter >= tire.diameter) {
      refuse('rim.diameter', tire.rim.diameter, '', 'less than the diameter of the tire');
    }
    return {
      diameter: tire.diameter,
      width: tire.width,
      loadedRadius: tire.loadedRadius,
      shoulder,
      give: tire.give ?? 0,
      rim: tire.rim
        ? { diameter: tire.rim.diameter, width: tire.rim.width, offset: tire.rim.offset ?? 0 }
        : null,
    };
  }
}

function makeWeights({ weights }: EvaluatedFile, context: Context): Weights | null {
  if (!weights) return null;
  const setting = settingOf('none', null, null, 'weights.centerOfGravity');
  const center = weights.centerOfGravity;
  return {
    total: weights.total,
    frontShare: weights.frontShare ?? null,
    centerOfGravity: center ? context.places.point(center, setting) : null,
    brakeShareFront: weights.brakeShareFront ?? null,
    driveShareFront: weights.driveShareFront ?? null,
  };
}

function makeWanted({ wanted }: EvaluatedFile, entries: readonly ReadEntry[]): Wanted {
  const isBare = (path: string) =>
    entries.find(entry => entry.path === path)?.dimension === 'ratio';
  return {
    bands: (wanted?.bands ?? []).map((band, i) => ({
      measure: band.measure,
      axle: band.axle ?? null,
      part: band.part ?? null,
      least: band.least ?? null,
      greatest: band.greatest ?? null,
      inUnitOfMeasure: {
        least: isBare(`wanted.bands[${i}].least`),
        greatest: isBare(`wanted.bands[${i}].greatest`),
      },
    })),
    gaps: (wanted?.gaps ?? []).map(gap => ({
      pair: gap.pair,
      required: gap.required,
      why: gap.why ?? '',
    })),
    muted: (wanted?.muted ?? []).map(muted => ({ pair: muted.pair, why: muted.why ?? '' })),
    assumedTravel: wanted?.assumedTravel ?? null,
  };
}

/** The entries, with the entries of the places that they were taped from among what they use. */
function withPlaces(entries: readonly ReadEntry[], context: Context): Entry[] {
  const pathOf = (name: string): string | null => {
    const place = context.places.meant(name, 'left');
    return place === null ? null : context.places.pathOf(place);
  };
  const pathsByName = new Map(
    entries.flatMap(({ places }) => places).map(name => [name, pathOf(name)] as const),
  );
  const entriesByPoint = new Map<string, string[]>();
  for (const path of pathsByName.values()) if (path !== null) entriesByPoint.set(path, []);
  for (const { path } of entries) {
    for (let above = path; above !== ''; above = parentOf(above)) {
      entriesByPoint.get(above)?.push(path);
    }
  }
  return entries.map(({ places, ...entry }) => {
    const points = places.map(name => pathsByName.get(name) ?? '');
    const used = points.flatMap(point => entriesByPoint.get(point) ?? []);
    return { ...entry, uses: [...new Set([...entry.uses, ...used])] };
  });
}
