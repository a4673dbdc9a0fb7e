import {
  benjaminiHochbergKernel,
  equivalenceKernel,
  equivalenceOfKernel,
  holmKernel,
  kolmogorovSmirnovKernel,
  mannWhitneyKernel,
  pairedTKernel,
  signedRankKernel,
  twoSampleTKernel,
} from "../../../src/statistics/index.js";
import type { Check, Stored } from "./check.js";
import { computed, entryOf, published } from "./check.js";

const sleep = (): Stored => entryOf("nonparametric-and-tests", "sleep-t").input;
const zeros = (values: readonly number[]): number[] => values.map(() => 0);

export const testChecks: readonly Check[] = [
  published("pairedTKernel", "nonparametric-and-tests", "sleep-t", ({ x, y }) => {
    const { t, pValue, lower, upper } = pairedTKernel(y, x);
    return { tPaired: t, pPaired: pValue, ciPaired: [lower, upper] };
  }),
  computed("pairedTKernel", "r", "pairedT", ({ x, y }) => {
    const { difference, lower, upper, t, pValue } = pairedTKernel(x, y);
    return { difference, lower, upper, t, pValue };
  }),
  published("twoSampleTKernel", "nonparametric-and-tests", "sleep-t", ({ x, y }) => {
    const { t, dof, pValue, lower, upper } = twoSampleTKernel(y, x);
    const pooled = twoSampleTKernel(y, x, { equalVariances: true });
    return { tWelch: t, dfWelch: dof, pWelch: pValue, ciWelch: [lower, upper], pPooled: pooled.pValue };
  }),
  published("twoSampleTKernel", "nist-handbook-examples", "hb-auto83b-t", ({ x, y }) => ({
    t: twoSampleTKernel(y, x, { equalVariances: true }).t,
    df: twoSampleTKernel(y, x, { equalVariances: true }).dof,
  })),
  computed("twoSampleTKernel", "r", "twoSampleT", ({ x, y }) => {
    const { lower, t, dof, pValue } = twoSampleTKernel(x, y);
    const pooled = twoSampleTKernel(x, y, { equalVariances: true });
    return { lower, t, dof, pValue, pooledT: pooled.t, pooledP: pooled.pValue };
  }),
  published("equivalenceKernel", "nonparametric-and-tests", "sleep-wilcoxon-tost", ({ margin }) => {
    const found = equivalenceKernel(sleep().y, sleep().x, { margin });
    return {
      meanDifference: found.difference,
      pLower: found.pLower,
      pUpper: found.pUpper,
      ci90: [found.lower, found.upper],
      equivalent: found.equivalent,
    };
  }),
  computed("equivalenceKernel", "r", "equivalence", ({ x, y, margin }) => {
    const { pLower, pUpper, lower, upper } = equivalenceKernel(x, y, { margin });
    return { pLower, pUpper, ci: [lower, upper] };
  }),
  published(
    "equivalenceOfKernel",
    "nonparametric-and-tests",
    "tost-one-sample-summary",
    ({ mean, sd, n, mu, marginInSd }) => {
      const found = equivalenceOfKernel(mean - mu, sd / Math.sqrt(n), n - 1, { margin: marginInSd * sd });
      return {
        pLower: found.pLower,
        pUpper: found.pUpper,
        ci90: [found.lower, found.upper],
        equivalent: found.equivalent,
      };
    },
  ),
  computed("equivalenceOfKernel", "r", "equivalence", ({ x, y, margin }) => {
    const { difference, standardError, dof } = pairedTKernel(x, y);
    const { pLower, pUpper, lower, upper } = equivalenceOfKernel(difference, standardError, dof, { margin });
    return { pLower, pUpper, ci: [lower, upper] };
  }),
  published("signedRankKernel", "nonparametric-and-tests", "wilcoxon-depression", ({ x, y }) => {
    const { statistic, pValue, shift, lower, upper } = signedRankKernel(y, x);
    return { V: statistic, pTwoSided: pValue, hodgesLehmannPseudomedian: shift, ci95: [lower, upper] };
  }),
  published("signedRankKernel", "nonparametric-and-tests", "sleep-wilcoxon-tost", () => ({
    V: signedRankKernel(sleep().y, sleep().x).statistic,
    pExact: signedRankKernel(sleep().y, sleep().x).pValue,
    pNormalCorrected: signedRankKernel(sleep().y, sleep().x, { method: "normal" }).pValue,
  })),
  computed("signedRankKernel", "r", "signedRank", ({ x, y, tiedDifferences, xl, yl }) => {
    const { statistic, pValue, shift, lower, upper } = signedRankKernel(x, y);
    return {
      statistic,
      pValue,
      shift,
      lower,
      upper,
      pTiedNormal: signedRankKernel(zeros(tiedDifferences), tiedDifferences, { method: "normal" }).pValue,
      pLarge: signedRankKernel(xl, yl).pValue,
    };
  }),
  computed("signedRankKernel", "scipy", "signedRankTied", ({ d }) => ({
    statistic: signedRankKernel(zeros(d), d).statistic,
    pValue: signedRankKernel(zeros(d), d).pValue,
  })),
  published("mannWhitneyKernel", "nonparametric-and-tests", "mann-whitney-permeability", ({ x, y }) => {
    const { statistic, pValue, shift, lower, upper } = mannWhitneyKernel(y, x);
    return { W: statistic, pTwoSided: pValue, hodgesLehmannShift: shift, ci95: [lower, upper] };
  }),
  computed("mannWhitneyKernel", "r", "mannWhitney", ({ x, y }) => {
    const { statistic, pValue, shift, lower, upper } = mannWhitneyKernel(x, y);
    const tied = mannWhitneyKernel(x.map(halfEven), y.map(halfEven), { method: "normal" });
    return { statistic, pValue, shift, lower, upper, statisticTied: tied.statistic, pTiedNormal: tied.pValue };
  }),
  computed("mannWhitneyKernel", "scipy", "mannWhitneyTied", ({ x, y }) => ({
    statistic: mannWhitneyKernel(x, y).statistic,
    pValue: mannWhitneyKernel(x, y).pValue,
  })),
  computed("kolmogorovSmirnovKernel", "r", "kolmogorovSmirnov", ({ x, y, xl, yl }) => {
    const { statistic, pValue } = kolmogorovSmirnovKernel(x, y);
    const tied = kolmogorovSmirnovKernel(x.map(halfEven), y.map(halfEven));
    const large = kolmogorovSmirnovKernel(xl, yl);
    return {
      statistic,
      pValue,
      statisticTied: tied.statistic,
      pTied: tied.pValue,
      statisticLarge: large.statistic,
      pLarge: large.pValue,
    };
  }),
  published("holmKernel", "nonparametric-and-tests", "benjamini-hochberg-1995", ({ p, alpha }) => ({
    adjustedholm: holmKernel(p),
    rejectedHolm: holmKernel(p).filter((value) => value <= alpha).length,
  })),
  computed("holmKernel", "r", "holm", ({ p }) => ({ adjusted: holmKernel(p) })),
  published("benjaminiHochbergKernel", "nonparametric-and-tests", "benjamini-hochberg-1995", ({ p, alpha }) => ({
    adjustedBH: benjaminiHochbergKernel(p),
    rejectedBH: benjaminiHochbergKernel(p).filter((value) => value <= alpha).length,
  })),
  computed("benjaminiHochbergKernel", "r", "benjaminiHochberg", ({ p }) => ({ adjusted: benjaminiHochbergKernel(p) })),
];

/** Rounds halves to even, as R does. */
function halfEven(value: number): number {
  const low = Math.floor(value);
  if (value - low !== 0.5) return Math.round(value);
  return low % 2 === 0 ? low : low + 1;
}
