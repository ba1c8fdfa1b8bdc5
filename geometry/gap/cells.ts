/**
 * Cells of a parameter space: boxes that come from the whole domain by halving one parameter at a time. All corners and
 * centers lie on one lattice, so that what is known at a corner is known for every cell that meets there.
 */

/** Most halvings of one parameter: 18 in over 2¹² is 4 thousandths of an inch. */
export const DEEPEST = 12;
/** Steps of the lattice over the whole domain. */
export const LATTICE = 2 ** (DEEPEST + 1);

/** A cell: by parameter how often it was halved, and which of the pieces it is. */
export interface Cell {
  readonly depths: readonly number[];
  readonly index: readonly number[];
}

/** A point of the lattice: a whole number from 0 to LATTICE for each parameter. */
export type LatticePoint = readonly number[];

export const wholeCell = (p: number): Cell => ({
  depths: new Array<number>(p).fill(0),
  index: new Array<number>(p).fill(0),
});

export function centerOf({ depths, index }: Cell): LatticePoint {
  const out: number[] = [];
  for (let j = 0; j < index.length; j++) {
    out.push((2 * (index[j] as number) + 1) * (LATTICE >> ((depths[j] as number) + 1)));
  }
  return out;
}

/** Corner `which`: its bit j says whether it lies at the upper end of parameter j. */
export function cornerOf({ depths, index }: Cell, which: number): LatticePoint {
  const out: number[] = [];
  for (let j = 0; j < index.length; j++) {
    out.push(((index[j] as number) + ((which >> j) & 1)) * (LATTICE >> (depths[j] as number)));
  }
  return out;
}

/** One number for a point: a little over 13 bits a parameter, so that four of them fit a double. */
export function pointId(point: LatticePoint): number {
  let id = 0;
  for (let j = 0; j < point.length; j++) id = id * (LATTICE + 1) + (point[j] as number);
  return id;
}

/** One number for a cell. */
export function cellId({ depths, index }: Cell): number {
  let id = 0;
  for (let j = 0; j < index.length; j++) {
    // halvings and piece together: 2^depth + index is one of a kind
    id = id * LATTICE + (1 << (depths[j] as number)) + (index[j] as number);
  }
  return id;
}

export function halvesOf({ depths, index }: Cell, j: number): [Cell, Cell] {
  const deeper = depths.slice();
  const low = index.slice();
  const high = index.slice();
  deeper[j] = (depths[j] as number) + 1;
  low[j] = 2 * (index[j] as number);
  high[j] = (low[j] as number) + 1;
  return [
    { depths: deeper, index: low },
    { depths: deeper, index: high },
  ];
}

/** The cell of at most these depths around a cell. */
export function around({ depths, index }: Cell, most: readonly number[]): Cell {
  const less: number[] = [];
  const outer: number[] = [];
  for (let j = 0; j < depths.length; j++) {
    const depth = depths[j] as number;
    less.push(Math.min(depth, most[j] as number));
    outer.push((index[j] as number) >> (depth - (less[j] as number)));
  }
  return { depths: less, index: outer };
}

/** The cell of the first so many parameters. */
export const firstOf = ({ depths, index }: Cell, count: number): Cell => ({
  depths: depths.slice(0, count),
  index: index.slice(0, count),
});
