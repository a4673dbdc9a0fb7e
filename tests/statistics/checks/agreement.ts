import {
  blandAltmanKernel,
  concordanceKernel,
  demingKernel,
  enScoreKernel,
  functionalRelationKernel,
  kendallKernel,
  passingBablokKernel,
  ratioAgreementKernel,
  replicateAgreementKernel,
  spearmanKernel,
  zetaScoreKernel,
} from "../../../src/statistics/index.js";
import type { Check, Stored } from "./check.js";
import { computed, entryOf, published } from "./check.js";

const pressure = (): Stored => entryOf("bland-altman", "ba1999-sbp-first").input;
const column = (rows: number[][], i: number): number[] => rows.map((row) => row[i]!);
const mini = (): Stored => entryOf("bland-altman", "ba1986-pefr").input;

export const agreementChecks: readonly Check[] = [
  published("blandAltmanKernel", "bland-altman", "ba1986-pefr", ({ wright1, mini1 }) => {
    const found = blandAltmanKernel(mini1, wright1);
    return {
      bias: found.bias.value,
      sd: found.sd,
      biasCiLower: found.bias.lower,
      biasCiUpper: found.bias.upper,
      biasExact: found.bias.value,
      sdExact: found.sd,
      lower196: found.lowerLimit.value,
      upper196: found.upperLimit.value,
    };
  }),
  published("blandAltmanKernel", "bland-altman", "ba1999-sbp-first", ({ J, S }) => {
    const found = blandAltmanKernel(column(S, 0), column(J, 0));
    return {
      bias: found.bias.value,
      sd: found.sd,
      lower: found.lowerLimit.value,
      upper: found.upperLimit.value,
      biasCi: [found.bias.lower, found.bias.upper],
      lowerLimitCi: [found.lowerLimit.lower, found.lowerLimit.upper],
      upperLimitCi: [found.upperLimit.lower, found.upperLimit.upper],
    };
  }),
  computed("blandAltmanKernel", "r", "blandAltman", ({ x, y }) => {
    const { bias, sd, lowerLimit, proportional } = blandAltmanKernel(x, y);
    return {
      bias: [bias.value, bias.lower, bias.upper],
      sd,
      lower: [lowerLimit.value, lowerLimit.lower, lowerLimit.upper],
      slope: proportional!.slope,
      pSlope: proportional!.pValue,
    };
  }),
  published("replicateAgreementKernel", "bland-altman", "ba1999-sbp-replicates", () => {
    const { J, S } = pressure();
    const found = replicateAgreementKernel(S, J);
    return {
      withinVarianceJ: found.withinSecond,
      withinVarianceS: found.withinFirst,
      bias: found.bias.value,
      sdCorrected: found.sd,
      lower: found.lowerLimit.value,
      upper: found.upperLimit.value,
      sdOfMeanDifferences: found.sdOfMeanDifferences,
    };
  }),
  computed("replicateAgreementKernel", "r", "replicateAgreement", ({ first, second }) => {
    const lists = (groups: unknown[]): number[][] => groups.map((group) => [group].flat() as number[]);
    const { bias, sd, lowerLimit, upperLimit } = replicateAgreementKernel(lists(first), lists(second));
    return {
      bias: bias.value,
      sd,
      lower: lowerLimit.value,
      interval: [upperLimit.lower, upperLimit.upper],
    };
  }),
  published("ratioAgreementKernel", "bland-altman", "ba1999-plasma-log", ({ nadler, hurley }) => {
    const found = ratioAgreementKernel(hurley, nadler);
    return {
      logBias: found.logBias,
      ratio: found.ratio,
      ratioLower: found.lower,
      ratioUpper: found.upper,
      logBiasExact: found.logBias,
      logSdExact: found.logSd,
    };
  }),
  computed("ratioAgreementKernel", "r", "ratioAgreement", ({ x, y }) => {
    const { ratio, lower, upper } = ratioAgreementKernel(x, y);
    return { ratio, lower, upper };
  }),
  published("demingKernel", "method-comparison-regression", "deming-ten-points", ({ x, y }) => ({
    slope1: demingKernel(x, y).slope.value,
    intercept1: demingKernel(x, y).intercept.value,
    slope2: demingKernel(x, y, { errorRatio: 2 }).slope.value,
    intercept2: demingKernel(x, y, { errorRatio: 2 }).intercept.value,
    slopeXonY1: demingKernel(y, x).slope.value,
  })),
  published("demingKernel", "method-comparison-regression", "passing-bablok-creatinine", ({ x, y }) => ({
    deming1slope: demingKernel(x, y).slope.value,
    deming1intercept: demingKernel(x, y).intercept.value,
  })),
  computed("demingKernel", "r", "deming", ({ x, y, errorRatio }) => {
    const { slope, intercept } = demingKernel(x, y, { errorRatio });
    return {
      slope: slope.value,
      intercept: intercept.value,
      slopeError: slope.standardError,
      interceptError: intercept.standardError,
      slopeUpper: slope.upper,
    };
  }),
  published(
    "functionalRelationKernel",
    "method-comparison-regression",
    "ripley-thompson-arsenate",
    ({ x, y, seX, seY }) => {
      const { slope, intercept, chiSquared } = functionalRelationKernel(x, y, { ux: seX, uy: seY });
      return {
        mlfrIntercept: intercept,
        mlfrSlope: slope,
        mlfrInterceptExact: intercept,
        mlfrSlopeExact: slope,
        meanSquaredScaledResidual: chiSquared / 30,
      };
    },
  ),
  computed(
    "functionalRelationKernel",
    "r",
    "functionalRelation",
    ({ x, y, ux, uy }) => {
      const { slope, intercept, chiSquared } = functionalRelationKernel(x, y, { ux, uy });
      return { slope, intercept, chiSquared };
    },
    // The other program's search stops at the square root of the rounding error.
    { rel: 1e-6 },
  ),
  published("passingBablokKernel", "method-comparison-regression", "passing-bablok-creatinine", ({ x, y }) => {
    const { slope, intercept } = passingBablokKernel(x, y);
    return {
      slope: slope.value,
      slopeLower: slope.lower,
      slopeUpper: slope.upper,
      intercept: intercept.value,
      interceptLower: intercept.lower,
      interceptUpper: intercept.upper,
    };
  }),
  computed("passingBablokKernel", "r", "passingBablok", ({ x, y }) => {
    const { slope, intercept } = passingBablokKernel(x, y);
    return { slope: [slope.value, slope.lower, slope.upper], intercept: intercept.value };
  }),
  published("concordanceKernel", "bland-altman", "ccc-pefr-sbp", () => ({
    pefr: concordanceKernel(mini().wright1, mini().mini1).value,
    sbp: concordanceKernel(column(pressure().J, 0), column(pressure().S, 0)).value,
  })),
  published("concordanceKernel", "method-comparison-regression", "passing-bablok-creatinine", ({ x, y }) => ({
    ccc: concordanceKernel(x, y).value,
  })),
  computed("concordanceKernel", "r", "concordance", ({ x, y }) => {
    const { value, lower, upper, pearson } = concordanceKernel(x, y);
    return { value, lower, upper, pearson };
  }),
  published("enScoreKernel", "proficiency-consensus", "en-zeta-pb", ({ x, U, referenceIndex: r }) => ({
    En: x.map((value: number, i: number) => enScoreKernel(value - x[r], U[i], U[r])),
  })),
  computed("enScoreKernel", "r", "scores", ({ d, a, b }) => ({ en: enScoreKernel(d, a, b) })),
  published("zetaScoreKernel", "proficiency-consensus", "en-zeta-pb", ({ x, u, referenceIndex: r }) => ({
    zeta: x.map((value: number, i: number) => zetaScoreKernel(value - x[r], u[i], u[r])),
  })),
  computed("zetaScoreKernel", "scipy", "zeta", ({ d, a, b }) => ({ zeta: zetaScoreKernel(d, a, b) })),
  ...tuna(),
  computed("kendallKernel", "r", "kendall", ({ x, y, xt, yt }) => ({
    value: kendallKernel(x, y).value,
    pValue: kendallKernel(x, y).pValue,
    tied: kendallKernel(xt, yt).value,
    pTied: kendallKernel(xt, yt).pValue,
  })),
  computed("spearmanKernel", "r", "spearman", ({ x, y, xt, yt }) => ({
    value: spearmanKernel(x, y).value,
    pValue: spearmanKernel(x, y).pValue,
    tied: spearmanKernel(xt, yt).value,
    pTied: spearmanKernel(xt, yt).pValue,
  })),
  computed("spearmanKernel", "scipy", "spearmanLarge", ({ x, y }) => ({
    value: spearmanKernel(x, y).value,
    pValue: spearmanKernel(x, y).pValue,
  })),
];

/** Lightness and quality of nine lots of tuna, with the digits that R's help page of cor.test prints. */
function tuna(): readonly Check[] {
  const x = [44.4, 45.9, 41.9, 53.3, 44.7, 44.1, 50.7, 45.2, 60.1];
  const y = [2.6, 3.1, 2.5, 5.0, 3.6, 4.0, 5.2, 2.8, 3.8];
  const source =
    "Hollander and Wolfe, Nonparametric Statistical Methods (1973), 185 (data), as in R's help of cor.test";
  const item = (name: string, got: number, want: number, tolerance: number) => ({ name, got, want, tolerance });
  return [
    {
      procedure: "kendallKernel",
      kind: "published",
      source,
      compare: () => [
        item("tau", kendallKernel(x, y).value, 0.4444444, 5e-8),
        item("p", kendallKernel(x, y).pValue, 0.1194, 5e-5),
      ],
    },
    {
      procedure: "spearmanKernel",
      kind: "published",
      source,
      compare: () => [
        item("rho", spearmanKernel(x, y).value, 0.6, 5e-8),
        item("p", spearmanKernel(x, y).pValue, 0.0968, 5e-5),
      ],
    },
  ];
}
