import { liftFactors } from "../lift/lift-factors.js";
import { holmKernel } from "../tests/multiplicity.js";
import { Undetermined, checkOptions, checkValues } from "../numeric/guards.js";
import { fUpper } from "../numeric/distributions.js";
import { leastSquares } from "../numeric/least-squares.js";
import type { Levels } from "../numeric/layout.js";
import { distinct, levelsOf } from "../numeric/layout.js";
import { meanOf, squaredDeviations } from "../numeric/sums.js";

export interface FactorEffect {
  readonly factor: string;
  readonly ss: number;
  readonly dof: number;
  readonly F: number | null;
  readonly pValue: number | null;
  /** p-value adjusted over the factors by Holm. */
  readonly adjusted: number | null;
  /** Effect of each level, less the mean of the effects, in order of first appearance. */
  readonly effects: readonly { readonly level: string; readonly effect: number }[];
}

export interface FactorEffects {
  readonly factors: readonly FactorEffect[];
  readonly residualSd: number;
  readonly residualDof: number;
}

/**
 * Effects of fixed factors in an additive model, each tested by what the residual sum of squares gains without it (partial F),
 * such as row, column and hand of a key; p-values adjusted over the factors by Holm.
 * @param values finite numbers, more than one plus Σ(levels - 1)
 * @param factors levels of each factor, at least two levels of each
 * @throws Undetermined where a factor has one level, cannot be separated from the others, or leaves no residual
 * Source: Searle, Linear Models (1971), 8.1 (partial sums of squares); Holm 1979.
 */
export function factorEffectsKernel(values: readonly number[], factors: Levels, options: object = {}): FactorEffects {
  checkOptions(options, [], "factorEffects");
  checkValues(values, 3, "factor effects");
  const names = Object.keys(factors);
  if (names.length === 0) throw new RangeError("factor effects need at least one factor");
  const blocks = names.map((name) => {
    const at = levelsOf(factors, name, values.length, "factor effects");
    const levels = distinct(at);
    if (levels.length < 2) throw new Undetermined(`the effect of ${name} needs at least 2 levels, got 1`);
    return { name, levels, columns: levels.slice(1).map((level) => at.map((own) => (own === level ? 1 : 0))) };
  });
  const constant = values.map(() => 1);
  const origin = meanOf(values);
  const y = values.map((value) => value - origin);
  const columnsOf = (list: readonly (typeof blocks)[number][]): number[][] => [
    constant,
    ...list.flatMap((b) => b.columns),
  ];
  const needed = 2 + blocks.reduce((total, block) => total + block.columns.length, 0);
  if (values.length < needed)
    throw new Undetermined(`factor effects need at least ${needed} values, got ${values.length}`);
  let full: ReturnType<typeof leastSquares>;
  try {
    full = leastSquares(columnsOf(blocks), y);
  } catch (error) {
    if (!(error instanceof Undetermined)) throw error;
    throw new Undetermined(`the design cannot separate the effects of ${names.join(", ")} from one another`);
  }
  const variance = full.residualSumOfSquares / full.dof;
  const exact = full.residualSumOfSquares <= 1e-28 * squaredDeviations(values);
  let from = 1;
  const plain = blocks.map((block) => {
    const rest = leastSquares(columnsOf(blocks.filter((other) => other !== block)), y);
    const ss = rest.residualSumOfSquares - full.residualSumOfSquares;
    const dof = block.columns.length;
    const F = exact ? null : ss / dof / variance;
    const raw = [0, ...full.coefficients.slice(from, from + dof)];
    from += dof;
    const centre = meanOf(raw);
    return {
      factor: block.name,
      ss,
      dof,
      F,
      pValue: F === null ? null : fUpper(F, dof, full.dof),
      effects: block.levels.map((level, i) => ({ level, effect: raw[i]! - centre })),
    };
  });
  const adjusted = exact ? null : holmKernel(plain.map((effect) => effect.pValue!));
  return {
    factors: plain.map((effect, i) => ({ ...effect, adjusted: adjusted === null ? null : adjusted[i]! })),
    residualSd: full.residualSd,
    residualDof: full.dof,
  };
}

/** Effects of fixed factors on measured values, such as row, column and hand of a key. */
export const factorEffects = liftFactors(
  factorEffectsKernel,
  {
    factors: [
      {
        factor: "text",
        ss: "squared",
        dof: "count",
        F: "statistic",
        pValue: "statistic",
        adjusted: "statistic",
        effects: [{ level: "text", effect: "same" }],
      },
    ],
    residualSd: "same",
    residualDof: "count",
  },
  { name: "effects of factors" },
);
