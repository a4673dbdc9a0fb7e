import { liftFactors } from "../lift/lift-factors.js";
import { checkOptions } from "../numeric/guards.js";
import type { Levels } from "../numeric/layout.js";
import { groupsOf, levelsOf, onlyFactor } from "../numeric/layout.js";
import { oneWayKernel } from "./one-way.js";

export interface Precision {
  readonly mean: number;
  /** Repeatability sd s_r. */
  readonly repeatabilitySd: number;
  /** Between-group sd s_L; 0 where its estimate is negative. */
  readonly betweenSd: number;
  /** Estimate of s_L² before that. */
  readonly betweenRaw: number;
  /** Reproducibility sd s_R. */
  readonly reproducibilitySd: number;
  /** Repeatability and reproducibility limits, 2.8 times the sds. */
  readonly repeatabilityLimit: number;
  readonly reproducibilityLimit: number;
}

/**
 * Repeatability and reproducibility of one level of an interlaboratory experiment: s_r² pooled within groups, s_L² from the
 * scatter of the group means, s_R² = s_r² + s_L², groups of any size.
 * @param groups at least two groups (laboratories, operators, days) of finite numbers, some of two or more
 * @throws Undetermined on fewer than two groups, or no repeats
 * Source: ISO 5725-2:2019, 8.4; limits ISO 5725-6:1994, 4.1.
 */
export function precisionKernel(groups: readonly (readonly number[])[], options: object = {}): Precision {
  checkOptions(options, [], "precision");
  const { mean, msWithin, between } = oneWayKernel(groups);
  const reproducibilitySd = Math.sqrt(msWithin + between.variance);
  return {
    mean,
    repeatabilitySd: Math.sqrt(msWithin),
    betweenSd: Math.sqrt(between.variance),
    betweenRaw: between.raw,
    reproducibilitySd,
    repeatabilityLimit: 2.8 * Math.sqrt(msWithin),
    reproducibilityLimit: 2.8 * reproducibilitySd,
  };
}

/** Repeatability and reproducibility of measured values by one factor. */
export const precision = liftFactors(
  function precisionByFactor(values: readonly number[], factors: Levels, options: object = {}) {
    const levels = levelsOf(factors, onlyFactor(factors, "precision"), values.length, "precision");
    return precisionKernel(groupsOf(values, levels).groups, options);
  },
  {
    mean: "same",
    repeatabilitySd: "same",
    betweenSd: "same",
    betweenRaw: "squared",
    reproducibilitySd: "same",
    repeatabilityLimit: "same",
    reproducibilityLimit: "same",
  },
  { name: "repeatability and reproducibility" },
);
