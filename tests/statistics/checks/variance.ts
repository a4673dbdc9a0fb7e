import {
  betweenSdKernel,
  cheapestPlanKernel,
  factorEffectsKernel,
  gaugeStudyKernel,
  intraclassKernel,
  meanUncertaintyKernel,
  modifiedLargeSampleKernel,
  nestedKernel,
  oneWayKernel,
  precisionKernel,
  remlKernel,
  twoWayKernel,
} from "../../../src/statistics/index.js";
import type { VarianceComponent } from "../../../src/statistics/index.js";
import type { Check, Stored } from "./check.js";
import { computed, entryOf, published } from "./check.js";
import { creosoteGroups } from "./outliers.js";

const three = ({ raw, lower, upper }: VarianceComponent): unknown => [raw, lower, upper];

/** data[operator][part][repeat] as cells[part][operator][repeat]. */
function partsFirst(data: number[][][]): number[][][] {
  return data[0]!.map((_, part) => data.map((operator) => operator[part]!));
}

/** The cells as one list with the levels of each value. */
function flat(cells: number[][][]): { values: number[]; factors: Record<string, string[]> } {
  const values: number[] = [];
  const factors: Record<string, string[]> = { part: [], operator: [], cell: [] };
  cells.forEach((line, p) =>
    line.forEach((cell, o) =>
      cell.forEach((value) => {
        values.push(value);
        factors["part"]!.push(`p${p}`);
        factors["operator"]!.push(`o${o}`);
        factors["cell"]!.push(`p${p} o${o}`);
      }),
    ),
  );
  return { values, factors };
}

function remlAgainst(name: string): Check {
  return computed(
    "remlKernel",
    "r",
    name,
    ({ y, factors, fixed }: Stored) => {
      const { components, criterion, mean } = remlKernel(y, factors, { fixed, intervals: false });
      const found = Object.fromEntries(
        components.map((c) => [c.name === "residual" ? "Residual" : c.name, c.variance]),
      );
      // The stored order of the components is the other program's.
      const order =
        name === "remlNested"
          ? ["key", "unit", "Residual"]
          : name === "remlOneWay" || name === "remlZero"
            ? ["unit", "Residual"]
            : ["unit", "operator", "Residual"];
      return { components: order.map((key) => found[key]), criterion, mean };
    },
    { rel: 1e-5, abs: 1e-7 },
  );
}

export const varianceChecks: readonly Check[] = [
  published("oneWayKernel", "nist-strd-anova", "strd-anova-sirstv", ({ groups }) => {
    const found = oneWayKernel(groups);
    return {
      dfBetween: found.dofBetween,
      dfWithin: found.dofWithin,
      ssBetween: found.ssBetween,
      ssWithin: found.ssWithin,
      F: found.F,
      rSquared: found.rSquared,
      residualStandardDeviation: found.residualSd,
    };
  }),
  published("oneWayKernel", "nist-handbook-examples", "hb-gear-anova", () => {
    const found = oneWayKernel(gear());
    return {
      ssBetween: found.ssBetween,
      ssWithin: found.ssWithin,
      F: found.F,
      residualStandardDeviation: found.residualSd,
      p: found.pValue,
      batchMean1: found.groupMeans[0],
      batchMean10: found.groupMeans[9],
    };
  }),
  published("oneWayKernel", "nonparametric-and-tests", "plantgrowth-tukey", ({ groups }) => ({
    F: oneWayKernel(groups).F,
    p: oneWayKernel(groups).pValue,
  })),
  computed("oneWayKernel", "r", "oneWay", ({ groups }) => {
    const found = oneWayKernel(groups);
    return {
      ssBetween: found.ssBetween,
      ssWithin: found.ssWithin,
      F: found.F,
      pValue: found.pValue,
      between: found.between.raw,
      interval: [found.between.lower, found.between.upper],
      within: [found.within.lower, found.within.upper],
    };
  }),
  computed("modifiedLargeSampleKernel", "r", "modifiedLargeSample", ({ ms, dof, by }) => {
    const term = (coefficient: number, i: number) => ({ coefficient, meanSquare: ms[i], dof: dof[i] });
    const difference = modifiedLargeSampleKernel([term(1 / by, 0), term(-1 / by, 1)]);
    const sum = modifiedLargeSampleKernel([term(0.25, 0), term(0.75, 1)]);
    return { difference: [difference.lower, difference.upper], sum: [sum.lower, sum.upper] };
  }),
  published("twoWayKernel", "msa-gauge-rr", "msa-crossed-anova", ({ data }) => {
    const found = twoWayKernel(partsFirst(data));
    return {
      ssAppraiser: found.columns.ss,
      ssPart: found.rows.ss,
      ssInteraction: found.interaction?.ss,
      ssEquipment: found.error.ss,
      dfAppraiser: found.columns.dof,
      dfPart: found.rows.dof,
      dfInteraction: found.interaction?.dof,
      dfEquipment: found.error.dof,
      FInteraction: found.interaction?.F,
      pInteraction: found.interaction?.pValue,
    };
  }),
  published("twoWayKernel", "msa-gauge-rr", "msa-crossed-anova-full", () => {
    const found = twoWayKernel(partsFirst(msa()), { interaction: "keep" });
    return {
      varEquipment: found.components.error.raw,
      varInteraction: found.components.interaction?.raw,
      varAppraiser: found.components.columns.raw,
      varPart: found.components.rows.raw,
      FAppraiserOverInteraction: found.columns.F,
      FPartOverInteraction: found.rows.F,
    };
  }),
  published("twoWayKernel", "msa-gauge-rr", "iso22514-7-table-a4", ({ data }) => {
    const pooled = twoWayKernel(partsFirst(data), { interaction: "pool" });
    const full = twoWayKernel(partsFirst(data), { interaction: "keep" });
    return {
      ssExact: [pooled.columns.ss, pooled.rows.ss, full.interaction?.ss, full.error.ss],
      msPooled: pooled.components.error.raw,
      varPartPooled: pooled.components.rows.raw,
      FOperatorPooled: pooled.columns.F,
      varErrorFullExact: full.components.error.raw,
      varInteractionFullExact: full.components.interaction?.raw,
      varOperatorFullExact: full.components.columns.raw,
    };
  }),
  computed("twoWayKernel", "r", "twoWay", ({ cells }) => {
    const found = twoWayKernel(cells, { interaction: "keep" });
    const { components } = found;
    return {
      ss: [found.rows.ss, found.columns.ss, found.interaction?.ss, found.error.ss],
      fInteraction: found.interaction?.F,
      pInteraction: found.interaction?.pValue,
      fRows: found.rows.F,
      pRows: found.rows.pValue,
      rows: three(components.rows),
      columns: three(components.columns),
      interaction: three(components.interaction!),
      error: three(components.error),
      gauge: three(components.gauge),
    };
  }),
  published("gaugeStudyKernel", "msa-gauge-rr", "msa-crossed-anova", ({ data }) => {
    const found = gaugeStudyKernel(partsFirst(data));
    return {
      EV: found.repeatability,
      AV: found.reproducibility,
      GRR: found.gauge,
      PV: found.part,
      TV: found.total,
      pctContributionEV: 100 * found.contribution!.repeatability,
      pctContributionAV: 100 * found.contribution!.reproducibility,
      pctContributionGRR: 100 * found.contribution!.gauge,
      pctContributionPV: 100 * found.contribution!.part,
      pctGRR: 100 * found.shareOfTotal!,
      ndcUnrounded: found.distinctCategories,
    };
  }),
  computed("gaugeStudyKernel", "r", "gaugeStudy", ({ cells, tolerance }) => {
    const {
      repeatability,
      reproducibility,
      interaction,
      gauge,
      part,
      shareOfTotal,
      shareOfTolerance,
      distinctCategories,
    } = gaugeStudyKernel(cells, { tolerance, interaction: "keep" });
    return {
      repeatability,
      reproducibility,
      interaction,
      gauge,
      part,
      shareOfTotal,
      shareOfTolerance,
      distinctCategories,
    };
  }),
  published("nestedKernel", "nist-handbook-examples", "hb-gauge-nested-2362", ({ rows }) => {
    const [, run, repeat] = nestedKernel(
      rows.map((row: number[]) => row[3]),
      { wafer: rows.map((row: number[]) => `${row[1]}`), run: rows.map((row: number[]) => `${row[0]}`) },
    );
    return {
      level2Sd: Math.sqrt(repeat!.ms),
      level2Df: repeat!.dof,
      level3Sd: Math.sqrt(run!.ms / 6),
      level3Df: run!.dof,
      sRuns2: run!.component.raw,
    };
  }),
  computed("nestedKernel", "r", "nested", ({ y, a, b, c }) => {
    const lines = nestedKernel(y, { a, b, c });
    return {
      ss: lines.map((line) => line.ss),
      dof: lines.map((line) => line.dof),
      f: lines.slice(0, 3).map((line) => line.F),
      components: lines.map((line) => line.component.raw),
    };
  }),
  // No published unbalanced example is at hand: on balanced data the estimates must be those of the analysis of variance.
  published("remlKernel", "msa-gauge-rr", "iso22514-7-table-a4", ({ data }) => {
    const { values, factors } = flat(partsFirst(data));
    const [, operator, cell, residual] = remlKernel(values, factors, { intervals: false }).components;
    return {
      varOperatorFullExact: operator!.variance,
      varInteractionFullExact: cell!.variance,
      varErrorFullExact: residual!.variance,
    };
  }),
  remlAgainst("remlOneWay"),
  remlAgainst("remlCrossed"),
  remlAgainst("remlFixed"),
  remlAgainst("remlNested"),
  remlAgainst("remlZero"),
  computed(
    "remlKernel",
    "r",
    "remlProfile",
    ({ y, unit }) => {
      const [component] = remlKernel(y, { unit }).components;
      return { interval: [component!.lower, component!.upper] };
    },
    { rel: 1e-5 },
  ),
  published("precisionKernel", "interlaboratory", "iso5725-creosote-level5", (input) => {
    const all = precisionKernel(creosoteGroups(input));
    const without = precisionKernel(creosoteGroups(input).filter((_, i) => i !== 0 && i !== 5));
    return {
      mean: all.mean,
      sr: all.repeatabilitySd,
      sLsquared: all.betweenRaw,
      sR: all.reproducibilitySd,
      without1and6mean: without.mean,
      without1and6sr: without.repeatabilitySd,
      without1and6sR: without.reproducibilitySd,
    };
  }),
  published("precisionKernel", "interlaboratory", "mandel-pentosans", ({ results }) => ({
    average: results.map((groups: number[][]) => precisionKernel(groups).mean),
    sr: results.map((groups: number[][]) => precisionKernel(groups).repeatabilitySd),
    sR: results.map((groups: number[][]) => precisionKernel(groups).reproducibilitySd),
  })),
  computed("precisionKernel", "r", "precision", ({ groups }) => {
    const { mean, repeatabilitySd, betweenSd, reproducibilitySd } = precisionKernel(groups);
    return { mean, repeatabilitySd, betweenSd, reproducibilitySd };
  }),
  published("intraclassKernel", "method-comparison-regression", "shrout-fleiss-icc", ({ ratings }) => {
    const found = intraclassKernel(ratings);
    const ends = ({ lower, upper }: { lower: number; upper: number }): unknown => [lower, upper];
    return {
      ICC11exact: found.icc11.value,
      ICC21exact: found.icc21.value,
      ICC31exact: found.icc31.value,
      ICC14exact: found.icc1k.value,
      ICC24exact: found.icc2k.value,
      ICC34exact: found.icc3k.value,
      F1: found.F1,
      F3: found.F3,
      ICC11ci95: ends(found.icc11),
      ICC21ci95: ends(found.icc21),
      ICC31ci95: ends(found.icc31),
      ICC34ci95: ends(found.icc3k),
    };
  }),
  computed("intraclassKernel", "r", "intraclass", ({ ratings }) => {
    const { icc11, icc21, icc31, icc1k, icc2k, icc3k, p1 } = intraclassKernel(ratings);
    return { value: [icc11, icc21, icc31, icc1k, icc2k, icc3k].map((form) => form.value), p1 };
  }),
  // With one factor the partial F is that of the one-way analysis.
  published("factorEffectsKernel", "nonparametric-and-tests", "plantgrowth-tukey", ({ groups }) => {
    const [effect] = factorEffectsKernel(groups.flat(), {
      group: groups.flatMap((group: number[], i: number) => group.map(() => `g${i}`)),
    }).factors;
    return { F: effect!.F, p: effect!.pValue };
  }),
  computed("factorEffectsKernel", "r", "factorEffects", ({ y, factors }) => {
    const found = factorEffectsKernel(y, factors);
    return {
      ss: found.factors.map((effect) => effect.ss),
      F: found.factors.map((effect) => effect.F),
      pValue: found.factors.map((effect) => effect.pValue),
      adjusted: found.factors.map((effect) => effect.adjusted),
      residualSd: found.residualSd,
    };
  }),
  computed("betweenSdKernel", "r", "betweenSd", ({ x, repeatSd, repeats }) => {
    const { sd, lower, upper } = betweenSdKernel(x, { repeatSd, repeats });
    return { sd, interval: [lower, upper] };
  }),
  // Days within runs: the average of six readings, cleaned of their repeatability.
  published("betweenSdKernel", "nist-handbook-examples", "hb-gauge-nested-2362", () => {
    const level2 = 0.036168241;
    const level1 = 0.072866725;
    // Two values with the level-2 sd stand for the days, whose own sd is printed.
    const half = level2 / Math.SQRT2;
    return { sDays: betweenSdKernel([-half, half], { repeatSd: level1, repeats: 6 }).sd };
  }),
  computed("meanUncertaintyKernel", "r", "planning", ({ scatter, keys, cycles }) => ({
    u: keys.map((n: number) => meanUncertaintyKernel(scatter, n, cycles)),
  })),
  computed("cheapestPlanKernel", "r", "planning", ({ scatter, wantedU, cost }) => {
    const { keys, cycles, cost: total } = cheapestPlanKernel(scatter, { wantedU, cost });
    return { plan: [keys, cycles, total] };
  }),
];

function gear(): number[][] {
  return entryOf("nist-handbook-examples", "hb-gear-bartlett").input.groups;
}

function msa(): number[][][] {
  return entryOf("msa-gauge-rr", "msa-crossed-anova").input.data;
}
