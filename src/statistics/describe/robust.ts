import { lift } from "../lift/lift.js";
import { checkOptions, checkValues } from "../numeric/guards.js";
import { ascending, meanOf, medianOf, medianOfSorted } from "../numeric/sums.js";

/** 1/Φ⁻¹(3/4): makes a median absolute deviation estimate a normal standard deviation. */
export const madFactor = 1.482602218505602;

/**
 * Median absolute deviation from the median, times 1.4826 so that it estimates the sd of a normal distribution.
 * @param values at least two finite numbers in any order; 0 where more than half are equal
 * @param options scale: the factor, default 1.4826...; 1 for the raw deviation
 * @throws Undetermined on fewer than two values
 * Source: Hampel, Journal of the American Statistical Association 69 (1974) 383.
 */
export function madKernel(values: readonly number[], options: { readonly scale?: number } = {}): number {
  checkOptions(options, ["scale"], "mad");
  checkValues(values, 2, "mad");
  const centre = medianOf(values);
  return (options.scale ?? madFactor) * medianOf(values.map((value) => Math.abs(value - centre)));
}

/** Median absolute deviation of measured values, as an estimate of their sd. */
export const mad = lift(madKernel, "same", { name: "median absolute deviation" });

/**
 * Hodges-Lehmann estimate of location: the median of the means of all pairs, each value paired with itself too.
 * @param values 1 to 5000 finite numbers in any order
 * @throws Undetermined on no values; RangeError above 5000 (the pairs are formed)
 * Source: Hodges and Lehmann, Annals of Mathematical Statistics 34 (1963) 598.
 */
export function hodgesLehmannKernel(values: readonly number[], options: object = {}): number {
  checkOptions(options, [], "hodgesLehmann");
  checkValues(values, 1, "Hodges-Lehmann");
  return medianOfSorted(walshAverages(values));
}

/** Means of all pairs of values (each with itself too), ascending. */
export function walshAverages(values: readonly number[]): readonly number[] {
  if (values.length > 5000)
    throw new RangeError(`the pairs of ${values.length} values are too many; at most 5000 values`);
  const means: number[] = [];
  for (let i = 0; i < values.length; i++) {
    for (let j = i; j < values.length; j++) means.push((values[i]! + values[j]!) / 2);
  }
  return ascending(means);
}

/** Hodges-Lehmann location of measured values. */
export const hodgesLehmann = lift(hodgesLehmannKernel, "same", { name: "Hodges-Lehmann location" });

export interface RobustLocation {
  readonly location: number;
  readonly scale: number;
}

/**
 * Robust mean and standard deviation by Algorithm A: values further than 1.5 s* from x* are pulled in to that distance, and
 * x* (mean) and s* (1.134 times the sd) are recomputed until neither changes.
 * @param values at least three finite numbers in any order; s* is 0 where more than half are equal
 * @throws Undetermined on fewer than three values
 * Source: ISO 5725-5:1998, 6.2; ISO 13528:2015, C.3.1.
 */
export function algorithmAKernel(values: readonly number[], options: object = {}): RobustLocation {
  checkOptions(options, [], "algorithmA");
  checkValues(values, 3, "Algorithm A");
  let location = medianOf(values);
  let scale = 1.483 * medianOf(values.map((value) => Math.abs(value - location)));
  for (let step = 0; step < 2000; step++) {
    const low = location - 1.5 * scale;
    const high = location + 1.5 * scale;
    const pulled = values.map((value) => Math.min(high, Math.max(low, value)));
    const next = meanOf(pulled);
    const nextScale = 1.134 * Math.sqrt(pulled.reduce((t, v) => t + (v - next) ** 2, 0) / (values.length - 1));
    const still =
      Math.abs(next - location) <= 1e-13 * Math.abs(next) && Math.abs(nextScale - scale) <= 1e-13 * nextScale;
    location = next;
    scale = nextScale;
    if (still || scale === 0) break;
  }
  return { location, scale };
}

/** Robust mean and standard deviation of measured values by Algorithm A. */
export const algorithmA = lift(algorithmAKernel, { location: "same", scale: "same" }, { name: "Algorithm A" });
