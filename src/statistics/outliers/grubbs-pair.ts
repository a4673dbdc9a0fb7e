import { lift } from "../lift/lift.js";
import { checkChoice, checkOptions, checkProbability, checkValues, checkWhole } from "../numeric/guards.js";
import { quantileOfSorted } from "../describe/quantile.js";
import { seededRandom } from "../numeric/random.js";
import { ascending, meanOf, squaredDeviations } from "../numeric/sums.js";

export interface GrubbsPairOptions {
  /** Suspects: "largest" two, "smallest" two, or the "furthest" two from the mean (default). */
  readonly side?: "largest" | "smallest" | "furthest";
  /** Significance level; default 0.05. */
  readonly alpha?: number;
  /** Number of simulated samples behind the critical value, at least 1000; default 10000. */
  readonly draws?: number;
  /** Seed of the simulation; default 1. */
  readonly seed?: number;
}

export interface PairFinding {
  readonly rule: string;
  /** Sum of squares without the two suspects over that of all; small means outlying. */
  readonly statistic: number;
  readonly critical: number;
  readonly pValue: number;
  readonly suspects: readonly number[];
  readonly areOutliers: boolean;
  readonly n: number;
}

/**
 * Grubbs' test for two outliers in normal values: the sum of squares without the two suspects over that of all, with
 * critical value and p-value (1 + number as small)/(1 + draws) from seeded simulation. For the furthest two it is the test of
 * Tietjen and Moore. Where all values are equal the ratio is 1 and nothing is an outlier.
 * @param values at least four finite numbers in any order
 * @param options side: default "furthest"; alpha: default 0.05; draws: default 10000; seed: default 1
 * @throws Undetermined on fewer than four values; RangeError on options out of range
 * Source: ISO 5725-2:2019, 8.3.5; Tietjen and Moore, Technometrics 14 (1972) 583.
 */
export function grubbsPairKernel(values: readonly number[], options: GrubbsPairOptions = {}): PairFinding {
  checkOptions(options, ["side", "alpha", "draws", "seed"], "grubbsPair");
  const { side = "furthest", alpha = 0.05, draws = 10_000, seed = 1 } = options;
  checkChoice(side, ["largest", "smallest", "furthest"], "side");
  checkProbability(alpha, "alpha");
  checkWhole(draws, 1000, "draws");
  checkValues(values, 4, "Grubbs' test for two outliers");
  const n = values.length;
  const { statistic, suspects } = pairRatio(values, side);
  const random = seededRandom(seed);
  const simulated = ascending(
    Array.from({ length: draws }, () => fastRatio(Array.from({ length: n }, random.normal), side)),
  );
  const asSmall = simulated.filter((ratio) => ratio <= statistic).length;
  const critical = quantileOfSorted(simulated, alpha, 6);
  return {
    rule: `Grubbs' test for two outliers, ${side} two, level ${alpha}, ${draws} simulated samples`,
    statistic,
    critical,
    pValue: (1 + asSmall) / (1 + draws),
    suspects,
    areOutliers: statistic < critical,
    n,
  };
}

type PairSide = "largest" | "smallest" | "furthest";

function pairRatio(
  values: readonly number[],
  side: PairSide,
): { readonly statistic: number; readonly suspects: number[] } {
  const centre = meanOf(values);
  const key = (value: number): number =>
    side === "furthest" ? Math.abs(value - centre) : side === "largest" ? value : -value;
  const order = values.map((_, i) => i).sort((a, b) => key(values[b]!) - key(values[a]!) || a - b);
  const suspects = order.slice(0, 2).sort((a, b) => a - b);
  const total = squaredDeviations(values);
  const rest = squaredDeviations(values.filter((_, i) => !suspects.includes(i)));
  return { statistic: total === 0 ? 1 : rest / total, suspects };
}

/** The same ratio in one pass over standard normal values, for which plain sums are exact enough. */
function fastRatio(values: readonly number[], side: PairSide): number {
  const n = values.length;
  let sum = 0;
  let squares = 0;
  for (const v of values) {
    sum += v;
    squares += v * v;
  }
  const centre = sum / n;
  let first = -Infinity;
  let second = -Infinity;
  let a = 0;
  let b = 0;
  for (const v of values) {
    const key = side === "furthest" ? Math.abs(v - centre) : side === "largest" ? v : -v;
    if (key > first) {
      second = first;
      b = a;
      first = key;
      a = v;
    } else if (key > second) {
      second = key;
      b = v;
    }
  }
  const left = sum - a - b;
  return (squares - a * a - b * b - (left * left) / (n - 2)) / (squares - (sum * sum) / n);
}

/** Grubbs' test for two outliers among measured values. */
export const grubbsPair = lift(
  grubbsPairKernel,
  {
    rule: "text",
    statistic: "statistic",
    critical: "statistic",
    pValue: "statistic",
    suspects: ["position"],
    areOutliers: "flag",
    n: "count",
  },
  { name: "Grubbs' test for two outliers" },
);
