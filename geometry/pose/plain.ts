/** Plain numbers as the arithmetic of the kinematics (`arithmetic.ts`). */
import { type Arithmetic, vectors } from './arithmetic.ts';

export const plain: Arithmetic<number> = {
  constant: value => value,
  plus: (a, b) => a + b,
  minus: (a, b) => a - b,
  times: (a, s) => a * s,
  shifted: (a, s) => a + s,
  product: (a, b) => a * b,
  root: Math.sqrt,
  reciprocal: a => 1 / a,
  cosine: (change, c, s) => c * Math.cos(change) - s * Math.sin(change),
  sine: (change, c, s) => s * Math.cos(change) + c * Math.sin(change),
};

export const plainVectors = vectors(plain);
