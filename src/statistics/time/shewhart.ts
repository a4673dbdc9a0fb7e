import { lift } from "../lift/lift.js";
import { liftFactors } from "../lift/lift-factors.js";
import { Undetermined, checkOptions, checkPositive, checkValues } from "../numeric/guards.js";
import { c4 } from "../numeric/gamma.js";
import type { Levels } from "../numeric/layout.js";
import { groupsOf, levelsOf, onlyFactor } from "../numeric/layout.js";
import { meanOf, varianceOf } from "../numeric/sums.js";

/** d2 of two values, 2/√π. */
const d2OfPairs = 2 / Math.sqrt(Math.PI);
/** D4 of two values, 1 + 3 d3/d2 with d3 = √(2 - 4/π). */
const D4OfPairs = 1 + (3 * Math.sqrt(2 - 4 / Math.PI)) / d2OfPairs;

export interface IndividualsOptions {
  /** Divisor of the mean moving range; default 2/√π = 1.12838 (tables print 1.128). */
  readonly d2?: number;
}

export interface IndividualsChart {
  readonly centre: number;
  readonly lower: number;
  readonly upper: number;
  /** Mean moving range over d2. */
  readonly sigma: number;
  readonly meanMovingRange: number;
  readonly upperMovingRange: number;
  /** Places of the values outside, and of the moving ranges above their limit (that of the later value). */
  readonly outside: readonly number[];
  readonly largeRanges: readonly number[];
  readonly n: number;
}

/**
 * Individuals and moving range chart: centre = mean, limits ± 3 MR/d2 with MR the mean of |x_i - x_(i-1)|; moving ranges against
 * D4 MR = 3.267 MR. Where all values are equal the limits lie on the centre.
 * @param values at least two finite numbers in the order of time
 * @param options d2: default 2/√π
 * @throws Undetermined on fewer than two values
 * Source: NIST/SEMATECH e-Handbook, 6.3.2.2.
 */
export function individualsKernel(values: readonly number[], options: IndividualsOptions = {}): IndividualsChart {
  checkOptions(options, ["d2"], "individuals");
  const d2 = options.d2 ?? d2OfPairs;
  checkPositive(d2, "d2");
  checkValues(values, 2, "an individuals chart");
  const ranges = values.slice(1).map((value, i) => Math.abs(value - values[i]!));
  const centre = meanOf(values);
  const meanMovingRange = meanOf(ranges);
  const sigma = meanMovingRange / d2;
  const [lower, upper] = [centre - 3 * sigma, centre + 3 * sigma];
  const upperMovingRange = D4OfPairs * meanMovingRange;
  return {
    centre,
    lower,
    upper,
    sigma,
    meanMovingRange,
    upperMovingRange,
    outside: values.flatMap((value, i) => (value < lower || value > upper ? [i] : [])),
    largeRanges: ranges.flatMap((range, i) => (range > upperMovingRange ? [i + 1] : [])),
    n: values.length,
  };
}

/** Individuals and moving range chart of measured values in the order of the items. */
export const individuals = lift(
  individualsKernel,
  {
    centre: "same",
    lower: "same",
    upper: "same",
    sigma: "same",
    meanMovingRange: "same",
    upperMovingRange: "same",
    outside: ["position"],
    largeRanges: ["position"],
    n: "count",
  },
  { name: "individuals chart" },
);

export interface SubgroupChart {
  readonly centre: number;
  /** By subgroup, since sizes may differ. */
  readonly lower: readonly number[];
  readonly upper: readonly number[];
  readonly means: readonly number[];
  readonly sds: readonly number[];
  readonly sigma: number;
  readonly lowerSd: readonly number[];
  readonly upperSd: readonly number[];
  /** Places of the subgroups outside either chart. */
  readonly outside: readonly number[];
}

/**
 * X-bar and s charts: σ from the mean of s/c4, centre = mean of all, limits ± 3σ/√n for means and c4σ ± 3σ√(1 - c4²) for sds.
 * @param groups at least two subgroups of at least two finite numbers, in the order of time
 * @throws Undetermined on fewer subgroups or values
 * Source: ISO 7870-2:2013, 7; NIST/SEMATECH e-Handbook, 6.3.2.1.
 */
export function subgroupChartKernel(groups: readonly (readonly number[])[], options: object = {}): SubgroupChart {
  checkOptions(options, [], "subgroupChart");
  if (groups.length < 2) throw new Undetermined(`an X-bar chart needs at least 2 subgroups, got ${groups.length}`);
  groups.forEach((group) => checkValues(group, 2, "an X-bar chart"));
  const means = groups.map(meanOf);
  const sds = groups.map((group) => Math.sqrt(varianceOf(group)));
  const sigma = meanOf(sds.map((s, i) => s / c4(groups[i]!.length)));
  const centre = meanOf(groups.flat());
  const half = groups.map((group) => (3 * sigma) / Math.sqrt(group.length));
  const lowerSd = groups.map((group) =>
    Math.max(0, sigma * (c4(group.length) - 3 * Math.sqrt(1 - c4(group.length) ** 2))),
  );
  const upperSd = groups.map((group) => sigma * (c4(group.length) + 3 * Math.sqrt(1 - c4(group.length) ** 2)));
  return {
    centre,
    lower: half.map((h) => centre - h),
    upper: half.map((h) => centre + h),
    means,
    sds,
    sigma,
    lowerSd,
    upperSd,
    outside: means.flatMap((mean, i) =>
      Math.abs(mean - centre) > half[i]! || sds[i]! > upperSd[i]! || sds[i]! < lowerSd[i]! ? [i] : [],
    ),
  };
}

/** X-bar and s charts of measured values by one factor, whose levels are the subgroups in order of first appearance. */
export const subgroupChart = liftFactors(
  function subgroupChartByFactor(values: readonly number[], factors: Levels, options: object = {}) {
    const levels = levelsOf(factors, onlyFactor(factors, "an X-bar chart"), values.length, "an X-bar chart");
    const { names, groups } = groupsOf(values, levels);
    const chart = subgroupChartKernel(groups, options);
    return { ...chart, names, outside: chart.outside.map((i) => names[i]!) };
  },
  {
    centre: "same",
    lower: ["same"],
    upper: ["same"],
    means: ["same"],
    sds: ["same"],
    sigma: "same",
    lowerSd: ["same"],
    upperSd: ["same"],
    names: ["text"],
    outside: ["text"],
  },
  { name: "X-bar and s charts" },
);
