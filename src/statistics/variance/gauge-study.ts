import { liftFactors } from "../lift/lift-factors.js";
import { checkOptions, checkPositive } from "../numeric/guards.js";
import type { Levels } from "../numeric/layout.js";
import { cellsOf, levelsOf } from "../numeric/layout.js";
import type { TwoWayOptions } from "./two-way.js";
import { twoWayKernel } from "./two-way.js";

export interface GaugeStudyOptions extends TwoWayOptions {
  /** Width of the tolerance, upper limit less lower limit, in the unit of the values; without it no share of it is given. */
  readonly tolerance?: number;
}

export interface GaugeStudy {
  /** Equipment variation: sd of repeated readings. */
  readonly repeatability: number;
  /** Appraiser variation: sd between operators. */
  readonly reproducibility: number;
  /** Sd of the interaction of operator and part; null where it is pooled with repeatability. */
  readonly interaction: number | null;
  /** All of these together. */
  readonly gauge: number;
  readonly gaugeLower: number;
  readonly gaugeUpper: number;
  readonly part: number;
  readonly total: number;
  /** Share of each in the total variance; they add up to 1. */
  readonly contribution: {
    readonly repeatability: number;
    readonly reproducibility: number;
    readonly interaction: number | null;
    readonly gauge: number;
    readonly part: number;
  } | null;
  /** Gauge sd over total sd. */
  readonly shareOfTotal: number | null;
  /** 6 gauge sd over the tolerance's width; null without a tolerance. */
  readonly shareOfTolerance: number | null;
  /** 1.41 part sd over gauge sd, not rounded; null where the gauge sd is 0. The number of categories is this rounded down. */
  readonly distinctCategories: number | null;
  readonly pooled: boolean;
}

/**
 * Crossed gauge study by analysis of variance: sds of repeatability, reproducibility, interaction, gauge (with its
 * modified-large-sample interval) and part, their shares of the total and of the tolerance, number of distinct categories.
 * @param cells cells[part][operator][repeat], balanced, at least 2 x 2 cells of 2
 * @param options those of `twoWay`, and the width of the tolerance
 * @throws Undetermined on too few or unbalanced data; RangeError on a tolerance that is not above 0
 * Source: AIAG, Measurement Systems Analysis (4th ed. 2010), III.B; Burdick, Borror and Montgomery, Journal of Quality
 * Technology 35 (2003) 342 (interval).
 */
export function gaugeStudyKernel(
  cells: readonly (readonly (readonly number[])[])[],
  options: GaugeStudyOptions = {},
): GaugeStudy {
  checkOptions(options, ["interaction", "poolAbove", "level", "tolerance"], "gaugeStudy");
  const { tolerance, ...rest } = options;
  if (tolerance !== undefined) checkPositive(tolerance, "tolerance");
  const { components, pooled } = twoWayKernel(cells, rest);
  const equipment = components.error.variance;
  const operator = components.columns.variance;
  const interaction = components.interaction?.variance ?? null;
  const gauge = equipment + operator + (interaction ?? 0);
  const part = components.rows.variance;
  const total = gauge + part;
  return {
    repeatability: Math.sqrt(equipment),
    reproducibility: Math.sqrt(operator),
    interaction: interaction === null ? null : Math.sqrt(interaction),
    gauge: Math.sqrt(gauge),
    gaugeLower: Math.sqrt(components.gauge.lower ?? 0),
    gaugeUpper: Math.sqrt(components.gauge.upper ?? 0),
    part: Math.sqrt(part),
    total: Math.sqrt(total),
    contribution:
      total === 0
        ? null
        : {
            repeatability: equipment / total,
            reproducibility: operator / total,
            interaction: interaction === null ? null : interaction / total,
            gauge: gauge / total,
            part: part / total,
          },
    shareOfTotal: total === 0 ? null : Math.sqrt(gauge / total),
    shareOfTolerance: tolerance === undefined ? null : (6 * Math.sqrt(gauge)) / tolerance,
    distinctCategories: gauge === 0 ? null : 1.41 * Math.sqrt(part / gauge),
    pooled,
  };
}

/** Crossed gauge study of measured values; the factors are named `part` and `operator`. */
export const gaugeStudy = liftFactors(
  function gaugeStudyByFactors(values: readonly number[], factors: Levels, options: GaugeStudyOptions = {}) {
    const name = "a gauge study";
    const parts = levelsOf(factors, "part", values.length, name);
    const operators = levelsOf(factors, "operator", values.length, name);
    return gaugeStudyKernel(cellsOf(values, parts, operators, name).cells, options);
  },
  {
    repeatability: "same",
    reproducibility: "same",
    interaction: "same",
    gauge: "same",
    gaugeLower: "same",
    gaugeUpper: "same",
    part: "same",
    total: "same",
    contribution: {
      repeatability: "ratio",
      reproducibility: "ratio",
      interaction: "ratio",
      gauge: "ratio",
      part: "ratio",
    },
    shareOfTotal: "ratio",
    shareOfTolerance: "ratio",
    distinctCategories: "ratio",
    pooled: "flag",
  },
  { name: "gauge study" },
);
