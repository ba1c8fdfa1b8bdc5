/** Small dense matrices, as lists of rows. */
export type Matrix = readonly (readonly number[])[];

export const entry = (matrix: Matrix, i: number, j: number): number => matrix[i]?.[j] ?? 0;

export const dotted = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, value, i) => sum + value * (b[i] ?? 0), 0);

export const multiplied = (matrix: Matrix, vector: readonly number[]): number[] =>
  matrix.map(row => dotted(row, vector));

/** Inverse of a symmetric positive definite matrix, by Gauss-Jordan; its pivots are never zero. */
export function inverted(matrix: Matrix): number[][] {
  const n = matrix.length;
  const rows = matrix.map((row, i) => [...row, ...row.map((_, j) => (i === j ? 1 : 0))]);
  for (const [k, pivotRow] of rows.entries()) {
    const pivot = pivotRow[k] as number;
    for (let j = 0; j < 2 * n; j++) pivotRow[j] = (pivotRow[j] as number) / pivot;
    for (const [i, row] of rows.entries()) {
      const factor = row[k] as number;
      if (i === k || factor === 0) continue;
      for (let j = 0; j < 2 * n; j++)
        row[j] = (row[j] as number) - factor * (pivotRow[j] as number);
    }
  }
  return rows.map(row => row.slice(n));
}

/** x of A x = b, A symmetric positive definite. */
export const solved = (matrix: Matrix, right: readonly number[]): number[] =>
  multiplied(inverted(matrix), right);
