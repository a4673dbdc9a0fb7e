/** An unevaluated sum hi + lo of two doubles, with some 106 bits. */
export type Double2 = readonly [hi: number, lo: number];

/** a + b exactly (Knuth). */
function twoSum(a: number, b: number): Double2 {
  const s = a + b;
  const bb = s - a;
  return [s, a - (s - bb) + (b - bb)];
}

/** a + b exactly where |a| >= |b| (Dekker). */
function quickTwoSum(a: number, b: number): Double2 {
  const s = a + b;
  return [s, b - (s - a)];
}

/** a * b exactly (Veltkamp and Dekker). */
function twoProduct(a: number, b: number): Double2 {
  const p = a * b;
  const ca = 134217729 * a;
  const ah = ca - (ca - a);
  const al = a - ah;
  const cb = 134217729 * b;
  const bh = cb - (cb - b);
  const bl = b - bh;
  return [p, ah * bh - p + ah * bl + al * bh + al * bl];
}

/** Sum of two double-doubles. Source: Hida, Li and Bailey, ARITH-15 (2001) 155. */
export function add2(a: Double2, b: Double2): Double2 {
  const s = twoSum(a[0], b[0]);
  const t = twoSum(a[1], b[1]);
  const u = quickTwoSum(s[0], s[1] + t[0]);
  return quickTwoSum(u[0], u[1] + t[1]);
}

/** a - b. */
export function subtract2(a: Double2, b: Double2): Double2 {
  return add2(a, [-b[0], -b[1]]);
}

/** a b. */
export function multiply2(a: Double2, b: Double2): Double2 {
  const p = twoProduct(a[0], b[0]);
  return quickTwoSum(p[0], p[1] + a[0] * b[1] + a[1] * b[0]);
}

/** a / b by long division with two corrections. */
export function divide2(a: Double2, b: Double2): Double2 {
  const q1 = a[0] / b[0];
  let rest = subtract2(a, multiply2(b, [q1, 0]));
  const q2 = rest[0] / b[0];
  rest = subtract2(rest, multiply2(b, [q2, 0]));
  const q3 = rest[0] / b[0];
  return add2(quickTwoSum(q1, q2), [q3, 0]);
}

/** Square root of a number of at least 0 (one Newton step from the double's root). */
export function root2(a: Double2): Double2 {
  if (a[0] <= 0) return [0, 0];
  const x = Math.sqrt(a[0]);
  const rest = subtract2(a, twoProduct(x, x));
  return quickTwoSum(x, rest[0] / (2 * x));
}

/** Sum of products of two columns. */
export function dot2(a: readonly Double2[], b: readonly Double2[]): Double2 {
  let total: Double2 = [0, 0];
  for (let i = 0; i < a.length; i++) total = add2(total, multiply2(a[i]!, b[i]!));
  return total;
}

/** a - factor b, column by column. */
export function without2(a: readonly Double2[], b: readonly Double2[], factor: Double2): readonly Double2[] {
  return a.map((value, i) => subtract2(value, multiply2(factor, b[i]!)));
}
