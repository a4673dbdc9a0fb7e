import {
  ecdfKernel,
  histogramKernel,
  kernelDensityKernel,
  pollingMixtureKernel,
  shiftFunctionKernel,
} from "../../../src/statistics/index.js";
import type { Check } from "./check.js";
import { computed, published } from "./check.js";

export const distributionChecks: readonly Check[] = [
  computed("ecdfKernel", "r", "ecdf", ({ x }) => {
    const { points, halfWidth } = ecdfKernel(x);
    return { share: points.map((point) => point.share), halfWidth };
  }),
  computed("histogramKernel", "r", "histogram", ({ x }) => {
    const { width, bins } = histogramKernel(x);
    return { width, counts: bins.map((bin) => bin.count) };
  }),
  computed("kernelDensityKernel", "r", "kernelDensity", ({ x }) => {
    const { bandwidth, points } = kernelDensityKernel(x, { points: 11 });
    return { bandwidth, density: points.map((point) => point.density) };
  }),
  computed(
    "pollingMixtureKernel",
    "r",
    "pollingMixture",
    ({ x, period }) => {
      const { start, noiseSd, logLikelihood, normalLogLikelihood } = pollingMixtureKernel(x, { period });
      return { start, noiseSd, logLikelihood, normalLogLikelihood };
    },
    { rel: 1e-5 },
  ),
  // The differences are of Harrell-Davis quantiles, which are published; against a sample of equal values they are plain.
  published("shiftFunctionKernel", "robust-quantiles-bootstrap", "robust-chem", ({ data }) => ({
    harrellDavis: shiftFunctionKernel([0, 0, 0, 0, 0], data, {
      probabilities: [0.1, 0.25, 0.5, 0.75, 0.9],
      draws: 100,
    }).map((point) => point.difference),
  })),
  computed("shiftFunctionKernel", "r", "shiftFunction", ({ x, y }) => ({
    difference: shiftFunctionKernel(x, y, { draws: 100 }).map((point) => point.difference),
  })),
  computed(
    "shiftFunctionKernel",
    "r",
    "shiftFunction",
    ({ x, y }) => {
      const [median] = shiftFunctionKernel(x, y, { probabilities: [0.5], draws: 10_000 });
      return { medianInterval: [median!.lower, median!.upper] };
    },
    { abs: 0.06 },
  ),
];
