import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";

interface Stream {
  uniform(): number;
  normal(): number;
}

/**
 * The simulator's own generator: independent of the one that the tool draws from, so that a change there cannot change the
 * shipped archive. Uniform on (0, 1) with 53 bits; normal by the polar method of Marsaglia and Bray (1964).
 */
function openStream(seed: number): Stream {
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
  return { uniform, normal };
}

/** A seeded stream of random numbers with the few distributions that the simulator draws from; each draw advances it. */
export class Random {
  readonly #stream: Stream;

  /** @param seed any whole number; its lower 32 bits count. Throws a RangeError for another number. */
  constructor(seed: number) {
    if (!Number.isInteger(seed)) throw new RangeError(`a seed is a whole number, not ${seed}`);
    this.#stream = openStream(seed);
    // The generator's first numbers still show the seed.
    for (let i = 0; i < 8; i++) this.#stream.uniform();
  }

  /** Uniform on (0, 1). */
  uniform(): number {
    return this.#stream.uniform();
  }

  /** Uniform on [low, high). */
  between(low: number, high: number): number {
    return low + (high - low) * this.uniform();
  }

  /** A whole number from `low` to `high`, both included. */
  integer(low: number, high: number): number {
    return low + Math.floor((high - low + 1) * this.uniform());
  }

  /** Normal. */
  normal(mean = 0, sd = 1): number {
    return mean + sd * this.#stream.normal();
  }

  /** Rectangular about 0 with *standard deviation* `u`: uniform on ± u √3. */
  rectangular(u: number): number {
    return u * Math.sqrt(3) * (2 * this.uniform() - 1);
  }

  /** Exponential with this mean. */
  exponential(mean: number): number {
    return -mean * Math.log(this.uniform());
  }

  /** True with this probability. */
  chance(probability: number): boolean {
    return this.uniform() < probability;
  }
}

/**
 * A stream of its own for one thing of a run, named by a path such as `("unit", "u07", "KeyF")`: what is drawn for one
 * thing does not depend on which others exist, nor on the order in which they are made.
 */
export function randomFor(seed: number, ...path: readonly (string | number)[]): Random {
  let hash = 0x811c9dc5 ^ Math.imul(seed | 0, 0x9e3779b1);
  for (const char of path.join("\u001f")) hash = Math.imul(hash ^ char.codePointAt(0)!, 0x01000193);
  hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
  hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35);
  return new Random(hash ^ (hash >>> 16));
}
