import { kernelDensityEstimation } from "simple-statistics";
import { Undetermined, checkOptions, checkPositive, checkValues, checkWhole } from "../numeric/guards.js";
import { quantileOfSorted } from "../describe/quantile.js";
import { ascending, varianceOf } from "../numeric/sums.js";

export interface DensityOptions {
  /** Sd of the normal kernel, in the unit of the values; default Silverman's 0.9 min(s, IQR/1.34) n^(-1/5). */
  readonly bandwidth?: number;
  /** Number of points, at least 2; default 101. */
  readonly points?: number;
}

export interface Density {
  readonly bandwidth: number;
  /** Evenly spaced from 3 bandwidths below the least to 3 above the largest value; densities per unit of the values. */
  readonly points: readonly { readonly value: number; readonly density: number }[];
  readonly n: number;
}

/**
 * Kernel density with a normal kernel: Σ φ((x - x_i)/h)/(nh), bandwidth by Silverman's rule of thumb unless given.
 * @param values at least two finite numbers in any order
 * @param options bandwidth; points: default 101
 * @throws Undetermined on fewer than two values, and where all are equal and no bandwidth is given
 * Source: Silverman, Density Estimation (1986), 2.4 and equation 3.31.
 */
export function kernelDensityKernel(values: readonly number[], options: DensityOptions = {}): Density {
  checkOptions(options, ["bandwidth", "points"], "kernelDensity");
  const size = options.points ?? 101;
  checkWhole(size, 2, "points");
  checkValues(values, 2, "a kernel density");
  const sorted = ascending(values);
  const bandwidth = options.bandwidth ?? silverman(sorted);
  checkPositive(bandwidth, "bandwidth");
  const low = sorted[0]! - 3 * bandwidth;
  const high = sorted[sorted.length - 1]! + 3 * bandwidth;
  const estimate = kernelDensityEstimation([...sorted], "gaussian", bandwidth);
  return {
    bandwidth,
    points: Array.from({ length: size }, (_, i) => {
      const value = low + ((high - low) * i) / (size - 1);
      return { value, density: estimate(value) };
    }),
    n: values.length,
  };
}

function silverman(sorted: readonly number[]): number {
  const sd = Math.sqrt(varianceOf(sorted));
  if (sd === 0) throw new Undetermined("a kernel density needs values that differ, or a bandwidth");
  const spread = (quantileOfSorted(sorted, 0.75, 7) - quantileOfSorted(sorted, 0.25, 7)) / 1.34;
  return 0.9 * (spread > 0 ? Math.min(sd, spread) : sd) * sorted.length ** -0.2;
}
