import {
  bootstrapIntervalKernel,
  distributionFreeSizeKernel,
  heldShareKernel,
  meanIntervalKernel,
  noncentralTCdf,
  oneSidedToleranceFactorKernel,
  predictionFactorKernel,
  predictionIntervalKernel,
  proportionIntervalKernel,
  quantileIntervalKernel,
  sdIntervalKernel,
  toleranceFactorKernel,
  toleranceIntervalKernel,
} from "../../../src/statistics/index.js";
import type { Check, Stored } from "./check.js";
import { computed, entryOf, published } from "./check.js";

const meanOf = (values: readonly number[]): number => values.reduce((total, v) => total + v, 0) / values.length;
const medianOf = (values: readonly number[]): number => {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
};

function factors(
  prefix: string,
  factor: (n: number, options: { coverage: number; confidence: number }) => number,
): (input: Stored) => Record<string, unknown> {
  return ({ n }) =>
    Object.fromEntries(
      ["0.90", "0.95", "0.99"].flatMap((confidence) =>
        ["0.90", "0.95", "0.99"].map((coverage) => [
          `${prefix}_conf${confidence}_cov${coverage}`,
          n.map((size: number) => factor(size, { coverage: Number(coverage), confidence: Number(confidence) })),
        ]),
      ),
    );
}

/** Ends of a 95 % interval of the gear diameters' sd, from the chi-squared points that the page prints. */
function gearSd(): Record<string, unknown> {
  const groups: number[][] = entryOf("nist-handbook-examples", "hb-gear-bartlett").input.groups;
  const { sd, lower, upper } = sdIntervalKernel(groups.flat());
  return { s: sd, critUpper05: (99 * sd * sd) / lower ** 2, critLower05: (99 * sd * sd) / upper ** 2 };
}

export const boundChecks: readonly Check[] = [
  published("meanIntervalKernel", "nist-handbook-examples", "hb-zarr13-ci", ({ data }) => {
    const { mean, lower, upper } = meanIntervalKernel(data);
    return { mean, ciLower: lower, ciUpper: upper };
  }),
  computed("meanIntervalKernel", "r", "meanInterval", ({ x, level }) => {
    const { mean, lower, upper } = meanIntervalKernel(x, { level });
    return { mean, lower, upper };
  }),
  published("sdIntervalKernel", "nist-handbook-examples", "hb-gear-chisq-variance", gearSd),
  computed("sdIntervalKernel", "r", "sdInterval", ({ x, level }) => {
    const { sd, lower, upper } = sdIntervalKernel(x, { level });
    return { sd, lower, upper };
  }),
  computed("quantileIntervalKernel", "r", "quantileInterval", ({ x }) => {
    const { estimate, lower, upper, attainedLevel } = quantileIntervalKernel(x);
    return { estimate, lower, upper, attainedLevel };
  }),
  published("proportionIntervalKernel", "nist-handbook-examples", "hb-proportion-4of20", ({ x, n }) => {
    const at = (level: number, method: "wilson" | "exact") => proportionIntervalKernel(x, n, { level, method });
    return {
      exact90Lower: at(0.9, "exact").lower,
      exact90Upper: at(0.9, "exact").upper,
      exact95Lower: at(0.95, "exact").lower,
      exact95Upper: at(0.95, "exact").upper,
      wilson90Lower: at(0.9, "wilson").lower,
      wilson90Upper: at(0.9, "wilson").upper,
      wilson95Lower: at(0.95, "wilson").lower,
      wilson95Upper: at(0.95, "wilson").upper,
    };
  }),
  published("proportionIntervalKernel", "nonparametric-and-tests", "binomial-exact", ({ x, n }) => {
    const { lower, upper } = proportionIntervalKernel(x, n, { method: "exact" });
    return { lower, upper };
  }),
  computed("proportionIntervalKernel", "r", "proportionInterval", ({ successes, n }) => {
    const all = (method: "wilson" | "exact", end: "lower" | "upper") =>
      successes.map((k: number) => proportionIntervalKernel(k, n, { method })[end]);
    return {
      wilsonLower: all("wilson", "lower"),
      wilsonUpper: all("wilson", "upper"),
      exactLower: all("exact", "lower"),
      exactUpper: all("exact", "upper"),
    };
  }),
  computed("proportionIntervalKernel", "scipy", "proportion", ({ successes, n, level }) => {
    const wilson = proportionIntervalKernel(successes, n, { level });
    const exact = proportionIntervalKernel(successes, n, { level, method: "exact" });
    return { wilson: [wilson.lower, wilson.upper], exact: [exact.lower, exact.upper] };
  }),
  published("toleranceFactorKernel", "tolerance-factors", "k2-two-sided-exact", factors("k2", toleranceFactorKernel)),
  computed(
    "toleranceFactorKernel",
    "r",
    "toleranceFactor",
    ({ n, coverage, confidence }) => ({
      factor: n.map((size: number) => toleranceFactorKernel(size, { coverage, confidence })),
    }),
    { rel: 1e-7 },
  ),
  published(
    "oneSidedToleranceFactorKernel",
    "tolerance-factors",
    "k1-one-sided",
    factors("k1", oneSidedToleranceFactorKernel),
  ),
  published("oneSidedToleranceFactorKernel", "nist-handbook-examples", "hb-tolerance-wafers", (input) => ({
    k1Exact: oneSidedToleranceFactorKernel(input.n, input),
    k1ExactSmall: oneSidedToleranceFactorKernel(input.nSmall, input),
  })),
  computed(
    "oneSidedToleranceFactorKernel",
    "r",
    "oneSidedToleranceFactor",
    ({ n, coverage, confidence }) => ({
      factor: n.map((size: number) => oneSidedToleranceFactorKernel(size, { coverage, confidence })),
    }),
    { rel: 1e-7 },
  ),
  published("noncentralTCdf", "critical-value-tables", "noncentral-t", ({ cases }) => ({
    cdfAt3: cases.slice(0, 3).map(([dof, shift]: [number, number]) => noncentralTCdf(3, dof, shift)),
  })),
  computed("noncentralTCdf", "scipy", "noncentralT", ({ t, dof, shift }) => ({
    cdf: t.map((at: number, i: number) => noncentralTCdf(at, dof[i], shift[i])),
  })),
  published("toleranceIntervalKernel", "tolerance-factors", "k2-two-sided-exact", ({ n }) => ({
    "k2_conf0.95_cov0.95": n.map(
      (size: number) => toleranceIntervalKernel(Array.from({ length: size }, (_, i) => i)).factor,
    ),
  })),
  computed(
    "toleranceIntervalKernel",
    "r",
    "toleranceInterval",
    ({ x, coverage, confidence }) => {
      const { lower, upper } = toleranceIntervalKernel(x, { coverage, confidence });
      return { lower, upper };
    },
    { rel: 1e-7 },
  ),
  published("distributionFreeSizeKernel", "tolerance-factors", "nonparametric-tolerance-n", ({ p, confidence }) =>
    Object.fromEntries(
      confidence.map((level: number) => [
        `n_conf${level.toFixed(2)}`,
        p.map((coverage: number) => distributionFreeSizeKernel({ coverage, confidence: level })),
      ]),
    ),
  ),
  computed("distributionFreeSizeKernel", "r", "distributionFreeSize", ({ coverage, confidence }) => ({
    n: coverage.map((share: number, i: number) =>
      distributionFreeSizeKernel({ coverage: share, confidence: confidence[i] }),
    ),
  })),
  // The tabled size is the first whose range holds the share with the confidence.
  published("heldShareKernel", "tolerance-factors", "nonparametric-tolerance-n", ({ p }) => ({
    "n_conf0.95": p.map((share: number) => {
      let n = 2;
      while (heldShareKernel(Array.from({ length: n }, (_, i) => i)).share < share) n++;
      return n;
    }),
  })),
  computed("heldShareKernel", "r", "heldShare", ({ x, confidence }) => {
    const { lower, upper, share } = heldShareKernel(x, { confidence });
    return { lower, upper, share };
  }),
  computed(
    "predictionFactorKernel",
    "r",
    "predictionFactor",
    ({ n, further, level }) => ({
      factor: n.map((size: number, i: number) => predictionFactorKernel(size, { further: further[i], level })),
    }),
    { rel: 1e-6 },
  ),
  computed("predictionIntervalKernel", "r", "predictionInterval", ({ x }) => {
    const { lower, upper, factor } = predictionIntervalKernel(x);
    return { lower, upper, factor };
  }),
  // Ideal (infinite) resampling is printed; 20,000 seeded resamples come within the Monte Carlo error of 1.5 %.
  bootstrapMouse(),
  computed(
    "bootstrapIntervalKernel",
    "r",
    "bootstrapInterval",
    ({ x }) => {
      const percentile = bootstrapIntervalKernel(x, { statistic: meanOf, method: "percentile", draws: 20_000 });
      const bca = bootstrapIntervalKernel(x, { statistic: meanOf, draws: 20_000 });
      return {
        percentile: [percentile.lower, percentile.upper],
        bca: [bca.lower, bca.upper],
        standardError: bca.standardError,
      };
    },
    { rel: 0.015 },
  ),
  computed(
    "bootstrapIntervalKernel",
    "scipy",
    "bootstrapInterval",
    ({ x }) => {
      const bca = bootstrapIntervalKernel(x, { statistic: meanOf, draws: 20_000, seed: 2 });
      return { bcaMean: [bca.lower, bca.upper], standardErrorMean: bca.standardError };
    },
    { rel: 0.015 },
  ),
];

function bootstrapMouse(): Check {
  const check = published(
    "bootstrapIntervalKernel",
    "robust-quantiles-bootstrap",
    "bootstrap-mouse",
    ({ treatment }) => ({
      seMeanTreatmentBootstrap: bootstrapIntervalKernel(treatment, { statistic: meanOf, draws: 20_000 }).standardError,
      seMedianTreatmentBootstrap: bootstrapIntervalKernel(treatment, { statistic: medianOf, draws: 20_000 })
        .standardError,
    }),
  );
  return {
    ...check,
    compare: () => check.compare().map((item) => ({ ...item, tolerance: Math.max(item.tolerance, 0.015 * item.want) })),
  };
}
