/**
 * Dimensions that a field of the build file can have, and every unit that a tape entry may use.
 *
 * Internal units: inch, radian, pound-force, second, and what they make: lbf/in, in·lbf/rad, lbf/in²,
 * in³/s. Factors: NIST SP 811 (2008), appendix B: inch, pound, liter and bar are exact by definition,
 * pound-force by standard gravity (9.80665 m/s²), gallon (US) by its 231 in³.
 */

/** What a field holds. `ratio` is a share or quotient (60 % is 0.6), `number` a count. */
export type Dimension =
  | 'length'
  | 'angle'
  | 'force'
  | 'rate'
  | 'torsionalRate'
  | 'pressure'
  | 'flow'
  | 'ratio'
  | 'number';

/** The unit of lengths that a build declares: that of a bare number. */
export type LengthUnit = 'in' | 'mm';

/** Exponents of length, angle, force and time. */
export type Powers = readonly [length: number, angle: number, force: number, time: number];

export const INCH_mm = 25.4;
export const POUND_kg = 0.45359237;
export const GRAVITY_m_per_s2 = 9.80665;
export const POUND_FORCE_N = POUND_kg * GRAVITY_m_per_s2;
export const DEGREE_rad = Math.PI / 180;
const GALLON_in3 = 231;
const LITER_in3 = 1e6 / INCH_mm ** 3;
const PASCAL_psi = (INCH_mm / 1000) ** 2 / POUND_FORCE_N;

interface DimensionRow {
  powers: Powers;
  called: string;
  /** What a bare 1 is in internal units, by the build's unit; null: a bare number is refused. */
  bare: Readonly<Record<LengthUnit, number | null>>;
  /** Entries that would be right, for messages. */
  such: Readonly<Record<LengthUnit, string>>;
}

/**
 * The dimensions that fields can have. A build in mm may mean kg, N or lbf by a bare force, so there
 * whatever a force is part of is written with its unit.
 */
export const DIMENSIONS: Readonly<Record<Dimension, DimensionRow>> = {
  length: {
    powers: [1, 0, 0, 0],
    called: 'a length',
    bare: { in: 1, mm: 1 / INCH_mm },
    such: { in: '23 5/8 or 600 mm', mm: '600 or 23 5/8 in' },
  },
  angle: {
    powers: [0, 1, 0, 0],
    called: 'an angle',
    bare: { in: DEGREE_rad, mm: DEGREE_rad },
    such: { in: '7 deg or 0.12 rad', mm: '7 deg or 0.12 rad' },
  },
  force: {
    powers: [0, 0, 1, 0],
    called: 'a force or weight',
    bare: { in: 1, mm: null },
    such: { in: '4200 lb, 1900 kg or 800 N', mm: '1900 kg, 800 N or 4200 lb' },
  },
  rate: {
    powers: [-1, 0, 1, 0],
    called: 'a rate',
    bare: { in: 1, mm: null },
    such: { in: '200 lbf/in or 35 N/mm', mm: '35 N/mm or 200 lbf/in' },
  },
  torsionalRate: {
    powers: [1, -1, 1, 0],
    called: 'a torsional rate',
    bare: { in: 1 / DEGREE_rad, mm: null },
    such: { in: '90 in·lbf/deg or 10 N·m/deg', mm: '10 N·m/deg or 90 in·lbf/deg' },
  },
  pressure: {
    powers: [-2, 0, 1, 0],
    called: 'a pressure',
    bare: { in: 1, mm: null },
    such: { in: '1500 psi, 100 bar or 10 MPa', mm: '100 bar, 10 MPa or 1500 psi' },
  },
  flow: {
    powers: [3, 0, 0, -1],
    called: 'a flow',
    bare: { in: GALLON_in3 / 60, mm: null },
    such: { in: '3 gpm or 11 L/min', mm: '11 L/min or 3 gpm' },
  },
  ratio: {
    powers: [0, 0, 0, 0],
    called: 'a plain number or share',
    bare: { in: 1, mm: 1 },
    such: { in: '0.6 or 60 %', mm: '0.6 or 60 %' },
  },
  number: {
    powers: [0, 0, 0, 0],
    called: 'a plain number',
    bare: { in: 1, mm: 1 },
    such: { in: '4', mm: '4' },
  },
};

/** What no field holds, but an expression can pass through. */
const OTHERS: Readonly<Record<string, { powers: Powers; called: string }>> = {
  area: { powers: [2, 0, 0, 0], called: 'an area' },
  volume: { powers: [3, 0, 0, 0], called: 'a volume' },
  moment: { powers: [1, 0, 1, 0], called: 'a moment' },
  time: { powers: [0, 0, 0, 1], called: 'a time' },
};

/** One unit: its value in internal units. */
export interface Unit {
  value: number;
  powers: Powers;
  /** What a number of this unit alone is: 'a length', 'a mass'. */
  called: string;
}

type Row = readonly [
  names: string,
  of: keyof typeof OTHERS | Dimension,
  value: number,
  called?: string,
];

const ROWS: readonly Row[] = [
  ['in inch inches', 'length', 1],
  ['ft foot feet', 'length', 12],
  ['mm', 'length', 1 / INCH_mm],
  ['cm', 'length', 10 / INCH_mm],
  ['m', 'length', 1000 / INCH_mm],
  ['deg degs degree degrees °', 'angle', DEGREE_rad],
  ['rad', 'angle', 1],
  ['lbf', 'force', 1, 'a force'],
  ['lb lbs pound pounds', 'force', 1, 'a weight'],
  ['kg kgs', 'force', 1 / POUND_kg, 'a mass'],
  ['kgf', 'force', 1 / POUND_kg, 'a force'],
  ['N', 'force', 1 / POUND_FORCE_N, 'a force'],
  ['kN', 'force', 1000 / POUND_FORCE_N, 'a force'],
  ['psi', 'pressure', 1],
  ['ksi', 'pressure', 1000],
  ['Pa', 'pressure', PASCAL_psi],
  ['kPa', 'pressure', 1e3 * PASCAL_psi],
  ['MPa', 'pressure', 1e6 * PASCAL_psi],
  ['GPa', 'pressure', 1e9 * PASCAL_psi],
  ['bar', 'pressure', 1e5 * PASCAL_psi],
  ['gpm', 'flow', GALLON_in3 / 60],
  ['lpm', 'flow', LITER_in3 / 60],
  ['gal', 'volume', GALLON_in3],
  ['L', 'volume', LITER_in3],
  ['min', 'time', 60],
  ['s', 'time', 1],
  ['%', 'ratio', 0.01, 'a share'],
];

const UNITS: ReadonlyMap<string, Unit> = new Map(
  ROWS.flatMap(([names, of, value, called]) => {
    const row = of in DIMENSIONS ? DIMENSIONS[of as Dimension] : OTHERS[of];
    if (row === undefined) throw new RangeError(`unit of an unknown dimension: ${names}`);
    const unit = { value, powers: row.powers, called: called ?? row.called };
    return names.split(' ').map(name => [name, unit] as const);
  }),
);

const ANY_CASE: ReadonlyMap<string, Unit> = new Map(
  [...UNITS].map(([name, unit]) => [name.toLowerCase(), unit]),
);

/** Every unit's name, for suggestions. */
export const UNIT_NAMES: readonly string[] = [...UNITS.keys()];

/** The unit of that name, in any mixture of capitals (no two names differ by them alone), or undefined. */
export function unitNamed(name: string): Unit | undefined {
  return UNITS.get(name) ?? ANY_CASE.get(name.toLowerCase());
}

/** A unit that is in the table for certain. @throws RangeError for another name */
export function knownUnit(name: string): Unit {
  const unit = UNITS.get(name);
  if (unit === undefined) throw new RangeError(`no unit is called ${name}`);
  return unit;
}

export function samePowers(a: Powers, b: Powers): boolean {
  return a.every((power, i) => power === b[i]);
}

/** What a value of these powers is called in a message. */
export function calledBy(powers: Powers): string {
  const rows = [...Object.values(DIMENSIONS), ...Object.values(OTHERS)];
  return rows.find(row => samePowers(row.powers, powers))?.called ?? 'a mixture of units';
}

/** The dimension of these powers, or null where no field has it. Without unit it is a `ratio`. */
export function dimensionOf(powers: Powers): Dimension | null {
  const names = Object.keys(DIMENSIONS) as Dimension[];
  return names.find(name => samePowers(DIMENSIONS[name].powers, powers)) ?? null;
}

/** 'a length such as 23 5/8 or 600 mm': what a field of this dimension takes. */
export function wantedOf(dimension: Dimension, unit: LengthUnit): string {
  const row = DIMENSIONS[dimension];
  return `${row.called} such as ${row.such[unit]}`;
}
