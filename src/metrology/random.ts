import { randomNormal } from "d3-random";
import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";

/** A seeded stream of random numbers; the only source of chance in the project. */
export interface Random {
  /** Uniform from 0 (included) to 1, with 53 bits. */
  uniform(): number;
  /** Standard normal, by the polar method. */
  normal(): number;
  /** Whole number from 0 to n - 1. */
  below(n: number): number;
}

/** Draws thrown away, so that the generator has left the neighbourhood of its seed. */
const warmUp = 16;

/**
 * Opens the stream of a seed (xoroshiro128+). The same seed gives the same numbers on every machine, and neighbouring seeds
 * give unrelated streams: the seed is scrambled (the finaliser of MurmurHash3) and the first draws are thrown away.
 * @throws RangeError where the seed is no whole number
 */
export function seededRandom(seed: number): Random {
  if (!Number.isSafeInteger(seed)) throw new RangeError(`a seed must be a whole number, got ${seed}`);
  const generator = xoroshiro128plus(scramble(seed));
  for (let i = 0; i < warmUp; i++) generator.next();
  const uniform = (): number => uniformFloat64(generator);
  return { uniform, normal: randomNormal.source(uniform)(0, 1), below: (n) => Math.floor(uniform() * n) };
}

function scramble(seed: number): number {
  let bits = (seed % 2 ** 32) ^ Math.floor(seed / 2 ** 32);
  bits = Math.imul(bits ^ (bits >>> 16), 0x85ebca6b);
  bits = Math.imul(bits ^ (bits >>> 13), 0xc2b2ae35);
  return bits ^ (bits >>> 16);
}
