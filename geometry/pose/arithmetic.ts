/**
 * The arithmetic in which the kinematics are written once: numbers with derivatives (`jet.ts`), or plain ones. Vectors,
 * turns and their products for any of them.
 */

/** What a kind of number must be able to do. */
export interface Arithmetic<T> {
  constant(value: number): T;
  plus(a: T, b: T): T;
  minus(a: T, b: T): T;
  /** a · s for a plain number. */
  times(a: T, s: number): T;
  /** a + s for a plain number. */
  shifted(a: T, s: number): T;
  product(a: T, b: T): T;
  /** Square root of what is positive. */
  root(a: T): T;
  reciprocal(a: T): T;
  /** cos and sin of an angle: now c, s, changed by `change`. */
  cosine(change: T, c: number, s: number): T;
  sine(change: T, c: number, s: number): T;
}

export type Three<T> = [T, T, T];
/** Nine by rows. */
export type NineOf<T> = T[];

/** Vectors over an arithmetic. */
export interface Vectors<T> {
  constant3(v: ArrayLike<number>): Three<T>;
  plus3(a: Three<T>, b: Three<T>): Three<T>;
  minus3(a: Three<T>, b: Three<T>): Three<T>;
  times3(a: Three<T>, s: number): Three<T>;
  product3(a: T, b: Three<T>): Three<T>;
  inner(a: Three<T>, b: Three<T>): T;
  outer(a: Three<T>, b: Three<T>): Three<T>;
  /** M v for a plain vector. */
  turnPlain(M: NineOf<T>, v: ArrayLike<number>): Three<T>;
  /** M v. */
  turnVector(M: NineOf<T>, v: Three<T>): Three<T>;
  /** Mᵀ v. */
  turnBack(M: NineOf<T>, v: Three<T>): Three<T>;
  columnOf(M: NineOf<T>, c: number): Three<T>;
  turnProduct(A: NineOf<T>, B: NineOf<T>): NineOf<T>;
  /** Turn about a fixed unit axis by an angle given as cosine and sine (Rodrigues). */
  turnAbout(axis: ArrayLike<number>, cos: T, sin: T): NineOf<T>;
  /** q carried by the smallest turn from the unit vector d0 onto the unit d: c q + v × q + v (v·q)/(1 + c). */
  smallestTurn(d0: ArrayLike<number>, d: Three<T>, q: Three<T>): Three<T>;
}

export function vectors<T>(k: Arithmetic<T>): Vectors<T> {
  const { plus, minus, times, product, constant, shifted, reciprocal } = k;
  const constant3 = (v: ArrayLike<number>): Three<T> => [
    constant(v[0] as number),
    constant(v[1] as number),
    constant(v[2] as number),
  ];
  const plus3 = (a: Three<T>, b: Three<T>): Three<T> => [
    plus(a[0], b[0]),
    plus(a[1], b[1]),
    plus(a[2], b[2]),
  ];
  const minus3 = (a: Three<T>, b: Three<T>): Three<T> => [
    minus(a[0], b[0]),
    minus(a[1], b[1]),
    minus(a[2], b[2]),
  ];
  const times3 = (a: Three<T>, s: number): Three<T> => [
    times(a[0], s),
    times(a[1], s),
    times(a[2], s),
  ];
  const product3 = (a: T, b: Three<T>): Three<T> => [
    product(a, b[0]),
    product(a, b[1]),
    product(a, b[2]),
  ];
  const inner = (a: Three<T>, b: Three<T>): T =>
    plus(plus(product(a[0], b[0]), product(a[1], b[1])), product(a[2], b[2]));
  const outer = (a: Three<T>, b: Three<T>): Three<T> => [
    minus(product(a[1], b[2]), product(a[2], b[1])),
    minus(product(a[2], b[0]), product(a[0], b[2])),
    minus(product(a[0], b[1]), product(a[1], b[0])),
  ];
  const columnOf = (M: NineOf<T>, c: number): Three<T> => [M[c] as T, M[c + 3] as T, M[c + 6] as T];
  const rowOf = (M: NineOf<T>, r: number): Three<T> => [
    M[3 * r] as T,
    M[3 * r + 1] as T,
    M[3 * r + 2] as T,
  ];
  const turnPlain = (M: NineOf<T>, v: ArrayLike<number>): Three<T> =>
    [0, 1, 2].map(r => {
      const [x, y, z] = rowOf(M, r);
      return plus(
        plus(times(x, v[0] as number), times(y, v[1] as number)),
        times(z, v[2] as number),
      );
    }) as Three<T>;
  const turnVector = (M: NineOf<T>, v: Three<T>): Three<T> =>
    [0, 1, 2].map(r => inner(rowOf(M, r), v)) as Three<T>;
  const turnBack = (M: NineOf<T>, v: Three<T>): Three<T> =>
    [0, 1, 2].map(c => inner(columnOf(M, c), v)) as Three<T>;
  const turnProduct = (A: NineOf<T>, B: NineOf<T>): NineOf<T> => {
    const out: NineOf<T> = new Array(9);
    for (let c = 0; c < 3; c++) {
      const column = turnVector(A, columnOf(B, c));
      for (let r = 0; r < 3; r++) out[3 * r + c] = column[r] as T;
    }
    return out;
  };
  const turnAbout = (axis: ArrayLike<number>, cos: T, sin: T): NineOf<T> => {
    const a = [axis[0] as number, axis[1] as number, axis[2] as number] as const;
    const versed = shifted(times(cos, -1), 1);
    const skew = [0, -a[2], a[1], a[2], 0, -a[0], -a[1], a[0], 0];
    const out: NineOf<T> = [];
    for (let r = 0; r < 3; r++) {
      for (let c = 0; c < 3; c++) {
        let e = plus(
          times(versed, (a[r] as number) * (a[c] as number)),
          times(sin, skew[3 * r + c] as number),
        );
        if (r === c) e = plus(e, cos);
        out.push(e);
      }
    }
    return out;
  };
  const smallestTurn = (d0: ArrayLike<number>, d: Three<T>, q: Three<T>): Three<T> => {
    const from = constant3(d0);
    const v = outer(from, d);
    const c = inner(from, d);
    const along = product(inner(v, q), reciprocal(shifted(c, 1)));
    return plus3(plus3(product3(c, q), outer(v, q)), product3(along, v));
  };
  return {
    constant3,
    plus3,
    minus3,
    times3,
    product3,
    inner,
    outer,
    turnPlain,
    turnVector,
    turnBack,
    columnOf,
    turnProduct,
    turnAbout,
    smallestTurn,
  };
}
