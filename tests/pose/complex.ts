/** Complex numbers, as far as complex-step derivatives need them: f'(x) = Im f(x + i h)/h, without cancellation. */
export interface Complex {
  re: number;
  im: number;
}
export type Complex3 = [Complex, Complex, Complex];

export const real = (re: number): Complex => ({ re, im: 0 });
export const add = (a: Complex, b: Complex): Complex => ({ re: a.re + b.re, im: a.im + b.im });
export const sub = (a: Complex, b: Complex): Complex => ({ re: a.re - b.re, im: a.im - b.im });
export const mul = (a: Complex, b: Complex): Complex => ({
  re: a.re * b.re - a.im * b.im,
  im: a.re * b.im + a.im * b.re,
});
export const div = (a: Complex, b: Complex): Complex => {
  const n = b.re * b.re + b.im * b.im;
  return { re: (a.re * b.re + a.im * b.im) / n, im: (a.im * b.re - a.re * b.im) / n };
};
/** Principal square root of a number near the positive real axis. */
export const sqrt = (a: Complex): Complex => {
  const re = Math.sqrt((Math.hypot(a.re, a.im) + a.re) / 2);
  return { re, im: a.im / (2 * re) };
};
export const cos = (a: Complex): Complex => ({
  re: Math.cos(a.re) * Math.cosh(a.im),
  im: -Math.sin(a.re) * Math.sinh(a.im),
});
export const sin = (a: Complex): Complex => ({
  re: Math.sin(a.re) * Math.cosh(a.im),
  im: Math.cos(a.re) * Math.sinh(a.im),
});

export const real3 = (v: readonly [number, number, number]): Complex3 => [
  real(v[0]),
  real(v[1]),
  real(v[2]),
];
export const add3 = (a: Complex3, b: Complex3): Complex3 => [
  add(a[0], b[0]),
  add(a[1], b[1]),
  add(a[2], b[2]),
];
export const sub3 = (a: Complex3, b: Complex3): Complex3 => [
  sub(a[0], b[0]),
  sub(a[1], b[1]),
  sub(a[2], b[2]),
];
export const mul3 = (s: Complex, a: Complex3): Complex3 => [
  mul(s, a[0]),
  mul(s, a[1]),
  mul(s, a[2]),
];
/** a·b without conjugation: the analytic continuation of the real product. */
export const dot3 = (a: Complex3, b: Complex3): Complex =>
  add(add(mul(a[0], b[0]), mul(a[1], b[1])), mul(a[2], b[2]));
export const cross3 = (a: Complex3, b: Complex3): Complex3 => [
  sub(mul(a[1], b[2]), mul(a[2], b[1])),
  sub(mul(a[2], b[0]), mul(a[0], b[2])),
  sub(mul(a[0], b[1]), mul(a[1], b[0])),
];
export const unit3 = (a: Complex3): Complex3 => mul3(div(real(1), sqrt(dot3(a, a))), a);

/** v turned right-handed about a fixed unit axis. */
export const about3 = (
  axis: readonly [number, number, number],
  angle: Complex,
  v: Complex3,
): Complex3 => {
  const k = real3(axis);
  const along = mul3(dot3(k, v), k);
  const across = sub3(v, along);
  return add3(along, add3(mul3(cos(angle), across), mul3(sin(angle), cross3(k, across))));
};
