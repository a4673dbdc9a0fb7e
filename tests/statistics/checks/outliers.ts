import {
  cochranKernel,
  dixonCritical,
  dixonKernel,
  generalisedEsdKernel,
  grubbsCritical,
  grubbsKernel,
  grubbsPairKernel,
  hampelKernel,
  mandelHCritical,
  mandelKCritical,
  mandelKernel,
  tukeyFencesKernel,
} from "../../../src/statistics/index.js";
import type { Check, Stored } from "./check.js";
import { computed, published } from "./check.js";

/** The two readings of a cell from their mean and range. */
export function creosoteGroups({ cellMean, cellRange }: Stored): number[][] {
  return cellMean.map((mean: number, i: number) => [mean - cellRange[i] / 2, mean + cellRange[i] / 2]);
}

export const outlierChecks: readonly Check[] = [
  published("grubbsKernel", "nist-handbook-examples", "hb-grubbs-uranium", ({ data }) => ({
    G: grubbsKernel(data, { side: "largest" }).statistic,
    criticalOneSided05: grubbsKernel(data, { side: "largest" }).critical,
    criticalTwoSided05: grubbsKernel(data).critical,
    isOutlier: grubbsKernel(data).isOutlier,
  })),
  published("grubbsKernel", "nist-handbook-examples", "venus-grubbs-min", ({ data }) => ({
    G: grubbsKernel(data, { side: "smallest" }).statistic,
    criticalTwoSided05: grubbsKernel(data).critical,
  })),
  published("grubbsKernel", "critical-value-tables", "grubbs-critical", ({ n }) => ({
    oneSided05: n.map((size: number) => grubbsCritical(size, 0.05)),
    oneSided01: n.map((size: number) => grubbsCritical(size, 0.01)),
    twoSided05: n.map((size: number) => grubbsCritical(size, 0.025)),
    twoSided01: n.map((size: number) => grubbsCritical(size, 0.005)),
  })),
  computed("grubbsKernel", "r", "grubbs", ({ x }) => {
    const { statistic, critical, pValue, suspect } = grubbsKernel(x);
    return { statistic, critical, pValue, suspect };
  }),
  published("grubbsPairKernel", "nist-handbook-examples", "hb-tietjen-moore-venus", ({ data }) => ({
    Ek: grubbsPairKernel(data).statistic,
    critical05: grubbsPairKernel(data, { draws: 160_000 }).critical,
  })),
  computed("grubbsPairKernel", "r", "grubbsPair", ({ x }) => ({ statistic: grubbsPairKernel(x).statistic })),
  computed(
    "grubbsPairKernel",
    "r",
    "grubbsPair",
    ({ x }) => ({ critical: grubbsPairKernel(x, { draws: 40_000 }).critical }),
    { rel: 0.015 },
  ),
  published("dixonKernel", "critical-value-tables", "dixon-r10", ({ n }) => ({
    oneSided05: n.map((size: number) => dixonCritical(size, 0.05)),
    oneSided01: n.map((size: number) => dixonCritical(size, 0.01)),
    printed05: n.map((size: number) => dixonCritical(size, 0.05)),
  })),
  computed(
    "dixonKernel",
    "r",
    "dixon",
    ({ x }) => {
      const { statistic, pValue } = dixonKernel(x);
      return { statistic, pValue };
    },
    { rel: 1e-7 },
  ),
  published("generalisedEsdKernel", "nist-handbook-examples", "hb-gesd-rosner", ({ data, maxOutliers, alpha }) => {
    const { steps, outliers } = generalisedEsdKernel(data, { most: maxOutliers, alpha });
    return {
      ...Object.fromEntries(steps.map((step, i) => [`R${i + 1}`, step.statistic])),
      ...Object.fromEntries(steps.map((step, i) => [`lambda${i + 1}`, step.critical])),
      numberOfOutliers: outliers.length,
    };
  }),
  computed("generalisedEsdKernel", "r", "generalisedEsd", ({ x, most }) => {
    const { steps, outliers } = generalisedEsdKernel(x, { most });
    return {
      statistic: steps.map((step) => step.statistic),
      critical: steps.map((step) => step.critical),
      number: outliers.length,
    };
  }),
  // With a factor of 1 the fences lie one scaled deviation from the median.
  published("hampelKernel", "interlaboratory", "iso13528-antibody", ({ labMean }) => {
    const { lower, upper } = hampelKernel(labMean, { factor: 1 });
    return { median: (lower + upper) / 2, "madTimes1.483": ((upper - lower) / 2 / 1.482602218505602) * 1.483 };
  }),
  computed(
    "hampelKernel",
    "r",
    "hampel",
    ({ x }) => {
      const { lower, upper, outside } = hampelKernel(x);
      return { lower, upper, outside };
    },
    // R's factor is 1.4826, rounded.
    { rel: 1e-6 },
  ),
  published("tukeyFencesKernel", "interlaboratory", "astm-e2489-one-sample", ({ data }) => {
    const { lower, upper } = tukeyFencesKernel(data);
    return { q1Type7: (5 * lower + 3 * upper) / 8, q3Type7: (3 * lower + 5 * upper) / 8 };
  }),
  computed("tukeyFencesKernel", "r", "tukeyFences", ({ x }) => {
    const { lower, upper, outside } = tukeyFencesKernel(x);
    return { lower, upper, outside };
  }),
  published("cochranKernel", "interlaboratory", "iso5725-creosote-level5", (input) => {
    const variances = input.cellRange.map((range: number) => range ** 2 / 2);
    const at = (alpha: number) => cochranKernel(variances, { replicates: 2, alpha });
    return { cochranC: at(0.05).statistic, cochranCritical05: at(0.05).critical, cochranCritical01: at(0.01).critical };
  }),
  published("cochranKernel", "interlaboratory", "iso5725-critical-values", ({ p }) =>
    Object.fromEntries(
      [2, 3, 4].flatMap((n) =>
        [0.05, 0.01].map((alpha) => [
          `cochran${alpha === 0.05 ? "05" : "01"}_n${n}`,
          p.map((size: number) => cochranKernel(new Array<number>(size).fill(1), { replicates: n, alpha }).critical),
        ]),
      ),
    ),
  ),
  computed("cochranKernel", "r", "cochran", ({ variances, replicates }) => {
    const { statistic, critical, pValue } = cochranKernel(variances, { replicates });
    return { statistic, critical, pValue };
  }),
  published("mandelKernel", "interlaboratory", "iso5725-creosote-level5", (input) => {
    const at = (alpha: number) => mandelKernel(creosoteGroups(input), { alpha });
    return {
      h: at(0.05).h,
      k: at(0.05).k,
      hCritical05: at(0.05).hCritical,
      hCritical01: at(0.01).hCritical,
      kCritical05: at(0.05).kCritical[0],
      kCritical01: at(0.01).kCritical[0],
    };
  }),
  published("mandelKernel", "interlaboratory", "iso5725-critical-values", ({ p }) => ({
    h05: p.map((size: number) => mandelHCritical(size, 0.05)),
    h01: p.map((size: number) => mandelHCritical(size, 0.01)),
    ...Object.fromEntries(
      [2, 3, 4].flatMap((n) =>
        [0.05, 0.01].map((alpha) => [
          `k${alpha === 0.05 ? "05" : "01"}_n${n}`,
          p.map((size: number) => mandelKCritical(size, n, alpha)),
        ]),
      ),
    ),
  })),
  computed("mandelKernel", "r", "mandel", ({ groups }) => {
    const { h, k, hCritical } = mandelKernel(groups);
    return { h, k, hCritical };
  }),
];
