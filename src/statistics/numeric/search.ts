/**
 * Root of a continuous function between two points of opposite sign, by Brent's method (Algorithms for Minimization without
 * Derivatives, 1973, chapter 4).
 * @throws RangeError where the signs are equal
 */
export function rootBetween(f: (x: number) => number, low: number, high: number, tolerance = 1e-14): number {
  let a = low;
  let b = high;
  let fa = f(a);
  let fb = f(b);
  if (fa === 0) return a;
  if (fb === 0) return b;
  if (!(fa * fb < 0)) throw new RangeError(`no change of sign between ${low} (${fa}) and ${high} (${fb})`);
  let c = a;
  let fc = fa;
  let d = b - a;
  let e = d;
  for (let step = 0; step < 200; step++) {
    if (Math.abs(fc) < Math.abs(fb)) {
      [a, b, c] = [b, c, b];
      [fa, fb, fc] = [fb, fc, fb];
    }
    const limit = 2 * Number.EPSILON * Math.abs(b) + tolerance / 2;
    const half = (c - b) / 2;
    if (Math.abs(half) <= limit || fb === 0) return b;
    if (Math.abs(e) < limit || Math.abs(fa) <= Math.abs(fb)) {
      d = e = half;
    } else {
      const s = fb / fa;
      let p: number;
      let q: number;
      if (a === c) {
        p = 2 * half * s;
        q = 1 - s;
      } else {
        const r = fb / fc;
        const t = fa / fc;
        p = s * (2 * half * t * (t - r) - (b - a) * (r - 1));
        q = (t - 1) * (r - 1) * (s - 1);
      }
      if (p > 0) q = -q;
      p = Math.abs(p);
      const before = e;
      e = d;
      if (2 * p < Math.min(3 * half * q - Math.abs(limit * q), Math.abs(before * q))) d = p / q;
      else d = e = half;
    }
    a = b;
    fa = fb;
    b += Math.abs(d) > limit ? d : Math.sign(half) * limit;
    fb = f(b);
    if (fb > 0 === fc > 0) {
      c = a;
      fc = fa;
      d = e = b - a;
    }
  }
  return b;
}

/** Point of the smallest value of a function with one minimum between two points (golden section, then parabolas: Brent). */
export function minimumBetween(f: (x: number) => number, low: number, high: number, tolerance = 1e-10): number {
  const golden = (3 - Math.sqrt(5)) / 2;
  let a = low;
  let b = high;
  let x = a + golden * (b - a);
  let w = x;
  let v = x;
  let fx = f(x);
  let fw = fx;
  let fv = fx;
  let d = 0;
  let e = 0;
  for (let step = 0; step < 200; step++) {
    const middle = (a + b) / 2;
    const limit = tolerance * Math.abs(x) + 1e-300 + tolerance * 1e-3 * (high - low);
    if (Math.abs(x - middle) <= 2 * limit - (b - a) / 2) return x;
    let parabola = false;
    if (Math.abs(e) > limit) {
      const r = (x - w) * (fx - fv);
      let q = (x - v) * (fx - fw);
      let p = (x - v) * q - (x - w) * r;
      q = 2 * (q - r);
      if (q > 0) p = -p;
      q = Math.abs(q);
      if (Math.abs(p) < Math.abs(0.5 * q * e) && p > q * (a - x) && p < q * (b - x)) {
        e = d;
        d = p / q;
        const u = x + d;
        if (u - a < 2 * limit || b - u < 2 * limit) d = x < middle ? limit : -limit;
        parabola = true;
      }
    }
    if (!parabola) {
      e = x < middle ? b - x : a - x;
      d = golden * e;
    }
    const u = x + (Math.abs(d) >= limit ? d : Math.sign(d) * limit);
    const fu = f(u);
    if (fu <= fx) {
      if (u < x) b = x;
      else a = x;
      [v, w, x] = [w, x, u];
      [fv, fw, fx] = [fw, fx, fu];
    } else {
      if (u < x) a = u;
      else b = u;
      if (fu <= fw || w === x) {
        [v, w] = [w, u];
        [fv, fw] = [fw, fu];
      } else if (fu <= fv || v === x || v === w) {
        v = u;
        fv = fu;
      }
    }
  }
  return x;
}
