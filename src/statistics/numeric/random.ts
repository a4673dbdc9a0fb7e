import type { Random } from "../../metrology/random.js";

export type { Random as SeededRandom } from "../../metrology/random.js";
export { seededRandom } from "../../metrology/random.js";

/** n values drawn with replacement. */
export function resample(values: readonly number[], random: Random): readonly number[] {
  return values.map(() => values[random.below(values.length)]!);
}

/** The values in a random order (Fisher and Yates). */
export function shuffled(values: readonly number[], random: Random): readonly number[] {
  const out = [...values];
  for (let i = out.length - 1; i > 0; i--) {
    const j = random.below(i + 1);
    [out[i], out[j]] = [out[j]!, out[i]!];
  }
  return out;
}
