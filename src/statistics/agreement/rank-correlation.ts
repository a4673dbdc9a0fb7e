import { liftPaired } from "../lift/lift-paired.js";
import { Undetermined, checkOptions, checkPairs } from "../numeric/guards.js";
import { normalCdf, tTwoSided } from "../numeric/distributions.js";
import { midranks } from "../numeric/ranks.js";
import { crossDeviations, squaredDeviations } from "../numeric/sums.js";

export interface RankCorrelation {
  readonly value: number;
  /** Two-sided. */
  readonly pValue: number;
  readonly exact: boolean;
  readonly n: number;
}

/**
 * Kendall's tau-b: (concordant - discordant)/√((pairs untied in x)(pairs untied in y)). The p-value is exact up to 50 pairs without
 * ties, otherwise normal with the variance corrected for ties.
 * @param xs at least three finite numbers
 * @param ys paired with them
 * @throws Undetermined on fewer than three pairs, and where all of x or all of y are equal
 * Source: Kendall, Rank Correlation Methods (4th ed. 1970), 3.4, 4.4 and 5.2.
 */
export function kendallKernel(xs: readonly number[], ys: readonly number[], options: object = {}): RankCorrelation {
  checkOptions(options, [], "kendall");
  checkPairs(xs, ys, 3, "Kendall's tau");
  const n = xs.length;
  let score = 0;
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) score += Math.sign(xs[i]! - xs[j]!) * Math.sign(ys[i]! - ys[j]!);
  }
  const tx = midranks(xs).ties;
  const ty = midranks(ys).ties;
  const pairs = (n * (n - 1)) / 2;
  const tied = (ties: readonly number[]): number => ties.reduce((total, t) => total + (t * (t - 1)) / 2, 0);
  const free = (pairs - tied(tx)) * (pairs - tied(ty));
  if (free === 0) throw new Undetermined("Kendall's tau has no meaning where all of one variable are equal");
  const value = score / Math.sqrt(free);
  if (tx.length === 0 && ty.length === 0 && n <= 50) return { value, pValue: exactKendall(score, n), exact: true, n };
  const over = (ties: readonly number[], f: (t: number) => number): number =>
    ties.reduce((total, t) => total + f(t), 0);
  const first = (t: number): number => t * (t - 1) * (2 * t + 5);
  const second = (t: number): number => t * (t - 1) * (t - 2);
  const third = (t: number): number => t * (t - 1);
  const variance =
    (n * (n - 1) * (2 * n + 5) - over(tx, first) - over(ty, first)) / 18 +
    (over(tx, second) * over(ty, second)) / (9 * n * (n - 1) * (n - 2)) +
    (over(tx, third) * over(ty, third)) / (2 * n * (n - 1));
  return { value, pValue: Math.min(1, 2 * normalCdf(-Math.abs(score) / Math.sqrt(variance))), exact: false, n };
}

/** Two-sided p-value from the distribution of the number of discordant pairs of a random order. */
function exactKendall(score: number, n: number): number {
  const pairs = (n * (n - 1)) / 2;
  let shares = [1];
  for (let size = 2; size <= n; size++) {
    const next = new Array<number>((size * (size - 1)) / 2 + 1).fill(0);
    shares.forEach((share, inversions) => {
      for (let more = 0; more < size; more++) next[inversions + more]! += share / size;
    });
    shares = next;
  }
  const discordant = (pairs - Math.abs(score)) / 2;
  let tail = 0;
  for (let i = 0; i <= discordant; i++) tail += shares[i]!;
  return Math.min(1, 2 * tail);
}

/**
 * Spearman's rank correlation: Pearson's correlation of midranks. The p-value is exact up to 9 pairs (all orders, ties kept),
 * otherwise from t = r √((n - 2)/(1 - r²)).
 * @param xs at least three finite numbers
 * @param ys paired with them
 * @throws Undetermined on fewer than three pairs, and where all of x or all of y are equal
 * Source: Kendall, Rank Correlation Methods (4th ed. 1970), 1.14 and 4.12.
 */
export function spearmanKernel(xs: readonly number[], ys: readonly number[], options: object = {}): RankCorrelation {
  checkOptions(options, [], "spearman");
  checkPairs(xs, ys, 3, "Spearman's correlation");
  const n = xs.length;
  const rx = midranks(xs).ranks;
  const ry = midranks(ys).ranks;
  const scale = Math.sqrt(squaredDeviations(rx) * squaredDeviations(ry));
  if (scale === 0) throw new Undetermined("Spearman's correlation has no meaning where all of one variable are equal");
  const value = Math.max(-1, Math.min(1, crossDeviations(rx, ry) / scale));
  if (n <= 9) return { value, pValue: exactSpearman(rx, ry), exact: true, n };
  const t = Math.abs(value) === 1 ? Infinity : value * Math.sqrt((n - 2) / (1 - value * value));
  return { value, pValue: t === Infinity ? 0 : tTwoSided(t, n - 2), exact: false, n };
}

function exactSpearman(rx: readonly number[], ry: readonly number[]): number {
  const n = rx.length;
  const centre = (n + 1) / 2;
  const dx = rx.map((r) => r - centre);
  const dy = ry.map((r) => r - centre);
  const seen = Math.abs(dx.reduce((total, d, i) => total + d * dy[i]!, 0)) - 1e-9;
  let all = 0;
  let extreme = 0;
  const taken = new Array<boolean>(n).fill(false);
  const place = (at: number, total: number): void => {
    if (at === n) {
      all++;
      if (Math.abs(total) >= seen) extreme++;
      return;
    }
    for (let j = 0; j < n; j++) {
      if (taken[j]) continue;
      taken[j] = true;
      place(at + 1, total + dx[at]! * dy[j]!);
      taken[j] = false;
    }
  };
  place(0, 0);
  return extreme / all;
}

const shape = { value: "statistic", pValue: "statistic", exact: "flag", n: "count" } as const;

/** Kendall's tau-b of two measured values of each item. */
export const kendall = liftPaired(kendallKernel, shape, { name: "Kendall's tau-b" });
/** Spearman's correlation of two measured values of each item. */
export const spearman = liftPaired(spearmanKernel, shape, { name: "Spearman's correlation" });
