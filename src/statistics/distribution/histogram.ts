import { bin } from "d3-array";
import { Undetermined, checkChoice, checkOptions, checkPositive, checkValues } from "../numeric/guards.js";
import { quantileOfSorted } from "../describe/quantile.js";
import { ascending, varianceOf } from "../numeric/sums.js";

export type BinRule = "freedman-diaconis" | "scott" | "sturges";

export interface HistogramOptions {
  /** Default "freedman-diaconis"; where the interquartile range is 0 the rule of Sturges is taken, and said. */
  readonly rule?: BinRule;
  /** Width of every bin instead of a rule, above 0, such as the frame's duration or the resolution. */
  readonly width?: number;
}

export interface Histogram {
  /** The rule used, in words. */
  readonly rule: string;
  readonly width: number;
  /** From `from` (included) to `to` (excluded but for the last). */
  readonly bins: readonly { readonly from: number; readonly to: number; readonly count: number }[];
  readonly n: number;
}

/**
 * Histogram with equal bins of a stated rule: Freedman-Diaconis 2 IQR n^(-1/3) (default), Scott 3.49 s n^(-1/3), Sturges
 * range/(log2 n + 1), or a given width; bins start at a whole multiple of the width.
 * @param values at least two finite numbers in any order
 * @param options rule, or width in the unit of the values
 * @throws Undetermined on fewer than two values, and where all are equal and no width is given
 * Source: Freedman and Diaconis 1981; Scott, Biometrika 66 (1979) 605; Sturges 1926.
 */
export function histogramKernel(values: readonly number[], options: HistogramOptions = {}): Histogram {
  checkOptions(options, ["rule", "width"], "histogram");
  const { rule: wish = "freedman-diaconis" } = options;
  checkChoice(wish, ["freedman-diaconis", "scott", "sturges"], "rule");
  checkValues(values, 2, "a histogram");
  const sorted = ascending(values);
  const { rule, width } = widthOf(sorted, wish, options.width);
  const first = Math.floor(sorted[0]! / width + 1e-9);
  const last = sorted[sorted.length - 1]!;
  const size = Math.max(1, Math.floor(last / width - first + 1e-9) + 1);
  if (size > 10_000) throw new RangeError(`a width of ${width} gives ${size} bins; choose a wider one`);
  const edges = Array.from({ length: size + 1 }, (_, i) => (first + i) * width);
  const place = bin<number, number>().domain([edges[0]!, edges[size]!]).thresholds(edges.slice(1, -1));
  return {
    rule,
    width,
    bins: place([...sorted]).map((members) => ({ from: members.x0!, to: members.x1!, count: members.length })),
    n: values.length,
  };
}

function widthOf(
  sorted: readonly number[],
  rule: BinRule,
  given: number | undefined,
): { readonly rule: string; readonly width: number } {
  if (given !== undefined) {
    checkPositive(given, "width");
    return { rule: "given width", width: given };
  }
  const n = sorted.length;
  const range = sorted[n - 1]! - sorted[0]!;
  if (range === 0) throw new Undetermined("a histogram needs values that differ, or a width");
  const sturges = range / Math.ceil(Math.log2(n) + 1);
  if (rule === "scott") return { rule: "Scott", width: (3.49 * Math.sqrt(varianceOf(sorted))) / Math.cbrt(n) };
  if (rule === "sturges") return { rule: "Sturges", width: sturges };
  const spread = quantileOfSorted(sorted, 0.75, 7) - quantileOfSorted(sorted, 0.25, 7);
  return spread > 0
    ? { rule: "Freedman-Diaconis", width: (2 * spread) / Math.cbrt(n) }
    : { rule: "Sturges, since the interquartile range is 0", width: sturges };
}
