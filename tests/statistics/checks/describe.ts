import {
  algorithmAKernel,
  andersonDarlingKernel,
  autocorrelationKernel,
  harrellDavisKernel,
  hodgesLehmannKernel,
  madKernel,
  meanKernel,
  medianKernel,
  momentsKernel,
  quantileErrorKernel,
  quantileKernel,
  shapiroWilkKernel,
  spreadKernel,
} from "../../../src/statistics/index.js";
import type { QuantileType } from "../../../src/statistics/index.js";
import type { Check, Stored } from "./check.js";
import { computed, entryOf, published } from "./check.js";

const types = [1, 2, 3, 4, 5, 6, 7, 8, 9] as const;

export const describeChecks: readonly Check[] = [
  published("meanKernel", "nist-strd-univariate", "strd-uni-lew", ({ data }) => ({ mean: meanKernel(data) })),
  computed("meanKernel", "r", "mean", ({ x }) => ({ value: meanKernel(x) })),
  published("spreadKernel", "nist-strd-univariate", "strd-uni-michelso", ({ data }) => ({
    mean: spreadKernel(data).mean,
    standardDeviation: spreadKernel(data).sd,
  })),
  published("spreadKernel", "nist-handbook-examples", "hb-zarr13-ci", ({ data }) => ({ ...spreadKernel(data) })),
  computed("spreadKernel", "r", "spread", ({ x }) => ({ ...spreadKernel(x) })),
  published("autocorrelationKernel", "nist-strd-univariate", "strd-uni-mavro", ({ data }) => ({
    lag1Autocorrelation: autocorrelationKernel(data),
  })),
  computed("autocorrelationKernel", "r", "autocorrelation", ({ x }) => ({
    lag1: autocorrelationKernel(x),
    lag3: autocorrelationKernel(x, { lag: 3 }),
  })),
  published("medianKernel", "robust-quantiles-bootstrap", "robust-chem", ({ data }) => ({
    median: medianKernel(data),
  })),
  computed("medianKernel", "r", "median", ({ x, even }) => ({ odd: medianKernel(x), even: medianKernel(even) })),
  published("quantileKernel", "robust-quantiles-bootstrap", "quantile-types", ({ data, p }) =>
    Object.fromEntries(
      types.map((type) => [`type${type}`, p.map((share: number) => quantileKernel(data, { p: share, type }))]),
    ),
  ),
  computed("quantileKernel", "r", "quantile", ({ x, p }) => ({
    types: types.map((type: QuantileType) => p.map((share: number) => quantileKernel(x, { p: share, type }))),
  })),
  published("quantileErrorKernel", "robust-quantiles-bootstrap", "bootstrap-mouse", ({ treatment, control }) => ({
    seMedianTreatmentBootstrap: quantileErrorKernel(treatment),
    seMedianTreatmentBootstrapExact: quantileErrorKernel(treatment),
    seMedianControlBootstrapExact: quantileErrorKernel(control),
  })),
  computed("quantileErrorKernel", "scipy", "quantileError", ({ x, p }) => ({
    errors: p.map((share: number) => quantileErrorKernel(x, { p: share })),
  })),
  published("madKernel", "robust-quantiles-bootstrap", "robust-chem", ({ data }) => ({
    madRaw: madKernel(data, { scale: 1 }),
    "madTimes1.4826": madKernel(data, { scale: 1.4826 }),
  })),
  computed(
    "madKernel",
    "r",
    "mad",
    // R's factor is 1.4826, rounded.
    ({ x }) => ({ value: madKernel(x, { scale: 1.4826 }), raw: madKernel(x, { scale: 1 }) }),
  ),
  published("hodgesLehmannKernel", "robust-quantiles-bootstrap", "robust-chem", ({ data }) => ({
    hodgesLehmann: hodgesLehmannKernel(data),
  })),
  computed("hodgesLehmannKernel", "r", "hodgesLehmann", ({ x }) => ({ value: hodgesLehmannKernel(x) })),
  published("algorithmAKernel", "interlaboratory", "iso13528-antibody", ({ labMean }) => ({
    xStar: algorithmAKernel(labMean).location,
    sStar: algorithmAKernel(labMean).scale,
  })),
  published("algorithmAKernel", "interlaboratory", "iso5725-5-algorithm-a-creosote", ({ data }) => ({
    xStar: algorithmAKernel(data).location,
    sStar: algorithmAKernel(data).scale,
  })),
  computed("algorithmAKernel", "r", "algorithmA", ({ x }) => ({ ...algorithmAKernel(x) })),
  published("momentsKernel", "nist-handbook-examples", "zarr13-normality", zarr(momentsOf)),
  computed("momentsKernel", "r", "moments", ({ x }) => momentsAll(x)),
  computed("momentsKernel", "scipy", "moments", ({ x }) => momentsAll(x)),
  published("harrellDavisKernel", "robust-quantiles-bootstrap", "robust-chem", ({ data }) => ({
    harrellDavis: [0.1, 0.25, 0.5, 0.75, 0.9].map((p) => harrellDavisKernel(data, { p })),
  })),
  computed("harrellDavisKernel", "scipy", "harrellDavis", ({ x, p }) => ({
    values: p.map((share: number) => harrellDavisKernel(x, { p: share })),
  })),
  published(
    "shapiroWilkKernel",
    "nist-handbook-examples",
    "zarr13-normality",
    zarr((data) => ({ shapiroW: shapiroWilkKernel(data).statistic })),
  ),
  computed(
    "shapiroWilkKernel",
    "r",
    "shapiroWilk",
    ({ samples }) => ({
      statistic: samples.map((x: number[]) => shapiroWilkKernel(x).statistic),
      pValue: samples.map((x: number[]) => shapiroWilkKernel(x).pValue),
    }),
    { rel: 1e-6 },
  ),
  published(
    "andersonDarlingKernel",
    "nist-handbook-examples",
    "zarr13-normality",
    zarr((data) => ({ A2: andersonDarlingKernel(data).statistic })),
  ),
  computed("andersonDarlingKernel", "scipy", "andersonDarling", ({ samples }) => ({
    statistic: samples.map((x: number[]) => andersonDarlingKernel(x).statistic),
    pValue: samples.map((x: number[]) => andersonDarlingKernel(x).pValue),
  })),
];

function momentsOf(data: number[]): Record<string, unknown> {
  const { skewness, excessKurtosis } = momentsKernel(data);
  return { skewnessG1biased: skewness, kurtosisExcessBiased: excessKurtosis };
}

function momentsAll(x: number[]): Record<string, unknown> {
  const { skewness, skewnessCorrected, excessKurtosis } = momentsKernel(x);
  return { skewness, skewnessCorrected, excessKurtosis };
}

/** The calibration factors stand in another entry of the same file. */
function zarr(find: (data: number[]) => Record<string, unknown>): (input: Stored) => Record<string, unknown> {
  return () => find(zarrData());
}

function zarrData(): number[] {
  return entryOf("nist-handbook-examples", "hb-zarr13-ci").input.data;
}
