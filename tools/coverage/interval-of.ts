import type { Measured } from "../../src/metrology/index.js";
import { expand, isQuantity } from "../../src/metrology/index.js";
import { monteCarlo } from "../../src/metrology/monte-carlo.js";
import type { Source } from "../../src/metrology/source.js";
import type { Interval } from "./tally.js";

const isBounded = ({ type, distribution }: Source): boolean =>
  type === "B" && distribution !== "normal" && distribution !== "t";

/**
 * The 95 % interval that a quantity states; null where it is absent.
 * @param seed draws its components too, 1,000 times; null: not
 */
export function intervalOf(measured: Measured, seed: number | null): Interval | null {
  if (!isQuantity(measured)) return null;
  const { value, u, components } = measured;
  const { U } = expand(measured);
  const bounded = components
    .filter(({ source }) => isBounded(source))
    .reduce((total, { contribution }) => total + contribution ** 2, 0);
  const drawn = seed === null ? null : monteCarlo([measured], ([x]) => x, { seed, trials: 1000 }).interval;
  return {
    value,
    low: value - U,
    high: value + U,
    boundedShare: u > 0 ? bounded / u ** 2 : 0,
    monteCarloHalfWidth: drawn === null ? null : (drawn[1] - drawn[0]) / 2,
  };
}
