import { Quantity } from "../../metrology/quantity.js";
import { count } from "../describe/count.js";
import { Undetermined, checkChoice, checkOptions, checkProbability, checkWhole } from "../numeric/guards.js";
import { betaQuantile, normalQuantile } from "../numeric/distributions.js";

export interface ProportionOptions {
  /** Confidence level between 0 and 1; default 0.95. */
  readonly level?: number;
  /** "wilson" (score, default) or "exact" (Clopper-Pearson, never below the level). */
  readonly method?: "wilson" | "exact";
}

export interface ProportionInterval {
  readonly proportion: number;
  readonly lower: number;
  readonly upper: number;
}

/**
 * Confidence interval of a proportion by Wilson's score method (default) or by Clopper and Pearson's exact one.
 * @param successes whole number from 0 to n
 * @param n whole number of at least 1
 * @param options level: default 0.95; method: "wilson" or "exact"
 * @throws Undetermined for n = 0; RangeError on counts that are not whole or exceed n
 * Source: Wilson, Journal of the American Statistical Association 22 (1927) 209; Clopper and Pearson, Biometrika 26 (1934) 404.
 */
export function proportionIntervalKernel(
  successes: number,
  n: number,
  options: ProportionOptions = {},
): ProportionInterval {
  checkOptions(options, ["level", "method"], "proportionInterval");
  const { level = 0.95, method = "wilson" } = options;
  checkProbability(level, "level");
  checkChoice(method, ["wilson", "exact"], "method");
  checkWhole(n, 0, "the number of trials");
  checkWhole(successes, 0, "the number of successes");
  if (n === 0) throw new Undetermined("a proportion needs at least 1 item, got 0");
  if (successes > n) throw new RangeError(`${successes} successes of ${n} trials`);
  const proportion = successes / n;
  if (method === "exact") {
    const tail = (1 - level) / 2;
    return {
      proportion,
      lower: successes === 0 ? 0 : betaQuantile(tail, successes, n - successes + 1),
      upper: successes === n ? 1 : betaQuantile(1 - tail, successes + 1, n - successes),
    };
  }
  const z = normalQuantile((1 + level) / 2);
  const centre = (proportion + (z * z) / (2 * n)) / (1 + (z * z) / n);
  const half = (z / (1 + (z * z) / n)) * Math.sqrt((proportion * (1 - proportion)) / n + (z * z) / (4 * n * n));
  return {
    proportion,
    lower: successes === 0 ? 0 : Math.max(0, centre - half),
    upper: successes === n ? 1 : Math.min(1, centre + half),
  };
}

/** Proportion of items that pass a test, with its interval; the evidence is that of the items. */
export function proportionInterval<T>(
  items: readonly T[],
  passes: (item: T) => boolean,
  options: ProportionOptions = {},
): { readonly [K in keyof ProportionInterval]: Quantity<"1"> } {
  const result = proportionIntervalKernel(items.filter(passes).length, items.length, options);
  const { evidence } = count(items);
  return {
    proportion: new Quantity(result.proportion, "1", [], evidence),
    lower: new Quantity(result.lower, "1", [], evidence),
    upper: new Quantity(result.upper, "1", [], evidence),
  };
}
