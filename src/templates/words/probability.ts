import type { Measured } from "../../metrology/quantity.js";

/**
 * A probability as a page prints it: two significant digits, "< 0.001" below that, "> 0.999" above, "not available" where it
 * is absent. The only number that needs neither unit nor uncertainty.
 * @param p a number or a ratio from 0 to 1
 * @throws RangeError for anything else
 */
export function probability(p: number | Measured): string {
  if (typeof p !== "number") return p.absent ? "not available" : probability(p.value);
  if (!(p >= 0 && p <= 1)) throw new RangeError(`${p} is no probability; it must be from 0 to 1`);
  if (p < 0.001) return "< 0.001";
  if (p > 0.999) return "> 0.999";
  return p < 0.1 ? String(Number(p.toPrecision(2))) : p.toFixed(2);
}
