import { liftPaired } from "../lift/lift-paired.js";
import { Undetermined, checkChoice, checkOptions, checkPairs, checkProbability } from "../numeric/guards.js";
import { normalCdf, normalQuantile } from "../numeric/distributions.js";
import { midranks } from "../numeric/ranks.js";
import { medianOfSorted } from "../numeric/sums.js";
import { walshAverages } from "../describe/robust.js";

export interface RankOptions {
  /** Level of the interval, at least reached where it is exact; default 0.95. */
  readonly level?: number;
  /** "exact", "normal" (with corrections for ties and continuity), or "auto" (default): exact up to 50 values. */
  readonly method?: "auto" | "exact" | "normal";
}

export interface SignedRank {
  /** Sum of the ranks of the positive differences (second less first). */
  readonly statistic: number;
  /** Two-sided. */
  readonly pValue: number;
  /** Hodges-Lehmann location of the differences. */
  readonly shift: number;
  /** Null where the sample is too small for the level. */
  readonly lower: number | null;
  readonly upper: number | null;
  readonly exact: boolean;
  /** Differences that are not 0. */
  readonly n: number;
}

/**
 * Wilcoxon signed-rank test of second less first: differences of 0 left out, tied sizes get midranks. The exact p-value is that
 * of all signs of the ranks seen, ties included; the shift is the Hodges-Lehmann estimate with its rank interval.
 * @param xs first values, at least one pair that differs
 * @param ys second values, paired with them
 * @param options level: default 0.95; method: default "auto"
 * @throws Undetermined where no pair differs; RangeError on lengths that differ
 * Source: Hollander and Wolfe, Nonparametric Statistical Methods (1973), 3.1 to 3.3; Pratt and Gibbons 1981 (ties).
 */
export function signedRankKernel(xs: readonly number[], ys: readonly number[], options: RankOptions = {}): SignedRank {
  checkOptions(options, ["level", "method"], "signedRank");
  const { level = 0.95, method = "auto" } = options;
  checkProbability(level, "level");
  checkChoice(method, ["auto", "exact", "normal"], "method");
  checkPairs(xs, ys, 1, "the signed-rank test");
  const rounded = decimalDifferences(xs, ys);
  const differences = rounded.filter((d) => d !== 0);
  const n = differences.length;
  if (n === 0) throw new Undetermined("the signed-rank test needs a pair that differs");
  const { ranks, ties } = midranks(differences.map(Math.abs));
  const statistic = ranks.reduce((total, rank, i) => total + (differences[i]! > 0 ? rank : 0), 0);
  const exact = method === "exact" || (method === "auto" && n <= 50);
  const averages = walshAverages(ys.map((y, i) => y - xs[i]!).filter((_, i) => rounded[i] !== 0));
  const alpha = 1 - level;
  const cut = n <= 50 ? exactCut(n, alpha) : normalCut(n, alpha);
  return {
    statistic,
    pValue: exact ? exactP(ranks, statistic) : normalP(n, ties, statistic),
    shift: medianOfSorted(averages),
    lower: cut < 1 ? null : averages[cut - 1]!,
    upper: cut < 1 ? null : averages[averages.length - cut]!,
    exact,
    n,
  };
}

/**
 * Second less first, rounded to 1e-12 of the largest value: differences of decimal readings carry rounding, which would otherwise
 * break ties and keep differences of 0.
 */
function decimalDifferences(xs: readonly number[], ys: readonly number[]): readonly number[] {
  const grain = 1e-12 * Math.max(...xs.map(Math.abs), ...ys.map(Math.abs));
  return ys.map((y, i) => (grain === 0 ? 0 : Math.round((y - xs[i]!) / grain) * grain));
}

/** Shares of the sums of a random subset of doubled ranks. */
function signShares(doubled: readonly number[]): readonly number[] {
  let shares = [1];
  for (const rank of doubled) {
    const next = new Array<number>(shares.length + rank).fill(0);
    shares.forEach((share, sum) => {
      next[sum]! += share / 2;
      next[sum + rank]! += share / 2;
    });
    shares = next;
  }
  return shares;
}

function exactP(ranks: readonly number[], statistic: number): number {
  const shares = signShares(ranks.map((rank) => Math.round(2 * rank)));
  const at = Math.round(2 * statistic);
  let below = 0;
  let above = 0;
  shares.forEach((share, sum) => {
    if (sum <= at) below += share;
    if (sum >= at) above += share;
  });
  return Math.min(1, 2 * Math.min(below, above));
}

function normalP(n: number, ties: readonly number[], statistic: number): number {
  const z = statistic - (n * (n + 1)) / 4;
  const variance = (n * (n + 1) * (2 * n + 1)) / 24 - ties.reduce((total, t) => total + t * t * t - t, 0) / 48;
  return Math.min(1, 2 * normalCdf(-Math.max(0, Math.abs(z) - 0.5) / Math.sqrt(variance)));
}

/** Rank from 1 of the Walsh average at the end of the interval: the largest k with P(V < k) ≤ alpha/2; 0 for none. */
function exactCut(n: number, alpha: number): number {
  const shares = signShares(Array.from({ length: n }, (_, i) => i + 1));
  let total = 0;
  let k = 0;
  while (k < shares.length && total + shares[k]! <= alpha / 2) total += shares[k++]!;
  return k;
}

function normalCut(n: number, alpha: number): number {
  const spread = Math.sqrt((n * (n + 1) * (2 * n + 1)) / 24);
  return Math.max(0, Math.floor((n * (n + 1)) / 4 - normalQuantile(1 - alpha / 2) * spread));
}

/** Signed-rank test of two measured values of each item. */
export const signedRank = liftPaired(
  signedRankKernel,
  {
    statistic: "statistic",
    pValue: "statistic",
    shift: "same",
    lower: "same",
    upper: "same",
    exact: "flag",
    n: "count",
  },
  { name: "signed-rank test" },
);
