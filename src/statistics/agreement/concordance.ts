import { liftPaired } from "../lift/lift-paired.js";
import { Undetermined, checkOptions, checkPairs, checkProbability } from "../numeric/guards.js";
import { normalQuantile } from "../numeric/distributions.js";
import { crossDeviations, meanOf, squaredDeviations } from "../numeric/sums.js";

export interface Concordance {
  readonly value: number;
  /** Null where the correlation is 0 or the agreement perfect, for which the interval is not defined. */
  readonly lower: number | null;
  readonly upper: number | null;
  readonly pearson: number;
  /** Bias correction factor, value/pearson; null where the correlation is 0. */
  readonly accuracy: number | null;
}

/**
 * Lin's concordance correlation: 2s_xy/(s_x² + s_y² + (m_x - m_y)²) with divisor n, and its interval by Fisher's z.
 * @param xs first method, at least four finite numbers
 * @param ys second method, paired with them
 * @param options level: default 0.95
 * @throws Undetermined on fewer than four pairs, and where either method does not vary
 * Source: Lin, Biometrics 45 (1989) 255, with the corrected variance of Biometrics 56 (2000) 324.
 */
export function concordanceKernel(
  xs: readonly number[],
  ys: readonly number[],
  options: { readonly level?: number } = {},
): Concordance {
  checkOptions(options, ["level"], "concordance");
  const level = options.level ?? 0.95;
  checkProbability(level, "level");
  checkPairs(xs, ys, 4, "concordance");
  const n = xs.length;
  const xx = squaredDeviations(xs) / n;
  const yy = squaredDeviations(ys) / n;
  if (xx === 0 || yy === 0) throw new Undetermined("concordance has no meaning where a method does not vary");
  const xy = crossDeviations(xs, ys) / n;
  const shift = meanOf(xs) - meanOf(ys);
  const value = (2 * xy) / (xx + yy + shift * shift);
  const pearson = xy / Math.sqrt(xx * yy);
  if (pearson === 0 || Math.abs(value) >= 1) {
    return { value, lower: null, upper: null, pearson, accuracy: pearson === 0 ? null : value / pearson };
  }
  const u2 = (shift * shift) / Math.sqrt(xx * yy);
  const p2 = value * value;
  const r2 = pearson * pearson;
  const variance =
    (((1 - r2) * p2 * (1 - p2)) / r2 + (2 * value ** 3 * (1 - value) * u2) / pearson - (p2 * p2 * u2 * u2) / (2 * r2)) /
    (n - 2);
  const half = (normalQuantile((1 + level) / 2) * Math.sqrt(Math.max(0, variance))) / (1 - p2);
  const z = Math.atanh(value);
  return { value, lower: Math.tanh(z - half), upper: Math.tanh(z + half), pearson, accuracy: value / pearson };
}

/** Lin's concordance of two measured values of each item. */
export const concordance = liftPaired(
  concordanceKernel,
  { value: "ratio", lower: "ratio", upper: "ratio", pearson: "ratio", accuracy: "ratio" },
  { name: "concordance correlation" },
);
