import { lift } from "../lift/lift.js";
import { Undetermined, checkOptions, checkValues } from "../numeric/guards.js";
import { normalCdf, normalQuantile } from "../numeric/distributions.js";
import { ascending, meanOf, squaredDeviations, sumOf } from "../numeric/sums.js";

export interface TestResult {
  readonly statistic: number;
  readonly pValue: number;
  readonly n: number;
}

const polynomial = (coefficients: readonly number[], x: number): number =>
  coefficients.reduceRight((total, c) => total * x + c, 0);

/**
 * Shapiro-Wilk test of normality: W = (Σ a_i x_(i))²/Σ(x - m)², with Royston's weights and p-value.
 * @param values 3 to 5000 finite numbers in any order; ties are allowed and lower W
 * @throws Undetermined on fewer than 3 values or where all are equal; RangeError above 5000
 * Source: Royston, Applied Statistics 44 (1995) 547, algorithm AS R94.
 */
export function shapiroWilkKernel(values: readonly number[], options: object = {}): TestResult {
  checkOptions(options, [], "shapiroWilk");
  checkValues(values, 3, "Shapiro-Wilk");
  const n = values.length;
  if (n > 5000) throw new RangeError(`Shapiro-Wilk takes at most 5000 values, got ${n}`);
  const sorted = ascending(values);
  const total = squaredDeviations(values);
  if (total === 0) throw new Undetermined("Shapiro-Wilk has no meaning where all values are equal");
  const weights = shapiroWeights(n);
  const centre = meanOf(values);
  const half = weights.length;
  const line = sumOf(weights.map((a, i) => a * (sorted[n - 1 - i]! - centre - (sorted[i]! - centre))));
  const statistic = Math.min(1, (line * line) / total);
  return { statistic, pValue: half === 0 ? 1 : shapiroP(statistic, n), n };
}

/** Weights of x_(n) - x_(1), x_(n-1) - x_(2), ... */
function shapiroWeights(n: number): readonly number[] {
  if (n === 3) return [Math.SQRT1_2];
  const half = n >> 1;
  const m = Array.from({ length: half }, (_, i) => -normalQuantile((i + 1 - 0.375) / (n + 0.25)));
  const square = 2 * sumOf(m.map((v) => v * v));
  const root = Math.sqrt(square);
  const r = 1 / Math.sqrt(n);
  const first = polynomial([0, 0.221157, -0.147981, -2.07119, 4.434685, -2.706056], r) + m[0]! / root;
  if (n <= 5) {
    const scale = Math.sqrt((square - 2 * m[0]! ** 2) / (1 - 2 * first ** 2));
    return m.map((v, i) => (i === 0 ? first : v / scale));
  }
  const second = polynomial([0, 0.042981, -0.293762, -1.752461, 5.682633, -3.582633], r) + m[1]! / root;
  const scale = Math.sqrt((square - 2 * m[0]! ** 2 - 2 * m[1]! ** 2) / (1 - 2 * first ** 2 - 2 * second ** 2));
  return m.map((v, i) => (i === 0 ? first : i === 1 ? second : v / scale));
}

function shapiroP(w: number, n: number): number {
  if (n === 3) return Math.max(0, (6 / Math.PI) * (Math.asin(Math.sqrt(w)) - Math.asin(Math.sqrt(0.75))));
  const y = Math.log1p(-w);
  if (w === 1) return 1;
  if (n <= 11) {
    const gamma = polynomial([-2.273, 0.459], n);
    if (y >= gamma) return 1e-99;
    const centre = polynomial([0.544, -0.39978, 0.025054, -6.714e-4], n);
    const spread = Math.exp(polynomial([1.3822, -0.77857, 0.062767, -0.0020322], n));
    return normalCdf(-(-Math.log(gamma - y) - centre) / spread);
  }
  const x = Math.log(n);
  const centre = polynomial([-1.5861, -0.31082, -0.083751, 0.0038915], x);
  const spread = Math.exp(polynomial([-0.4803, -0.082676, 0.0030302], x));
  return normalCdf(-(y - centre) / spread);
}

/** Shapiro-Wilk test of measured values. */
export const shapiroWilk = lift(
  shapiroWilkKernel,
  { statistic: "statistic", pValue: "statistic", n: "count" },
  { name: "Shapiro-Wilk test" },
);

/**
 * Anderson-Darling test of normality with mean and sd from the sample: A² = -n - Σ(2i - 1)(ln Φ_(i) + ln(1 - Φ_(n+1-i)))/n;
 * the p-value is that of A²(1 + 0.75/n + 2.25/n²).
 * @param values at least 8 finite numbers in any order
 * @throws Undetermined on fewer than 8 values, and where all are equal
 * Source: D'Agostino and Stephens, Goodness-of-Fit Techniques (1986), 4.8.5 and table 4.9.
 */
export function andersonDarlingKernel(values: readonly number[], options: object = {}): TestResult {
  checkOptions(options, [], "andersonDarling");
  checkValues(values, 8, "Anderson-Darling");
  const n = values.length;
  const centre = meanOf(values);
  const sd = Math.sqrt(squaredDeviations(values) / (n - 1));
  if (sd === 0) throw new Undetermined("Anderson-Darling has no meaning where all values are equal");
  const z = ascending(values).map((value) => (value - centre) / sd);
  const terms = z.map((v, i) => (2 * i + 1) * (Math.log(normalCdf(v)) + Math.log(normalCdf(-z[n - 1 - i]!))));
  const statistic = -n - sumOf(terms) / n;
  const a = statistic * (1 + 0.75 / n + 2.25 / (n * n));
  let pValue = 3.7e-24;
  if (a < 0.2) pValue = 1 - Math.exp(-13.436 + 101.14 * a - 223.73 * a * a);
  else if (a < 0.34) pValue = 1 - Math.exp(-8.318 + 42.796 * a - 59.938 * a * a);
  else if (a < 0.6) pValue = Math.exp(0.9177 - 4.279 * a - 1.38 * a * a);
  else if (a < 10) pValue = Math.exp(1.2937 - 5.709 * a + 0.0186 * a * a);
  return { statistic, pValue, n };
}

/** Anderson-Darling test of measured values. */
export const andersonDarling = lift(
  andersonDarlingKernel,
  { statistic: "statistic", pValue: "statistic", n: "count" },
  { name: "Anderson-Darling test" },
);
