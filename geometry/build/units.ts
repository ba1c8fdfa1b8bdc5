/**
 * Dimensions that a field of the build file can have, and every unit that a tape entry may use.
 *
 * Internal units: inch, radian, pound-force, second, and what they make: lbf/in, in·lbf/rad, lbf/in²,
 * in³/s. Factors: NIST SP 811 (2008), appendix B: inch, pound, liter and bar are exact by definition,
 * pound-force by standard gravity (9.80665 m/s²), US gallon by its 231 in³.
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

/** How much of internal units something is, as a quotient of whole numbers where it is one by definition. */
export type Amount = readonly [over: number, under: number];

/** In this order 25.4 mm is 1 in to the last bit, as its tenths of millimeters all are. */
export const amountOf = (count: number, [over, under]: Amount): number => (count * over) / under;

export const INCH_mm = 25.4;
const ONE: Amount = [1, 1];
const MILLIMETER: Amount = [5, 127];
const DEGREE: Amount = [Math.PI, 180];
const KILOGRAM: Amount = [1e8, 45359237];
const NEWTON: Amount = [1e13, 44482216152605];
/** N/mm² in lbf/in². */
const MEGAPASCAL: Amount = [NEWTON[0] * 127 ** 2, NEWTON[1] * 5 ** 2];
const GALLON: Amount = [231, 1];
/** 1e6 mm³ in in³. */
const LITER: Amount = [1e6 * 5 ** 3, 127 ** 3];

const times = ([over, under]: Amount, factor: number): Amount => [over * factor, under];
const over = ([o, under]: Amount, divisor: number): Amount => [o, under * divisor];

interface DimensionRow {
  powers: Powers;
  called: string;
  /** What a bare 1 is, by the build's unit; null: a bare number is refused. */
  bare: Readonly<Record<LengthUnit, Amount | null>>;
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
    bare: { in: ONE, mm: MILLIMETER },
    such: { in: '23 5/8 or 600 mm', mm: '600 or 23 5/8 in' },
  },
  angle: {
    powers: [0, 1, 0, 0],
    called: 'an angle',
    bare: { in: DEGREE, mm: DEGREE },
    such: { in: '7 deg or 0.12 rad', mm: '7 deg or 0.12 rad' },
  },
  force: {
    powers: [0, 0, 1, 0],
    called: 'a force or weight',
    bare: { in: ONE, mm: null },
    such: { in: '4200 lb, 1900 kg or 800 N', mm: '1900 kg, 800 N or 4200 lb' },
  },
  rate: {
    powers: [-1, 0, 1, 0],
    called: 'a rate',
    bare: { in: ONE, mm: null },
    such: { in: '200 lbf/in or 35 N/mm', mm: '35 N/mm or 200 lbf/in' },
  },
  torsionalRate: {
    powers: [1, -1, 1, 0],
    called: 'a torsional rate',
    bare: { in: [DEGREE[1], DEGREE[0]], mm: null },
    such: { in: '90 in·lbf/deg or 10 N·m/deg', mm: '10 N·m/deg or 90 in·lbf/deg' },
  },
  pressure: {
    powers: [-2, 0, 1, 0],
    called: 'a pressure',
    bare: { in: ONE, mm: null },
    such: { in: '1500 psi, 100 bar or 10 MPa', mm: '100 bar, 10 MPa or 1500 psi' },
  },
  flow: {
    powers: [3, 0, 0, -1],
    called: 'a flow',
    bare: { in: over(GALLON, 60), mm: null },
    such: { in: '3 gpm or 11 L/min', mm: '11 L/min or 3 gpm' },
  },
  ratio: {
    powers: [0, 0, 0, 0],
    called: 'a plain number or share',
    bare: { in: ONE, mm: ONE },
    such: { in: '0.6 or 60 %', mm: '0.6 or 60 %' },
  },
  number: {
    powers: [0, 0, 0, 0],
    called: 'a plain number',
    bare: { in: ONE, mm: ONE },
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

/** One unit: how much of internal units it is. */
export interface Unit {
  amount: Amount;
  powers: Powers;
  /** What a number of this unit alone is: 'a length', 'a mass'. */
  called: string;
}

type Row = readonly [
  names: string,
  of: keyof typeof OTHERS | Dimension,
  amount: Amount,
  called?: string,
];

const ROWS: readonly Row[] = [
  ['in inch inches', 'length', ONE],
  ['ft foot feet', 'length', [12, 1]],
  ['mm', 'length', MILLIMETER],
  ['cm', 'length', times(MILLIMETER, 10)],
  ['m', 'length', times(MILLIMETER, 1000)],
  ['deg degs degree degrees °', 'angle', DEGREE],
  ['rad', 'angle', ONE],
  ['lbf', 'force', ONE, 'a force'],
  ['lb lbs pound pounds', 'force', ONE, 'a weight'],
  ['kg kgs', 'force', KILOGRAM, 'a mass'],
  ['kgf', 'force', KILOGRAM, 'a force'],
  ['N', 'force', NEWTON, 'a force'],
  ['kN', 'force', times(NEWTON, 1000), 'a force'],
  ['psi', 'pressure', ONE],
  ['ksi', 'pressure', [1000, 1]],
  ['Pa', 'pressure', over(MEGAPASCAL, 1e6)],
  ['kPa', 'pressure', over(MEGAPASCAL, 1e3)],
  ['MPa', 'pressure', MEGAPASCAL],
  ['GPa', 'pressure', times(MEGAPASCAL, 1e3)],
  ['bar', 'pressure', over(MEGAPASCAL, 10)],
  ['gpm', 'flow', over(GALLON, 60)],
  ['lpm', 'flow', over(LITER, 60)],
  ['gal', 'volume', GALLON],
  ['L', 'volume', LITER],
  ['min', 'time', [60, 1]],
  ['s', 'time', ONE],
  ['%', 'ratio', [1, 100], 'a share'],
];

const UNITS: ReadonlyMap<string, Unit> = new Map(
  ROWS.flatMap(([names, of, amount, called]) => {
    const row = of in DIMENSIONS ? DIMENSIONS[of as Dimension] : OTHERS[of];
    if (row === undefined) throw new RangeError(`unit of an unknown dimension: ${names}`);
    const unit = { amount, powers: row.powers, called: called ?? row.called };
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
