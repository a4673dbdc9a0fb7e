import { difference, expand } from "../metrology/index.js";
import type { Quantity } from "../metrology/index.js";
import { enScoreKernel } from "../statistics/agreement/scores.js";

export interface EnNumber {
  /** The difference over its expanded uncertainty; at most 1 in size where the two agree. */
  readonly value: number;
  readonly agrees: boolean;
  /** `independent`: over √(U1² + U2²); `shared`: over U of the difference, since the two have a source in common. */
  readonly rule: "independent" | "shared";
}

/**
 * E_n number of two results, second less first: d/√(U1² + U2²) where they have no source in common, otherwise d/U(d), in
 * which what they share has cancelled (measurement model, section 5).
 *
 * @throws RangeError where the symbols differ, and where neither result has an uncertainty
 * Source: ISO 13528:2015, 9.7; the second form is this project's ruling for shared sources.
 */
export function enNumber(first: Quantity, second: Quantity): EnNumber {
  const d = difference(second, first);
  const ids = new Set(first.components.map(({ source }) => source.id));
  if (!second.components.some(({ source }) => ids.has(source.id))) {
    const [U1, U2] = [expand(first).U, expand(second).U];
    const value = enScoreKernel(d.value, Math.max(U1, U2), Math.min(U1, U2));
    return { value, agrees: Math.abs(value) <= 1, rule: "independent" };
  }
  const { U } = expand(d);
  if (!(U > 0)) throw new RangeError("an E_n number needs a difference with an uncertainty");
  return { value: d.value / U, agrees: Math.abs(d.value) <= U, rule: "shared" };
}
