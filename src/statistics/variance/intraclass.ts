import { liftFactors } from "../lift/lift-factors.js";
import { Undetermined, checkOptions, checkProbability } from "../numeric/guards.js";
import { fQuantile, fUpper } from "../numeric/distributions.js";
import type { Levels } from "../numeric/layout.js";
import { cellsOf, checkCells, levelsOf } from "../numeric/layout.js";
import { twoWayKernel } from "./two-way.js";

export interface IntraclassForm {
  readonly value: number;
  readonly lower: number;
  readonly upper: number;
}

export interface Intraclass {
  /** One rating; each target rated by other raters. */
  readonly icc11: IntraclassForm;
  /** One rating; raters are a random sample (absolute agreement). */
  readonly icc21: IntraclassForm;
  /** One rating; these raters only (consistency). */
  readonly icc31: IntraclassForm;
  /** Mean of the k ratings, as above. */
  readonly icc1k: IntraclassForm;
  readonly icc2k: IntraclassForm;
  readonly icc3k: IntraclassForm;
  /** F of the targets against the within mean square and against the residual, and their p-values. */
  readonly F1: number;
  readonly p1: number;
  readonly F3: number;
  readonly p3: number;
}

/**
 * The six intraclass correlations of Shrout and Fleiss from a two-way table of n targets by k raters, with F-based intervals
 * (Satterthwaite for the forms with random raters).
 * @param ratings ratings[target][rater], at least 2 x 2 finite numbers without gaps
 * @param options level: default 0.95
 * @throws Undetermined on fewer, and where the residual mean square is 0
 * Source: Shrout and Fleiss, Psychological Bulletin 86 (1979) 420; McGraw and Wong, Psychological Methods 1 (1996) 30.
 */
export function intraclassKernel(
  ratings: readonly (readonly number[])[],
  options: { readonly level?: number } = {},
): Intraclass {
  checkOptions(options, ["level"], "intraclass");
  const level = options.level ?? 0.95;
  checkProbability(level, "level");
  const cells = ratings.map((line) => line.map((value) => [value]));
  const { rows: n, columns: k } = checkCells(cells, { rows: 2, columns: 2, repeats: 1 }, "intraclass correlation");
  const table = twoWayKernel(cells);
  const b = table.rows.ms;
  const j = table.columns.ms;
  const e = table.error.ms;
  const w = (table.columns.ss + table.error.ss) / (n * (k - 1));
  if (e === 0) throw new Undetermined("intraclass correlation needs scatter beside that of targets and raters");
  const upper = (1 + level) / 2;
  const F1 = b / w;
  const F3 = b / e;
  const dofB = n - 1;
  const dofW = n * (k - 1);
  const dofE = (n - 1) * (k - 1);
  const single = (F: number): number => (F - 1) / (F + k - 1);
  const forms = (F: number, dof: number): { one: IntraclassForm; mean: IntraclassForm } => {
    const low = F / fQuantile(upper, dofB, dof);
    const high = F * fQuantile(upper, dof, dofB);
    return {
      one: { value: single(F), lower: single(low), upper: single(high) },
      mean: { value: 1 - 1 / F, lower: 1 - 1 / low, upper: 1 - 1 / high },
    };
  };
  const first = forms(F1, dofW);
  const third = forms(F3, dofE);
  const rho = (b - e) / (b + (k - 1) * e + (k * (j - e)) / n);
  const Fj = j / e;
  const inner = n * (1 + (k - 1) * rho) - k * rho;
  const v = (dofE * (k * rho * Fj + inner) ** 2) / (dofB * k * k * rho * rho * Fj * Fj + inner * inner);
  const f1 = fQuantile(upper, dofB, v);
  const f2 = fQuantile(upper, v, dofB);
  const rest = k * j + (k * n - k - n) * e;
  const lower2 = (n * (b - f1 * e)) / (f1 * rest + n * b);
  const upper2 = (n * (f2 * b - e)) / (rest + n * f2 * b);
  const ofMean = (one: number): number => (k * one) / (1 + (k - 1) * one);
  return {
    icc11: first.one,
    icc21: { value: rho, lower: lower2, upper: upper2 },
    icc31: third.one,
    icc1k: first.mean,
    icc2k: { value: (b - e) / (b + (j - e) / n), lower: ofMean(lower2), upper: ofMean(upper2) },
    icc3k: third.mean,
    F1,
    p1: fUpper(F1, dofB, dofW),
    F3,
    p3: fUpper(F3, dofB, dofE),
  };
}

const form = { value: "ratio", lower: "ratio", upper: "ratio" } as const;

/** Intraclass correlations of measured values; the factors are named `target` and `rater`. */
export const intraclass = liftFactors(
  function intraclassByFactors(values: readonly number[], factors: Levels, options: { readonly level?: number } = {}) {
    const name = "intraclass correlation";
    const { cells } = cellsOf(
      values,
      levelsOf(factors, "target", values.length, name),
      levelsOf(factors, "rater", values.length, name),
      name,
    );
    if (cells[0]![0]!.length !== 1) throw new Undetermined(`${name} takes one rating a target and rater`);
    return intraclassKernel(
      cells.map((line) => line.map((cell) => cell[0]!)),
      options,
    );
  },
  {
    icc11: form,
    icc21: form,
    icc31: form,
    icc1k: form,
    icc2k: form,
    icc3k: form,
    F1: "statistic",
    p1: "statistic",
    F3: "statistic",
    p3: "statistic",
  },
  { name: "intraclass correlation" },
);
