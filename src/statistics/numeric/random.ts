import { randomNormal } from "d3-random";
import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { checkWhole } from "./guards.js";

/** Seeded random numbers: the same seed gives the same numbers on every machine. */
export interface SeededRandom {
  /** Uniform from 0 (included) to 1. */
  readonly uniform: () => number;
  /** Standard normal. */
  readonly normal: () => number;
  /** A whole number from 0 to n - 1. */
  readonly below: (n: number) => number;
}

/** @throws RangeError where the seed is not a whole number of at least 0 */
export function seededRandom(seed: number): SeededRandom {
  checkWhole(seed, 0, "seed");
  const generator = xoroshiro128plus(seed);
  const uniform = (): number => uniformFloat64(generator);
  return {
    uniform,
    normal: randomNormal.source(uniform)(0, 1),
    below: (n) => Math.floor(uniform() * n),
  };
}

/** n values drawn with replacement. */
export function resample(values: readonly number[], random: SeededRandom): readonly number[] {
  return values.map(() => values[random.below(values.length)]!);
}

/** The values in a random order (Fisher and Yates). */
export function shuffled(values: readonly number[], random: SeededRandom): readonly number[] {
  const out = [...values];
  for (let i = out.length - 1; i > 0; i--) {
    const j = random.below(i + 1);
    [out[i], out[j]] = [out[j]!, out[i]!];
  }
  return out;
}
