import { lift } from "../lift/lift.js";
import { Undetermined, checkOptions, checkPositive, checkValues } from "../numeric/guards.js";
import { normalCdf, normalDensity } from "../numeric/distributions.js";
import { minimumBetween } from "../numeric/search.js";
import { squaredDeviations } from "../numeric/sums.js";

export interface PollingMixture {
  /** Delay before the wait for the poll. */
  readonly start: number;
  readonly noiseSd: number;
  /** start + period/2. */
  readonly mean: number;
  /** Standard deviation that the model gives: √(period²/12 + noise²). */
  readonly modelSd: number;
  readonly logLikelihood: number;
  /** Log-likelihood of a normal distribution alone (mean and sd fitted), with as many parameters. */
  readonly normalLogLikelihood: number;
  readonly n: number;
}

/**
 * Latency as a fixed start, a wait for the next poll that is uniform over the stated period, and normal noise: density
 * [Φ((x - a)/σ) - Φ((x - a - T)/σ)]/T, fitted by maximum likelihood in a and σ; beside it the normal distribution's likelihood.
 * @param values at least 5 finite numbers in any order, in the unit of the period
 * @param options period: of the polling grid, above 0
 * @throws Undetermined on fewer than 5 values, and where all are equal
 * Source: Bhattacharjee, Pandit and Mohan, Technometrics 5 (1963) 404 (convolution of uniform and normal); maximum likelihood.
 */
export function pollingMixtureKernel(
  values: readonly number[],
  options: { readonly period: number } = { period: NaN },
): PollingMixture {
  checkOptions(options, ["period"], "pollingMixture");
  const { period } = options;
  checkPositive(period, "period");
  checkValues(values, 5, "a mixture of polling and noise");
  const n = values.length;
  const sd = Math.sqrt(squaredDeviations(values) / n);
  if (sd === 0) throw new Undetermined("a mixture of polling and noise needs values that differ");
  const low = Math.min(...values);
  const high = Math.max(...values);
  const bestStart = (noise: number): number =>
    minimumBetween((a) => -likelihood(values, a, noise, period), low - period - 4 * noise, high + 4 * noise, 1e-12);
  // On the scale of ln σ; below a thousandth of the scatter the density is uniform to the eye.
  const logNoise = minimumBetween(
    (s) => -likelihood(values, bestStart(Math.exp(s)), Math.exp(s), period),
    Math.log(sd * 1e-3),
    Math.log(sd * 3),
    1e-10,
  );
  const noiseSd = Math.exp(logNoise);
  const start = bestStart(noiseSd);
  return {
    start,
    noiseSd,
    mean: start + period / 2,
    modelSd: Math.sqrt((period * period) / 12 + noiseSd * noiseSd),
    logLikelihood: likelihood(values, start, noiseSd, period),
    normalLogLikelihood: -0.5 * n * (Math.log(2 * Math.PI * sd * sd) + 1),
    n,
  };
}

function likelihood(values: readonly number[], start: number, noise: number, period: number): number {
  let total = 0;
  for (const value of values) total += logDensity((value - start) / noise, period / noise) - Math.log(period);
  return total;
}

/** ln(Φ(z) - Φ(z - w)), from the nearer tail, and by the density at the edge where both vanish. */
function logDensity(z: number, w: number): number {
  const mirrored = z > w / 2 ? w - z : z;
  const inside = normalCdf(mirrored) - normalCdf(mirrored - w);
  if (inside > 1e-290) return Math.log(inside);
  return -0.5 * mirrored * mirrored + Math.log(normalDensity(0) / Math.max(1, -mirrored));
}

/** Mixture of a polling grid and noise fitted to measured values; the period is a plain number in their unit. */
export const pollingMixture = lift(
  pollingMixtureKernel,
  {
    start: "same",
    noiseSd: "same",
    mean: "same",
    modelSd: "same",
    logLikelihood: "statistic",
    normalLogLikelihood: "statistic",
    n: "count",
  },
  { name: "mixture of polling and noise" },
);
