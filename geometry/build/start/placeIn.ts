/** Where the parts of an axle lie that stands already: the proposals' rules then fit it as it is. */
import type { Axle, Build } from '../build.ts';
import type { AxlePlace } from './axlePlace.ts';
import { axleChoice, type SteeringLayoutId } from './layouts.ts';
import { Taped } from './taped.ts';
import { assumed, type Value } from './value.ts';

/** Width of the frame outside, in: common practice, no source. */
const FRAME_in = 33;
/** From the wheel center up to the bottom of the rail, in: common practice, no source. */
const RAIL_in = 5;
/** A differential nearer to the middle than this stands in it, in. */
const MIDDLE_in = 2;

/** @param steering that is to be proposed for it; null for none */
export function placeIn(
  build: Build,
  axle: Axle,
  steering: SteeringLayoutId | null = null,
): AxlePlace {
  const { driverSide, name, unit } = build;
  const y = axle.housing.differential?.center[1] ?? 0;
  const differential = Math.abs(y) < MIDDLE_in ? null : y > 0 ? 'left' : 'right';
  const choice = axleChoice(axle.name, { steering, differential }, driverSide);
  const layout = { axles: [choice], driverSide };
  const known = (at: number): Value => assumed(at, 0);
  const radius = known(axle.tire.loadedRadius);
  return {
    choice,
    taped: new Taped({ name, unit, layout, answers: {} }),
    name: axle.name,
    path: `axles["${axle.name}"]`,
    way: axle.name === 'front' ? -1 : 1,
    driver: driverSide === 'left' ? 1 : -1,
    wheelbase: known(build.wheelbase),
    wheelHeights: { left: radius, right: radius },
    radius,
    tireHeight: known(axle.tire.diameter),
    wheelCenters: known(axle.wheelCenters),
    railOutside: known(frameWidth(build)),
    railBottom: known(axle.tire.loadedRadius + RAIL_in),
    anchors: new Map(),
  };
}

/** Outside of the drawn rails, where they are drawn as boxes that run fore and aft. */
function frameWidth({ solids }: Build): number {
  for (const { name, on, shape } of solids) {
    if (on !== 'chassis' || shape.kind !== 'box' || !/\brail$/.test(name)) continue;
    return 2 * (Math.abs(shape.center[1]) + shape.size[1] / 2);
  }
  return FRAME_in;
}
