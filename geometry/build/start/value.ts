/** Proposed numbers with where they come from, and how they are written into a build file. */
import { formatLength } from '../format.ts';
import { INCH_mm, type LengthUnit } from '../units.ts';

/** A number of a proposal: inches, radians, or plain. */
export interface Value {
  at: number;
  from: 'measured' | 'drawing' | 'assumed';
  /** Half-width, in the same unit. */
  tolerance: number;
  /** As it was typed, where it stands in the file as it was taped. */
  typed?: string;
}

/** How far off a tape is taken to be where nobody says: common practice, no source. */
export const TAPE_in = 1 / 8;
/** How far off an angle finder is taken to be: common practice, no source. */
export const FINDER_rad = (0.5 * Math.PI) / 180;

export const assumed = (at: number, tolerance: number): Value => ({
  at,
  from: 'assumed',
  tolerance,
});
/** A value that another one is moved or scaled from: measured only if all of them are. */
export function derived(at: number, ...from: readonly Value[]): Value {
  const isMeasured = from.every(each => each.from !== 'assumed');
  const tolerance = Math.hypot(...from.map(each => each.tolerance));
  return { at, from: isMeasured ? 'measured' : 'assumed', tolerance };
}
/** The same, further off by a guess of its own. */
export const guessed = (at: number, off: number, ...from: readonly Value[]): Value =>
  assumed(at, Math.hypot(off, ...from.map(each => each.tolerance)));

/** An entry of the build file. */
export interface Written {
  value: string | number;
  from: Value['from'];
  tolerance: string | number;
}

/** A proposed entry with its unit in its text: a diameter, an angle, a rate. */
export const guess = (value: string, tolerance: string): Written => ({
  value,
  from: 'assumed',
  tolerance,
});

/** A proposed tube. */
export const tube = (od: string, wall = '1/4'): { od: Written; wall: Written } => ({
  od: guess(`${od} in`, '1/4 in'),
  wall: guess(`${wall} in`, '1/16 in'),
});

/** Writes values of one build in its unit. */
export class Pen {
  readonly unit: LengthUnit;

  constructor(unit: LengthUnit) {
    this.unit = unit;
  }

  length(value: Value): Written {
    const { typed, at, from, tolerance } = value;
    return {
      value: typed ?? this.#tape(at),
      from,
      tolerance: formatLength(Math.max(tolerance, 1 / 32), { unit: this.unit, denominator: 32 }),
    };
  }

  /** Degrees to a tenth. */
  angle({ typed, at, from, tolerance }: Value): Written {
    return { value: typed ?? degrees(at), from, tolerance: degrees(tolerance) };
  }

  /** A number without unit, or with the one that is given. */
  plain({ at, from, tolerance }: Value, unit = ''): Written {
    const written = (value: number): string | number => (unit === '' ? value : `${value} ${unit}`);
    return { value: written(at), from, tolerance: written(tolerance) };
  }

  #tape(inches: number): string {
    if (this.unit === 'mm') return String(Math.round(inches * INCH_mm));
    return formatLength(inches, { unit: 'in', denominator: 16 });
  }
}

const degrees = (radians: number): string =>
  `${Math.round((radians * 1800) / Math.PI) / 10 + 0} deg`;
