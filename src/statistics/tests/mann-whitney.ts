import { liftSamples } from "../lift/lift-paired.js";
import { checkChoice, checkOptions, checkProbability, checkValues } from "../numeric/guards.js";
import { normalCdf, normalQuantile } from "../numeric/distributions.js";
import { midranks } from "../numeric/ranks.js";
import { ascending, medianOfSorted } from "../numeric/sums.js";
import type { RankOptions } from "./wilcoxon.js";

export interface MannWhitney {
  /** Number of pairs in which the second is larger, ties half. */
  readonly statistic: number;
  /** statistic/(n m): probability that a value of the second exceeds one of the first, ties half. */
  readonly superiority: number;
  /** Two-sided. */
  readonly pValue: number;
  /** Hodges-Lehmann shift: median of second less first over all pairs. */
  readonly shift: number;
  /** Null where the samples are too small for the level. */
  readonly lower: number | null;
  readonly upper: number | null;
  readonly exact: boolean;
}

/**
 * Mann-Whitney (Wilcoxon rank-sum) test: U = number of pairs with second above first, ties half. The exact p-value is that of all
 * ways to deal out the midranks seen, ties included; the shift is the Hodges-Lehmann estimate with its rank interval.
 * @param xs first sample, at least one finite number
 * @param ys second sample, at least one
 * @param options level: default 0.95; method: "auto" (default) is exact up to 50 values in all
 * @throws Undetermined on an empty sample; RangeError on a value that is not finite
 * Source: Hollander and Wolfe, Nonparametric Statistical Methods (1973), 4.1 to 4.3; Mann and Whitney 1947.
 */
export function mannWhitneyKernel(
  xs: readonly number[],
  ys: readonly number[],
  options: RankOptions = {},
): MannWhitney {
  checkOptions(options, ["level", "method"], "mannWhitney");
  const { level = 0.95, method = "auto" } = options;
  checkProbability(level, "level");
  checkChoice(method, ["auto", "exact", "normal"], "method");
  checkValues(xs, 1, "the Mann-Whitney test");
  checkValues(ys, 1, "the Mann-Whitney test");
  const [n, m] = [xs.length, ys.length];
  const { ranks, ties } = midranks([...xs, ...ys]);
  const rankSum = ranks.slice(n).reduce((total, rank) => total + rank, 0);
  const statistic = rankSum - (m * (m + 1)) / 2;
  const exact = method === "exact" || (method === "auto" && n + m <= 50);
  const shifts = ascending(ys.flatMap((y) => xs.map((x) => y - x)));
  const alpha = 1 - level;
  const cut = n + m <= 50 ? exactCut(n, m, alpha) : normalCut(n, m, alpha);
  return {
    statistic,
    superiority: statistic / (n * m),
    pValue: exact ? exactP(ranks, m, rankSum) : normalP(n, m, ties, statistic),
    shift: medianOfSorted(shifts),
    lower: cut < 1 ? null : shifts[cut - 1]!,
    upper: cut < 1 ? null : shifts[shifts.length - cut]!,
    exact,
  };
}

/** Shares of the sums of a random subset of m of the doubled ranks. */
function subsetShares(doubled: readonly number[], m: number): readonly number[] {
  const top = doubled.reduce((total, rank) => total + rank, 0);
  const counts = Array.from({ length: m + 1 }, () => new Float64Array(top + 1));
  counts[0]![0] = 1;
  doubled.forEach((rank, i) => {
    for (let size = Math.min(m, i + 1); size >= 1; size--) {
      const from = counts[size - 1]!;
      const to = counts[size]!;
      for (let sum = top; sum >= rank; sum--) to[sum]! += from[sum - rank]!;
    }
  });
  const all = counts[m]!.reduce((total, count) => total + count, 0);
  return Array.from(counts[m]!, (count) => count / all);
}

function exactP(ranks: readonly number[], m: number, rankSum: number): number {
  const at = Math.round(2 * rankSum);
  let below = 0;
  let above = 0;
  subsetShares(
    ranks.map((rank) => Math.round(2 * rank)),
    m,
  ).forEach((share, sum) => {
    if (sum <= at) below += share;
    if (sum >= at) above += share;
  });
  return Math.min(1, 2 * Math.min(below, above));
}

function normalP(n: number, m: number, ties: readonly number[], statistic: number): number {
  const z = statistic - (n * m) / 2;
  const all = n + m;
  const tied = ties.reduce((total, t) => total + t * t * t - t, 0);
  const variance = ((n * m) / 12) * (all + 1 - tied / (all * (all - 1)));
  if (variance === 0) return 1;
  return Math.min(1, 2 * normalCdf(-Math.max(0, Math.abs(z) - 0.5) / Math.sqrt(variance)));
}

function exactCut(n: number, m: number, alpha: number): number {
  const least = (m * (m + 1)) / 2;
  const shares = subsetShares(
    Array.from({ length: n + m }, (_, i) => i + 1),
    m,
  ).slice(least);
  let total = 0;
  let k = 0;
  while (k < shares.length && total + shares[k]! <= alpha / 2) total += shares[k++]!;
  return k;
}

function normalCut(n: number, m: number, alpha: number): number {
  const spread = Math.sqrt((n * m * (n + m + 1)) / 12);
  return Math.max(0, Math.floor((n * m) / 2 - normalQuantile(1 - alpha / 2) * spread));
}

/** Mann-Whitney test of measured values of two lists. */
export const mannWhitney = liftSamples(
  mannWhitneyKernel,
  {
    statistic: "statistic",
    superiority: "statistic",
    pValue: "statistic",
    shift: "same",
    lower: "same",
    upper: "same",
    exact: "flag",
  },
  { name: "Mann-Whitney test" },
);
