import { liftFactors } from "../lift/lift-factors.js";
import { Undetermined, checkOptions, checkProbability, checkValues } from "../numeric/guards.js";
import { fUpper } from "../numeric/distributions.js";
import type { Levels } from "../numeric/layout.js";
import { groupsOf, levelsOf, onlyFactor } from "../numeric/layout.js";
import { meanOf, squaredDeviations, sumOf } from "../numeric/sums.js";
import type { VarianceComponent } from "./modified-large-sample.js";
import { componentShape, modifiedLargeSampleKernel } from "./modified-large-sample.js";

export interface OneWay {
  readonly ssBetween: number;
  readonly ssWithin: number;
  readonly dofBetween: number;
  readonly dofWithin: number;
  readonly msBetween: number;
  readonly msWithin: number;
  /** MS between / MS within; null where nothing varies within groups. */
  readonly F: number | null;
  readonly pValue: number | null;
  readonly rSquared: number | null;
  readonly residualSd: number;
  readonly mean: number;
  /** Group means in the groups' order. */
  readonly groupMeans: readonly number[];
  readonly between: VarianceComponent;
  readonly within: VarianceComponent;
  readonly balanced: boolean;
}

export interface OneWayOptions {
  /** Level of the components' intervals; default 0.95. */
  readonly level?: number;
}

/**
 * One-way analysis of variance with random groups: SS, F, and the components within = MS_w and between = (MS_b - MS_w)/n0,
 * n0 = (N - Σn²/N)/(g - 1), with modified-large-sample intervals (between groups only where they are of one size).
 * @param groups at least two groups of at least one finite number, some group of two or more; in any order
 * @param options level: default 0.95
 * @throws Undetermined on fewer than two groups, or no repeats; RangeError on a value that is not finite
 * Source: NIST/SEMATECH e-Handbook, 1.3.5.4; Searle, Casella and McCulloch, Variance Components (1992), 3.5 and 3.6.
 */
export function oneWayKernel(groups: readonly (readonly number[])[], options: OneWayOptions = {}): OneWay {
  checkOptions(options, ["level"], "oneWay");
  const level = options.level ?? 0.95;
  checkProbability(level, "level");
  if (groups.length < 2) throw new Undetermined(`a one-way analysis needs at least 2 groups, got ${groups.length}`);
  groups.forEach((group) => checkValues(group, 1, "a one-way analysis"));
  const total = groups.reduce((n, group) => n + group.length, 0);
  const dofBetween = groups.length - 1;
  const dofWithin = total - groups.length;
  if (dofWithin < 1) throw new Undetermined("a one-way analysis needs two or more values in some group");
  // Taking the first value off keeps digits that means of large values would lose.
  const origin = groups[0]![0]!;
  const shifted = groups.map((group) => group.map((value) => value - origin));
  const means = shifted.map(meanOf);
  const centre = meanOf(shifted.flat());
  const ssBetween = sumOf(shifted.map((group, i) => group.length * (means[i]! - centre) ** 2));
  const ssWithin = sumOf(shifted.map(squaredDeviations));
  const msBetween = ssBetween / dofBetween;
  const msWithin = ssWithin / dofWithin;
  const sizes = groups.map((group) => group.length);
  const balanced = sizes.every((size) => size === sizes[0]);
  const n0 = (total - sumOf(sizes.map((size) => size * size)) / total) / dofBetween;
  const F = msWithin === 0 ? null : msBetween / msWithin;
  const all = ssBetween + ssWithin;
  const between = modifiedLargeSampleKernel(
    [
      { coefficient: 1 / n0, meanSquare: msBetween, dof: dofBetween },
      { coefficient: -1 / n0, meanSquare: msWithin, dof: dofWithin },
    ],
    { level },
  );
  return {
    ssBetween,
    ssWithin,
    dofBetween,
    dofWithin,
    msBetween,
    msWithin,
    F,
    pValue: F === null ? null : fUpper(F, dofBetween, dofWithin),
    rSquared: all === 0 ? null : ssBetween / all,
    residualSd: Math.sqrt(msWithin),
    mean: centre + origin,
    groupMeans: means.map((mean) => mean + origin),
    between: balanced ? between : { ...between, lower: null, upper: null },
    within: modifiedLargeSampleKernel([{ coefficient: 1, meanSquare: msWithin, dof: dofWithin }], { level }),
    balanced,
  };
}

/** One-way analysis of measured values by one factor. */
export const oneWay = liftFactors(
  function oneWayByFactor(values: readonly number[], factors: Levels, options: OneWayOptions = {}) {
    const levels = levelsOf(factors, onlyFactor(factors, "a one-way analysis"), values.length, "a one-way analysis");
    return oneWayKernel(groupsOf(values, levels).groups, options);
  },
  {
    ssBetween: "squared",
    ssWithin: "squared",
    dofBetween: "count",
    dofWithin: "count",
    F: "statistic",
    pValue: "statistic",
    rSquared: "ratio",
    residualSd: "same",
    mean: "same",
    groupMeans: ["same"],
    between: componentShape,
    within: componentShape,
    balanced: "flag",
  },
  { name: "one-way analysis of variance" },
);
