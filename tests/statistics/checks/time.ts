import {
  changePointKernel,
  controlConstantsKernel,
  cusumKernel,
  driftKernel,
  ewmaKernel,
  individualsKernel,
  runRuleNames,
  runRulesKernel,
  runsTestKernel,
  subgroupChartKernel,
} from "../../../src/statistics/index.js";
import type { ControlConstants } from "../../../src/statistics/index.js";
import type { Check } from "./check.js";
import { computed, entryOf, published } from "./check.js";

export const timeChecks: readonly Check[] = [
  published("controlConstantsKernel", "critical-value-tables", "control-chart-constants", ({ n }) => {
    const all: ControlConstants[] = n.map(controlConstantsKernel);
    const names = ["c4", "d2", "d3", "A2", "A3", "B3", "B4", "D3", "D4"] as const;
    return Object.fromEntries(names.map((name) => [name, all.map((constants) => constants[name])]));
  }),
  computed(
    "controlConstantsKernel",
    "r",
    "controlConstants",
    ({ n }) => ({
      c4d2d3: n.map((size: number) => {
        const { c4, d2, d3 } = controlConstantsKernel(size);
        return [c4, d2, d3];
      }),
    }),
    { rel: 1e-7 },
  ),
  published("individualsKernel", "nist-handbook-examples", "hb-individuals", ({ data, d2 }) => {
    const chart = individualsKernel(data, { d2 });
    return { mean: chart.centre, meanMovingRange: chart.meanMovingRange, UCL: chart.upper, LCL: chart.lower };
  }),
  computed("individualsKernel", "r", "individuals", ({ x }) => {
    const { centre, sigma, upper, meanMovingRange } = individualsKernel(x);
    return { centre, sigma, upper, meanMovingRange };
  }),
  computed("subgroupChartKernel", "r", "subgroupChart", ({ groups }) => {
    const { centre, sigma, upper, upperSd } = subgroupChartKernel(groups);
    return { centre, sigma, upper: upper[0], upperSd: upperSd[0] };
  }),
  published("ewmaKernel", "nist-handbook-examples", "hb-ewma", ({ data, lambda, target, s, k }) => {
    const chart = ewmaKernel(data, { target, sigma: s, weight: lambda, width: k, asymptotic: true });
    return { ewmaSeries: [target, ...chart.averages], UCL: chart.upper[0], LCL: chart.lower[0] };
  }),
  computed("ewmaKernel", "r", "ewma", ({ x, target, sigma }) => {
    const { averages, upper } = ewmaKernel(x, { target, sigma });
    return { averages, upper };
  }),
  computed("cusumKernel", "r", "cusum", ({ x, target, sigma }) => {
    const { high, low } = cusumKernel(x, { target, sigma });
    return { high, low };
  }),
  computed("runRulesKernel", "r", "runRules", ({ x }) => {
    const { signals } = runRulesKernel(x, { centre: 0, sigma: 1, rules: runRuleNames, draws: 100 });
    const at = (rule: string) => signals.filter((signal) => signal.rule === rule).map((signal) => signal.at);
    return {
      one: at("1 beyond 3 sigma"),
      nine: at("9 on one side"),
      six: at("6 steadily up or down"),
      two: at("2 of 3 beyond 2 sigma"),
      four: at("4 of 5 beyond 1 sigma"),
    };
  }),
  published("driftKernel", "nist-strd-regression", "strd-lls-norris", ({ x, y }) => {
    const found = driftKernel(x, y);
    return {
      b0: found.intercept,
      seB0: found.interceptError,
      b1: found.slope,
      seB1: found.slopeError,
      residualStandardDeviation: found.residualSd,
      rSquared: found.rSquared,
    };
  }),
  published("driftKernel", "msa-gauge-rr", "msa-linearity", ({ reference, readings }) => {
    const found = driftKernel(
      readings.flatMap((row: number[], i: number) => row.map(() => reference[i])),
      readings.flatMap((row: number[], i: number) => row.map((value) => value - reference[i])),
    );
    return {
      intercept: found.intercept,
      slope: found.slope,
      rSquared: found.rSquared,
      residualSd: found.residualSd,
      tSlope: found.slope / found.slopeError,
    };
  }),
  computed("driftKernel", "r", "drift", ({ x, y }) => {
    const { slope, slopeError, intercept, interceptError, residualSd, rSquared, pValue, lower } = driftKernel(x, y);
    return { slope, slopeError, intercept, interceptError, residualSd, rSquared, pValue, lower };
  }),
  nile(),
  computed("changePointKernel", "r", "changePoint", ({ x }) => {
    const { at, statistic } = changePointKernel(x, { draws: 99 });
    return { at, statistic };
  }),
  published("runsTestKernel", "nist-handbook-examples", "hb-runs-lew", () => {
    const found = runsTestKernel(entryOf("nist-strd-univariate", "strd-uni-lew").input.data);
    return {
      median: found.median,
      nAbove: found.above,
      nBelow: found.below,
      runs: found.runs,
      expectedRuns: found.expectedRuns,
      sdRuns: found.sdRuns,
      absZ: Math.abs(found.z),
    };
  }),
  computed("runsTestKernel", "r", "runsTest", ({ x }) => {
    const { runs, z, pValue } = runsTestKernel(x);
    return { runs, z, pValue };
  }),
];

/** The flow of the Nile from 1871: the change is found after 1898, the 28th year. */
function nile(): Check {
  let at = NaN;
  const check = computed("changePointKernel", "r", "changePoint", ({ nile }) => {
    at = changePointKernel(nile, { draws: 99 }).at;
    return {};
  });
  return {
    procedure: "changePointKernel",
    kind: "published",
    source: "Cobb, Biometrika 65 (1978) 243 (data set Nile of R)",
    compare: () => {
      check.compare();
      return [{ name: "last year before the change", got: at, want: 28, tolerance: 0 }];
    },
  };
}
