import { lift } from "../lift/lift.js";
import { checkOptions, checkProbability, checkValues, checkWhole } from "../numeric/guards.js";
import { tCdf, tQuantile } from "../numeric/distributions.js";
import { meanOf, squaredDeviations } from "../numeric/sums.js";

export interface GeneralisedEsdOptions {
  /** Upper bound on the number of outliers, from 1 to n/2; default 10 or n/5 rounded down, the smaller, at least 1. */
  readonly most?: number;
  /** Significance level of the whole procedure; default 0.05. */
  readonly alpha?: number;
}

export interface EsdStep {
  readonly statistic: number;
  readonly critical: number;
  readonly pValue: number;
  readonly suspect: number;
}

export interface GeneralisedEsd {
  readonly rule: string;
  readonly steps: readonly EsdStep[];
  /** Places of the outliers, most extreme first; the last step beyond its critical value decides how many. */
  readonly outliers: readonly number[];
  /** Smallest level at which anything is an outlier: the least p-value of the steps. */
  readonly pValue: number;
  readonly n: number;
}

/**
 * Generalised extreme studentised deviate test for up to `most` outliers in normal values: R_i = max|x - m|/s after the i - 1
 * most extreme are set aside, against λ_i = (n - i) t/√((n - i - 1 + t²)(n - i + 1)); as many outliers as the largest i
 * with R_i > λ_i. Approximate under 25 values. Once the values left are equal, R_i is 0.
 * @param values at least `most` + 3 finite numbers in any order
 * @param options most; alpha: default 0.05
 * @throws Undetermined on too few values; RangeError on options out of range
 * Source: Rosner, Technometrics 25 (1983) 165; NIST/SEMATECH e-Handbook, 1.3.5.17.3.
 */
export function generalisedEsdKernel(values: readonly number[], options: GeneralisedEsdOptions = {}): GeneralisedEsd {
  checkOptions(options, ["most", "alpha"], "generalisedEsd");
  const n = values.length;
  const { alpha = 0.05, most = Math.max(1, Math.min(10, Math.floor(n / 5))) } = options;
  checkProbability(alpha, "alpha");
  checkWhole(most, 1, "most");
  checkValues(values, most + 3, `generalised ESD for up to ${most} outliers`);
  const left = values.map((value, place) => ({ value, place }));
  const steps: EsdStep[] = [];
  for (let i = 1; i <= most; i++) {
    const now = left.map((entry) => entry.value);
    const centre = meanOf(now);
    const sd = Math.sqrt(squaredDeviations(now) / (now.length - 1));
    let at = 0;
    now.forEach((value, k) => {
      if (Math.abs(value - centre) > Math.abs(now[at]! - centre)) at = k;
    });
    const statistic = sd === 0 ? 0 : Math.abs(now[at]! - centre) / sd;
    const m = n - i + 1;
    const t = -tQuantile(alpha / (2 * m), m - 2);
    const critical = ((m - 1) * t) / Math.sqrt((m - 2 + t * t) * m);
    const rest = (m - 1) ** 2 / m - statistic * statistic;
    const pValue = rest <= 0 ? 0 : Math.min(1, 2 * m * tCdf(-statistic * Math.sqrt((m - 2) / rest), m - 2));
    steps.push({ statistic, critical, pValue, suspect: left[at]!.place });
    left.splice(at, 1);
  }
  let found = 0;
  steps.forEach((step, i) => {
    if (step.statistic > step.critical) found = i + 1;
  });
  return {
    rule: `generalised ESD for up to ${most} outliers, level ${alpha}`,
    steps,
    outliers: steps.slice(0, found).map((step) => step.suspect),
    pValue: Math.min(...steps.map((step) => step.pValue)),
    n,
  };
}

/** Generalised ESD test among measured values. */
export const generalisedEsd = lift(
  generalisedEsdKernel,
  {
    rule: "text",
    steps: [{ statistic: "statistic", critical: "statistic", pValue: "statistic", suspect: "position" }],
    outliers: ["position"],
    pValue: "statistic",
    n: "count",
  },
  { name: "generalised ESD test" },
);
