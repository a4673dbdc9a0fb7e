import { liftPaired } from "../lift/lift-paired.js";
import { Undetermined, checkOptions, checkPairs, checkProbability } from "../numeric/guards.js";
import { normalQuantile } from "../numeric/distributions.js";
import { ascending, medianOf } from "../numeric/sums.js";

export interface PassingBablok {
  readonly slope: { readonly value: number; readonly lower: number; readonly upper: number };
  readonly intercept: { readonly value: number; readonly lower: number; readonly upper: number };
  readonly n: number;
}

/**
 * Passing-Bablok regression: slope = median of the slopes of all pairs of points, shifted by the number of slopes below -1
 * (pairs of equal points and slopes of -1 left out); intercept = median of y - bx; rank-based intervals.
 * @param xs first method, at least 5 finite numbers
 * @param ys second method, paired with them
 * @param options level: default 0.95
 * @throws Undetermined on fewer than 5 pairs, and where the slope or its interval has no finite value
 * Source: Passing and Bablok, Journal of Clinical Chemistry and Clinical Biochemistry 21 (1983) 709.
 */
export function passingBablokKernel(
  xs: readonly number[],
  ys: readonly number[],
  options: { readonly level?: number } = {},
): PassingBablok {
  checkOptions(options, ["level"], "passingBablok");
  const level = options.level ?? 0.95;
  checkProbability(level, "level");
  checkPairs(xs, ys, 5, "Passing-Bablok regression");
  const n = xs.length;
  const slopes: number[] = [];
  let below = 0;
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) {
      const dx = xs[j]! - xs[i]!;
      const dy = ys[j]! - ys[i]!;
      if (dx === 0 && dy === 0) continue;
      // Differences of decimal readings carry rounding, so -1 is recognised with a little room.
      if (Math.abs(dx + dy) <= 1e-12 * (Math.abs(dx) + Math.abs(dy))) continue;
      const slope = dx === 0 ? Math.sign(dy) * Infinity : dy / dx;
      if (slope < -1) below++;
      slopes.push(slope);
    }
  }
  const sorted = ascending(slopes);
  const total = sorted.length;
  if (total === 0) throw new Undetermined("Passing-Bablok regression needs points that differ");
  const at = (rank: number): number => sorted[rank - 1] ?? NaN;
  const value = total % 2 === 1 ? at((total + 1) / 2 + below) : (at(total / 2 + below) + at(total / 2 + 1 + below)) / 2;
  const reach = normalQuantile((1 + level) / 2) * Math.sqrt((n * (n - 1) * (2 * n + 5)) / 18);
  const first = Math.round((total - reach) / 2);
  const lower = at(first + below);
  const upper = at(total - first + 1 + below);
  if (![value, lower, upper].every(Number.isFinite)) {
    throw new Undetermined(`Passing-Bablok regression has no finite slope interval for these ${n} pairs`);
  }
  const intercept = (slope: number): number => medianOf(ys.map((y, i) => y - slope * xs[i]!));
  return {
    slope: { value, lower, upper },
    intercept: { value: intercept(value), lower: intercept(upper), upper: intercept(lower) },
    n,
  };
}

/** Passing-Bablok regression of two measured values of each item. */
export const passingBablok = liftPaired(
  passingBablokKernel,
  {
    slope: { value: "ratio", lower: "ratio", upper: "ratio" },
    intercept: { value: "same", lower: "same", upper: "same" },
    n: "count",
  },
  { name: "Passing-Bablok regression" },
);
