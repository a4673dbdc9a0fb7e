import { liftSamples } from "../lift/lift-paired.js";
import { checkOptions, checkValues } from "../numeric/guards.js";
import { ascending } from "../numeric/sums.js";

export interface KolmogorovSmirnov {
  /** Largest distance of the two empirical distribution functions. */
  readonly statistic: number;
  /** Two-sided. */
  readonly pValue: number;
  readonly exact: boolean;
}

/**
 * Two-sample Kolmogorov-Smirnov test: D = max |F_n - G_m|. Up to n m = 10,000 the p-value is exact, given the ties seen; beyond it
 * is Kolmogorov's limit.
 * @param xs first sample, at least two finite numbers
 * @param ys second sample, at least two
 * @throws Undetermined on fewer than two values in either; RangeError on a value that is not finite
 * Source: Schröer and Trenkler, Computational Statistics and Data Analysis 20 (1995) 185 (exact, with ties); Smirnov 1939 (limit).
 */
export function kolmogorovSmirnovKernel(
  xs: readonly number[],
  ys: readonly number[],
  options: object = {},
): KolmogorovSmirnov {
  checkOptions(options, [], "kolmogorovSmirnov");
  checkValues(xs, 2, "the Kolmogorov-Smirnov test");
  checkValues(ys, 2, "the Kolmogorov-Smirnov test");
  const [n, m] = [xs.length, ys.length];
  const all = ascending([...xs, ...ys]);
  const a = ascending(xs);
  const b = ascending(ys);
  let i = 0;
  let j = 0;
  let largest = 0;
  // Counts instead of shares, so that equal distances compare equal.
  for (const value of all) {
    while (i < n && a[i]! <= value) i++;
    while (j < m && b[j]! <= value) j++;
    largest = Math.max(largest, Math.abs(i * m - j * n));
  }
  const statistic = largest / (n * m);
  const exact = n * m <= 10_000;
  return {
    statistic,
    pValue: exact ? exactP(largest, n, m, all) : limitP(statistic * Math.sqrt((n * m) / (n + m))),
    exact,
  };
}

/** 1 - share of the lattice paths that stay closer than the distance, looked at only where the pooled values change. */
function exactP(largest: number, n: number, m: number, all: readonly number[]): number {
  const change = (k: number): boolean => k === 0 || k >= n + m || all[k - 1] !== all[k];
  const outside = (i: number, j: number): boolean => Math.abs(i * m - j * n) >= largest && change(i + j);
  const paths = new Float64Array(m + 1);
  paths[0] = 1;
  for (let j = 1; j <= m; j++) paths[j] = outside(0, j) ? 0 : paths[j - 1]!;
  for (let i = 1; i <= n; i++) {
    const weight = i / (i + m);
    paths[0] = outside(i, 0) ? 0 : weight * paths[0]!;
    for (let j = 1; j <= m; j++) paths[j] = outside(i, j) ? 0 : weight * paths[j]! + paths[j - 1]!;
  }
  return largest === 0 ? 1 : Math.min(1, Math.max(0, 1 - paths[m]!));
}

/** P(K > x) of Kolmogorov's limit distribution. */
function limitP(x: number): number {
  if (x < 0.2) return 1;
  let total = 0;
  for (let k = 1; k <= 100; k++) total += (k % 2 === 1 ? 2 : -2) * Math.exp(-2 * k * k * x * x);
  return Math.min(1, Math.max(0, total));
}

/** Kolmogorov-Smirnov test of measured values of two lists. */
export const kolmogorovSmirnov = liftSamples(
  kolmogorovSmirnovKernel,
  { statistic: "statistic", pValue: "statistic", exact: "flag" },
  { name: "Kolmogorov-Smirnov test" },
);
