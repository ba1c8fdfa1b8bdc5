/**
 * Axles with closed forms, for the tests of single measures. Written in millimeters where the published numbers
 * are; a length is a length, so they are taken as inches as they stand.
 */
import type { Axle, Link, Rod, Steering, Vec3 } from '../../geometry/build/build.ts';
import { measures } from '../../geometry/measure/list.ts';
import type { MeasureContext, Slope } from '../../geometry/measure/measure.ts';
import { front, link, rod } from '../pose/layouts.ts';

/** Value of a measure of the list by its id, as computed (in, rad); throws where it is missing. */
export function read(
  context: MeasureContext,
  id: string,
  of: { part?: string; side?: 'left' | 'right' } = {},
): number {
  const reading = readingOf(context, id, of);
  if (typeof reading !== 'number') throw new Error(`${id}: ${reading.missing}`);
  return reading;
}

export function readingOf(
  context: MeasureContext,
  id: string,
  { part = null, side = null }: { part?: string | null; side?: 'left' | 'right' | null } = {},
): ReturnType<(typeof measures)[number]['value']> {
  return measureOf(id).value(context, { part, side });
}

export function slopeOfMeasure(
  context: MeasureContext,
  id: string,
  { part = null, side = null }: { part?: string | null; side?: 'left' | 'right' | null } = {},
): Slope | null {
  return measureOf(id).slope(context, { part, side });
}

export function measureOf(id: string): (typeof measures)[number] {
  const measure = measures.find(m => m.id === id);
  if (!measure) throw new Error(`no measure ${id}`);
  return measure;
}

export const deg = (radians: number): number => (radians * 180) / Math.PI;
export const rad = (degrees: number): number => (degrees * Math.PI) / 180;

/** Length that swings on an arc without a curve to speak of: 1e6 times a travel of 100 moves it by 5e-5. */
export const LONG = 1e8;

/** An axle of these links, its center 500 up, wheel centers 1600 apart, upright knuckles at its ends. */
export function plainAxle(links: Link[], more: Partial<Axle> = {}): Axle {
  const knuckle = (side: 'left' | 'right') => {
    const y = side === 'left' ? 700 : -700;
    return {
      side,
      kingpin: { lower: [0, y, 400] as Vec3, upper: [0, y, 600] as Vec3 },
      toe: 0,
      camber: 0,
      shaftJoint: null,
      shaftLimit: null,
      steeringStop: { inward: null, outward: null },
    };
  };
  return front(links, {
    wheelCenters: 1600,
    origin: [0, 0, 500],
    tire: { diameter: 1000, width: 320, loadedRadius: 500, shoulder: 50, give: 0, rim: null },
    knuckles: { left: knuckle('left'), right: knuckle('right') },
    steering: plainSteering(),
    ...more,
  });
}

/** Arms of 150 ahead of kingpins at ±y, a drag link from the left to the right arm, a level tie rod. */
export function plainSteering(dragLink: Rod = plainDragLink(3000), y = 700): Steering {
  const pitman = dragLink.from.at;
  return {
    box: {
      axis: { at: [pitman[0] + 150, pitman[1], pitman[2]], direction: [0, 0, 1] },
      ratio: 16,
      sweep: null,
      wheelsLeft: null,
    },
    pitmanArm: null,
    dragLink,
    tieRods: [rod('tie rod', ['left knuckle', [150, y, 450]], ['right knuckle', [150, -y, 450]])],
    rams: [],
  };
}

/** Level, from a pitman ball `length` to the left of the right knuckle's arm. */
export const plainDragLink = (length: number, y = 700): Rod =>
  rod('drag link', ['pitman arm', [150, length - y, 500]], ['right knuckle', [150, -y, 500]]);

/** Three equal parallel links that run back from the axle, down by `angle` to it, and nothing sideways. */
export function parallelLinks(length: number, angle = 0): Link[] {
  const back = (x: number, y: number, z: number, name: string): Link =>
    link(name, [x, y, z], [x - length * Math.cos(angle), y, z - length * Math.sin(angle)]);
  return [
    back(0, 500, 400, 'left lower link'),
    back(0, -500, 400, 'right lower link'),
    back(0, 0, 650, 'upper link'),
  ];
}

/** A track bar of this length to a frame end on the left, its axle end `rise` above the frame end. */
export function trackBar(length: number, rise = 0, axle: Vec3 = [0, -400, 500]): Link {
  const run = Math.sqrt(length * length - rise * rise);
  return link('track bar', axle, [axle[0], axle[1] + run, axle[2] - rise]);
}

/** Kingpins through the wheel centers with these angles, deg, on the plain axle. */
export function leaning(caster: number, inclination: number): Axle {
  const knuckle = (side: 'left' | 'right') => {
    const out = side === 'left' ? 1 : -1;
    const at: Vec3 = [0, out * 800, 500];
    const up: Vec3 = [-100 * Math.tan(rad(caster)), -out * 100 * Math.tan(rad(inclination)), 100];
    return {
      side,
      kingpin: {
        lower: [at[0] - up[0], at[1] - up[1], at[2] - up[2]] as Vec3,
        upper: [at[0] + up[0], at[1] + up[1], at[2] + up[2]] as Vec3,
      },
      toe: 0,
      camber: 0,
      shaftJoint: null,
      shaftLimit: null,
      steeringStop: { inward: null, outward: null },
    };
  };
  return plainAxle([...parallelLinks(LONG), trackBar(LONG)], {
    knuckles: { left: knuckle('left'), right: knuckle('right') },
    steering: plainSteering(plainDragLink(3000, 800), 800),
  });
}
