/** What the numbers of the guide have to be, from the examples; by the key that stands before each of them. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { furthest } from '../../geometry/cycle/edge.ts';
import { type OpenedBuild, openBuild } from '../../geometry/cycle/open.ts';
import { type AxleWalk, walkAxle } from '../../geometry/cycle/walkReport.ts';
import { clearPart } from '../../geometry/gap/clearPart.ts';
import { type AxleGaps, gapsOf } from '../../geometry/gap/gapReport.ts';
import type { PairGap } from '../../geometry/gap/pairGap.ts';
import { measures } from '../../geometry/measure/list.ts';
import { MeasureContext, SHOWN } from '../../geometry/measure/measure.ts';
import { distance } from '../../geometry/vector.ts';

const EXAMPLES = join(import.meta.dirname, '../../examples');
const degrees = 180 / Math.PI;

const once = <T>(make: () => T): (() => T) => {
  let made: { value: T } | null = null;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
};

const opened = (file: object): OpenedBuild => {
  const build = openBuild(JSON.stringify(file));
  if (!build.ok) throw new Error('an example opens');
  return build;
};

const fileOf = (name: string) =>
  JSON.parse(readFileSync(join(EXAMPLES, `${name}.axlewalk.json`), 'utf8')) as {
    axles: { steering: { dragLink: { from: { at: unknown[] }; to: { at: unknown[] } } } }[];
  };

function raisedFile() {
  const file = fileOf('long-arm-front');
  const dragLink = file.axles[0]?.steering.dragLink;
  // by 1 1/2 and 3/4 in
  dragLink?.from.at.splice(2, 1, '28 3/4');
  dragLink?.to.at.splice(2, 1, '24 1/2');
  return file;
}

interface Walked {
  walk: AxleWalk;
  /** Of the drag link alone. */
  gaps: AxleGaps;
}

function walked(build: OpenedBuild): Walked {
  const [axle] = build.axles;
  if (!axle) throw new Error('an axle');
  const walk = walkAxle(axle.build, axle.axle, axle.model, { extremes: false, path: 'both' });
  const gaps = gapsOf(walk, {
    readMesh: () => ({ problem: 'no meshes here' }),
    only: ({ a, b }) => a.name === 'drag link' || b.name === 'drag link',
  });
  return { walk, gaps };
}

const long = once(() => walked(opened(fileOf('long-arm-front'))));
const short = once(() => walked(opened(fileOf('short-arm-front'))));
const raised = once(() => walked(opened(raisedFile())));

/** A measure at a pose, as it is shown. */
function at(of: () => Walked, id: string, left = 0, right = 0): () => number {
  return () => {
    const { build, axle, model } = of().walk;
    const measure = measures.find(each => each.id === id);
    const { pose } = model.pose(left, right);
    const [target] = measure?.targets(axle, build) ?? [];
    if (!measure || !pose || !target) throw new Error(`${id} at ${left}/${right}`);
    const reading = measure.value(new MeasureContext(build, axle, model, pose), target);
    if (typeof reading !== 'number') throw new Error(reading.missing);
    return reading * SHOWN[measure.unit];
  };
}

function gap(of: () => Walked, other: string): PairGap {
  const found = of().gaps.gaps.find(({ pair: { a, b } }) => a.name === other || b.name === other);
  if (!found) throw new Error(`a gap of the drag link and the ${other}`);
  return found;
}

const end = (of: () => Walked, way: readonly [number, number]) => {
  const { left, right } = furthest(of().walk.reach, [0, 0], [...way]);
  return { left, right };
};

const flexed = once(() => {
  const { edge } = long().walk.range;
  const corner = edge.reduce((best, each) =>
    each.left - each.right > best.left - best.right ? each : best,
  );
  return { up: corner.left, down: -corner.right };
});

const lower = (of: () => Walked) => () => {
  const link = of().walk.axle.links.find(each => each.name === 'left lower link');
  return link ? distance(link.axle.at, link.chassis.at) : 0;
};

/** The largest stretch of any link over the range. */
const largestBind = once(() => {
  const { finder } = short().walk;
  const bind = measures.find(each => each.id === 'bind');
  const found = bind ? (finder?.extremesOf(bind) ?? []) : [];
  const sizes = found
    .filter(
      ({ target }) =>
        target.part !== null && short().walk.axle.links.some(each => each.name === target.part),
    )
    .flatMap(({ least, greatest }) => [least, greatest].map(each => Math.abs(each?.value ?? 0)));
  return Math.max(...sizes);
});

export const numbers: Readonly<Record<string, () => number>> = {
  pinionFromHeights: () => Math.asin(1 / 8) * degrees,
  longUp: () => end(long, [1, 1]).left,
  longDown: () => -end(long, [-1, -1]).left,
  longFlexUp: () => flexed().up,
  longFlexDown: () => flexed().down,
  hitDepth: () => -gap(long, 'differential').gap,
  hitGap: () => gap(long, 'differential').gap,
  hitLeft: () => gap(long, 'differential').pose.input.left,
  hitRight: () => gap(long, 'differential').pose.input.right,
  hitClearBelow: () => {
    const { walk, gaps } = long();
    const touching = gaps.gaps.filter(
      ({ gap: size, pair: { a, b } }) => size < 0 && /differential/.test(a.name + b.name),
    );
    return clearPart(walk, gaps.search, touching)?.travel ?? 0;
  },
  raisedGap: () => gap(raised, 'differential').gap,
  raisedBar: () => gap(raised, 'track bar').gap,
  raisedTire: () => gap(raised, 'right tire').gap,
  wantedBar: () => gap(raised, 'track bar').pair.required,
  shortHit: () => -gap(short, 'differential').gap,
  steerUp: at(long, 'bumpSteer', 5, 5),
  raisedUp: at(raised, 'bumpSteer', 5, 5),
  steerFlexed: at(long, 'bumpSteer', 5, -5),
  raisedFlexed: at(raised, 'bumpSteer', 5, -5),
  longLower: lower(long),
  shortLower: lower(short),
  longForward: at(long, 'foreAftShift', 5, 5),
  shortForward: at(short, 'foreAftShift', 5, 5),
  longBack: at(long, 'foreAftShift', -5, -5),
  shortBack: at(short, 'foreAftShift', -5, -5),
  longPinion: at(long, 'pinionChange', 5, 5),
  shortPinion: at(short, 'pinionChange', 5, 5),
  longCaster: at(long, 'caster', 5, 5),
  shortCaster: at(short, 'caster', 5, 5),
  longAxleSteer: at(long, 'axleSteer', 5, -5),
  shortAxleSteer: at(short, 'axleSteer', 5, -5),
  longSlope: at(long, 'axleRollAxisSlope'),
  shortSlope: at(short, 'axleRollAxisSlope'),
  longDive: at(long, 'brakeAntiDive'),
  shortDive: at(short, 'brakeAntiDive'),
  longDiveUp: at(long, 'brakeAntiDive', 5, 5),
  shortDiveUp: at(short, 'brakeAntiDive', 5, 5),
  longRoll: at(long, 'rollCenterHeight'),
  shortRoll: at(short, 'rollCenterHeight'),
  shortBind: largestBind,
  casterRide: at(long, 'caster'),
  shockRide: at(long, 'shockLength'),
};
