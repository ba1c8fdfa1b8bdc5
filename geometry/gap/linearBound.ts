/**
 * Bounds on the solutions of A u = −b over a cell, A and b given as first-order forms by entry: (12) of PROOF.md.
 *
 * With Y = A⁻¹ at the center, G_k = Y A_k of the linear parts, and R the radii:
 *   u = u₀ + Σ û_k δ_k + e,  u₀ = −Y b₀,  û_k = −Y b_k − G_k u₀
 *   |e| ≤ E |e| + s,  E = Σ |G_k| + |Y| R,  s = Σ |G_k û_l + G_l û_k| + |Y| (R (|u₀| + Σ |û_k|) + rad b)
 * A vector r > 0 with E r + s ≤ r and s > 0 shows that the spectral radius of E is under 1, so that every A of the
 * cell is regular, and that |e| ≤ r. (Krawczyk's operator on a linear system: Neumaier, Interval Methods for Systems of
 * Equations, §4.1; from memory.) Multiplying A_k by Y before taking sizes is what keeps E small: |Y| |A_k| was
 * several times larger, and did not end below 1 on elastic axles.
 *
 * Layout: planes of center, first and second linear part, radius; a plane of A has `columns` numbers a row.
 */

/** Linear parts that are looked at: those of the two travels. */
const TRAVELS = 2;
export const PLANES = TRAVELS + 2;

/** Sweeps of Gauss and Seidel for r. */
const SWEEPS = 60;
/** Against rounding in sums of some forty terms. */
const ABOVE = 1 + 1e-9;
/** Added to s, so that it is positive: any number will do. */
const POSITIVE = 1e-14;

export class LinearBound {
  readonly n: number;
  readonly #Y: Float64Array;
  readonly #work: Float64Array;
  readonly #G: readonly Float64Array[];
  readonly #R: Float64Array;
  readonly #E: Float64Array;
  readonly #s: Float64Array;
  readonly #t: Float64Array;
  readonly #g: Float64Array;

  constructor(n: number) {
    this.n = n;
    const square = (): Float64Array => new Float64Array(n * n);
    this.#Y = square();
    this.#work = square();
    this.#G = [square(), square()];
    this.#R = square();
    this.#E = square();
    this.#s = new Float64Array(n);
    this.#t = new Float64Array(n);
    this.#g = new Float64Array(n);
  }

  /** Takes the inverse of the centers of A, of whose `columns` the first n count. False: singular. */
  invert(A: Float64Array, columns: number): boolean {
    const n = this.n;
    const M = this.#work;
    for (let r = 0; r < n; r++) {
      for (let c = 0; c < n; c++) M[r * n + c] = A[r * columns + c] as number;
    }
    return invertInto(M, this.#Y, n);
  }

  /** Takes linear parts and radii of A. */
  setForms(A: Float64Array, columns: number): void {
    const n = this.n;
    const plane = n * columns;
    const E = this.#E.fill(0);
    const Y = this.#Y;
    const M = this.#work;
    for (let k = 0; k < PLANES - 1; k++) {
      const isRadius = k === TRAVELS;
      const G = isRadius ? E : (this.#G[k] as Float64Array).fill(0);
      for (let r = 0; r < n; r++) {
        for (let c = 0; c < n; c++) {
          M[r * n + c] = A[(k + 1) * plane + r * columns + c] as number;
        }
      }
      if (isRadius) {
        this.#R.set(M);
        // the linear parts' sizes come first
        for (const each of this.#G) {
          for (let i = 0; i < n * n; i++) E[i] = (E[i] as number) + Math.abs(each[i] as number);
        }
      }
      for (let i = 0; i < n; i++) {
        for (let c = 0; c < n; c++) {
          const a = M[i * n + c] as number;
          if (a === 0) continue;
          for (let r = 0; r < n; r++) {
            const y = Y[r * n + i] as number;
            G[r * n + c] = (G[r * n + c] as number) + (isRadius ? Math.abs(y) : y) * a;
          }
        }
      }
    }
  }

  /** u₀ alone. */
  middle(b: Float64Array, u: Float64Array): void {
    u.fill(0);
    this.#apply(b, 0, u, 0);
  }

  /** out = −Y b, each from its place on. */
  #apply(b: Float64Array, from: number, out: Float64Array, to: number): void {
    const n = this.n;
    for (let r = 0; r < n; r++) {
      let sum = 0;
      for (let c = 0; c < n; c++) sum -= (this.#Y[r * n + c] as number) * (b[from + c] as number);
      out[to + r] = sum;
    }
  }

  /** Adds |G_k u_l + G_l u_k|, or |G_k u_k|, to s. */
  #addCross(u: Float64Array, k: number, l: number): void {
    const n = this.n;
    const Gk = this.#G[k] as Float64Array;
    const Gl = this.#G[l] as Float64Array;
    for (let r = 0; r < n; r++) {
      let sum = 0;
      for (let c = 0; c < n; c++) {
        sum += (Gk[r * n + c] as number) * (u[(l + 1) * n + c] as number);
        if (k !== l) sum += (Gl[r * n + c] as number) * (u[(k + 1) * n + c] as number);
      }
      this.#s[r] = (this.#s[r] as number) + Math.abs(sum);
    }
  }

  /** Bounds the solutions; false where A may be singular. */
  solve(b: Float64Array, u: Float64Array): boolean {
    const n = this.n;
    const E = this.#E;
    const s = this.#s.fill(0);
    const t = this.#t;
    this.middle(b, u);
    for (let k = 0; k < TRAVELS; k++) {
      this.#apply(b, (k + 1) * n, u, (k + 1) * n);
      const G = this.#G[k] as Float64Array;
      for (let r = 0; r < n; r++) {
        let sum = 0;
        for (let c = 0; c < n; c++) sum += (G[r * n + c] as number) * (u[c] as number);
        u[(k + 1) * n + r] = (u[(k + 1) * n + r] as number) - sum;
      }
    }
    this.#addCross(u, 0, 0);
    this.#addCross(u, 1, 1);
    this.#addCross(u, 0, 1);
    for (let c = 0; c < n; c++) {
      this.#g[c] =
        Math.abs(u[c] as number) + Math.abs(u[n + c] as number) + Math.abs(u[2 * n + c] as number);
    }
    for (let r = 0; r < n; r++) {
      let sum = b[3 * n + r] as number;
      for (let c = 0; c < n; c++) sum += (this.#R[r * n + c] as number) * (this.#g[c] as number);
      t[r] = sum;
    }
    const at = 3 * n;
    for (let r = 0; r < n; r++) {
      let sum = s[r] as number;
      for (let c = 0; c < n; c++) sum += Math.abs(this.#Y[r * n + c] as number) * (t[c] as number);
      s[r] = sum * ABOVE + POSITIVE;
      if (!((E[r * n + r] as number) < 1)) return false;
      u[at + r] = s[r] as number;
    }
    for (let sweep = 0; ; sweep++) {
      let grown = 0;
      for (let r = 0; r < n; r++) {
        let sum = s[r] as number;
        for (let c = 0; c < n; c++) {
          if (c !== r) sum += (E[r * n + c] as number) * (u[at + c] as number);
        }
        const next = sum / (1 - (E[r * n + r] as number));
        const before = u[at + r] as number;
        if (!(next >= before) && !(next < before)) return false;
        if (next <= before) continue;
        grown = Math.max(grown, (next - before) / next);
        u[at + r] = next;
      }
      if (grown < 1e-4) break;
      if (sweep === SWEEPS) return false;
    }
    // a little more than the sweeps' limit, so that the test below is passed by what is right
    for (let r = 0; r < n; r++) u[at + r] = (u[at + r] as number) * (1 + 1e-2);
    for (let pass = 0; pass < 8; pass++) {
      let holds = true;
      for (let r = 0; r < n; r++) {
        let sum = s[r] as number;
        for (let c = 0; c < n; c++) sum += (E[r * n + c] as number) * (u[at + c] as number);
        if (!(sum <= (u[at + r] as number))) holds = false;
      }
      if (holds) return true;
      for (let r = 0; r < n; r++) u[at + r] = (u[at + r] as number) * 1.05;
    }
    return false;
  }
}

/** Gauss–Jordan with partial pivoting, M destroyed; false where a pivot vanishes or is no number. */
function invertInto(M: Float64Array, out: Float64Array, n: number): boolean {
  out.fill(0);
  for (let i = 0; i < n; i++) out[i * n + i] = 1;
  for (let c = 0; c < n; c++) {
    let p = c;
    for (let r = c + 1; r < n; r++) {
      if (Math.abs(M[r * n + c] as number) > Math.abs(M[p * n + c] as number)) p = r;
    }
    const pivot = M[p * n + c] as number;
    if (!(Math.abs(pivot) > 0)) return false;
    for (let k = 0; k < n; k++) {
      const m = M[c * n + k] as number;
      M[c * n + k] = (M[p * n + k] as number) / pivot;
      if (p !== c) M[p * n + k] = m;
      const o = out[c * n + k] as number;
      out[c * n + k] = (out[p * n + k] as number) / pivot;
      if (p !== c) out[p * n + k] = o;
    }
    for (let r = 0; r < n; r++) {
      if (r === c) continue;
      const f = M[r * n + c] as number;
      if (f === 0) continue;
      for (let k = 0; k < n; k++) {
        M[r * n + k] = (M[r * n + k] as number) - f * (M[c * n + k] as number);
        out[r * n + k] = (out[r * n + k] as number) - f * (out[c * n + k] as number);
      }
    }
  }
  return true;
}
