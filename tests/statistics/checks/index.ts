import { agreementChecks } from "./agreement.js";
import { boundChecks } from "./bound.js";
import type { Check } from "./check.js";
import { describeChecks } from "./describe.js";
import { distributionChecks } from "./distributions.js";
import { outlierChecks } from "./outliers.js";
import { testChecks } from "./tests.js";
import { timeChecks } from "./time.js";
import { varianceChecks } from "./variance.js";

/** Every comparison of a procedure with a published value or with another program. */
export const checks: readonly Check[] = [
  ...describeChecks,
  ...boundChecks,
  ...outlierChecks,
  ...varianceChecks,
  ...agreementChecks,
  ...testChecks,
  ...timeChecks,
  ...distributionChecks,
];

/** Kernels for which no source at hand prints a value, and the independent computation that stands in for one. */
export const withoutPublished: Readonly<Record<string, string>> = {
  quantileIntervalKernel: "ranks from binomial probabilities in R, by trying every rank",
  predictionFactorKernel: "double integration in R",
  predictionIntervalKernel: "Student's formula in R",
  modifiedLargeSampleKernel: "the formulas programmed a second time in R, and coverage by simulation",
  meanUncertaintyKernel: "the formula programmed a second time in R",
  cheapestPlanKernel: "search over the whole grid in R",
  kolmogorovSmirnovKernel: "ks.test of R, exact, with ties and in the limit",
  subgroupChartKernel: "the formulas programmed a second time in R",
  cusumKernel: "the recursion programmed a second time in R",
  runRulesKernel: "the rules programmed a second time in R",
  ecdfKernel: "ecdf of R",
  histogramKernel: "hist of R with the same breaks",
  kernelDensityKernel: "sum of dnorm with bw.nrd0 of R",
  pollingMixtureKernel: "maximum likelihood by optim of R",
};
