import { expand } from "./expanded.js";
import { jointDraws } from "./joint-draws.js";
import { placesFor } from "./print.js";
import { isQuantity } from "./quantity.js";
import type { Measured, Quantity } from "./quantity.js";
import { derive } from "./derive.js";
import type { Values } from "./derive.js";

export interface MonteCarloOptions {
  /** Whole number that fixes the draws; stated on the page beside the result. */
  readonly seed: number;
  /** Number of trials; 100,000 unless given, at least 1,000. */
  readonly trials?: number;
  /** Coverage probability, 0.95 unless given. */
  readonly level?: number;
}

/** The distribution of a result by propagation of distributions (JCGM 101:2008). */
export interface MonteCarlo {
  readonly estimate: number;
  readonly u: number;
  /** Probabilistically symmetric coverage interval (JCGM 101, 7.7). */
  readonly interval: readonly [number, number];
  /** Shortest coverage interval (JCGM 101, 5.3.4 and 7.7). */
  readonly shortest: readonly [number, number];
  readonly trials: number;
  readonly seed: number;
  readonly level: number;
}

/**
 * Propagates the distributions of all sources through a formula; a source shared by several inputs is drawn once a trial,
 * so correlations need no further statement.
 *
 * @param inputs quantities; their components define the joint distribution
 * @param formula numbers in the inputs' symbols to a number
 * @throws RangeError for fewer than 1,000 trials, a bad level, or a formula that gives no finite number
 */
export function monteCarlo<const Q extends readonly Quantity[]>(
  inputs: Q,
  formula: (values: Values<Q>) => number,
  options: MonteCarloOptions,
): MonteCarlo {
  const trials = options.trials ?? 100_000;
  const level = options.level ?? 0.95;
  if (!(trials >= 1000)) throw new RangeError(`${trials} trials are too few; use at least 1000`);
  if (!(level > 0 && level < 1))
    throw new RangeError(`the coverage probability is ${level}; it must be between 0 and 1`);
  const results = new Float64Array(trials);
  jointDraws(inputs, { seed: options.seed, draws: trials }, (values, trial) => {
    const result = formula([...values] as unknown as Values<Q>);
    if (!Number.isFinite(result)) throw new RangeError(`the formula gives ${result} in trial ${trial + 1}`);
    results[trial] = result;
  });
  return { ...summarise(results, level), trials, seed: options.seed, level };
}

/** Mean, sd and both 95 % intervals of the sorted trials (JCGM 101:2008, 7.6 and 7.7). */
function summarise(results: Float64Array, level: number): Pick<MonteCarlo, "estimate" | "u" | "interval" | "shortest"> {
  const n = results.length;
  const estimate = results.reduce((total, y) => total + y, 0) / n;
  const u = Math.sqrt(results.reduce((total, y) => total + (y - estimate) ** 2, 0) / (n - 1));
  results.sort();
  const inside = Math.round(level * n);
  const low = Math.round((n - inside) / 2);
  let best = 0;
  for (let r = 0; r + inside < n; r++) {
    if (results[r + inside]! - results[r]! < results[best + inside]! - results[best]!) best = r;
  }
  return {
    estimate,
    u,
    interval: [results[low]!, results[Math.min(n - 1, low + inside)]!],
    shortest: [results[best]!, results[Math.min(n - 1, best + inside)]!],
  };
}

/** Both evaluations of one result, and whether the law of propagation may be used (JCGM 101:2008, clause 8). */
export interface Comparison<S extends string> {
  readonly propagated: Measured<S>;
  readonly simulated: MonteCarlo | null;
  /** Empty where both interval ends agree within the tolerance of two significant digits of u; else what differs. */
  readonly warning: string;
}

/**
 * Evaluates a formula by the law of propagation and by Monte Carlo, side by side. They agree where both ends of the
 * intervals differ by at most delta, half a unit of the second significant digit of u (JCGM 101:2008, 7.9.2 and 8.1).
 */
export function compareWithMonteCarlo<const Q extends readonly Measured[], S extends string>(
  inputs: Q,
  formula: (values: Values<Q>) => number,
  symbol: S,
  options: MonteCarloOptions,
): Comparison<S> {
  const propagated = derive(inputs, formula, symbol);
  const present = inputs.filter(isQuantity);
  if (propagated.absent || present.length < inputs.length) return { propagated, simulated: null, warning: "" };
  const simulated = monteCarlo(present, formula as (values: readonly number[]) => number, options);
  if (!(propagated.u > 0)) return { propagated, simulated, warning: "" };
  const { U } = expand(propagated, simulated.level);
  const delta = 0.5 * 10 ** -placesFor(propagated.u, 2);
  const low = Math.abs(propagated.value - U - simulated.interval[0]);
  const high = Math.abs(propagated.value + U - simulated.interval[1]);
  const warning =
    Math.max(low, high) <= delta
      ? ""
      : `the law of propagation and Monte Carlo differ by ${low.toPrecision(2)} ${symbol} at the lower and ` +
        `${high.toPrecision(2)} ${symbol} at the upper end of the interval (tolerance ${delta.toPrecision(1)} ${symbol}); ` +
        "use the Monte Carlo interval";
  return { propagated, simulated, warning };
}
