import { lift } from "../lift/lift.js";
import { checkOptions, checkProbability, checkValues } from "../numeric/guards.js";
import { ascending } from "../numeric/sums.js";

export interface EcdfPoint {
  readonly value: number;
  /** Share of the values at most this one. */
  readonly share: number;
  readonly lower: number;
  readonly upper: number;
}

export interface Ecdf {
  /** One a value, ascending; tied values have the same share. */
  readonly points: readonly EcdfPoint[];
  /** Half-width of the band. */
  readonly halfWidth: number;
  readonly n: number;
}

/**
 * Empirical distribution function with a simultaneous confidence band: share ± √(ln(2/α)/(2n)), cut to 0 and 1.
 * @param values at least one finite number in any order
 * @param options level: default 0.95
 * @throws Undetermined on no values; RangeError on a level outside 0 to 1
 * Source: Dvoretzky, Kiefer and Wolfowitz 1956 with the constant of Massart, Annals of Probability 18 (1990) 1269.
 */
export function ecdfKernel(values: readonly number[], options: { readonly level?: number } = {}): Ecdf {
  checkOptions(options, ["level"], "ecdf");
  const level = options.level ?? 0.95;
  checkProbability(level, "level");
  checkValues(values, 1, "an empirical distribution function");
  const n = values.length;
  const halfWidth = Math.sqrt(Math.log(2 / (1 - level)) / (2 * n));
  const sorted = ascending(values);
  let share = 0;
  const points = [...sorted].reverse().map((value, i): EcdfPoint => {
    const at = n - i;
    if (i === 0 || value !== sorted[at]) share = at / n;
    return { value, share, lower: Math.max(0, share - halfWidth), upper: Math.min(1, share + halfWidth) };
  });
  return { points: points.reverse(), halfWidth, n };
}

/** Empirical distribution function of measured values. */
export const ecdf = lift(
  ecdfKernel,
  {
    points: [{ value: "same", share: "statistic", lower: "statistic", upper: "statistic" }],
    halfWidth: "statistic",
    n: "count",
  },
  { name: "empirical distribution function" },
);
