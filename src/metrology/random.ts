import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";

/** A seeded stream of random numbers; the only source of chance in the project. */
export interface Random {
  /** Uniform on the open interval (0, 1), with 53 bits. */
  uniform(): number;
  /** Standard normal, by the polar method of Marsaglia and Bray (1964). */
  normal(): number;
  /** Whole number from 0 to n - 1. */
  below(n: number): number;
}

/**
 * Opens the stream of a seed (xoroshiro128+ of pure-rand). The same seed gives the same numbers on every machine.
 * @throws RangeError where the seed is no whole number
 */
export function seededRandom(seed: number): Random {
  if (!Number.isSafeInteger(seed)) throw new RangeError(`a seed must be a whole number, got ${seed}`);
  const generator = xoroshiro128plus(seed | 0);
  let spare: number | null = null;
  const uniform = (): number => {
    for (;;) {
      const high = generator.next() >>> 5;
      const low = generator.next() >>> 6;
      const value = (high * 67108864 + low) / 9007199254740992;
      if (value > 0) return value;
    }
  };
  const normal = (): number => {
    if (spare !== null) {
      const value = spare;
      spare = null;
      return value;
    }
    for (;;) {
      const x = 2 * uniform() - 1;
      const y = 2 * uniform() - 1;
      const square = x * x + y * y;
      if (square > 0 && square < 1) {
        const scale = Math.sqrt((-2 * Math.log(square)) / square);
        spare = y * scale;
        return x * scale;
      }
    }
  };
  return { uniform, normal, below: (n) => Math.floor(uniform() * n) };
}
