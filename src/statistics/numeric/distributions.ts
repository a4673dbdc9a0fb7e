import betaQuantileOf from "@stdlib/stats-base-dists-beta-quantile";
import betaCdfOf from "@stdlib/stats-base-dists-beta-cdf";
import binomialCdfOf from "@stdlib/stats-base-dists-binomial-cdf";
import chisquareCdf from "@stdlib/stats-base-dists-chisquare-cdf";
import chisquareQuantile from "@stdlib/stats-base-dists-chisquare-quantile";
import fCdfOf from "@stdlib/stats-base-dists-f-cdf";
import fQuantileOf from "@stdlib/stats-base-dists-f-quantile";
import normalCdfOf from "@stdlib/stats-base-dists-normal-cdf";
import normalQuantileOf from "@stdlib/stats-base-dists-normal-quantile";
import tCdfOf from "@stdlib/stats-base-dists-t-cdf";
import tQuantileOf from "@stdlib/stats-base-dists-t-quantile";

/** P(Z <= z) of the standard normal distribution. */
export const normalCdf = (z: number): number => normalCdfOf(z, 0, 1);
/** The z with P(Z <= z) = p. */
export const normalQuantile = (p: number): number => normalQuantileOf(p, 0, 1);
/** Density of the standard normal distribution. */
export const normalDensity = (z: number): number => Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);
/** P(T <= t) of Student's distribution; normal for infinite degrees of freedom. */
export const tCdf = (t: number, dof: number): number => (dof === Infinity ? normalCdf(t) : tCdfOf(t, dof));
/** The t with P(T <= t) = p; normal for infinite degrees of freedom. */
export const tQuantile = (p: number, dof: number): number =>
  dof === Infinity ? normalQuantile(p) : tQuantileOf(p, dof);
/** Two-sided probability of a t at least as far from 0. */
export const tTwoSided = (t: number, dof: number): number => Math.min(1, 2 * tCdf(-Math.abs(t), dof));
/** P(X <= x) of the chi-squared distribution. */
export const chiSquaredCdf = (x: number, dof: number): number => chisquareCdf(x, dof);
/** The x with P(X <= x) = p of the chi-squared distribution. */
export const chiSquaredQuantile = (p: number, dof: number): number => chisquareQuantile(p, dof);
/** P(F <= f), from the smaller tail. */
export const fCdf = (f: number, dof1: number, dof2: number): number => (f <= 0 ? 0 : fCdfOf(f, dof1, dof2));
/** P(F > f), computed as the lower tail of 1/F so that small values keep their digits. */
export function fUpper(f: number, dof1: number, dof2: number): number {
  if (f <= 0) return 1;
  if (f === Infinity) return 0;
  return dof2 === Infinity ? 1 - chiSquaredCdf(f * dof1, dof1) : fCdfOf(1 / f, dof2, dof1);
}
/** The f with P(F <= f) = p; either degrees of freedom may be infinite. */
export function fQuantile(p: number, dof1: number, dof2: number): number {
  if (dof2 === Infinity) return dof1 === Infinity ? 1 : chiSquaredQuantile(p, dof1) / dof1;
  if (dof1 === Infinity) return dof2 / chiSquaredQuantile(1 - p, dof2);
  return fQuantileOf(p, dof1, dof2);
}
/** P(B <= x) of the beta distribution. */
export const betaCdf = (x: number, a: number, b: number): number => betaCdfOf(x, a, b);
/** The x with P(B <= x) = p of the beta distribution. */
export const betaQuantile = (p: number, a: number, b: number): number => betaQuantileOf(p, a, b);
/** P(X <= k) of n trials with probability p. */
export const binomialCdf = (k: number, n: number, p: number): number => (k < 0 ? 0 : binomialCdfOf(k, n, p));
