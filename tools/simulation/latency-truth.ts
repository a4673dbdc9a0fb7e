import binomialCdf from "@stdlib/stats-base-dists-binomial-cdf";
import { expectedSystemMs } from "./host-system.js";
import type { FilmSetup } from "./film.js";
import { drawPressMs } from "./film.js";
import { expectedChainMs } from "./keyboard-chain.js";
import type { Random } from "./random.js";

/** Truth of one connection: what the method's results would be without its own errors, over endless presses. */
export interface LatencyTruth {
  /** L: expected time from the contact to the host's port, over all phases. */
  readonly latencyMs: number;
  /** L_k: expectation of the mean of the k fastest of n presses. */
  readonly latencyKeptMs: number;
  /** Of one press, before frames round it. */
  readonly medianMs: number;
  readonly p90Ms: number;
  /** Standard deviation of one press as the method sees it: chain, system, travel, frames. */
  readonly sigmaMs: number;
  readonly presses: number;
  readonly kept: number;
}

/**
 * Expectation of the mean of the k smallest of n independent values, from a large sorted sample of their distribution:
 * each value weighs as often as it would be kept, by P(fewer than k of the other n - 1 are smaller).
 */
export function expectedKeptMean(sorted: Float64Array, k: number, n: number): number {
  if (!(k >= 1 && k <= n)) throw new RangeError(`${k} of ${n} values cannot be kept`);
  let weighted = 0;
  let weights = 0;
  for (let i = 0; i < sorted.length; i++) {
    const weight = n === k ? 1 : binomialCdf(k - 1, n - 1, (i + 0.5) / sorted.length);
    weighted += weight * sorted[i]!;
    weights += weight;
  }
  return weighted / weights;
}

/**
 * Truth by `draws` simulated presses with perfect rig and reader. A press scatters as it does on film: the wait for the
 * picture and both frames stay in it, since the method removes only their means.
 *
 * What the method cannot remove, and so belongs to L: nothing but the keyboard's own chain, since driver, application and
 * display lie in the subtracted parts.
 */
export function latencyTruth(setup: FilmSetup, kept: number, random: Random, draws = 100_000): LatencyTruth {
  const perfect: FilmSetup = {
    ...setup,
    errors: { ...setup.errors, acceleration: 0, detectorMs: 0, inputPathMs: 0, touchOffsetMm: 0, speedShare: 0 },
  };
  const frameMs = 1000 / setup.frameRateHz;
  const system = expectedSystemMs(setup.host);
  const removed = system.pcMs + system.displayMs + (setup.preTravelMm / setup.errors.plungerMmPerS) * 1000;
  const latencyMs = expectedChainMs(setup.chain);
  const times = Float64Array.from({ length: draws }, () => drawPressMs(perfect, random).responseMs);
  const seen = times
    .map((responseMs) => {
      const phase = random.uniform();
      return (Math.ceil(responseMs / frameMs + phase) - Math.ceil(phase)) * frameMs - removed;
    })
    .sort();
  times.sort();
  const mean = seen.reduce((a, b) => a + b, 0) / draws;
  const square = seen.reduce((a, b) => a + (b - mean) ** 2, 0) / (draws - 1);
  return {
    latencyMs,
    // The draws' own mean differs from the exact expectation by chance alone: taken out of the k-of-n mean too.
    latencyKeptMs: expectedKeptMean(seen, kept, setup.presses) - mean + latencyMs,
    medianMs: times[Math.floor(draws / 2)]! - removed,
    p90Ms: times[Math.floor(draws * 0.9)]! - removed,
    sigmaMs: Math.sqrt(square),
    presses: setup.presses,
    kept,
  };
}
