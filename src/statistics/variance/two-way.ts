import { liftFactors } from "../lift/lift-factors.js";
import { checkChoice, checkOptions, checkProbability } from "../numeric/guards.js";
import { fUpper } from "../numeric/distributions.js";
import type { Levels } from "../numeric/layout.js";
import { cellsOf, checkCells, levelsOf } from "../numeric/layout.js";
import { meanOf, squaredDeviations, sumOf } from "../numeric/sums.js";
import type { MeanSquareTerm, VarianceComponent } from "./modified-large-sample.js";
import { componentShape, modifiedLargeSampleKernel } from "./modified-large-sample.js";

export interface TwoWayOptions {
  /** "keep" or "pool" the interaction with the error, or "auto" (default): pool where its p-value is above `poolAbove`. */
  readonly interaction?: "auto" | "keep" | "pool";
  /** Default 0.25. */
  readonly poolAbove?: number;
  /** Level of the components' intervals; default 0.95. */
  readonly level?: number;
}

export interface TwoWayLine {
  readonly ss: number;
  readonly dof: number;
  readonly ms: number;
  /** Against the interaction (kept) or the pooled error; null for the error, and where that is 0. */
  readonly F: number | null;
  readonly pValue: number | null;
}

export interface TwoWay {
  readonly rows: TwoWayLine;
  readonly columns: TwoWayLine;
  /** Null with one value a cell, where it cannot be told from the error. */
  readonly interaction: TwoWayLine | null;
  readonly error: TwoWayLine;
  /** Whether the interaction is merged with the error in the components. */
  readonly pooled: boolean;
  readonly components: {
    readonly rows: VarianceComponent;
    readonly columns: VarianceComponent;
    /** Null where it is pooled. */
    readonly interaction: VarianceComponent | null;
    readonly error: VarianceComponent;
    /** Columns, interaction and error together: the gauge, where rows are parts and columns operators. */
    readonly gauge: VarianceComponent;
  };
}

/**
 * Two-way crossed analysis of variance with random rows and columns, balanced: sums of squares, F against the interaction, or
 * against the error pooled with it, and the components (MS_r - MS_rc)/(cn), (MS_c - MS_rc)/(rn), (MS_rc - MS_e)/n, MS_e with
 * modified-large-sample intervals.
 * @param cells cells[row][column][repeat], at least 2 x 2, the same number of values in each
 * @param options interaction: default "auto"; poolAbove: default 0.25; level: default 0.95
 * @throws Undetermined on fewer rows or columns, and on unbalanced data (use reml)
 * Source: Searle, Casella and McCulloch, Variance Components (1992), 4.3; AIAG, Measurement Systems Analysis (pooling).
 */
export function twoWayKernel(cells: readonly (readonly (readonly number[])[])[], options: TwoWayOptions = {}): TwoWay {
  checkOptions(options, ["interaction", "poolAbove", "level"], "twoWay");
  const { interaction: wish = "auto", poolAbove = 0.25, level = 0.95 } = options;
  checkChoice(wish, ["auto", "keep", "pool"], "interaction");
  checkProbability(poolAbove, "poolAbove");
  const {
    rows: r,
    columns: c,
    repeats: n,
  } = checkCells(cells, { rows: 2, columns: 2, repeats: 1 }, "a two-way analysis");
  const origin = cells[0]![0]![0]!;
  const at = cells.map((line) => line.map((cell) => cell.map((value) => value - origin)));
  const centre = meanOf(at.flat(2));
  const rowMeans = at.map((line) => meanOf(line.flat()));
  const columnMeans = at[0]!.map((_, j) => meanOf(at.flatMap((line) => line[j]!)));
  const ssRows = c * n * sumOf(rowMeans.map((m) => (m - centre) ** 2));
  const ssColumns = r * n * sumOf(columnMeans.map((m) => (m - centre) ** 2));
  const cellMeans = at.map((line) => line.map(meanOf));
  const ssInteraction =
    n * sumOf(cellMeans.flatMap((line, i) => line.map((m, j) => (m - rowMeans[i]! - columnMeans[j]! + centre) ** 2)));
  const ssError = sumOf(at.flatMap((line) => line.map(squaredDeviations)));
  const dofInteraction = (r - 1) * (c - 1);
  const dofError = r * c * (n - 1);
  const msInteraction = ssInteraction / dofInteraction;
  const msError = dofError === 0 ? 0 : ssError / dofError;
  const F = dofError === 0 || msError === 0 ? null : msInteraction / msError;
  const pInteraction = F === null ? null : fUpper(F, dofInteraction, dofError);
  const pooled = n === 1 || wish === "pool" || (wish === "auto" && pInteraction !== null && pInteraction > poolAbove);
  const base: MeanSquareTerm = pooled
    ? {
        coefficient: 1,
        meanSquare: (ssInteraction + ssError) / (dofInteraction + dofError),
        dof: dofInteraction + dofError,
      }
    : { coefficient: 1, meanSquare: msInteraction, dof: dofInteraction };
  const line = (ss: number, dof: number): TwoWayLine => {
    const ms = ss / dof;
    const f = base.meanSquare === 0 ? null : ms / base.meanSquare;
    return { ss, dof, ms, F: f, pValue: f === null ? null : fUpper(f, dof, base.dof) };
  };
  const rowLine = line(ssRows, r - 1);
  const columnLine = line(ssColumns, c - 1);
  const scaled = (ms: number, dof: number, coefficient: number): MeanSquareTerm => ({
    coefficient,
    meanSquare: ms,
    dof,
  });
  const mls = (...terms: MeanSquareTerm[]): VarianceComponent => modifiedLargeSampleKernel(terms, { level });
  const less = (ms: number, dof: number, by: number): VarianceComponent =>
    mls(scaled(ms, dof, 1 / by), { ...base, coefficient: -1 / by });
  const gauge = pooled
    ? mls(scaled(columnLine.ms, c - 1, 1 / (r * n)), { ...base, coefficient: 1 - 1 / (r * n) })
    : mls(
        scaled(columnLine.ms, c - 1, 1 / (r * n)),
        scaled(msInteraction, dofInteraction, (r - 1) / (r * n)),
        scaled(msError, dofError, (n - 1) / n),
      );
  const ownError = scaled(msError, dofError, 1);
  return {
    rows: rowLine,
    columns: columnLine,
    interaction:
      n === 1 ? null : { ss: ssInteraction, dof: dofInteraction, ms: msInteraction, F, pValue: pInteraction },
    error: {
      ss: n === 1 ? ssInteraction : ssError,
      dof: n === 1 ? dofInteraction : dofError,
      ms: n === 1 ? msInteraction : msError,
      F: null,
      pValue: null,
    },
    pooled,
    components: {
      rows: less(rowLine.ms, r - 1, c * n),
      columns: less(columnLine.ms, c - 1, r * n),
      interaction: pooled
        ? null
        : mls(scaled(msInteraction, dofInteraction, 1 / n), { ...ownError, coefficient: -1 / n }),
      error: pooled ? mls(base) : mls(ownError),
      gauge,
    },
  };
}

const lineShape = { ss: "squared", dof: "count", ms: "squared", F: "statistic", pValue: "statistic" } as const;

/** Two-way crossed analysis of measured values; the factors are named `rows` and `columns`. */
export const twoWay = liftFactors(
  function twoWayByFactors(values: readonly number[], factors: Levels, options: TwoWayOptions = {}) {
    const name = "a two-way analysis";
    const rows = levelsOf(factors, "rows", values.length, name);
    const columns = levelsOf(factors, "columns", values.length, name);
    const result = twoWayKernel(cellsOf(values, rows, columns, name).cells, options);
    const none = { ss: null, dof: 0, ms: null, F: null, pValue: null };
    return {
      ...result,
      interaction: result.interaction ?? none,
      components: {
        ...result.components,
        interaction: result.components.interaction ?? { variance: null, raw: null, lower: null, upper: null, sd: null },
      },
    };
  },
  {
    rows: lineShape,
    columns: lineShape,
    interaction: lineShape,
    error: lineShape,
    pooled: "flag",
    components: {
      rows: componentShape,
      columns: componentShape,
      interaction: componentShape,
      error: componentShape,
      gauge: componentShape,
    },
  },
  { name: "two-way analysis of variance" },
);
