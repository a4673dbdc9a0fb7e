import { lift } from "../lift/lift.js";
import { checkOptions, checkPositive, checkValues } from "../numeric/guards.js";
import { madKernel } from "../describe/robust.js";
import { quantileOfSorted } from "../describe/quantile.js";
import { ascending, medianOf } from "../numeric/sums.js";

export interface Fences {
  readonly rule: string;
  readonly lower: number;
  readonly upper: number;
  /** Places of the values outside. */
  readonly outside: readonly number[];
  readonly n: number;
}

function outsideOf(values: readonly number[], lower: number, upper: number): readonly number[] {
  return values.flatMap((value, place) => (value < lower || value > upper ? [place] : []));
}

/**
 * Hampel's identifier: values further than `factor` times 1.4826 median absolute deviations from the median are outside.
 * A fence marks, it does not test: it has a false-flag rate, not a p-value. With most values equal the fences lie on the median.
 * @param values at least three finite numbers in any order
 * @param options factor: default 3
 * @throws Undetermined on fewer than three values; RangeError on a factor that is not above 0
 * Source: Davies and Gather, Journal of the American Statistical Association 88 (1993) 782.
 */
export function hampelKernel(values: readonly number[], options: { readonly factor?: number } = {}): Fences {
  checkOptions(options, ["factor"], "hampel");
  const factor = options.factor ?? 3;
  checkPositive(factor, "factor");
  checkValues(values, 3, "Hampel's identifier");
  const centre = medianOf(values);
  const reach = factor * madKernel(values);
  const [lower, upper] = [centre - reach, centre + reach];
  return {
    rule: `Hampel's identifier, ${factor} scaled median absolute deviations`,
    lower,
    upper,
    outside: outsideOf(values, lower, upper),
    n: values.length,
  };
}

/**
 * Tukey's fences: values more than `factor` interquartile ranges (type 7) below the first or above the third quartile are
 * outside. A fence marks, it does not test.
 * @param values at least three finite numbers in any order
 * @param options factor: default 1.5
 * @throws Undetermined on fewer than three values; RangeError on a factor that is not above 0
 * Source: Tukey, Exploratory Data Analysis (1977), 2D.
 */
export function tukeyFencesKernel(values: readonly number[], options: { readonly factor?: number } = {}): Fences {
  checkOptions(options, ["factor"], "tukeyFences");
  const factor = options.factor ?? 1.5;
  checkPositive(factor, "factor");
  checkValues(values, 3, "Tukey's fences");
  const sorted = ascending(values);
  const q1 = quantileOfSorted(sorted, 0.25, 7);
  const q3 = quantileOfSorted(sorted, 0.75, 7);
  const [lower, upper] = [q1 - factor * (q3 - q1), q3 + factor * (q3 - q1)];
  return {
    rule: `Tukey's fences, ${factor} interquartile ranges`,
    lower,
    upper,
    outside: outsideOf(values, lower, upper),
    n: values.length,
  };
}

const shape = { rule: "text", lower: "same", upper: "same", outside: ["position"], n: "count" } as const;

/** Hampel's identifier among measured values. */
export const hampel = lift(hampelKernel, shape, { name: "Hampel's identifier" });
/** Tukey's fences among measured values. */
export const tukeyFences = lift(tukeyFencesKernel, shape, { name: "Tukey's fences" });
