/** What two builds are made of: mount points, lengths, sizes and solids that differ. */
import type { Axle, AxleName, Build, Vec3 } from '../build/build.ts';
import { type PoseLength, poseLengths, posePoints } from '../cycle/poseLengths.ts';
import type { Measured } from './places.ts';

export interface PointRow {
  axle: AxleName;
  /** `part.end`. */
  name: string;
  /** Vehicle axes as drawn, in; null where the build has no such point. */
  a: Vec3 | null;
  b: Vec3 | null;
  /** b − a. */
  difference: Vec3 | null;
}

export interface LengthRow {
  axle: AxleName;
  name: string;
  kind: PoseLength['kind'];
  /** Between its ends at ride height, in. */
  a: number | null;
  b: number | null;
  difference: number | null;
}

/** Another number or word of a part: a diameter, a rate, a limit. */
export interface FieldRow {
  /** Null for the build itself. */
  axle: AxleName | null;
  part: string;
  field: string;
  a: number | string | boolean | null;
  b: number | string | boolean | null;
}

export interface SolidRow {
  name: string;
  change: 'added' | 'removed' | 'changed';
}

/** Drawn places and lengths that differ by less than this are the same, in: rounding of datums and mirrors. */
const SAME_in = 1e-9;

export function pointRowsOf(a: Measured, b: Measured): PointRow[] {
  const [ofA, ofB] = [a, b].map(
    ({ model }) => new Map(model.mechanism.named.map(({ name, at }) => [name, at])),
  );
  if (!ofA || !ofB) return [];
  return both(ofA, ofB).flatMap(([name, inA, inB]): PointRow[] => {
    const difference: Vec3 | null =
      inA && inB ? [inB[0] - inA[0], inB[1] - inA[1], inB[2] - inA[2]] : null;
    if (difference?.every(each => Math.abs(each) < SAME_in)) return [];
    return [{ axle: a.axle.name, name, a: inA, b: inB, difference }];
  });
}

export function lengthRowsOf(a: Measured, b: Measured): LengthRow[] {
  const [ofA, ofB] = [a, b].map(({ model: { ride } }) => {
    const lengths = poseLengths(ride, posePoints(ride));
    return new Map(lengths.map(each => [each.name, each]));
  });
  if (!ofA || !ofB) return [];
  return both(ofA, ofB).flatMap(([name, inA, inB]): LengthRow[] => {
    const difference = inA && inB ? inB.length_in - inA.length_in : null;
    if (difference !== null && Math.abs(difference) < SAME_in) return [];
    const kind = (inA ?? inB)?.kind ?? 'link';
    return [
      {
        axle: a.axle.name,
        name,
        kind,
        a: inA?.length_in ?? null,
        b: inB?.length_in ?? null,
        difference,
      },
    ];
  });
}

/** Fields of the axle and of its parts that differ, without the points, which have a list of their own. */
export function fieldRowsOf(a: Axle, b: Axle): FieldRow[] {
  return both(fieldsOf(a), fieldsOf(b)).flatMap(([key, inA, inB]): FieldRow[] => {
    const same =
      typeof inA === 'number' && typeof inB === 'number'
        ? Math.abs(inA - inB) < SAME_in
        : inA === inB;
    if (same) return [];
    const [part = '', field = ''] = JSON.parse(key) as string[];
    return [{ axle: a.name, part, field, a: inA, b: inB }];
  });
}

/** Lists that hold points or bends, which are told as points or as solids. */
const NOT_FIELDS = new Set(['at', 'name', 'origin', 'through', 'bolt', 'bore', 'stud']);

/** Every scalar of an axle by part and field; parts of lists by their name. */
function fieldsOf(axle: Axle): Map<string, FieldRow['a']> {
  const out = new Map<string, FieldRow['a']>();
  const walk = (value: unknown, part: string, field: string): void => {
    if (value === null || ['number', 'string', 'boolean'].includes(typeof value)) {
      out.set(JSON.stringify([part, field]), value as FieldRow['a']);
      return;
    }
    if (Array.isArray(value)) {
      if (value.every(each => typeof each === 'number')) return;
      value.forEach((each: unknown, i) => {
        const name = nameOf(each);
        if (name === null) walk(each, part, `${field}[${i}]`);
        else walk(each, name, '');
      });
      return;
    }
    if (typeof value !== 'object' || value === null) return;
    for (const [key, inner] of Object.entries(value)) {
      if (NOT_FIELDS.has(key)) continue;
      walk(inner, part, field === '' ? key : `${field}.${key}`);
    }
  };
  for (const [key, value] of Object.entries(axle)) {
    if (!NOT_FIELDS.has(key)) walk(value, 'axle', key);
  }
  return out;
}

const nameOf = (value: unknown): string | null =>
  typeof value === 'object' && value !== null && 'name' in value && typeof value.name === 'string'
    ? value.name
    : null;

/** Drawn solids that one of the builds has alone, or that differ in any way. */
export function solidRowsOf(a: Build, b: Build): SolidRow[] {
  const [ofA, ofB] = [a, b].map(({ solids }) => new Map(solids.map(each => [each.name, each])));
  if (!ofA || !ofB) return [];
  return both(ofA, ofB).flatMap(([name, inA, inB]): SolidRow[] => {
    if (!inA || !inB) return [{ name, change: inA ? 'removed' : 'added' }];
    return JSON.stringify(inA) === JSON.stringify(inB) ? [] : [{ name, change: 'changed' }];
  });
}

/** What stands under each key in two maps, the first one's order first. */
function both<T>(
  a: ReadonlyMap<string, T>,
  b: ReadonlyMap<string, T>,
): [key: string, a: T | null, b: T | null][] {
  const keys = [...a.keys(), ...[...b.keys()].filter(key => !a.has(key))];
  return keys.map(key => [key, a.get(key) ?? null, b.get(key) ?? null]);
}
