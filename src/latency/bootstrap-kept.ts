import { quantileSorted } from "d3-array";
import { seededRandom } from "../metrology/random.js";
import { standardDeviation } from "./kept-mean.js";
import type { KeptBootstrap } from "./model.js";

/**
 * Percentile bootstrap of the mean of the k smallest of n: resamples n values with replacement and keeps k each time.
 * The values are sorted first, so the result depends on the set of values and the seed alone.
 *
 * @param values in ms, two or more
 * @param options.kept k, 1 to n; `seed` whole number; `draws` default 2000; `level` default 0.95
 * @throws RangeError where k, draws or level make no sense
 * @source B. Efron and R. J. Tibshirani, An Introduction to the Bootstrap, 1993, chapter 13
 */
export function bootstrapKept(
  values: readonly number[],
  options: { readonly kept: number; readonly seed: number; readonly draws?: number; readonly level?: number },
): KeptBootstrap {
  const { kept, seed, draws = 2000, level = 0.95 } = options;
  const n = values.length;
  if (!(n >= 2)) throw new RangeError(`a bootstrap needs at least 2 values, got ${n}`);
  if (!(Number.isInteger(kept) && kept >= 1 && kept <= n)) throw new RangeError(`cannot keep ${kept} of ${n} values`);
  if (!(Number.isInteger(draws) && draws >= 100)) throw new RangeError(`${draws} draws; at least 100 are needed`);
  if (!(level > 0 && level < 1)) throw new RangeError(`the level is ${level}; it must be between 0 and 1`);
  const sorted = [...values].sort((a, b) => a - b);
  const random = seededRandom(seed);
  const counts = new Uint32Array(n);
  const means = Array.from({ length: draws }, () => {
    counts.fill(0);
    for (let i = 0; i < n; i++) counts[random.below(n)]!++;
    let left = kept;
    let total = 0;
    for (let i = 0; left > 0; i++) {
      const taken = Math.min(left, counts[i]!);
      total += taken * (sorted[i]! - sorted[0]!);
      left -= taken;
    }
    return sorted[0]! + total / kept;
  }).sort((a, b) => a - b);
  return {
    lowMs: quantileSorted(means, (1 - level) / 2)!,
    highMs: quantileSorted(means, (1 + level) / 2)!,
    standardErrorMs: standardDeviation(means),
    level,
    draws,
  };
}

/** A seed from a text, such as a session's path (FNV-1a, 32 bits), so that a result does not hang on the order of runs. */
export function seedOf(text: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return hash | 0;
}
